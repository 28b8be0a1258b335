from __future__ import annotations

import re
from datetime import date

import pytest
from django.urls import reverse

from jobs.orders.models import MaterialsOrder
from jobs.orders.services import make_orders

pytestmark = pytest.mark.django_db
READ = ("order", "order_csv", "order_paper")
ACT = ("order_send", "order_receive")


@pytest.fixture(autouse=True)
def quick_papers(monkeypatch) -> None:
    monkeypatch.setattr("jobs.orders.services.materials_order_pdf", lambda order: b"paper")
    monkeypatch.setattr("jobs.orders.views.materials_order_pdf", lambda order: b"preview")


@pytest.fixture
def order(job, office) -> MaterialsOrder:
    return make_orders(job, by=office)[0]


@pytest.mark.parametrize("page", [*READ, *ACT])
def test_nobody_reaches_an_order_without_logging_in(client, order, page):
    assert client.post(reverse(page, args=[order.number])).url.startswith("/log-in/")


@pytest.mark.parametrize("role", ["crew", "surveyor"])
@pytest.mark.parametrize("page", [*READ, *ACT])
def test_crew_and_surveyor_see_no_orders(request, logged_in, order, role, page):
    client = logged_in(request.getfixturevalue(role))
    address = reverse(page, args=[order.number])
    assert (client.post(address) if page in ACT else client.get(address)).status_code == 403
    assert client.get(reverse("orders")).status_code == 403
    assert client.post(reverse("orders_make", args=[order.job.number])).status_code == 403


@pytest.mark.parametrize("page", READ)
def test_the_office_reads_orders(logged_in, office, order, page):
    assert logged_in(office).get(reverse(page, args=[order.number])).status_code == 200


@pytest.mark.parametrize("page", [*ACT, "orders_make"])
def test_looking_changes_nothing(logged_in, owner, order, page):
    number = order.job.number if page == "orders_make" else order.number
    assert logged_in(owner).get(reverse(page, args=[number])).status_code == 405


def test_the_office_makes_dates_sends_and_receives_an_order(job, office, logged_in):
    client = logged_in(office)
    client.post(reverse("orders_make", args=[job.number]))
    order = job.orders.first()
    page = reverse("order", args=[order.number])
    unread = client.post(page, {"wanted_on": "soon", "note": "Before nine"})
    assert unread.status_code == 422
    assert "Wanted on must be a date" in unread.content.decode()
    client.post(page, {"wanted_on": "2026-12-04", "note": "Before nine"})
    client.post(reverse("order_send", args=[order.number]))
    order.refresh_from_db()
    assert (order.state, order.wanted_on, order.note) == ("sent", date(2026, 12, 4), "Before nine")
    assert client.get(reverse("order_paper", args=[order.number])).content == b"paper"
    client.post(reverse("order_receive", args=[order.number]))
    order.refresh_from_db()
    assert order.state == "received"


def test_an_order_is_marked_as_sent_only_once_its_day_is_set(order, office, logged_in):
    client, page = logged_in(office), reverse("order", args=[order.number])
    MaterialsOrder.objects.update(wanted_on=None)
    shown = client.get(page).content.decode()
    assert '<a href="#id_wanted_on">set the day it is wanted on</a>' in shown
    assert "Needed before the order is marked as sent." in shown
    assert not re.search(r'for="id_wanted_on">[^\n]*\(optional\)', shown)
    send = f'action="{reverse("order_send", args=[order.number])}"'
    assert send not in shown
    client.post(page, {"wanted_on": "2026-12-04"})
    shown = client.get(page).content.decode()
    assert send in shown
    assert "set the day it is wanted on" not in shown


def test_a_draft_shows_what_its_paper_would_say(order, office, logged_in):
    assert logged_in(office).get(reverse("order_paper", args=[order.number])).content == b"preview"


def test_the_csv_keeps_its_letters_in_a_spreadsheet(order, office, logged_in):
    answer = logged_in(office).get(reverse("order_csv", args=[order.number]))
    assert answer.content.startswith(b"\xef\xbb\xbfsupplier code,")
    assert "attachment" in answer["Content-Disposition"]
