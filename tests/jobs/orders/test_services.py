from __future__ import annotations

from datetime import date

import pytest

from estimating.choices import Part
from jobs.documents.papers import read_paper
from jobs.orders.models import MaterialsOrder
from jobs.orders.packs_to_buy import packs_to_buy
from jobs.orders.services import OrderRefused, change_order, make_orders, receive_order, send_order
from jobs.works.as_accepted import accepted_estimate
from jobs.works.models import Job
from tests.jobs.offers import make_job

pytestmark = pytest.mark.django_db
WANTED = date(2026, 12, 4)


@pytest.fixture(autouse=True)
def quick_papers(monkeypatch) -> None:
    monkeypatch.setattr(
        "jobs.orders.services.materials_order_pdf", lambda order: f"order {order.number}".encode()
    )


def sent_order(job: Job, office) -> MaterialsOrder:
    order = make_orders(job, by=office)[0]
    change_order(order, wanted_on=WANTED, note="")
    return send_order(order, by=office)


def test_there_is_one_order_for_each_supplier_and_every_product_is_in_one(job, office):
    orders = make_orders(job, by=office)
    suppliers = [order.supplier for order in orders]
    assert len(suppliers) == len(set(suppliers)) == 2
    ordered = sorted((line.code, line.packs) for order in orders for line in order.lines.all())
    assert ordered == sorted((each.code, each.packs) for each in packs_to_buy(accepted_estimate(job)))


def test_an_order_adds_up(job, office):
    for order in make_orders(job, by=office):
        assert order.cost == sum(line.packs * line.pack_cost for line in order.lines.all())
        assert order.weight_kg == sum(line.weight_kg for line in order.lines.all())


def test_what_the_customer_took_is_ordered(offer, office):
    job = make_job(offer, taken=[Part.LADDER])
    codes = {line.code for order in make_orders(job, by=office) for line in order.lines.all()}
    worked = accepted_estimate(job)
    ladders = {each.product_code for each in worked.quantities.purchases if each.part is Part.LADDER}
    lights = {each.product_code for each in worked.quantities.purchases if each.part is Part.LIGHT}
    assert ladders <= codes
    assert not lights & codes


def test_making_again_rebuilds_what_is_unsent_under_its_own_number(job, office):
    first = make_orders(job, by=office)
    first[0].lines.all().delete()
    again = make_orders(job, by=office)
    assert [order.number for order in again] == [order.number for order in first]
    assert all(order.lines.exists() for order in again)


def test_making_again_leaves_a_sent_order_as_it_was_sent(job, office):
    sent = sent_order(job, office)
    kept = list(sent.lines.values_list("pk", flat=True))
    again = make_orders(job, by=office)
    assert sent.pk in {order.pk for order in again}
    assert list(sent.lines.values_list("pk", flat=True)) == kept


def test_an_unsent_order_to_a_supplier_who_is_no_longer_needed_goes(job, office):
    MaterialsOrder.objects.create(number="M-2026-0999", job=job, supplier="A third merchant")
    assert "A third merchant" not in {order.supplier for order in make_orders(job, by=office)}
    assert not MaterialsOrder.objects.filter(number="M-2026-0999").exists()


@pytest.mark.parametrize(
    ("starts_on", "wanted_on"),
    [
        (date(2026, 12, 9), date(2026, 12, 8)),  # Wednesday: the Tuesday before
        (date(2026, 12, 7), date(2026, 12, 4)),  # Monday: the Friday before
        (date(2026, 12, 6), date(2026, 12, 4)),  # Sunday: the Friday before
        (
            date(2026, 12, 29),
            date(2026, 12, 24),
        ),  # over Christmas and Boxing Day's substitute (gov.uk)
        (date(2041, 3, 6), None),  # no calendar is held so far ahead: whoever orders says the day
    ],
)
def test_an_order_is_wanted_on_the_last_working_day_before_the_job(job, office, starts_on, wanted_on):
    Job.objects.filter(pk=job.pk).update(state=Job.State.BOOKED, starts_on=starts_on, ends_on=starts_on)
    assert {order.wanted_on for order in make_orders(job, by=office)} == {wanted_on}


def test_sending_freezes_the_order_and_its_paper(job, office):
    order = sent_order(job, office)
    assert read_paper(order.paper_sha256) == f"order {order.number}".encode()
    assert (order.state, order.sent_by) == (MaterialsOrder.State.SENT, office)
    with pytest.raises(OrderRefused, match="already sent"):
        send_order(order, by=office)
    with pytest.raises(OrderRefused, match="what was sent"):
        change_order(order, wanted_on=None, note="More")


def test_an_order_without_a_day_is_not_sent(job, office):
    with pytest.raises(OrderRefused, match="no day"):
        send_order(make_orders(job, by=office)[0], by=office)


def test_an_empty_order_is_not_sent(job, office):
    order = MaterialsOrder.objects.create(
        number="M-2026-0998", job=job, supplier="A merchant", wanted_on=WANTED
    )
    with pytest.raises(OrderRefused, match="nothing in it"):
        send_order(order, by=office)


def test_only_a_sent_order_comes_in_and_only_once(job, office):
    order = make_orders(job, by=office)[0]
    with pytest.raises(OrderRefused, match="only a sent order"):
        receive_order(order)
    change_order(order, wanted_on=WANTED, note="")
    send_order(order, by=office)
    receive_order(order)
    order.refresh_from_db()
    assert (order.state, bool(order.received_at)) == (MaterialsOrder.State.RECEIVED, True)
    with pytest.raises(OrderRefused, match="received"):
        receive_order(order)


@pytest.mark.parametrize("state", [Job.State.COMPLETE, Job.State.HANDED_OVER, Job.State.CLOSED])
def test_nothing_is_ordered_for_a_job_that_is_done(job, office, state):
    Job.objects.filter(pk=job.pk).update(state=state)
    with pytest.raises(OrderRefused, match="nothing more is ordered"):
        make_orders(job, by=office)
