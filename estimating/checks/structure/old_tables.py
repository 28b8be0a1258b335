"""Whether ceiling joists lie inside the old span tables, as builders know them."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from decimal import Decimal
from math import floor

from estimating.checks.structure.dead_load import dead_load
from estimating.checks.structure.joist_in_loft import JoistInLoft, joist_in_loft
from estimating.checks.structure.old_spans import TableJoist, ceiling_joist_span_mm, floor_joist_span_mm
from estimating.checks.structure.old_table_record import OldTable
from estimating.checks.structure.section import Section
from estimating.checks.structure.weights import table_band_kn_m2
from estimating.checks.verdicts import Verdict
from estimating.design.design import Design
from estimating.price_book import Board, PriceBook
from estimating.published.permissible_stresses import PERMISSIBLE_STRESSES, SOURCE
from estimating.survey import RoofKind, Severity, Survey
from estimating.working import Figure, Given, Working, default, measured, published, worked_out

CLASS_OF_GRADE = {"C24": "SC4", "C27": "SC4", "C30": "SC4"}
WEAKEST = "SC3"
"""Classes below C24, and joists of no known class, are read as SC3, the weaker table; common practice, no
source."""
NOT_LISTED = frozenset({"C14"})
"""Weaker than SC3, which matches C16."""


def old_tables(survey: Survey, price_book: PriceBook, design: Design, board: Board) -> tuple[OldTable, ...]:
    """Read the old tables for the joists of every field that carries deck, under the zone that loads it most.

    Args:
        survey: The loft as measured. Record. [mm]
        price_book: What boards, supports and rolls weigh. Record. [kg]
        design: The deck and the insulation. Record. [mm]
        board: The board it is laid with. Record. [kg]

    Returns:
        A record for each joist field, none for trussed rafters. Tuple. [mm]

    Source:
        Permissible stress after BS 5268-2, behind Approved Document A (1992) Tables A1 to A4.
    """
    if survey.roof.kind is RoofKind.TRUSSED:
        return ()
    found: dict[str, OldTable] = {}
    for zone in design.zones:
        joist = joist_in_loft(survey, zone)
        if joist is not None:
            load = dead_load(survey, price_book, design, zone, board)
            read = _read(joist, _in_all((load.under_the_deck, load.of_the_deck)))
            before = found.get(zone.joist_field)
            if before is None or read.as_ceiling_mm.value < before.as_ceiling_mm.value:
                found[zone.joist_field] = read
    return tuple(found.values())


def old_table_verdicts(tables: Iterable[OldTable]) -> Iterator[Verdict]:
    """Say whether joists are inside or outside the old table, and that a ceiling is not a floor.

    Args:
        tables: The tables read. Sequence. [mm]

    Returns:
        A verdict for each joist field. Iterator. [-]

    Source:
        Permissible stress after BS 5268-2, behind Approved Document A (1992) Tables A1 to A4.
    """
    for each in tables:
        span, most = each.clear_span_mm.value, each.as_ceiling_mm.value
        taken = f", read as {each.strength_class} because no class is known" if each.class_taken else ""
        joists = f"Ceiling joists ({each.joist_field}){taken}: they span {span} mm"
        if each.below_the_tables:
            severity = Severity.CAUTION
            words = (
                f"{joists}, and are of a class weaker than any in the old tables, which would allow "
                f"{most} mm of {each.strength_class}: go by the check by Eurocode 5, or ask a structural "
                "engineer."
            )
        elif each.is_inside:
            severity = Severity.NOTE
            words = f"{joists}, inside the old table for ceiling joists under light storage ({most} mm)."
        else:
            severity = Severity.CAUTION
            words = (
                f"{joists}, outside the old table for ceiling joists under light storage ({most} mm): ask a "
                "structural engineer."
            )
        floor_words = "inside" if each.would_be_floor else "outside"
        words += f" As a floor they would be {floor_words} the table ({each.as_floor_mm.value} mm)."
        still = "It is still a ceiling, for light storage only." if each.would_be_floor else "It is no floor."
        words += f" {still}"
        yield Verdict(
            subject="old span table", severity=severity, words=words, source=SOURCE, figure=each.as_ceiling_mm
        )


def _read(found: JoistInLoft, dead: Figure[Decimal]) -> OldTable:
    field = found.field
    strength = CLASS_OF_GRADE.get(field.grade or "", WEAKEST)
    column = _column(dead)
    joist = TableJoist(
        Section(field.width_mm, field.depth_mm), float(found.width_mm), float(column.value), strength
    )
    given = measured if field.clear_spans_mm else default
    longest = max(found.clear_spans_mm)
    return OldTable(
        joist_field=field.name,
        strength_class=strength,
        class_taken=field.grade is None,
        clear_span_mm=Figure(
            "clear span of the joists",
            longest,
            "mm",
            Working(
                "the longest clear span from support to support",
                (given("longest clear span", longest, "mm"),),
                "survey; where it was not measured, the whole length of the joists",
            ),
        ),
        dead_load_kn_m2=dead,
        as_ceiling_mm=_largest(
            "largest clear span as a ceiling joist",
            ceiling_joist_span_mm(joist),
            _given(found, column, strength),
            "light storage of 0.25 kN/m², and a person of 0.9 kN at midspan for a short time",
        ),
        as_floor_mm=_largest(
            "largest clear span as a floor joist",
            floor_joist_span_mm(joist),
            _given(found, column, strength),
            "1.5 kN/m² of a floor, or 3.6 kN on each metre width of a short one",
        ),
        column_kn_m2=column,
        below_the_tables=field.grade in NOT_LISTED,
    )


def _column(dead: Figure[Decimal]) -> Figure[Decimal]:
    """The load that the tables are read at, since a builder reads a column and not a load between two."""
    column = max(dead.value, Decimal(str(table_band_kn_m2(float(dead.value)))))
    formula = "the first of 0.25 and 0.50 kN/m² that is not less than the dead load; the dead load beyond"
    return Figure("column of the table", column, "kN/m²", Working(formula, (worked_out(dead),), SOURCE))


def _largest(name: str, span_mm: float, given: tuple[Given, ...], loads: str) -> Figure[int]:
    formula = (
        "the greatest span at which bending, shear and deflection (0.003 of the span) are within what "
        f"is permitted, under the column of the table, the joist itself and {loads}; by depth, width and "
        "strip of ceiling"
    )
    return Figure(name, floor(span_mm), "mm", Working(formula, given, SOURCE))


def _given(found: JoistInLoft, column: Figure[Decimal], strength: str) -> tuple[Given, ...]:
    stresses = PERMISSIBLE_STRESSES[strength]
    return (
        measured("depth", found.field.depth_mm, "mm"),
        measured("width", found.field.width_mm, "mm"),
        measured("strip of ceiling", found.width_mm, "mm"),
        worked_out(column),
        published(f"permissible bending of {strength}", stresses.bending, "N/mm²"),
        published(f"permissible shear of {strength}", stresses.shear, "N/mm²"),
        published(f"modulus of {strength}", stresses.modulus_mean, "N/mm²"),
    )


def _in_all(parts: tuple[Figure[Decimal], ...]) -> Figure[Decimal]:
    total = sum((part.value for part in parts), Decimal(0))
    formula = " + ".join(part.name for part in parts)
    working = Working(formula, tuple(worked_out(part) for part in parts), "arithmetic")
    return Figure("dead load", total, "kN/m²", working)
