"""Which hatch and which ladder: they must suit each other, the joists and the height below."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from estimating.choices import Choices, Part
from estimating.price_book import HatchSet, Ladder, PriceBook
from estimating.published.access import LEAST_CLEAR_OPENING_MM
from estimating.refusals import Refusal
from estimating.survey import RoofKind, Survey


@dataclass(frozen=True, slots=True)
class Opening:
    """The hatch and ladder to buy, if they are offered, and the clear opening there will be."""

    hatch: HatchSet | None
    ladder: Ladder | None
    sides_mm: tuple[int, int]


def choose_opening(survey: Survey, price_book: PriceBook, choices: Choices) -> Opening:
    """Choose the cheapest hatch and ladder that serve together.

    A new hatch gives at least the clear opening asked for in new homes and, in a trussed roof, goes between
    trusses. A ladder must reach the floor and pass through the opening there will be.

    Args:
        survey: The hatch there is, the height below it and the roof. Record. [mm]
        price_book: The hatches and ladders. Record. [mm]
        choices: Whether hatch and ladder are offered. Record. [-]

    Returns:
        What to buy, and the clear opening. Record. [mm]

    Raises:
        Refusal: Nothing in the book serves.

    Source:
        At least 520 mm each way: NHBC Standards 2020 7.2.12; never cut a truss: C. Mindham, Roof
        Construction and Loft Conversion.
    """
    hatches: list[HatchSet | None] = [None]
    if Part.HATCH in choices.parts:
        hatches = [hatch for hatch in price_book.of_kind(HatchSet) if _may_be_cut(hatch, survey)]
        if not hatches:
            least = f"{LEAST_CLEAR_OPENING_MM} mm"
            wanted = f"needs a hatch at least {least} clear each way that fits between the joists"
            raise Refusal("price_book.products", wanted)
    ladders: list[Ladder | None] = [None]
    if Part.LADDER in choices.parts:
        height = survey.hatch.floor_to_ceiling_mm
        ladders = [each for each in price_book.of_kind(Ladder) if each.greatest_height_mm >= height]
    pairs = [(h, ladder) for h in hatches for ladder in ladders if _serves(ladder, _sides(h, survey))]
    if not pairs:
        raise Refusal("choices.parts", _no_ladder(survey, choices))
    hatch, ladder = min(pairs, key=lambda pair: sum((each.pack_cost for each in pair if each), Decimal(0)))
    return Opening(hatch, ladder, _sides(hatch, survey))


def _may_be_cut(hatch: HatchSet, survey: Survey) -> bool:
    least = min(hatch.clear_length_mm, hatch.clear_width_mm)
    if least < LEAST_CLEAR_OPENING_MM:
        return False
    clear = max(max(each.centres_mm) - each.width_mm for each in survey.joist_fields)
    return survey.roof.kind is RoofKind.CUT or least <= clear


def _sides(hatch: HatchSet | None, survey: Survey) -> tuple[int, int]:
    return (hatch.clear_length_mm, hatch.clear_width_mm) if hatch else survey.hatch.clear_sides_mm


def _serves(ladder: Ladder | None, sides: tuple[int, int]) -> bool:
    return ladder is None or passes_through(ladder, sides)


def passes_through(ladder: Ladder, sides_mm: tuple[int, int]) -> bool:
    """Tell whether a ladder folds through an opening.

    Args:
        ladder: The least opening that it needs. Record. [mm]
        sides_mm: The clear sides of the opening, in any order. Pair. [mm]

    Returns:
        Whether it does. Flag. [-]

    Source:
        Geometry.
    """
    needed = sorted((ladder.least_opening_length_mm, ladder.least_opening_width_mm))
    return all(want <= side for want, side in zip(needed, sorted(sides_mm), strict=True))


def _no_ladder(survey: Survey, choices: Choices) -> str:
    height = survey.hatch.floor_to_ceiling_mm
    if Part.HATCH in choices.parts:
        return f"hold a ladder, and none in the price book serves {height} mm through any hatch in it"
    long, short = sorted(survey.hatch.clear_sides_mm, reverse=True)
    return (
        f"hold a ladder, and none in the price book serves {height} mm through an opening of {long} × "
        f"{short} mm: offer a new hatch too, or leave the ladder out"
    )
