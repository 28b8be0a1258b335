"""Every check of one design, the ones that stop the job first."""

from __future__ import annotations

from collections.abc import Iterator

from estimating.checks.access.carried_up import (
    carried_up,
    carried_up_verdicts,
    other_things,
    roll_verdicts,
)
from estimating.checks.access.headroom import headroom_mm, headroom_verdict
from estimating.checks.access.headroom_strip import headroom_strip, headroom_strip_verdicts
from estimating.checks.access.lifted import lifting_verdict
from estimating.checks.access.way_up import way_up
from estimating.checks.air.gap import gap_verdicts
from estimating.checks.air.ventilation import ventilation_of, ventilation_verdicts
from estimating.checks.cables import cable_verdicts
from estimating.checks.deck.boards_against_centres import board_verdicts, layout_verdicts
from estimating.checks.deck.boards_over_bays import boards_over_bays_verdicts
from estimating.checks.deck.edge_bearers import edge_bearer_verdicts
from estimating.checks.deck.end_joints import end_joint_verdicts
from estimating.checks.deck.joists_left_out import joists_left_out_verdicts
from estimating.checks.deck.levelling import levelling_verdicts
from estimating.checks.deck.zones_on_joists import zone_verdicts
from estimating.checks.findings import finding_verdicts, loft_verdicts
from estimating.checks.moisture.under_deck import moisture_under_deck
from estimating.checks.moisture.verdict import moisture_verdicts
from estimating.checks.structure.cuts_in_joists import cut_verdicts
from estimating.checks.structure.joist_figures import joist_checks
from estimating.checks.structure.joist_verdicts import joist_verdicts
from estimating.checks.structure.old_tables import old_table_verdicts, old_tables
from estimating.checks.structure.trusses import truss_check, truss_verdicts
from estimating.checks.verdicts import Checks, Verdict
from estimating.checks.warmth.energy_rating import energy_rating_verdicts
from estimating.checks.warmth.loft_heat import heat_of_loft, heat_verdicts
from estimating.choices import Choices
from estimating.design.design import Design
from estimating.design.insulation import as_it_lies
from estimating.price_book import Board, PriceBook
from estimating.survey import Severity, Survey

_ORDER = list(Severity)


def check(survey: Survey, price_book: PriceBook, choices: Choices, design: Design, board: Board) -> Checks:
    """Run every check on a design.

    Args:
        survey: The loft as measured, its findings among it. Record. [-]
        price_book: The insulation's conductivities. Record. [-]
        choices: The target and the gap. Record. [-]
        design: What is to be built. Record. [mm]
        board: The board it is built with. Record. [mm]

    Returns:
        Heat, headroom and the verdicts: stops, then cautions, then notes. Record. [-]

    Source:
        As each check names it.
    """
    headroom = headroom_mm(survey, design.deck_top_above_joist_mm)
    strip = headroom_strip(survey, design.deck_top_above_joist_mm, choices.least_headroom_mm)
    way = way_up(survey, price_book, choices)
    carried = carried_up(way, board)
    heat = heat_of_loft(survey, price_book, choices, design)
    joists = joist_checks(survey, price_book, design, board)
    tables = old_tables(survey, price_book, design, board)
    trusses = truss_check(survey, price_book, design, board)
    lying = as_it_lies(survey, design.insulation.layers, price_book)
    moisture = moisture_under_deck(survey, lying, board.thickness_mm)
    air = ventilation_of(survey)
    found = [
        *finding_verdicts(survey),
        *zone_verdicts(survey),
        *layout_verdicts(design.zones),
        *board_verdicts(design.zones, board),
        *boards_over_bays_verdicts(design.zones, board),
        *end_joint_verdicts(design.zones, board, price_book),
        *joists_left_out_verdicts(survey, design.zones),
        *cut_verdicts(survey),
        *joist_verdicts(survey, joists),
        *old_table_verdicts(tables),
        *gap_verdicts(design.zones, choices.gap_mm),
        *levelling_verdicts(survey, design.zones),
        *edge_bearer_verdicts(design.zones),
        headroom_verdict(headroom),
        *headroom_strip_verdicts(survey, strip, survey.zones, choices.least_headroom_mm),
        *truss_verdicts(survey, trusses),
        *loft_verdicts(survey, choices),
        *cable_verdicts(survey),
        *carried_up_verdicts(way, carried),
        *roll_verdicts(way, price_book, design.insulation.layers),
        lifting_verdict(board, other_things(way, price_book, design.insulation.layers), choices),
        *heat_verdicts(heat, choices, design),
        *energy_rating_verdicts(survey, design),
        *moisture_verdicts(moisture, design.gap_above_insulation_mm.value),
        *ventilation_verdicts(survey, air),
        *_step_verdicts(design),
    ]
    found.sort(key=lambda verdict: _ORDER.index(verdict.severity))
    return Checks(
        heat=heat,
        headroom_mm=headroom,
        verdicts=tuple(found),
        joists=joists,
        old_tables=tables,
        trusses=trusses,
        access=carried,
        headroom_strip=strip,
        moisture=moisture,
        ventilation=air,
    )


def _step_verdicts(design: Design) -> Iterator[Verdict]:
    heights = {zone.support_height_mm.value for zone in design.zones}
    if len(heights) > 1:
        words = " and ".join(f"{height} mm" for height in sorted(heights))
        yield Verdict(
            subject="deck",
            severity=Severity.NOTE,
            words=f"Zones stand on supports of different heights: {words}.",
            source="common practice, no source",
        )
