"""What became of very many quotes: enquiries before them, jobs and materials orders after them."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import datetime, timedelta

from django.contrib.auth.models import User

from jobs.customers.models import Enquiry
from jobs.orders.models import MaterialsOrder
from jobs.quotes.customer.models import Decision
from jobs.surveys.models import Survey
from jobs.works.models import Job

SUPPLIERS = ("Kelmore Timber Yard", "Brindle Fixings Counter")


def write_enquiries(surveys: Iterable[Survey], by: User) -> None:
    """Write the enquiry of each survey, long dealt with."""
    Enquiry.objects.bulk_create(
        Enquiry(property=survey.property, state=Enquiry.State.SURVEYED, taken_by=by) for survey in surveys
    )


def write_jobs(accepted: Iterable[Decision], *, now: datetime) -> None:
    """Write the job of each acceptance with an order to each supplier: old ones are closed, new ones wait."""
    decisions = list(accepted)
    jobs = Job.objects.bulk_create(_job(decision, now) for decision in decisions)
    MaterialsOrder.objects.bulk_create(
        _order(job, place, supplier) for job in jobs for place, supplier in enumerate(SUPPLIERS)
    )


def _job(decision: Decision, now: datetime) -> Job:
    number = decision.revision.quote.number.removeprefix("Q-")
    is_new = now - decision.decided_at < timedelta(days=73)
    starts_on = (decision.decided_at + timedelta(days=20)).date()
    return Job(
        number=f"J-{number}",
        revision=decision.revision,
        state=Job.State.ACCEPTED if is_new else Job.State.CLOSED,
        starts_on=None if is_new else starts_on,
        ends_on=None if is_new else starts_on,
    )


def _order(job: Job, place: int, supplier: str) -> MaterialsOrder:
    is_new = job.state == Job.State.ACCEPTED
    return MaterialsOrder(
        number=f"M-{job.number.removeprefix('J-')}{place}",
        job=job,
        supplier=supplier,
        state=MaterialsOrder.State.DRAFT if is_new else MaterialsOrder.State.RECEIVED,
        wanted_on=job.starts_on,
        paper_sha256="" if is_new else "0" * 64,
    )
