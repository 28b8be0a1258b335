"""What a quote's sheet shows: the drawings, the figures beside them and the verdicts, draft or issued."""

from __future__ import annotations

from typing import Any

from estimating.choices import Choices
from estimating.drawing.cutting_sheet import cutting_sheet
from estimating.drawing.plan import plan
from estimating.drawing.section import section
from estimating.estimate import Estimate
from estimating.refusals import Refusal
from jobs.quotes.frozen import frozen_estimate, price_with, taken_parts
from jobs.quotes.models import Revision
from jobs.quotes.services import estimate_draft, why_not_issue
from jobs.surveys.as_measured import requirement_in_words


def draft_sheet(revision: Revision, choices: Choices) -> dict[str, Any]:
    """Work a draft out and return what its sheet shows, or what keeps it from being worked out."""
    try:
        worked = estimate_draft(revision, choices=choices)
    except Refusal as refused:
        return {"refusals": [requirement_in_words(each) for each in refused.each]}
    return {
        "estimate": worked,
        "price": worked.price,
        "drawings": _drawings(worked),
        "reasons": why_not_issue(revision, worked),
    }


def issued_sheet(revision: Revision) -> dict[str, Any]:
    """Return what the sheet of an issued revision shows, from its frozen copy alone."""
    worked = frozen_estimate(revision)
    return {
        "estimate": worked,
        "price": price_with(revision, taken_parts(revision)),
        "drawings": _drawings(worked) | revision.issued["drawings"],
        "reasons": [],
    }


def _drawings(worked: Estimate) -> dict[str, Any]:
    return {
        "plan": plan(worked.survey, worked.design),
        "section": section(worked.survey, worked.design),
        "cutting": [sheet for zone in worked.design.zones for sheet in cutting_sheet(zone)],
    }
