"""Take in a change from a tablet, once, and give the same answer however often it is sent."""

from __future__ import annotations

import json
from dataclasses import dataclass
from datetime import timedelta
from typing import Any

from django.contrib.auth.models import User
from django.db import IntegrityError, transaction
from django.utils import timezone

from jobs.surveys.models import Survey
from jobs.surveys.tablet.apply import Applied, NotArrived, apply_change
from jobs.surveys.tablet.body import Change, Envelope, Unreadable, read_change
from jobs.surveys.tablet.keeping import Source, keep_aside, settle, unsettled
from jobs.surveys.tablet.models import KeptAside, Reason, SentChange

MOST_IN_A_MINUTE = 1200
"""A tablet that was out for a week sends some hundreds, one after the other; more than this is no tablet."""
MOST_BODIES_ASIDE = 200


@dataclass(frozen=True, slots=True)
class Answer:
    """What a tablet is told: the HTTP status and the JSON; `is_replay` if it was told the same before."""

    status: int
    text: str
    is_replay: bool = False


def receive_change(number: str, envelope: Envelope, *, by: User) -> Answer:
    """Take in a change to the survey of that number; raises Survey.DoesNotExist.

    Changes of one survey wait for each other at its row. Under one number two surveys may still be written at
    the same moment: then the later one begins again and finds the earlier.
    """
    try:
        return _receive(number, envelope, by)
    except IntegrityError:
        return _receive(number, envelope, by)


@transaction.atomic
def _receive(number: str, envelope: Envelope, by: User) -> Answer:
    survey = Survey.objects.select_for_update().get(number=number)
    known = SentChange.objects.filter(pk=envelope.id).first()
    if known and known.digest == envelope.digest and known.survey_id == survey.pk:
        return Answer(200, known.answer, is_replay=True)
    if known:
        words = "Another change has this number. Both are kept, and the office looks at them."
        return _keep_body(survey, envelope, by, Reason.OTHER_WORDS, words)
    if _too_many(by):
        return refusal(429, "too many", "Too many changes in one minute. The tablet tries again by itself.")
    try:
        change = read_change(envelope.body)
        with transaction.atomic():  # what cannot be read to its end has changed nothing
            return _take(survey, envelope, change, by)
    except NotArrived as missing:
        words = "The photograph itself has not arrived yet."
        return refusal(409, "photograph not here", words, wants=missing.sent_sha256)
    except Unreadable as unread:
        words = f"The office cannot read this change, and keeps it for a person. {unread}"
        return _keep_body(survey, envelope, by, Reason.UNREAD, words)


def refusal(status: int, error: str, words: str, **more: Any) -> Answer:
    """Return an answer that says what is wrong in a word for the tablet and in words for its person."""
    return Answer(status, json.dumps({"error": error, "words": words, **more}))


def _take(survey: Survey, envelope: Envelope, change: Change, by: User) -> Answer:
    applied = apply_change(survey, change, by=by)
    now = timezone.now()
    told = {
        "id": str(envelope.id),
        "state": "kept aside" if applied.told else "saved",
        "aside": [{"name": name, "words": words} for name, words in applied.told],
        "words": applied.words,
        "received_at": now.isoformat(),
        "changed_at": survey.updated_at.timestamp(),
    }
    row = SentChange.objects.create(
        id=envelope.id,
        survey=survey,
        digest=envelope.digest,
        body=envelope.body,
        tablet=change.tablet,
        number=change.number,
        made_at=change.made_at,
        form_version=change.form_version,
        kind=change.kind,
        by=by,
        received_at=now,
        answer=json.dumps(told),
    )
    _settle_unread(survey, envelope, by)
    _keep(survey, applied, Source(by, row))
    return Answer(200, row.answer)


def _keep(survey: Survey, applied: Applied, source: Source) -> None:
    if applied.fields:
        keep_aside(survey, applied.section, applied.fields, applied.asides, source=source)


def _keep_body(survey: Survey, envelope: Envelope, by: User, reason: Reason, words: str) -> Answer:
    """Keep a whole text that was not taken in, once, whoever sends it how often."""
    same = KeptAside.objects.filter(survey=survey, reason=reason)
    if same.filter(settled_at=None).count() >= MOST_BODIES_ASIDE:
        return refusal(429, "too many", "The office must first look at what is kept aside for this survey.")
    if not same.filter(name=str(envelope.id), other=envelope.body).exists():
        KeptAside.objects.create(
            survey=survey, name=str(envelope.id), other=envelope.body, reason=reason, by=by
        )
    return refusal(422, str(reason), words)


def _settle_unread(survey: Survey, envelope: Envelope, by: User) -> None:
    """A newer version of the site reads what an older one could not, and nobody need look at it any more."""
    for row in unsettled(survey).filter(reason=Reason.UNREAD, name=str(envelope.id), other=envelope.body):
        settle(row, by=by, taken=True)


def _too_many(by: User) -> bool:
    since = timezone.now() - timedelta(minutes=1)
    return SentChange.objects.filter(by=by, received_at__gt=since).count() >= MOST_IN_A_MINUTE
