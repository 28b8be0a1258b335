"""Verdicts as the papers tell them: the survey's hazards by their titles, the gravest first."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from estimating.checks.verdicts import Verdict
from estimating.published.hazards import HAZARDS
from estimating.survey import Severity

SURVEY = "survey"
"""The source of a verdict that passes on what the surveyor found."""

HAZARD_BY_TITLE = {hazard.title: hazard for hazard in HAZARDS}
GRAVEST_FIRST = (Severity.STOP, Severity.CAUTION, Severity.NOTE)


@dataclass(frozen=True, slots=True)
class Told:
    """One thing to be told, under a title for people."""

    severity: Severity
    subject: str
    words: str


def warnings_of(verdicts: Iterable[Verdict]) -> list[Told]:
    """Return what verdicts say, and of a hazard also what must be done about it."""
    told = [_warning(verdict) for verdict in verdicts]
    return sorted(told, key=lambda warning: GRAVEST_FIRST.index(warning.severity))


def _warning(verdict: Verdict) -> Told:
    hazard = HAZARD_BY_TITLE.get(verdict.subject) if verdict.source == SURVEY else None
    if hazard is None:
        subject = verdict.subject[:1].upper() + verdict.subject[1:]
        if verdict.words.startswith(subject):  # who reads it need not be told twice
            subject = ""
        return Told(verdict.severity, subject, verdict.words)
    words = " ".join(words for words in (verdict.words, hazard.action) if words)
    return Told(verdict.severity, hazard.title, words)
