"""The alternatives of a quote on paper: side by side, and then each of the others with its own price."""

from __future__ import annotations

from typing import Any

from estimating.checks.verdicts import Verdict
from estimating.drawing.plan import plan
from jobs.documents.drawing_sizes import UNDER_A_CAPTION
from jobs.documents.for_the_customer import what_to_know
from jobs.documents.quote_told import named_drawing, told_of
from jobs.documents.warnings import warnings_of
from jobs.quotes.compared import compared
from jobs.quotes.frozen import frozen_alternative, frozen_estimate
from jobs.quotes.models import Revision
from jobs.quotes.options import in_groups, options_in
from jobs.quotes.picking import Picked, Picking


def alternatives_context(revision: Revision) -> dict[str, Any]:
    """Return what a quote says of its alternatives; nothing where there is one way to do the job."""
    picking = Picking(revision)
    shown = picking.alternative
    if len(picking.names) == 1:
        return {"option_groups": _groups(picking, shown)}
    known = set(_verdicts(revision, shown))
    return {
        "option_groups": _groups(picking, shown),
        "alternative_name": picking.names[shown],
        "alternatives": compared(revision, picking.every),
        "others": [
            _other(revision, picking, picked, known)
            for picked in picking.every
            if picked.alternative != shown
        ],
    }


def _groups(picking: Picking, number: int) -> list[Any]:
    """Return the options that can only be taken one of several."""
    options = options_in(picking.offers[number], picking.of(number).taken)
    return [group for group in in_groups(options) if group.is_one_of]


def _other(revision: Revision, picking: Picking, picked: Picked, known: set[Verdict]) -> dict[str, Any]:
    """Return an alternative beside the one that is told in full: what it costs, and what it does."""
    number = picked.alternative
    worked = frozen_estimate(revision, number)
    told = frozen_alternative(revision, number).get("told") or told_of(worked)
    more = [verdict for verdict in _verdicts(revision, number) if verdict not in known]
    return {
        "name": picked.name,
        "price": picked.price,
        "lines": [line for line in picked.price.lines if line.counted],
        "options": options_in(picking.offers[number], picked.taken),
        "option_groups": _groups(picking, number),
        "what_we_do": told["what_we_do"],
        "what_we_do_not": told["what_we_do_not"],
        "warnings": warnings_of(more),
        "plan": named_drawing(
            plan(worked.survey, worked.design, drawn_for=UNDER_A_CAPTION),
            f"{picked.name}: {told['plan_in_words']}",
        ),
    }


def _verdicts(revision: Revision, number: int) -> list[Verdict]:
    checks = frozen_estimate(revision, number).checks
    return [verdict for _, found in what_to_know(checks) for verdict in found]
