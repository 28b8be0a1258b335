from __future__ import annotations

import pytest
from django.urls import reverse

from jobs.customers.models import Enquiry

pytestmark = pytest.mark.django_db


@pytest.fixture
def pages(building, office) -> dict[str, str]:
    enquiry = Enquiry.objects.create(property=building, taken_by=office)
    return {
        "enquiries": reverse("enquiries"),
        "enquiry": reverse("enquiry", args=[enquiry.pk]),
        "customers": reverse("customers"),
        "customer": reverse("customer", args=[building.customer_id]),
        "new": reverse("enquiry_new"),
        "change": reverse("customer_change", args=[building.customer_id]),
        "property": reverse("property_change", args=[building.pk]),
        "another": reverse("property_new", args=[building.customer_id]),
    }


READ = {"enquiries", "enquiry", "customers", "customer"}
ALL = READ | {"new", "change", "property", "another"}
ALLOWED = {"crew": set(), "surveyor": READ, "office": ALL, "owner": ALL}


def test_nobody_reads_of_customers_without_logging_in(pages, client):
    for page in pages.values():
        assert client.get(page).url.startswith("/log-in/")


@pytest.mark.parametrize("role", ALLOWED)
def test_each_role_reaches_its_own_pages_only(pages, role, request, logged_in):
    client = logged_in(request.getfixturevalue(role))
    for name, page in pages.items():
        assert client.get(page).status_code == (200 if name in ALLOWED[role] else 403), (role, name)


@pytest.mark.parametrize("act", ["enquiry_visit", "enquiry_close", "enquiry_reopen"])
def test_an_enquiry_is_moved_on_by_the_office_by_post_alone(pages, surveyor, office, logged_in, act):
    address = reverse(act, args=[Enquiry.objects.get().pk])
    assert logged_in(surveyor).post(address).status_code == 403
    assert logged_in(office).get(address).status_code == 405
