"""What accepting a quote does about its orders, and what cancelling the contract does."""

from __future__ import annotations

import logging

from django.db import transaction

from jobs.orders.models import MaterialsOrder
from jobs.orders.services import OrderRefused, make_orders
from jobs.works.models import Job

NOT_WORKED_OUT = "They could not be worked out when the quote was accepted. Try it here."
logger = logging.getLogger("eavesbook.orders")


def order_on_acceptance(job: Job) -> None:
    """Make the draft orders of a job just accepted; what keeps them from being made is kept on the job.

    An acceptance is a contract and stands whatever becomes of its orders: they are undone alone, and every
    failure is the office's to look into.
    """
    try:
        with transaction.atomic():
            make_orders(job)
        return
    except OrderRefused as refused:
        job.why_no_orders = str(refused)
    except Exception:  # the customer must not be refused for a fault of ours
        logger.exception("no orders on acceptance", extra={"figures": {"job": job.number}})
        job.why_no_orders = NOT_WORKED_OUT
    job.save(update_fields=["why_no_orders"])


def drop_unsent_orders(job: Job) -> int:
    """Throw away the drafts of a cancelled contract and return how many; what was sent stays."""
    drafts = job.orders.select_for_update().filter(state=MaterialsOrder.State.DRAFT)
    return sum(bool(order.delete()) for order in drafts)
