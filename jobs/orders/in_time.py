"""On which day what a job needs is wanted: orders follow the days of the job, until somebody says a day."""

from __future__ import annotations

from datetime import date

from estimating.json_forms import survey_from_json
from estimating.nations import Nation
from estimating.refusals import Refusal
from estimating.working_days import working_day_before
from jobs.orders.models import MaterialsOrder
from jobs.works.models import Job


def day_in_time(starts_on: date | None, nation: Nation) -> date | None:
    """Return the last working day before the job; whoever orders says the day where no calendar is held."""
    try:
        return working_day_before(starts_on, nation) if starts_on else None
    except Refusal:
        return None


def want_in_time(job: Job, *, starts_on: date) -> None:
    """Let the unsent orders of a job follow it to another first day; a day that somebody chose stays."""
    nation = survey_from_json(job.revision.issued["survey"]).nation
    as_before = {None, day_in_time(job.starts_on, nation)}
    drafts = job.orders.select_for_update().filter(state=MaterialsOrder.State.DRAFT)
    for order in drafts:
        if order.wanted_on in as_before:
            order.wanted_on = day_in_time(starts_on, nation)
            order.save(update_fields=["wanted_on"])
