"""What a quote's sheet shows: the drawings, the figures beside them and the verdicts, draft or issued."""

from __future__ import annotations

from typing import Any

from django.utils import timezone

from estimating.choices import Choices
from estimating.drawing.cutting_sheet import cutting_sheet
from estimating.drawing.dimension_table import dimension_table
from estimating.drawing.view import SCREEN
from estimating.estimate import Estimate
from estimating.refusals import Refusal
from jobs.documents.checks_shown import groups_of
from jobs.documents.cutting_words import kept_words
from jobs.firm.models import Firm
from jobs.layouts.landing import waiting_for
from jobs.layouts.store import LayFromStore
from jobs.layouts.words import BoardsShown
from jobs.quotes.approval import approval_of
from jobs.quotes.changed import changed_in, changed_in_draft
from jobs.quotes.drafts.forms import name_on_page
from jobs.quotes.drafts.services import estimate_draft
from jobs.quotes.frozen import (
    frozen_alternative,
    frozen_estimate,
    price_with,
    quote_drawings,
    taken_parts,
)
from jobs.quotes.holding import holds_until, money_before_a_change
from jobs.quotes.models import Revision
from jobs.quotes.services import CannotIssue, why_not_issue, worked_out
from jobs.surveys.as_measured import requirement_in_words
from jobs.surveys.reading import place_of


def draft_sheet(
    revision: Revision, choices: Choices, *, alternative: int = 0, since: int | None = None
) -> dict[str, Any]:
    """Work an alternative of a draft out; return what its sheet shows, or why it cannot be worked out.

    `since` is when the page began to wait for a better layout, if it waits already.
    """
    layouts = LayFromStore()
    try:
        worked = estimate_draft(revision, choices=choices, layouts=layouts, alternative=alternative)
    except Refusal as refused:
        return {
            "refusals": [_in_words(each) for each in refused.each],
            "survey_mends": any(place_of(each) for each in refused.each),
        }
    return {
        "estimate": worked,
        "boards": BoardsShown(worked.quantities.board_count, waiting_for(layouts.awaited, since=since)),
        "groups": groups_of(worked.checks, worked.design),
        "price": worked.price,
        "drawings": quote_drawings(worked),
        "dimensions": dimension_table(worked.survey, worked.design).rows,
        "cutting": cutting_sheet(worked.design, drawn_for=SCREEN),
        "kept": kept_words(worked.design),
        "reasons": why_not_issue(revision, [worked]),
        "approval": approval_of(revision, _every(revision, worked)),
        "changed": changed_in_draft(revision, worked, alternative=alternative),
        "money_before_a_change": money_before_a_change(worked, timezone.localdate()),
        "holding": holds_until(worked, timezone.localdate(), Firm.ours().quote_valid_days),
    }


def _every(revision: Revision, worked: Estimate) -> list[Estimate]:
    """Return all alternatives worked out, approved together; this one alone while another cannot be."""
    if not revision.alternatives or not revision.edition.least_margin_percent:
        return [worked]
    try:
        return worked_out(revision)
    except (CannotIssue, Refusal):
        return [worked]


def _in_words(refusal: Refusal) -> str:
    """Say why a draft cannot be worked out, in the words of the page on which it can be mended."""
    name = name_on_page(refusal.field.removeprefix("choices."))
    return f"{name} {refusal.requirement}" if name else requirement_in_words(refusal)


def issued_sheet(revision: Revision, alternative: int | None = None) -> dict[str, Any]:
    """Return what the sheet of an issued revision shows of one alternative, from its frozen copy alone."""
    worked = frozen_estimate(revision, alternative)
    return {
        "estimate": worked,
        "boards": BoardsShown(worked.quantities.board_count),
        "groups": groups_of(worked.checks, worked.design),
        "price": price_with(revision, taken_parts(revision, alternative), alternative),
        "drawings": frozen_alternative(revision, alternative)["drawings"],
        "dimensions": dimension_table(worked.survey, worked.design).rows,
        "cutting": cutting_sheet(worked.design, drawn_for=SCREEN),
        "kept": kept_words(worked.design),
        "changed": changed_in(revision),
        "reasons": [],
    }
