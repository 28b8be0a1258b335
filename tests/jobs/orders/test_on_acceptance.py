"""Accepting makes the orders, and nothing about the orders can undo an acceptance."""

from __future__ import annotations

from datetime import date, timedelta
from decimal import Decimal

import pytest
from django.urls import reverse
from django.utils import timezone

from jobs.orders.models import MaterialsOrder, OrderLine
from jobs.orders.on_acceptance import NOT_WORKED_OUT
from jobs.orders.own_risk import own_risk_until
from jobs.orders.packs_to_buy import packs_to_buy
from jobs.orders.services import OrderRefused, change_order, make_orders
from jobs.quotes.models import Revision
from jobs.works.as_accepted import accepted_estimate
from jobs.works.models import Job
from jobs.works.services import book_job
from tests.jobs.offers import make_job
from tests.jobs.quotes.rights.conftest import accept

pytestmark = pytest.mark.django_db
MONDAY, TUESDAY = date(2026, 12, 7), date(2026, 12, 8)


@pytest.fixture(autouse=True)
def quick_sheets(monkeypatch) -> None:
    monkeypatch.setattr("jobs.works.services.job_sheet_pdf", lambda job: b"a sheet")


@pytest.fixture
def desk(office, logged_in):
    """Return the office's browser."""
    return logged_in(office)


def book(job: Job, day: date, *, crew, office) -> set[date | None]:
    book_job(job, starts_on=day, ends_on=day, crew=[crew], note="", by=office)
    job.refresh_from_db()
    return {order.wanted_on for order in job.orders.all()}


def test_accepting_makes_an_unsent_order_for_each_supplier(job):
    orders = list(job.orders.all())
    assert len({order.supplier for order in orders}) == len(orders) == 2
    assert {(order.state, order.made_by, order.wanted_on) for order in orders} == {("draft", None, None)}
    ordered = sorted((line.code, line.packs) for order in orders for line in order.lines.all())
    assert ordered == sorted((each.code, each.packs) for each in packs_to_buy(accepted_estimate(job)))
    assert job.why_no_orders == ""


@pytest.mark.parametrize(
    ("fault", "words"),
    [
        (LookupError("B-1 is not in the price book"), NOT_WORKED_OUT),
        (Decimal, NOT_WORKED_OUT),
        (OrderRefused("J-1 is closed: nothing more is ordered for it."), "nothing more is ordered"),
    ],
)
def test_an_acceptance_stands_whatever_becomes_of_its_orders(offer, desk, monkeypatch, fault, words):
    def fail(worked):
        if isinstance(fault, Exception):
            raise fault
        # what nobody foresaw: the caller fails on it

    with monkeypatch.context() as broken:
        broken.setattr("jobs.orders.services.packs_to_buy", fail)
        job = make_job(offer)
    offer.refresh_from_db()
    assert (offer.state, job.state) == (Revision.State.ACCEPTED, Job.State.ACCEPTED)
    assert words in job.why_no_orders
    shown = desk.get(reverse("job", args=[job.number])).content.decode()
    assert "No orders on acceptance" in shown
    assert words in shown
    assert make_orders(job)
    assert "No orders on acceptance" not in desk.get(reverse("job", args=[job.number])).content.decode()


def test_half_an_order_is_undone_alone(offer, monkeypatch):
    """The database itself fails amid the second order: the first is undone, the acceptance is not."""
    write, written = OrderLine.objects.bulk_create, []

    def fail_on_the_second(rows):
        written.append(write(list(rows)))
        if len(written) == 2:
            MaterialsOrder.objects.create(
                number=MaterialsOrder.objects.first().number, job=written[0][0].order.job, supplier="x"
            )

    monkeypatch.setattr(OrderLine.objects, "bulk_create", fail_on_the_second)
    job = make_job(offer)
    assert len(written) == 2
    assert (job.state, job.why_no_orders) == (Job.State.ACCEPTED, NOT_WORKED_OUT)
    assert not MaterialsOrder.objects.exists()
    assert not OrderLine.objects.exists()


def test_unsent_orders_follow_the_days_that_are_booked_but_not_a_day_that_somebody_chose(job, crew, office):
    assert book(job, TUESDAY, crew=crew, office=office) == {MONDAY}
    chosen, follows = job.orders.all()
    change_order(chosen, wanted_on=date(2026, 12, 3), note="")
    assert book(job, MONDAY, crew=crew, office=office) == {date(2026, 12, 3), date(2026, 12, 4)}
    MaterialsOrder.objects.filter(pk=follows.pk).update(state="sent", paper_sha256="0" * 64)
    assert book(job, TUESDAY, crew=crew, office=office) == {date(2026, 12, 3), date(2026, 12, 4)}


@pytest.mark.parametrize(
    ("days_ago", "early_start", "at_risk"),
    [
        # SI 2013/3134 reg 30: fourteen days after the day of the contract; reg 36: the express request
        (0, False, True),
        (14, False, True),
        (15, False, False),
        (0, True, False),
    ],
)
def test_until_the_last_day_to_cancel_an_order_is_sent_at_the_firms_own_risk(
    offer, desk, days_ago, early_start, at_risk
):
    decision = accept(offer, days_ago=days_ago, early_start=early_start)
    job = decision.revision.job
    assert bool(own_risk_until(decision)) is at_risk
    pages = [reverse("job", args=[job.number]), reverse("order", args=[job.orders.first().number])]
    for page in pages:
        shown = desk.get(page).content.decode()
        assert ("at the firm’s own risk" in shown) is at_risk
        last_day = timezone.localdate() - timedelta(days=days_ago) + timedelta(days=14)
        assert (f"{last_day.day} {last_day:%B %Y}" in shown) or not at_risk
    job.orders.update(state="sent", paper_sha256="0" * 64)
    for page in pages:
        assert "at the firm’s own risk" not in desk.get(page).content.decode()
