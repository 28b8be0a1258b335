"""Move a job on: booked, under way, complete, handed over, closed, and no other way."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date
from decimal import Decimal

from django.contrib.auth.models import User
from django.db import transaction
from django.utils import timezone

from estimating.json_forms import survey_from_json
from estimating.published.hazards import HAZARD_BY_KEY
from jobs.documents.job_sheet import job_sheet_pdf
from jobs.documents.models import Paper
from jobs.documents.papers import keep_paper
from jobs.orders.in_time import want_in_time
from jobs.quotes.listing.standing import keep_standing
from jobs.surveys.tablet.keeping import SEEN_ELSEWHERE, stops_kept_aside
from jobs.works.models import Job

State = Job.State

MAY_FOLLOW: dict[str, tuple[str, ...]] = {
    State.BOOKED: (State.ACCEPTED, State.BOOKED),
    State.UNDER_WAY: (State.BOOKED,),
    State.COMPLETE: (State.UNDER_WAY,),
    State.HANDED_OVER: (State.COMPLETE,),
    State.CLOSED: (State.HANDED_OVER,),
    State.CALLED_OFF: (State.ACCEPTED, State.BOOKED, State.UNDER_WAY),
}
"""Which states each state may follow; a booked job may be booked anew for other days or people."""


class JobRefused(Exception):
    """The job may not move so; every reason at once, in words for the office."""

    def __init__(self, reasons: list[str]) -> None:
        super().__init__(" ".join(reasons))
        self.reasons = reasons


def what_holds_work(job: Job) -> list[str]:
    """Say every stop that no clearance resolves, as the quote was issued and as the survey stands now."""
    survey = job.revision.quote.survey
    seen = list(survey.findings.select_related("clearance"))
    held = {finding.hazard: finding.words for finding in seen if finding.holds_work}
    cleared = {finding.hazard for finding in seen if hasattr(finding, "clearance")}
    for finding in survey_from_json(job.revision.issued["survey"]).findings:
        if finding.holds_work and finding.hazard not in cleared:
            held.setdefault(finding.hazard, finding.words)
    told = [f"{_title(hazard)}: {words or 'seen at survey'}" for hazard, words in held.items()]
    return told + [f"{title}: {SEEN_ELSEWHERE}" for title in stops_kept_aside(survey)]


def _title(hazard: str) -> str:
    known = HAZARD_BY_KEY.get(hazard)
    return known.title if known else hazard


@transaction.atomic
def book_job(  # noqa: PLR0913 - one for each box of the form
    job: Job, *, starts_on: date, ends_on: date, crew: Iterable[User], note: str, by: User
) -> None:
    """Set days and crew, keep the job sheet as the crew is given it; unsent orders follow the days."""
    job = _locked(job, State.BOOKED)
    _refuse_while_held(job)
    if ends_on < starts_on:
        raise JobRefused(["The last day is before the first: change one of them."])
    want_in_time(job, starts_on=starts_on)
    job.starts_on, job.ends_on, job.note = starts_on, ends_on, note
    job.state, job.booked_by = State.BOOKED, by
    job.crew.set(crew)
    sheet = keep_paper(job_sheet_pdf(job), kind=Paper.Kind.JOB_SHEET, title=f"Job sheet {job.number}")
    job.sheet_sha256 = sheet.sha256
    job.save()
    keep_standing(job.revision.quote)


@transaction.atomic
def start_job(job: Job) -> None:
    """Record that the crew has begun; a stop found since the booking still holds it."""
    job = _locked(job, State.UNDER_WAY)
    _refuse_while_held(job)
    job.state, job.started_at = State.UNDER_WAY, timezone.now()
    job.save(update_fields=["state", "started_at"])


@transaction.atomic
def complete_job(job: Job, *, hours_taken: Decimal, note: str) -> None:
    """Record that the work is done and the person-hours it took."""
    job = _locked(job, State.COMPLETE)
    job.state, job.completed_at = State.COMPLETE, timezone.now()
    job.hours_taken, job.completion_note = hours_taken, note
    job.save(update_fields=["state", "completed_at", "hours_taken", "completion_note"])


@transaction.atomic
def hand_over_job(job: Job, *, to: str) -> None:
    """Record who took the finished deck over."""
    job = _locked(job, State.HANDED_OVER)
    job.state, job.handed_over_at, job.handed_over_to = State.HANDED_OVER, timezone.now(), to
    job.save(update_fields=["state", "handed_over_at", "handed_over_to"])


@transaction.atomic
def close_job(job: Job) -> None:
    """Put a job away: nothing more is to be done for it."""
    job = _locked(job, State.CLOSED)
    job.state, job.closed_at = State.CLOSED, timezone.now()
    job.save(update_fields=["state", "closed_at"])


@transaction.atomic
def call_off_job(job: Job) -> None:
    """Call a job off whose contract was cancelled; finished work is not undone."""
    job = _locked(job, State.CALLED_OFF)
    job.state, job.called_off_at = State.CALLED_OFF, timezone.now()
    job.save(update_fields=["state", "called_off_at"])


def may_become(job: Job, state: str) -> bool:
    """Tell whether a job's state may be followed by another."""
    return job.state in MAY_FOLLOW[state]


def _locked(job: Job, wanted: str) -> Job:
    """Lock a job's row and return it, if it may take the state wanted."""
    locked = (
        Job.objects.select_for_update(of=("self",)).select_related("revision__quote__survey").get(pk=job.pk)
    )
    if not may_become(locked, wanted):
        raise JobRefused(
            [f"{locked.number} is {locked.get_state_display().lower()}: it cannot become {wanted}."]
        )
    return locked


def _refuse_while_held(job: Job) -> None:
    held = what_holds_work(job)
    if held:
        raise JobRefused([f"Stop, not cleared. {words}" for words in held])
