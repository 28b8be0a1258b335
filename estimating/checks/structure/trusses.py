"""Trussed rafters: designed for light storage at most, and never cut."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal
from itertools import pairwise

from estimating.checks.structure.dead_load import dead_load
from estimating.checks.structure.rounded_figures import sized
from estimating.checks.structure.truss_figures import tank_node_load_kn, widest_opening_mm
from estimating.checks.structure.truss_record import TrussCheck
from estimating.checks.structure.weights import kilograms_on
from estimating.checks.verdicts import Verdict
from estimating.design.design import Design
from estimating.plane import bounds, overlap_area_mm2
from estimating.price_book import Board, PriceBook
from estimating.published.loads import GRAVITY_M_S2
from estimating.published.truss_rules import (
    GREATEST_NODE_LOAD_KN,
    NEVER_CUT_SOURCE,
    OPENING_SOURCE,
    STORAGE_KN_M2,
    STORAGE_SOURCE,
    TANK_SOURCE,
)
from estimating.survey import Axis, KeepOut, KeepOutKind, RoofKind, Severity, Survey
from estimating.working import Figure, Working, measured, published, worked_out

SUBJECT = "trussed rafters"
STEP_KG_M2 = 5


def truss_check(survey: Survey, price_book: PriceBook, design: Design, board: Board) -> TrussCheck | None:
    """Work out what is left of the storage that trussed rafters are usually meant for.

    Args:
        survey: The loft as measured. Record. [mm]
        price_book: What boards, supports and rolls weigh. Record. [kg]
        design: The deck and the insulation. Record. [mm]
        board: The board it is laid with. Record. [kg]

    Returns:
        The figures; None for a cut roof. Record. [-]

    Source:
        BS 5268-3:2006 6.4, from memory; BS 5268-3 7.5 and 7.6, second hand.
    """
    if survey.roof.kind is not RoofKind.TRUSSED:
        return None
    used = max(
        (_used(survey, price_book, design, number, board) for number in range(len(design.zones))),
        key=lambda figure: figure.value,
    )
    return TrussCheck(
        storage_kg_m2=_storage_left(used),
        used_by_the_work_kn_m2=used,
        widest_opening_mm=_widest_opening(survey),
        tanks_kn=tuple(
            _tank_load(tank) for tank in _tanks(survey) if tank.litres and tank.carried_by_trusses
        ),
    )


def truss_verdicts(survey: Survey, check: TrussCheck | None) -> Iterator[Verdict]:
    """Caution about what a trussed roof may carry, its tanks, and a hatch that lies across its ties.

    Args:
        survey: The loft as measured. Record. [-]
        check: The figures, None for a cut roof. Record. [-]

    Returns:
        The verdicts, none for a cut roof. Iterator. [-]

    Source:
        BS 5268-3:2006 6.4, from memory; C. Mindham, Roof Construction and Loft Conversion.
    """
    if check is None:
        return
    yield _storage_verdict(check)
    widest = check.widest_opening_mm
    yield Verdict(
        subject=SUBJECT,
        severity=Severity.CAUTION,
        words=(
            "Never cut, notch or drill a trussed rafter. A new hatch goes between trusses; an opening of "
            f"more than {widest.value} mm clear is for the truss designer."
        ),
        source=NEVER_CUT_SOURCE,
        figure=widest,
    )
    yield from _tank_verdicts(survey)
    for line_mm in _ties_in_the_hatch_mm(survey):
        yield Verdict(
            subject=SUBJECT,
            severity=Severity.CAUTION,
            words=(
                f"The hatch as measured lies across the tie at {line_mm} mm: measure both again. Where a "
                "trussed rafter was cut, ask the truss designer or a structural engineer before any work."
            ),
            source=NEVER_CUT_SOURCE,
        )


def _storage_verdict(check: TrussCheck) -> Verdict:
    left = check.storage_kg_m2.value
    usual = (
        "Trussed rafters are usually designed for light storage of 25 kg on each square metre, deck and "
        "added insulation included"
    )
    if left:
        words = (
            f"{usual}: of that about {left} kg is left for what you store. Ask the truss designer before "
            "this deck is laid, or more is stored."
        )
    else:
        words = f"{usual}, which use it up: ask the truss designer before any deck is laid."
    return Verdict(
        subject=SUBJECT,
        severity=Severity.CAUTION,
        words=words,
        source=STORAGE_SOURCE,
        figure=check.storage_kg_m2,
    )


def _tank_verdicts(survey: Survey) -> Iterator[Verdict]:
    for tank in _tanks(survey):
        if not tank.litres or not tank.carried_by_trusses:
            words = f"{tank.name.capitalize()}: measure its litres and how many trusses carry it."
            yield Verdict(subject=SUBJECT, severity=Severity.CAUTION, words=words, source=TANK_SOURCE)
            continue
        load = _tank_load(tank)
        tank_words = f"{tank.name.capitalize()}, {tank.litres} litres on {tank.carried_by_trusses} trusses"
        told = f"{tank_words}: {load.value} kN"
        if load.value <= Decimal(str(GREATEST_NODE_LOAD_KN)):
            severity = Severity.NOTE
            words = f"{told} on each node of a tie, within the table ({GREATEST_NODE_LOAD_KN} kN)."
        else:
            severity = Severity.CAUTION
            words = (
                f"{told} on each node of a tie, outside the table ({GREATEST_NODE_LOAD_KN} kN): ask the "
                "truss designer before anything is added."
            )
        yield Verdict(subject=SUBJECT, severity=severity, words=words, source=TANK_SOURCE, figure=load)


def _tanks(survey: Survey) -> Iterator[KeepOut]:
    return (each for each in survey.keep_outs if each.kind is KeepOutKind.TANK)


def _used(survey: Survey, price_book: PriceBook, design: Design, zone: int, board: Board) -> Figure[Decimal]:
    load = dead_load(survey, price_book, design, design.zones[zone], board)
    parts = (load.insulation_added, load.boards, load.supports)
    total = sum((part.value for part in parts), Decimal(0))
    working = Working(
        " + ".join(part.name for part in parts), tuple(worked_out(part) for part in parts), "arithmetic"
    )
    return Figure("used by deck and added insulation", total, "kN/m²", working)


def _storage_left(used: Figure[Decimal]) -> Figure[int]:
    left = max(0.0, kilograms_on(1, max(0.0, STORAGE_KN_M2 - float(used.value))))
    working = Working(
        "(usual allowance − used by deck and added insulation) × 1000 / gravity, rounded down to 5 kg",
        (
            published("usual allowance", Decimal(str(STORAGE_KN_M2)), "kN/m²"),
            worked_out(used),
            published("gravity", Decimal(str(GRAVITY_M_S2)), "m/s²"),
        ),
        STORAGE_SOURCE,
    )
    return Figure("storage left on the ties", int(left // STEP_KG_M2) * STEP_KG_M2, "kg/m²", working)


def _widest_opening(survey: Survey) -> Figure[int]:
    field = survey.joist_fields[0]
    centres = min(after - before for before, after in pairwise(field.centre_lines_mm))
    working = Working(
        "2 × least centres − 2 × thickness of a truss",
        (measured("least centres", centres, "mm"), measured("thickness of a truss", field.width_mm, "mm")),
        OPENING_SOURCE,
    )
    widest = int(widest_opening_mm(centres, field.width_mm))
    return Figure("widest clear opening between trusses", widest, "mm", working)


def _tank_load(tank: KeepOut) -> Figure[Decimal]:
    litres, trusses = tank.litres or 0, tank.carried_by_trusses or 0
    working = Working(
        "litres × gravity / 1000 / (2 × trusses)",
        (
            measured("litres", litres, "l"),
            published("gravity", Decimal(str(GRAVITY_M_S2)), "m/s²"),
            measured("trusses", trusses),
        ),
        TANK_SOURCE,
    )
    return sized(f"{tank.name} on each node", tank_node_load_kn(litres, trusses), "kN", working, places=2)


def _ties_in_the_hatch_mm(survey: Survey) -> Iterator[int]:
    left, low, right, high = bounds(survey.hatch.outline)
    for field in survey.joist_fields:
        if overlap_area_mm2(field.outline, survey.hatch.outline):
            first, last = (left, right) if field.runs_along is Axis.Y else (low, high)
            yield from (line for line in field.centre_lines_mm if first < line < last)
