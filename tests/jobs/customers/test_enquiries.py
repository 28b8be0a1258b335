from __future__ import annotations

from datetime import UTC, datetime

import pytest
from django.test import Client
from django.urls import reverse

from jobs.customers.models import Customer, Enquiry, Property
from jobs.customers.services import EnquiryClosed, book_visit, close_enquiry, reopen_enquiry

pytestmark = pytest.mark.django_db

NEW = "/enquiries/new/"
TYPED = {
    "customer-name": "Wilf Tarrant", "customer-kind": "household", "customer-phone": "020 7946 0418",
    "customer-email": "wilf@example.com", "customer-note": "",
    "property-address": "27 Harbour Lane", "property-town": "Wexcombe", "property-postcode": "m601nw",
    "property-nation": "England",
    "wish-wants": "Somewhere for the tent", "wish-to_store": "A tent", "wish-when_wanted": "by spring",
}  # fmt: skip


@pytest.fixture
def desk(office, logged_in) -> Client:
    return logged_in(office)


@pytest.fixture
def enquiry(building, office) -> Enquiry:
    return Enquiry.objects.create(property=building, taken_by=office, wants="A deck")


def test_one_form_makes_customer_property_and_enquiry(desk, office):
    answer = desk.post(NEW, TYPED)
    enquiry = Enquiry.objects.get()
    assert answer.url == reverse("enquiry", args=[enquiry.pk])
    assert (enquiry.taken_by, enquiry.state, enquiry.wants) == (office, "new", "Somewhere for the tent")
    assert enquiry.property.postcode == "M60 1NW"
    assert enquiry.property.customer.phone == "+442079460418"


def test_a_form_with_a_fault_keeps_everything_typed_and_makes_nothing(desk):
    answer = desk.post(NEW, {**TYPED, "property-town": ""})
    page = answer.content.decode()
    assert answer.status_code == 422
    assert "Post town is missing." in page
    for typed in ("Wilf Tarrant", "020 7946 0418", "27 Harbour Lane", "Somewhere for the tent", "by spring"):
        assert typed in page
    assert not Customer.objects.exists()


@pytest.mark.parametrize(
    ("doubtful", "tick", "words"),
    [
        ({"customer-phone": "01632 960123"}, "customer-keep_doubtful", "is not a number that can be rung"),
        ({"property-postcode": "QQ1 1AA"}, "property-keep_doubtful", "is no usual postcode"),
    ],
)
def test_a_doubt_is_asked_about_once_and_then_kept(desk, doubtful, tick, words):
    page = desk.post(NEW, {**TYPED, **doubtful})
    assert page.status_code == 422
    assert words in page.content.decode()
    assert f'name="{tick}"' in page.content.decode()
    assert desk.post(NEW, {**TYPED, **doubtful, tick: "on"}).status_code == 302


def test_no_tick_is_shown_where_there_is_no_doubt(desk):
    assert "keep_doubtful" not in desk.get(NEW).content.decode()
    assert "keep_doubtful" not in desk.post(NEW, {**TYPED, "property-town": ""}).content.decode()


def test_a_known_property_asks_only_what_is_wanted(desk, building):
    address = f"{NEW}?property={building.pk}"
    assert "customer-name" not in desk.get(address).content.decode()
    desk.post(address, {"wish-wants": "More boards"})
    assert Enquiry.objects.get().property == building
    assert (Customer.objects.count(), Property.objects.count()) == (1, 1)


def test_a_known_customer_may_have_another_house(desk, building):
    where = {name: answer for name, answer in TYPED.items() if not name.startswith("customer")}
    desk.post(f"{NEW}?customer={building.customer.pk}", where)
    assert Enquiry.objects.get().property.customer == building.customer
    assert building.customer.properties.count() == 2


@pytest.mark.parametrize(
    "words", ["odile", "pemberwick larkfield", "wx47lr", "Larkfield", "0161 496 0137", "4960137"]
)
def test_a_known_customer_is_found_by_what_is_said_on_the_telephone(desk, building, words):
    assert f"?property={building.pk}" in desk.get(NEW, {"q": words}).content.decode()


@pytest.mark.parametrize("words", ["odile harbour", "99", "wx9", "%"])
def test_nobody_else_is_found(desk, building, words):
    assert f"?property={building.pk}" not in desk.get(NEW, {"q": words}).content.decode()


