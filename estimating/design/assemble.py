"""The design put together: its zones, its insulation, and the figures that hold for all of it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from decimal import Decimal

from estimating.choices import Choices
from estimating.design.areas import open_loft_area_m2
from estimating.design.deck import DesignedDeck
from estimating.design.design import Design, InsulationDesign, ZoneDesign
from estimating.design.insulation import as_it_lies, finished_depth_mm, reaches_target
from estimating.price_book import Batten, Board, PriceBook
from estimating.survey import Survey
from estimating.working import ARITHMETIC, Figure, Working, from_price_book, measured, worked_out


def assemble(
    survey: Survey,
    price_book: PriceBook,
    choices: Choices,
    deck: DesignedDeck,
    insulation: InsulationDesign,
) -> Design:
    """Put the zones and the insulation together and give the figures that hold for the whole deck.

    Args:
        survey: The loft as measured. Record. [mm]
        price_book: The board, the battens and the rolls. Record. [mm]
        choices: The target. Record. [W/m2K]
        deck: The zones designed, all with one board, and how it is sawn. Record. [mm]
        insulation: The insulation designed. Record. [mm]

    Returns:
        The design. Record. [mm]

    Source:
        Geometry; the target as in checks.ceiling.
    """
    zones = deck.zones
    lying = as_it_lies(survey, insulation.layers, price_book)
    battens = batten_fraction(zones, price_book)
    meets_target = reaches_target(survey, choices, lying, battens)
    insulation = replace(insulation, meets_target=meets_target)
    board = next(each for each in price_book.of_kind(Board) if each.code == zones[0].board_code)
    area = sum((zone.deck_area_m2.value for zone in zones), Decimal("0.00"))
    areas = tuple(worked_out(zone.deck_area_m2) for zone in zones)
    return Design(
        zones=zones,
        cuts=deck.cuts,
        insulation=insulation,
        deck_area_m2=Figure("deck area", area, "m²", Working("sum of the zones", areas, ARITHMETIC)),
        open_area_m2=open_loft_area_m2(survey),
        deck_top_above_joist_mm=_deck_top(zones, board),
        gap_above_insulation_mm=_least_gap(survey, zones, insulation),
    )


def batten_fraction(zones: Sequence[ZoneDesign], price_book: PriceBook) -> Decimal:
    """Give the share of the deck's area that battens take up, where they lie closest.

    Args:
        zones: The zones designed. Sequence. [mm]
        price_book: The battens. Record. [mm]

    Returns:
        The fraction, 0 on pedestals. Scalar. [-]

    Source:
        BR 443 (2019) 4.5: width / centres.
    """
    widths = {batten.code: batten.width_mm for batten in price_book.of_kind(Batten)}
    fractions = [Decimal(0)]
    for zone in zones:
        lines = zone.problem.joist_lines
        if zone.battens and len(lines) > 1:
            centres = Decimal(lines[-1] - lines[0]) / (len(lines) - 1)
            fractions.append((widths[zone.support_code] / centres).quantize(Decimal("0.0001")))
    return max(fractions)


def _deck_top(zones: Sequence[ZoneDesign], board: Board) -> Figure[int]:
    highest = max((zone.support_height_mm for zone in zones), key=lambda height: height.value)
    inputs = (worked_out(highest), from_price_book("board thickness", board.thickness_mm, "mm"))
    working = Working(f"{highest.name} + board thickness", inputs, ARITHMETIC)
    return Figure("deck top above joists", highest.value + board.thickness_mm, "mm", working)


def _least_gap(survey: Survey, zones: Sequence[ZoneDesign], insulation: InsulationDesign) -> Figure[int]:
    gaps = [_gap(survey, zone, insulation) for zone in zones]
    return min(gaps, key=lambda gap: gap.value)


def _gap(survey: Survey, zone: ZoneDesign, insulation: InsulationDesign) -> Figure[int]:
    """Where the tops of joists differ the insulation is taken to rise with the highest under the zone."""
    joists = survey.joist_field(zone.joist_field)
    finished, height = finished_depth_mm(survey, insulation.layers, joists.depth_mm), zone.support_height_mm
    inputs = [measured("joist depth", joists.depth_mm, "mm"), worked_out(height), worked_out(finished)]
    gap, formula = (
        joists.depth_mm + height.value - finished.value,
        f"joist depth + {height.name} − finished insulation",
    )
    if joists.top_offsets_mm:
        highest = max(joists.top_offsets_mm[each.joist - 1] for each in zone.setting_out)
        gap, formula = gap - highest, f"{formula} − highest joist top against joist 1"
        inputs.append(measured("highest joist top against joist 1", highest, "mm"))
    return Figure("gap above the insulation", gap, "mm", Working(formula, tuple(inputs), ARITHMETIC))
