"""The alternatives of a quote on paper: side by side, and then each of the others with its own price."""

from __future__ import annotations

from typing import Any

from estimating.checks.verdicts import Verdict
from estimating.drawing.plan import plan
from estimating.drawing.section import section
from estimating.estimate import Estimate
from jobs.documents.drawing_sizes import IN_THE_TEXT, UNDER_A_CAPTION
from jobs.documents.for_the_customer import what_to_know
from jobs.documents.quote_told import named_drawing
from jobs.documents.warnings import warnings_of
from jobs.quotes.compared import compared
from jobs.quotes.frozen import frozen_estimate, frozen_told
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
    others = [picked for picked in picking.every if picked.alternative != shown]
    first_told = [next(each for each in picking.every if each not in others), *others]
    return {
        "option_groups": _groups(picking, shown),
        "alternative_name": picking.names[shown],
        "alternatives": compared(revision, picking.every),
        "others": [_other(revision, picking, picked, known) for picked in others],
        "plans": _plans(revision, first_told),
        "options_to_mark": _options_to_mark(picking, first_told),
    }


def _plans(revision: Revision, every: list[Picked]) -> list[dict[str, Any]]:
    """Return each plan once, with the names of the alternatives that it holds for."""
    plans: dict[str, dict[str, Any]] = {}
    for picked in every:
        worked = frozen_estimate(revision, picked.alternative)
        drawn = plan(worked.survey, worked.design, drawn_for=UNDER_A_CAPTION)
        if drawn in plans:
            plans[drawn]["names"].append(picked.name)
        else:
            words = f"{picked.name}: {frozen_told(revision, picked.alternative)['plan_in_words']}"
            plans[drawn] = {"names": [picked.name], "drawing": named_drawing(drawn, words)}
    return list(plans.values())


def _options_to_mark(picking: Picking, every: list[Picked]) -> list[dict[str, Any]]:
    """Return each list of options once, with the names of the alternatives that offer it at these prices."""
    lists: dict[tuple[Any, ...], dict[str, Any]] = {}
    for picked in every:
        options = options_in(picking.offers[picked.alternative], picked.taken)
        if options:
            alike = tuple((each.line.part, each.adds, each.taken) for each in options)
            lists.setdefault(alike, {"names": [], "options": options})["names"].append(picked.name)
    return list(lists.values())


def _drawn_section(worked: Estimate) -> str:
    return section(worked.survey, worked.design, worked.checks, drawn_for=IN_THE_TEXT)


def _groups(picking: Picking, number: int) -> list[Any]:
    """Return the options that can only be taken one of several."""
    options = options_in(picking.offers[number], picking.of(number).taken)
    return [group for group in in_groups(options) if group.is_one_of]


def _other(revision: Revision, picking: Picking, picked: Picked, known: set[Verdict]) -> dict[str, Any]:
    """Return an alternative beside the one that is told in full: what it costs, and what it does instead."""
    number, shown = picked.alternative, picking.alternative
    worked, first = frozen_estimate(revision, number), frozen_estimate(revision, shown)
    told, first_told = frozen_told(revision, number), frozen_told(revision, shown)
    drawn = _drawn_section(worked)
    more = [verdict for verdict in _verdicts(revision, number) if verdict not in known]
    return {
        "name": picked.name,
        "price": picked.price,
        "lines": [line for line in picked.price.lines if line.counted],
        "options": options_in(picking.offers[number], picked.taken),
        "option_groups": _groups(picking, number),
        "what_we_do": _only_in(told["what_we_do"], first_told["what_we_do"]),
        "what_falls_away": _only_in(first_told["what_we_do"], told["what_we_do"]),
        "what_we_do_not": _only_in(told["what_we_do_not"], first_told["what_we_do_not"]),
        "warnings": warnings_of(more),
        "section": (
            named_drawing(drawn, f"{picked.name}: {told['section_in_words']}")
            if drawn != _drawn_section(first)
            else ""
        ),
    }


def _only_in(these: list[str], those: list[str]) -> list[str]:
    return [words for words in these if words not in those]


def _verdicts(revision: Revision, number: int) -> list[Verdict]:
    checks = frozen_estimate(revision, number).checks
    return [verdict for _, found in what_to_know(checks) for verdict in found]
