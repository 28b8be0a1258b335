"""What lies on the ceiling joists for good: the ceiling, the insulation found and added, and the deck."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal

from estimating.checks.structure.deck_weight import GRAVITY, boards_load, supports_load
from estimating.checks.structure.rounded_figures import Sized, sized
from estimating.checks.structure.weights import layer_kn_m2
from estimating.design.design import Design, InsulationLayer, ZoneDesign
from estimating.price_book import Board, InsulationRoll, PriceBook
from estimating.published.loads import (
    CEILING_BOARD_MM,
    CEILING_KN_M2,
    DENSITY_SOURCE,
    GRAVITY_M_S2,
    INSULATION_KG_M3,
    PLASTERBOARD_KG_M3,
)
from estimating.survey import Survey
from estimating.working import (
    COMMON_PRACTICE,
    Figure,
    Working,
    chosen,
    default,
    from_price_book,
    measured,
    published,
    worked_out,
)


@dataclass(frozen=True, slots=True)
class DeadLoad:
    """Loads on each square metre: those that every joist carries, and the deck on those that it stands on."""

    ceiling: Sized
    insulation_found: Sized
    insulation_added: Sized
    boards: Sized
    supports: Sized

    @property
    def under_the_deck(self) -> Sized:
        """What hangs from and lies between all joists."""
        return _sum("ceiling and insulation", (self.ceiling, self.insulation_found, self.insulation_added))

    @property
    def of_the_deck(self) -> Sized:
        """What stands on the joists that carry the deck."""
        return _sum("deck", (self.boards, self.supports))

    @property
    def parts(self) -> tuple[Sized, ...]:
        """Every part by itself, then the two sums."""
        return (
            self.ceiling, self.insulation_found, self.insulation_added, self.boards, self.supports,
            self.under_the_deck, self.of_the_deck,
        )  # fmt: skip


def dead_load(
    survey: Survey, price_book: PriceBook, design: Design, zone: ZoneDesign, board: Board
) -> DeadLoad:
    """Weigh what lies on the joists under one zone.

    Args:
        survey: The ceiling and the insulation found. Record. [mm]
        price_book: What boards, supports and rolls weigh. Record. [kg]
        design: The insulation to be added. Record. [mm]
        zone: The zone of deck. Record. [mm]
        board: The board it is laid with. Record. [kg]

    Returns:
        Each load with its working. Record. [kN/m2]

    Source:
        Weights of the price book, else densities of published.loads.
    """
    return DeadLoad(
        ceiling=_ceiling(survey),
        insulation_found=_found(survey),
        insulation_added=_added(price_book, design.insulation.layers),
        boards=boards_load(board),
        supports=supports_load(price_book, zone),
    )


def _sum(name: str, parts: Sequence[Sized]) -> Sized:
    total = sum((part.value for part in parts), Decimal(0))
    formula = " + ".join(part.name for part in parts)
    return Figure(
        name, total, "kN/m²", Working(formula, tuple(worked_out(part) for part in parts), DENSITY_SOURCE)
    )


def _ceiling(survey: Survey) -> Sized:
    more_mm = float(survey.plasterboard_mm) - CEILING_BOARD_MM
    load = max(0.0, CEILING_KN_M2 + more_mm * PLASTERBOARD_KG_M3 * GRAVITY_M_S2 * 1e-6)
    inputs = (
        published("12.5 mm plasterboard with skim", CEILING_KN_M2, "kN/m²"),
        measured("plasterboard", survey.plasterboard_mm, "mm"),
        published("density of plasterboard", PLASTERBOARD_KG_M3, "kg/m³"),
        GRAVITY,
    )
    formula = (
        "12.5 mm plasterboard with skim + (plasterboard − 12.5 mm) × density of plasterboard × gravity / 10⁶"
    )
    return sized(
        "ceiling", load, "kN/m²", Working(formula, inputs, f"{COMMON_PRACTICE}; density: {DENSITY_SOURCE}")
    )


def _found(survey: Survey) -> Sized:
    there = survey.insulation
    if not there.depth_mm:
        none = (measured("depth found that stays", 0, "mm"),)
        return sized("insulation found", 0.0, "kN/m²", Working("0: none lies there", none, COMMON_PRACTICE))
    density = INSULATION_KG_M3[there.material]
    inputs = (
        measured("depth found", there.depth_mm, "mm"),
        default(f"density of {there.material}", density, "kg/m³"),
        GRAVITY,
    )
    formula = f"depth found × density of {there.material} × gravity / 10⁶"
    return sized(
        "insulation found",
        layer_kn_m2(there.depth_mm, density),
        "kN/m²",
        Working(formula, inputs, DENSITY_SOURCE),
    )


def _added(price_book: PriceBook, layers: Sequence[InsulationLayer]) -> Sized:
    rolls = {roll.code: roll for roll in price_book.of_kind(InsulationRoll)}
    load = 0.0
    terms, inputs = [], []
    for number, layer in enumerate(layers, start=1):
        roll = rolls[layer.roll_code]
        weight, covers = f"weight of roll {number}", f"area that roll {number} covers"
        if roll.weight_kg > 0:
            load += float(roll.weight_kg / roll.coverage_m2) * GRAVITY_M_S2 / 1000
            terms.append(f"{weight} / {covers} × gravity / 1000")
            inputs.append(from_price_book(f"{weight}, {roll.description}", roll.weight_kg, "kg"))
            inputs.append(from_price_book(covers, roll.coverage_m2, "m²"))
        else:
            density = INSULATION_KG_M3[roll.material]
            load += layer_kn_m2(roll.thickness_mm, density)
            terms.append(f"thickness of roll {number} × density of roll {number} × gravity / 10⁶")
            inputs.append(from_price_book(f"thickness of roll {number}", roll.thickness_mm, "mm"))
            inputs.append(default(f"density of roll {number}", density, "kg/m³"))
    formula = " + ".join(terms) or "0: none is added"
    given = (*inputs, GRAVITY) if terms else (chosen("layers added", 0),)
    return sized(
        "insulation added", load, "kN/m²", Working(formula, given, f"price book; else {DENSITY_SOURCE}")
    )
