"""A deck zone proposed from what is typed so far: where there is headroom, clear of what stands there."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any, NamedTuple

from estimating.checks.access.headroom_strip import headroom_strip_mm
from estimating.checks.access.proposed_deck import USUAL_DECK_TOP_MM, proposed_deck
from estimating.plane import area_mm2, bounds
from estimating.refusals import Refusal
from estimating.survey import Axis, Polygon
from jobs.firm.models import Firm
from jobs.surveys.models import Survey
from jobs.surveys.plan.form import PlanForm
from jobs.surveys.plan.tables import next_number
from jobs.surveys.reading import read_section
from jobs.surveys.typed.lengths import as_typed, in_words, rectangle


class NothingToPropose(Exception):
    """Nothing can be proposed, and why."""


class Proposal(NamedTuple):
    """The plan's answers with one more zone, and what was proposed in words."""

    typed: dict[str, Any]
    words: str


class _Place(NamedTuple):
    """Where a deck may lie: over one joist field, under headroom or wherever that is not known."""

    joist_field: str
    area: Polygon
    strip: tuple[int, int] | None


def with_proposed_zone(survey: Survey, typed: Mapping[str, Any]) -> Proposal:
    """Return the plan's answers with the largest deck that reaches the hatch; raises NothingToPropose."""
    plan = PlanForm(typed, length_unit=survey.length_unit)
    plan.is_valid()
    hatch = _hatch(survey, plan)
    if hatch is None or not plan.cleaned_data.get("outline"):
        raise NothingToPropose("A deck is proposed once the outline and the hatch are measured.")
    taken = [
        row.cleaned_data["outline"]
        for kind in ("keep_outs", "zones")
        for _, row in plan.rows[kind].filled
        if row.cleaned_data["outline"]
    ]
    least_mm = Firm.ours().least_headroom_mm
    places = list(_places(survey, plan, least_mm))
    for from_hatch in (True, False):
        found = [
            (proposed_deck(place.area, hatch, taken, place.strip, from_hatch=from_hatch), place)
            for place in places
        ]
        decks = [(deck, place) for deck, place in found if deck is not None]
        if decks:
            deck, place = max(decks, key=lambda each: area_mm2(each[0]))
            words = _in_words(deck, place, least_mm, from_hatch=from_hatch)
            return Proposal(_with_zone(survey, typed, deck, place), words)
    raise NothingToPropose(f"Nowhere is there {in_words(least_mm)} of headroom over a deck.")


def _hatch(survey: Survey, plan: PlanForm) -> Polygon | None:
    arrive = read_section(survey, "arrive")
    arrive.is_valid()
    sides = [arrive.cleaned_data.get(name) for name in ("hatch_long", "hatch_short")]
    left, front, runs = (plan.cleaned_data.get(f"hatch_{name}") for name in ("left", "front", "runs"))
    if None in (*sides, left, front) or not runs:
        return None
    length_mm, depth_mm = sides if runs == Axis.X else sides[::-1]
    return rectangle(left_mm=left, front_mm=front, length_mm=length_mm, depth_mm=depth_mm)


def _places(survey: Survey, plan: PlanForm, least_mm: int) -> Iterator[_Place]:
    """Each joist field; headroom is known over those that run from eaves to eaves."""
    loft = plan.cleaned_data["outline"]
    strip = _strip(survey, loft, least_mm)
    fields = [row.cleaned_data for _, row in plan.rows["joists"].filled]
    if not fields:
        yield _Place("", loft, strip)
    for field in fields:
        name = field["name"] if len(fields) > 1 else ""
        yield _Place(name, field["outline"] or loft, strip if field["runs_along"] != Axis.X else None)


def _strip(survey: Survey, loft: Polygon, least_mm: int) -> tuple[int, int] | None:
    """From and to in y with headroom over a deck of usual height; None until the roof is measured."""
    roof = read_section(survey, "roof")
    roof.is_valid()
    measured = [roof.cleaned_data.get(name) for name in ("span", "pitch_degrees", "ridge_height")]
    if None in measured:
        return None
    span, pitch, ridge = measured
    front = bounds(loft)[1]
    try:
        strip = headroom_strip_mm(
            span_mm=span,
            pitch_degrees=float(pitch),
            ridge_mm=ridge,
            deck_top_mm=USUAL_DECK_TOP_MM,
            least_mm=least_mm,
        )
    except Refusal:
        return None
    low, high = strip or (span / 2, span / 2)
    return front + int(low) + 1, front + int(high)


def _with_zone(survey: Survey, typed: Mapping[str, Any], deck: Polygon, place: _Place) -> dict[str, Any]:
    number = next_number(typed, "zones")
    left, low, right, high = bounds(deck)
    sides_mm = {"left": left, "front": low, "length": right - left, "depth": high - low}
    zone = {name: as_typed(side_mm, survey.length_unit) for name, side_mm in sides_mm.items()}
    if place.joist_field:
        zone["joist_field"] = place.joist_field
    return {**typed, **{f"zones-{number}-{name}": answer for name, answer in zone.items()}}


def _in_words(deck: Polygon, place: _Place, least_mm: int, *, from_hatch: bool) -> str:
    left, low, right, high = bounds(deck)
    told = [f"Proposed: {in_words(right - left)} by {in_words(high - low)}"]
    if place.strip is not None:
        told.append(f", with {in_words(least_mm)} of headroom or more over a deck")
    told.append(". Change it as you like.")
    if not from_hatch:
        told.append(" It does not reach the hatch: draw the way to it too.")
    if place.strip is None:
        told.append(" Headroom was not looked at: that needs pitch, span, ridge, and joists from the eaves.")
    return "".join(told)
