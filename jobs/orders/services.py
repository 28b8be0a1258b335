"""Make, change, send and receive materials orders."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from django.contrib.auth.models import User
from django.db import transaction
from django.utils import timezone

from jobs.documents.materials_order import materials_order_pdf
from jobs.documents.models import Paper
from jobs.documents.papers import keep_paper
from jobs.firm.numbers import next_number
from jobs.orders.in_time import day_in_time
from jobs.orders.models import MaterialsOrder, OrderLine
from jobs.orders.packs_to_buy import PacksToBuy, by_supplier, packs_to_buy
from jobs.works.as_accepted import accepted_estimate
from jobs.works.models import Job

OPEN_TO_ORDERS = (Job.State.ACCEPTED, Job.State.BOOKED, Job.State.UNDER_WAY)


class OrderRefused(Exception):
    """The order cannot move so; the message says why and what to do."""


@transaction.atomic
def make_orders(job: Job, *, by: User | None = None) -> list[MaterialsOrder]:
    """Make one order for each supplier of a job, or make the unsent ones anew.

    A sent order is left as it was sent: what has gone out is changed by speaking to the supplier. Nobody
    makes the orders of an acceptance.
    """
    job = Job.objects.select_for_update(of=("self",)).select_related("revision__decision").get(pk=job.pk)
    if job.state not in OPEN_TO_ORDERS:
        raise OrderRefused(f"{job.number} is {job.state}: nothing more is ordered for it.")
    accepted = accepted_estimate(job)
    wanted = by_supplier(packs_to_buy(accepted))
    wanted_on = day_in_time(job.starts_on, accepted.survey.nation)
    orders = {order.supplier: order for order in job.orders.select_for_update()}
    for supplier, order in orders.items():
        if order.is_draft and supplier not in wanted:
            order.delete()
    made = []
    for supplier, packs in wanted.items():
        order = orders.get(supplier) or _new_order(job, supplier, wanted_on, by)
        if order.is_draft:
            _write_lines(order, packs)
            _want(order, wanted_on)
        made.append(order)
    if job.why_no_orders:
        job.why_no_orders = ""
        job.save(update_fields=["why_no_orders"])
    return made


def _new_order(job: Job, supplier: str, wanted_on: date | None, by: User | None) -> MaterialsOrder:
    return MaterialsOrder.objects.create(
        number=next_number("M"),
        job=job,
        supplier=supplier,
        wanted_on=wanted_on,
        made_by=by,
    )


def _want(order: MaterialsOrder, wanted_on: date | None) -> None:
    if order.wanted_on is None and wanted_on is not None:
        order.wanted_on = wanted_on
        order.save(update_fields=["wanted_on"])


def _write_lines(order: MaterialsOrder, packs: Sequence[PacksToBuy]) -> None:
    order.lines.all().delete()
    OrderLine.objects.bulk_create(
        OrderLine(
            order=order,
            code=each.code,
            supplier_code=each.supplier_code,
            description=each.description,
            packs=each.packs,
            pack_size=each.pack_size,
            pack_cost=each.pack_cost,
            weight_kg=each.weight_kg,
        )
        for each in packs
    )


@transaction.atomic
def change_order(order: MaterialsOrder, *, wanted_on: date | None, note: str) -> None:
    """Say when an unsent order is wanted, and what else the supplier must know."""
    order = _locked(order)
    if not order.is_draft:
        raise OrderRefused(f"{order.number} is {order.state}: it says what was sent.")
    order.wanted_on, order.note = wanted_on, note
    order.save(update_fields=["wanted_on", "note"])


@transaction.atomic
def send_order(order: MaterialsOrder, *, by: User) -> MaterialsOrder:
    """Freeze an order and its paper; from then on it says what was sent."""
    order = _locked(order)
    if not order.is_draft:
        raise OrderRefused(f"{order.number} was already sent.")
    if order.job.state == Job.State.CALLED_OFF:
        raise OrderRefused(f"{order.job.number} is called off: nothing more is ordered for it.")
    if not order.wanted_on:
        raise OrderRefused(f"{order.number} has no day on which it is wanted: set it first.")
    if not order.lines.exists():
        raise OrderRefused(f"{order.number} has nothing in it.")
    order.state = MaterialsOrder.State.SENT
    order.sent_at, order.sent_by = timezone.now(), by
    paper = keep_paper(
        materials_order_pdf(order), kind=Paper.Kind.MATERIALS_ORDER, title=f"Materials order {order.number}"
    )
    order.paper_sha256 = paper.sha256
    order.save()
    return order


@transaction.atomic
def receive_order(order: MaterialsOrder) -> None:
    """Record that what was ordered has come."""
    order = _locked(order)
    if order.state != MaterialsOrder.State.SENT:
        raise OrderRefused(f"{order.number} is {order.state}: only a sent order can come in.")
    order.state = MaterialsOrder.State.RECEIVED
    order.received_at = timezone.now()
    order.save(update_fields=["state", "received_at"])


def _locked(order: MaterialsOrder) -> MaterialsOrder:
    """Lock an order's row; a cancellation may have thrown an unsent one away meanwhile."""
    rows = MaterialsOrder.objects.select_for_update(of=("self",)).select_related("job")
    locked = rows.filter(pk=order.pk).first()
    if locked is None:
        raise OrderRefused(f"{order.number} is no longer there: its job was called off or ordered anew.")
    return locked