def test_the_search_answers_htmx_with_its_matches_alone(desk, building):
    page = desk.get(NEW, {"q": "odile"}, headers={"HX-Request": "true"}).content.decode()
    assert page.lstrip().startswith('<div id="matches"')


def test_a_visit_is_booked_with_day_time_and_surveyor_and_can_be_moved(desk, enquiry, surveyor):
    address = reverse("enquiry_visit", args=[enquiry.pk])
    typed = {"visit-day": "2026-12-03", "visit-time": "09:30", "visit-surveyor": surveyor.pk}
    assert desk.post(address, typed).status_code == 302
    enquiry.refresh_from_db()
    assert (enquiry.state, enquiry.surveyor) == ("visit booked", surveyor)
    assert enquiry.visit_at == datetime(2026, 12, 3, 9, 30, tzinfo=UTC)
    desk.post(address, {**typed, "visit-day": "04/12/2026"})
    enquiry.refresh_from_db()
    assert enquiry.visit_at.day == 4


def test_a_visit_without_a_surveyor_comes_back_with_what_was_typed(desk, enquiry, crew):
    address = reverse("enquiry_visit", args=[enquiry.pk])
    answer = desk.post(address, {"visit-day": "2026-12-03", "visit-time": "nine", "visit-surveyor": crew.pk})
    page = answer.content.decode()
    assert answer.status_code == 422
    assert "Time must be like 09:30." in page
    assert 'value="2026-12-03"' in page


def test_a_survey_starts_from_its_enquiry(enquiry, surveyor, logged_in):
    logged_in(surveyor).post(f"{reverse('survey_new')}?enquiry={enquiry.pk}")
    survey = enquiry.surveys.get()
    assert (survey.property, survey.surveyor) == (enquiry.property, surveyor)


def test_an_enquiry_is_closed_with_a_reason_and_not_gone_on_with(desk, enquiry, surveyor):
    address = reverse("enquiry_close", args=[enquiry.pk])
    assert desk.post(address, {"close-because": ""}).status_code == 422
    desk.post(address, {"close-because": "Too dear for them"})
    enquiry.refresh_from_db()
    assert (enquiry.state, enquiry.closed_because) == ("closed", "Too dear for them")
    with pytest.raises(EnquiryClosed):
        book_visit(enquiry, at=datetime(2026, 12, 3, 9, tzinfo=UTC), surveyor=surveyor)
    with pytest.raises(EnquiryClosed):
        close_enquiry(enquiry, because="again")


def test_an_enquiry_opened_again_stands_where_it_stood(enquiry, surveyor):
    book_visit(enquiry, at=datetime(2026, 12, 3, 9, tzinfo=UTC), surveyor=surveyor)
    close_enquiry(enquiry, because="No answer")
    reopen_enquiry(enquiry)
    enquiry.refresh_from_db()
    assert (enquiry.state, enquiry.closed_because) == ("visit booked", "")


def test_the_list_shows_open_enquiries_and_each_state_by_itself(desk, enquiry):
    assert "Odile Pemberwick" in desk.get(reverse("enquiries")).content.decode()
    close_enquiry(enquiry, because="No answer")
    assert "Odile Pemberwick" not in desk.get(reverse("enquiries")).content.decode()
    assert "Odile Pemberwick" in desk.get(reverse("enquiries"), {"state": "closed"}).content.decode()


def test_the_customers_page_gathers_houses_enquiries_and_surveys(desk, enquiry, survey):
    page = desk.get(reverse("customer", args=[enquiry.property.customer_id])).content.decode()
    assert "0161 496 0137" in page
    assert "14 Larkfield Rise" in page
    assert survey.number in page
    assert reverse("enquiry", args=[enquiry.pk]) in page


def test_a_changed_customer_keeps_the_number_in_its_kept_form(desk, building):
    address = reverse("customer_change", args=[building.customer_id])
    assert 'value="0161 496 0137"' in desk.get(address).content.decode()
    desk.post(address, {"name": "Odile P.", "kind": "household", "phone": "0161 496 0555"})
    assert Customer.objects.get().phone == "+441614960555"


def test_markup_in_a_name_is_shown_and_never_run(desk):
    desk.post(NEW, {**TYPED, "customer-name": "<script>alert(1)</script>"})
    page = desk.get(reverse("enquiries")).content.decode()
    assert "<script>alert" not in page
    assert "&lt;script&gt;alert" in page
