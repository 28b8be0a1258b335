"""The boards of a deck counted, length by length, and the fewest that any layout of it could need."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from decimal import Decimal
from fractions import Fraction
from math import ceil

from estimating.amounts import to_penny
from estimating.design.deck import DesignedDeck
from estimating.design.ready_deck import ReadyDeck
from estimating.price_book import Board, Role
from estimating.quantities.mixed_packs import mixed_packs
from estimating.quantities.pack_mix import cheapest_mix
from estimating.quantities.quantities import TakeOffLine
from estimating.working import (
    ARITHMETIC,
    Figure,
    Given,
    Origin,
    Working,
    from_price_book,
    worked_out,
)

_ROUNDING_MM2 = 10_000  # areas are told to a hundredth of a square metre
AlikeByCode = Mapping[str, Sequence[Board]]
"""The products that are the same board, by the code that the layout knows them by."""


def boards_to_buy(deck: DesignedDeck, alike: AlikeByCode) -> list[TakeOffLine]:
    """Count the boards that are bought for a deck, in the packs that cost least.

    Args:
        deck: The deck designed. Record. [mm]
        alike: What each board is sold as. Mapping. [-]

    Returns:
        The lines, those of each length together. List of records. [count]

    Source:
        Counted from the layout.
    """
    if len(alike) == 1:
        return mixed_packs(Role.BOARD, next(iter(alike.values())), _boards_by_zone(deck))
    return [
        line
        for code, products in alike.items()
        for line in mixed_packs(Role.BOARD, products, _boards_of(deck, code, products[0]))
    ]


def least_cost_of_boards(ready: ReadyDeck, alike: AlikeByCode) -> Figure[Decimal]:
    """Give a cost that no layout's boards stay under: those that the area alone would take.

    What is at hand is taken to cover as much as it can. Boards of one length are counted whole and in whole
    packs. Of two lengths the one that covers most for its price is taken for all.

    Args:
        ready: The deck before it is laid. Record. [mm]
        alike: What each board is sold as. Mapping. [-]

    Returns:
        The cost. Scalar. [GBP]

    Source:
        Arithmetic.
    """
    zones = ready.designs
    area_mm2 = sum(int(zone.deck_area_m2.value * 1_000_000) - _ROUNDING_MM2 for zone in zones)
    width = ready.zones[0].problem.product.cover_width_mm
    at_hand_mm2 = sum(
        each.at_hand * _covers_at_most_mm2(ready, each.cover_length_mm, width)
        for each in ready.task.sources
        if each.at_hand
    )
    area_mm2 = max(0, area_mm2 - at_hand_mm2)
    given: tuple[Given, ...] = tuple(worked_out(zone.deck_area_m2) for zone in zones)
    if at_hand_mm2:
        given += (Given("boards at hand", Decimal(at_hand_mm2) / 1_000_000, "m²", Origin.WORKED_OUT),)
    if len(alike) == 1:
        (products,) = alike.values()
        covers = _covers_at_most_mm2(ready, products[0].cover_length_mm, width)
        fewest = ceil(Fraction(area_mm2, covers))
        shares = cheapest_mix(products, fewest)
        cost = sum((-(-share // pack.pack_size) * pack.pack_cost for pack, share in shares), Decimal(0))
        given += (Given("boards for the area", fewest, "", Origin.WORKED_OUT),)
        working = Working("area / what one board covers at most, in whole packs", given, ARITHMETIC)
        return Figure("least cost of the boards", cost, "GBP", working)
    per_mm2 = {
        code: min(Fraction(each.pack_cost) / each.pack_size for each in products)
        / _covers_at_most_mm2(ready, products[0].cover_length_mm, width)
        for code, products in alike.items()
    }
    least = area_mm2 * min(per_mm2.values())
    given += tuple(
        from_price_book(f"{products[0].description}, pack", products[0].pack_cost, "GBP")
        for products in alike.values()
    )
    working = Working("area × the price of the board that covers most for it", given, ARITHMETIC)
    cost = to_penny(Decimal(least.numerator) / Decimal(least.denominator)) - Decimal("0.01")
    return Figure("least cost of the boards", max(cost, Decimal(0)), "GBP", working)


def _covers_at_most_mm2(ready: ReadyDeck, length_mm: int, width_mm: int) -> int:
    """What one board covers when every piece of it is cut as short as the gap allows."""
    rules = ready.zones[0].problem.rules
    gap, kerf = rules.gap_tolerance_mm, rules.kerf_mm
    pieces = length_mm // (rules.min_piece_mm - gap) + 1
    return (length_mm + max(gap, kerf) + pieces * max(0, gap - kerf)) * width_mm


def _boards_by_zone(deck: DesignedDeck) -> Figure[int]:
    counts = [(zone.zone, zone.layout.boards if zone.layout else 0) for zone in deck.zones]
    formula = "counted from the design, each in the zone that is the first to cut it, and added up"
    return _counted("boards", formula, [(f"zone {name}", count) for name, count in counts])


def _boards_of(deck: DesignedDeck, code: str, board: Board) -> Figure[int]:
    opened = sum(each.bought and each.code == code for each in deck.cuts)
    formula = "boards of this length on the cutting list, all zones together"
    return _counted(
        f"boards {board.cover_length_mm} mm long", formula, [("boards bought of this length", opened)]
    )


def _counted(name: str, formula: str, counts: Iterable[tuple[str, int]]) -> Figure[int]:
    inputs = tuple(Given(what, count, "", Origin.WORKED_OUT) for what, count in counts)
    return Figure(name, sum(int(each.value) for each in inputs), "", Working(formula, inputs, ARITHMETIC))
