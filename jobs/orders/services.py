"""Make, send and receive materials orders."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from django.contrib.auth.models import User
from django.db import transaction
from django.utils import timezone

from estimating.nations import Nation
from estimating.refusals import Refusal
from estimating.working_days import working_day_before
from jobs.documents.materials_order import materials_order_pdf
from jobs.documents.models import Paper
from jobs.documents.papers import keep_paper
from jobs.firm.numbers import next_number
from jobs.orders.models import MaterialsOrder, OrderLine
from jobs.orders.packs_to_buy import PacksToBuy, by_supplier, packs_to_buy
from jobs.works.as_accepted import accepted_estimate
from jobs.works.models import Job

OPEN_TO_ORDERS = (Job.State.ACCEPTED, Job.State.BOOKED, Job.State.UNDER_WAY)


class OrderRefused(Exception):
    """The order cannot move so; the message says why and what to do."""


@transaction.atomic
def make_orders(job: Job, *, by: User) -> list[MaterialsOrder]:
    """Make one order for each supplier of a job, or make the unsent ones anew.

    A sent order is left as it was sent: what has gone out is changed by speaking to the supplier.
    """
    job = Job.objects.select_for_update(of=("self",)).select_related("revision__decision").get(pk=job.pk)
    if job.state not in OPEN_TO_ORDERS:
        raise OrderRefused(f"{job.number} is {job.state}: nothing more is ordered for it.")
    accepted = accepted_estimate(job)
    wanted = by_supplier(packs_to_buy(accepted))
    wanted_on = _in_time_for(job, accepted.survey.nation)
    orders = {order.supplier: order for order in job.orders.select_for_update()}
    for supplier, order in orders.items():
        if order.is_draft and supplier not in wanted:
            order.delete()
    made = []
    for supplier, packs in wanted.items():
        order = orders.get(supplier) or _new_order(job, supplier, wanted_on, by)
        if order.is_draft:
            _write_lines(order, packs)
        made.append(order)
    return made


def _new_order(job: Job, supplier: str, wanted_on: date | None, by: User) -> MaterialsOrder:
    return MaterialsOrder.objects.create(
        number=next_number("M"),
        job=job,
        supplier=supplier,
        wanted_on=wanted_on,
        made_by=by,
    )


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


def _in_time_for(job: Job, nation: Nation) -> date | None:
    """Return the last working day before the job; whoever orders says the day where no calendar is held."""
    try:
        return working_day_before(job.starts_on, nation) if job.starts_on else None
    except Refusal:
        return None


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
    return MaterialsOrder.objects.select_for_update(of=("self",)).select_related("job").get(pk=order.pk)
