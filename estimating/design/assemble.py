"""The design put together: its zones, its insulation, and the figures that hold for all of it."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal

from estimating.design.areas import open_loft_area_m2
from estimating.design.design import Design, InsulationDesign, ZoneDesign
from estimating.design.insulation import finished_depth_mm
from estimating.price_book import Board
from estimating.survey import Survey
from estimating.working import ARITHMETIC, Figure, Working, from_price_book, measured, worked_out


def assemble(
    survey: Survey, zones: Sequence[ZoneDesign], board: Board, insulation: InsulationDesign
) -> Design:
    """Put the zones and the insulation together and give the figures that hold for the whole deck.

    Args:
        survey: The loft as measured. Record. [mm]
        zones: The zones designed. Sequence. [mm]
        board: The board they are laid with. Record. [mm]
        insulation: The insulation designed. Record. [mm]

    Returns:
        The design. Record. [mm]

    Source:
        Geometry.
    """
    area = sum((zone.deck_area_m2.value for zone in zones), Decimal("0.00"))
    areas = tuple(worked_out(zone.deck_area_m2) for zone in zones)
    return Design(
        zones=tuple(zones),
        insulation=insulation,
        deck_area_m2=Figure("deck area", area, "m²", Working("sum of the zones", areas, ARITHMETIC)),
        open_area_m2=open_loft_area_m2(survey),
        deck_top_above_joist_mm=_deck_top(zones, board),
        gap_above_insulation_mm=_least_gap(survey, zones, insulation),
    )


def _deck_top(zones: Sequence[ZoneDesign], board: Board) -> Figure[int]:
    highest = max((zone.support_height_mm for zone in zones), key=lambda height: height.value)
    inputs = (worked_out(highest), from_price_book("board thickness", board.thickness_mm, "mm"))
    working = Working(f"{highest.name} + board thickness", inputs, ARITHMETIC)
    return Figure("deck top above joists", highest.value + board.thickness_mm, "mm", working)


def _least_gap(survey: Survey, zones: Sequence[ZoneDesign], insulation: InsulationDesign) -> Figure[int]:
    gaps = [_gap(survey, zone, insulation) for zone in zones]
    return min(gaps, key=lambda gap: gap.value)


def _gap(survey: Survey, zone: ZoneDesign, insulation: InsulationDesign) -> Figure[int]:
    depth = survey.joist_field(zone.joist_field).depth_mm
    finished = finished_depth_mm(survey, insulation.layers, depth)
    height = zone.support_height_mm
    inputs = (measured("joist depth", depth, "mm"), worked_out(height), worked_out(finished))
    working = Working(f"joist depth + {height.name} − finished insulation", inputs, ARITHMETIC)
    return Figure("gap above the insulation", depth + height.value - finished.value, "mm", working)
