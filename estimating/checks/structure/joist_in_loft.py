"""One joist of a survey as it is checked: the worst of those under a zone, and what was taken unmeasured."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from decimal import Decimal
from itertools import pairwise

from estimating.checks.structure.buckling import (
    LoadShape,
    critical_stress_n_mm2,
    effective_length_mm,
    rolling_factor,
)
from estimating.checks.structure.design_strength import timber_of_grade
from estimating.checks.structure.joist import Joist
from estimating.checks.structure.section import Section
from estimating.design.design import ZoneDesign
from estimating.plane import Polygon, bounds
from estimating.published.eurocode_5 import KSYS, LEAST_MEMBERS_FOR_KSYS
from estimating.survey import Axis, JoistField, Survey

BEARING_TAKEN_MM = 50
"""Half of a wall plate of 100 mm: common practice, no source."""
GRADE_TAKEN = "C16"
OLD_GRADE_TAKEN = "C14"
GRADED_SINCE = 1970
"""Before timber was stress-graded as a rule: common practice, no source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class JoistInLoft:
    """The joist that carries most under one zone.

    `width_mm` is how wide a strip of ceiling it carries, `deck_width_mm` how wide a strip of deck, which is
    wider where the deck stands on some joists only. `held_mm` is the longest stretch over which nothing holds
    its top.
    """

    field: JoistField
    zone: str
    joist: Joist
    clear_spans_mm: tuple[int, ...]
    width_mm: Decimal
    deck_width_mm: Decimal
    carrying: int
    held_mm: int
    taken: tuple[str, ...]


def joist_in_loft(survey: Survey, zone: ZoneDesign) -> JoistInLoft | None:
    """Find the joist that carries most under one zone.

    Args:
        survey: The joists. Record. [mm]
        zone: The zone of deck. Record. [mm]

    Returns:
        The joist; None where no joist lies under the zone. Record. [mm]

    Raises:
        Refusal: The joist cannot be so.

    Source:
        Effective span from centre to centre of bearings: BS 5268-2:2002 2.10.3, from memory; class, span and
        bearing where unmeasured: common practice, no source.
    """
    field = survey.joist_field(zone.joist_field)
    under = _lines_under(field, zone)
    if not under:
        return None
    grade, bearing_mm, clear_mm, taken = _as_taken(survey, field)
    spans = tuple(float(clear + bearing_mm) for clear in clear_mm)
    held_mm = min(_free_stretch_mm(field, zone), round(max(spans)))
    carrying = _carrying(under, zone)
    joist = Joist(
        section=Section(field.width_mm, field.depth_mm),
        grade=grade,
        spans_mm=spans,
        bearing_mm=bearing_mm,
        ksys=KSYS if len(carrying) >= LEAST_MEMBERS_FOR_KSYS else 1.0,
        hangs_between=len(spans) > 1 and field.binders == len(spans) - 1,
    )
    return JoistInLoft(
        field=field,
        zone=zone.zone,
        joist=replace(joist, kcrit=_kcrit(joist, held_mm)),
        clear_spans_mm=clear_mm,
        width_mm=_widest_of_ceiling_mm(field, under),
        deck_width_mm=_widest_of_deck_mm(field, zone, carrying),
        carrying=len(carrying),
        held_mm=held_mm,
        taken=taken,
    )


def _as_taken(survey: Survey, field: JoistField) -> tuple[str, int, tuple[int, ...], tuple[str, ...]]:
    taken = []
    grade = field.grade
    if grade is None:
        old = survey.built_year is not None and survey.built_year < GRADED_SINCE
        grade = OLD_GRADE_TAKEN if old else GRADE_TAKEN
        why = f", as the house is of {survey.built_year}" if old else ""
        taken.append(f"timber as class {grade}{why}")
    clear_mm = field.clear_spans_mm
    if not clear_mm:
        clear_mm = (field.length_mm,)
        taken.append(
            f"the span as {field.length_mm} mm, the whole length of the joists, which is the worst: measure "
            "from support to support"
        )
    if len(clear_mm) > 1:
        taken.append(
            "every joist as one length that runs on over the supports between: where two meet or lap there, "
            "enter the longest span by itself"
        )
    bearing_mm = field.bearing_mm
    if bearing_mm is None:
        bearing_mm = BEARING_TAKEN_MM
        taken.append(f"{bearing_mm} mm of bearing at each support")
    return grade, bearing_mm, clear_mm, tuple(taken)


