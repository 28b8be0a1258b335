"""How good the count of boards is: what no layout betters, what is left, what a rule of thumb would order."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from decimal import ROUND_CEILING, Decimal

from estimating.design.boards.cutting_list import offcuts_worth_keeping
from estimating.design.boards.layout import Bound, Certificate, Layout
from estimating.design.deck import DesignedDeck
from estimating.working import (
    ARITHMETIC,
    COMMON_PRACTICE,
    Figure,
    Given,
    Origin,
    Working,
    default,
    from_price_book,
    worked_out,
)

PERCENT_ADDED = 10
CERTIFICATE = "duality of linear programmes; the prices were added up again in whole numbers"
SEARCH = "every layout below it was searched for, and none was found"


@dataclass(frozen=True, slots=True, kw_only=True)
class BoardCount:
    """The boards of a deck and how good that is.

    `least` and `gap` are None until somebody has looked for a bound. They are in boards, or in GBP where
    boards of several lengths are bought, since a short one is not worth a long one.
    """

    boards: Figure[int]
    least: Figure[int] | Figure[Decimal] | None
    gap: Figure[int] | Figure[Decimal] | None
    waste_percent: Figure[Decimal]
    offcuts_kept: Figure[int]
    rule_of_thumb: Figure[int]

    @property
    def proved(self) -> bool:
        """Whether nothing better exists."""
        return self.gap is not None and self.gap.value == 0

    @property
    def in_boards(self) -> bool:
        """Whether the bound counts boards, and not what they cost."""
        return self.least is None or self.least.unit == ""


def board_count(deck: DesignedDeck) -> BoardCount | None:
    """Count the boards of a deck and say how good that is.

    Args:
        deck: All zones laid together, with the cutting list. Record. [mm]

    Returns:
        The count with every working, or None where some zone could not be laid. Record. [-]

    Source:
        The bound: as its working says. Area plus ten per cent: common practice, no source.
    """
    layouts = [zone for zone in deck.laid.zones if isinstance(zone, Layout)]
    if len(layouts) < len(deck.laid.zones):
        return None
    bought = [
        Given(f"zone {zone.zone}", layout.boards, "", Origin.WORKED_OUT)
        for zone, layout in zip(deck.zones, layouts, strict=True)
    ]
    formula = "boards bought, each in the zone that is the first to cut it, added up"
    boards = Figure("boards bought", deck.laid.boards, "", Working(formula, tuple(bought), ARITHMETIC))
    cost = boards if _counts_boards(deck) else _cost(deck)
    least = _least(deck, deck.laid.bound) if deck.laid.bound else None
    return BoardCount(
        boards=boards,
        least=least,
        gap=_gap(cost, least) if least else None,
        waste_percent=_waste_percent(deck),
        offcuts_kept=_offcuts_kept(deck),
        rule_of_thumb=_rule_of_thumb(deck),
    )


def _counts_boards(deck: DesignedDeck) -> bool:
    """Whether one length is on sale: the bound then counts boards, else pence. What is at hand is free."""
    return sum(source.at_hand is None for source in deck.task.sources) == 1


def _cost(deck: DesignedDeck) -> Figure[Decimal]:
    prices = tuple(
        from_price_book(
            f"{source.code}, {source.cover_length_mm} mm", Decimal(source.price_pence) / 100, "GBP"
        )
        for source in deck.task.sources
        if source.at_hand is None
    )
    working = Working("price of each board that is bought, added up", prices, ARITHMETIC)
    return Figure("cost of the boards", Decimal(deck.laid.cost) / 100, "GBP", working)


def _least(deck: DesignedDeck, bound: Bound) -> Figure[int] | Figure[Decimal]:
    """Every price goes into the working, so that the bound can be added up again from it alone."""
    formula = (
        "no board's pieces are together dearer than it is worth; every row laid the cheapest way at these "
        "prices, less what the joists' prices give back, over the worth, rounded up"
    )
    inputs, source = tuple(_prices(deck, bound.certificate)), CERTIFICATE
    if bound.least > bound.certified:
        certified = bound.certified if _counts_boards(deck) else Decimal(bound.certified) / 100
        inputs = (Given("proved by the prices alone", certified, "", Origin.WORKED_OUT), *inputs)
        formula = f"{SEARCH}. Before the search: {formula}"
        source = f"exhaustive search; {CERTIFICATE}"
    working = Working(formula, inputs, source)
    if _counts_boards(deck):
        return Figure("bound", bound.least, "", working)
    return Figure("bound", Decimal(bound.least) / 100, "GBP", working)


def _prices(deck: DesignedDeck, certificate: Certificate) -> Iterator[Given]:
    one = "worth of one board" if _counts_boards(deck) else "worth of a penny of boards"
    yield Given(one, certificate.unit, "", Origin.WORKED_OUT)
    kinds = {
        "full width": certificate.full,
        "ripped, groove kept": certificate.groove,
        "ripped, tongue kept": certificate.tongue,
    }
    for kind, prices in kinds.items():
        for from_mm, price in prices:
            yield Given(f"piece {kind}, from {from_mm} mm", price, "", Origin.WORKED_OUT)
    for zone, joist, price in certificate.joists:
        name = f"joint on support {joist + 1} of zone {deck.zones[zone].zone}"
        yield Given(name, price, "", Origin.WORKED_OUT)


def _gap(
    cost: Figure[int] | Figure[Decimal], least: Figure[int] | Figure[Decimal]
) -> Figure[int] | Figure[Decimal]:
    working = Working(f"{cost.name} − {least.name}", (worked_out(cost), worked_out(least)), ARITHMETIC)
    if isinstance(cost.value, int) and isinstance(least.value, int):
        return Figure("gap", cost.value - least.value, "", working)
    return Figure("gap", Decimal(cost.value) - Decimal(least.value), "GBP", working)


def _waste_percent(deck: DesignedDeck) -> Figure[Decimal]:
    opened = _m2(sum(board.length_mm * board.width_mm for board in deck.cuts))
    kept = _m2(sum(each.length_mm * each.width_mm * each.count for each in offcuts_worth_keeping(deck.cuts)))
    laid = _deck_m2(deck)
    share = (opened - laid - kept) / opened * 100 if opened else Decimal(0)
    inputs = (
        Given("boards cut, by what they cover", opened, "m²", Origin.WORKED_OUT),
        Given("deck area", laid, "m²", Origin.WORKED_OUT),
        Given("offcuts worth keeping", kept, "m²", Origin.WORKED_OUT),
    )
    formula = "(boards cut − deck area − offcuts worth keeping) / boards cut × 100"
    return Figure("waste", share.quantize(Decimal("0.1")), "%", Working(formula, inputs, ARITHMETIC))


def _offcuts_kept(deck: DesignedDeck) -> Figure[int]:
    kept = offcuts_worth_keeping(deck.cuts)
    inputs = tuple(
        Given(f"{each.length_mm} × {each.width_mm} mm", each.count, "", Origin.WORKED_OUT) for each in kept
    )
    rules = deck.task.zones[0].rules
    least = (
        default("least piece", rules.min_piece_mm, "mm"),
        default("least strip", rules.min_strip_mm, "mm"),
    )
    formula = "offcuts at least as long as the least piece and as wide as the least strip"
    working = Working(formula, (*least, *inputs), COMMON_PRACTICE)
    return Figure("offcuts worth keeping", sum(each.count for each in kept), "", working)


def _rule_of_thumb(deck: DesignedDeck) -> Figure[int]:
    product = deck.task.zones[0].product
    area = _deck_m2(deck)
    board = _m2(product.cover_length_mm * product.cover_width_mm)
    exact = area / board * (100 + PERCENT_ADDED) / 100
    inputs = (
        Given("deck area", area, "m²", Origin.WORKED_OUT),
        from_price_book("what one board covers", board, "m²"),
        default("added", PERCENT_ADDED, "%"),
    )
    working = Working(
        "deck area / what one board covers × (1 + added / 100), rounded up", inputs, COMMON_PRACTICE
    )
    boards = int(exact.to_integral_value(rounding=ROUND_CEILING))
    return Figure("boards by area plus ten per cent", boards, "", working)


def _deck_m2(deck: DesignedDeck) -> Decimal:
    return sum((zone.deck_area_m2.value for zone in deck.zones), Decimal("0.00"))


def _m2(area_mm2: int) -> Decimal:
    """To a thousandth, so that the area of one board is exact."""
    return (Decimal(area_mm2) / 1_000_000).quantize(Decimal("0.001"))