def _plan_lines(zone: ZoneDesign) -> list[int]:
    """The lines that carry boards, on plan; a quarter turn counts them backwards."""
    sign = -1 if zone.turns and not zone.battens else 1
    return sorted(sign * line for line in zone.problem.joist_lines)


def _edges(outline: Polygon, axis: Axis) -> tuple[int, int]:
    left, low, right, high = bounds(outline)
    return (left, right) if axis is Axis.X else (low, high)


def _across(field: JoistField) -> Axis:
    return Axis.X if field.runs_along is Axis.Y else Axis.Y


def _lines_under(field: JoistField, zone: ZoneDesign) -> tuple[int, ...]:
    first, last = _edges(zone.finished_edge, _across(field))
    return tuple(line for line in field.centre_lines_mm if first <= line <= last)


def _carrying(under: tuple[int, ...], zone: ZoneDesign) -> tuple[int, ...]:
    """Battens lie on all joists; pedestals may stand on some only."""
    if zone.battens:
        return under
    on = set(_plan_lines(zone))
    return tuple(line for line in under if line in on) or under


def _widest_of_ceiling_mm(field: JoistField, under: Sequence[int]) -> Decimal:
    """Half of the way to the joist, or else the wall, at either side."""
    first, last = _edges(field.outline, _across(field))
    lines = field.centre_lines_mm
    around = [min(first, lines[0]), *lines, max(last, lines[-1])]
    at_line = {line: around[place + 2] - around[place] for place, line in enumerate(lines)}
    return Decimal(max(at_line[line] for line in under)) / 2


def _widest_of_deck_mm(field: JoistField, zone: ZoneDesign, carrying: Sequence[int]) -> Decimal:
    """Half of the way to the next joist that carries at either side; the outer ones carry the edge."""
    first, last = _edges(zone.finished_edge, _across(field))
    lines = field.centre_lines_mm
    to_outer = [
        [carrying[0] - line for line in lines if line < carrying[0]],
        [line - carrying[-1] for line in lines if line > carrying[-1]],
    ]
    low, high = (min(bays, default=None) for bays in to_outer)
    halves = [Decimal(b - a) / 2 for a, b in pairwise(carrying)]
    befores = [_edge_mm(zone, carrying[0] - first, low), *halves]
    afters = [*halves, _edge_mm(zone, last - carrying[-1], high)]
    return max(before + after for before, after in zip(befores, afters, strict=True))


def _edge_mm(zone: ZoneDesign, beyond_mm: int, bay_mm: int | None) -> Decimal:
    """What an outer joist carries of the deck beyond it: by the lever where an edge bearer shares it."""
    if zone.battens or bay_mm is None or beyond_mm <= zone.problem.rules.max_overhang_mm:
        return Decimal(beyond_mm)
    return Decimal(beyond_mm) - Decimal(beyond_mm**2) / (2 * bay_mm)


def _free_stretch_mm(field: JoistField, zone: ZoneDesign) -> int:
    """Between supports of the deck a joist's top is free, and from the deck's edge to its own end."""
    low, high = _edges(field.outline, field.runs_along)
    first, last = _edges(zone.finished_edge, field.runs_along)
    if zone.battens:
        lines = zone.problem.joist_lines
        between = max((b - a for a, b in pairwise(lines)), default=last - first)
    else:
        between = zone.problem.pedestals.max_spacing_mm
    return max(between, first - low, high - last)


def _kcrit(joist: Joist, held_mm: int) -> float:
    timber = timber_of_grade(joist.grade)
    length = effective_length_mm(held_mm, joist.section.depth_mm, LoadShape.EVEN)
    critical = critical_stress_n_mm2(joist.section, timber.modulus_fifth, length)
    return rolling_factor(timber.bending, critical)
