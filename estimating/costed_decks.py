"""What a whole deck costs the firm boarded one way: at least, before it is laid, and exactly, once it is."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal

from estimating.amounts import to_penny
from estimating.choices import Choices
from estimating.design.boards.layout import LaidDeck
from estimating.design.deck import DesignedDeck, LayDeck, design_deck
from estimating.design.design import ZoneDesign
from estimating.design.ready_deck import ReadyDeck, ready_deck
from estimating.design.supports import Support
from estimating.design.zones import ZoneFrame
from estimating.price_book import Board, PriceBook
from estimating.quantities.boards_to_buy import AlikeByCode, boards_to_buy, least_cost_of_boards
from estimating.quantities.deck_take_off import deck_take_off
from estimating.quantities.deck_works import deck_works
from estimating.quantities.labour import labour
from estimating.quantities.purchases import purchases
from estimating.quantities.quantities import LabourLine, Purchase, TakeOffLine
from estimating.survey import Survey
from estimating.ways_to_board import WayToBoard, sources_of
from estimating.working import ARITHMETIC, Figure, Working, published, worked_out


@dataclass(frozen=True, slots=True, kw_only=True)
class DeckInputs:
    """What every way is tried with."""

    survey: Survey
    price_book: PriceBook
    choices: Choices
    supported: tuple[tuple[ZoneFrame, Support], ...]
    lay: LayDeck
    vat_not_reclaimed_percent: Decimal = Decimal(0)


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadyWay:
    """A way before its boards are laid: where it stands, and what no layout of it stays under."""

    way: WayToBoard
    ready: ReadyDeck
    at_least: Figure[Decimal]

    @property
    def description(self) -> str:
        return _described(self.way, self.ready)


@dataclass(frozen=True, slots=True, kw_only=True)
class DeckWithBoard:
    """The whole deck designed, counted and costed one way."""

    way: WayToBoard
    description: str
    designed: DesignedDeck
    take_off: tuple[TakeOffLine, ...]
    purchases: tuple[Purchase, ...]
    labour: tuple[LabourLine, ...]
    cost: Figure[Decimal]

    @property
    def board(self) -> Board:
        """The board, the longest where lengths are mixed."""
        return self.way.board

    @property
    def zones(self) -> tuple[ZoneDesign, ...]:
        return self.designed.zones

    @property
    def boards(self) -> int:
        return self.designed.laid.boards

    @property
    def unlaid(self) -> tuple[ZoneDesign, ...]:
        return tuple(zone for zone in self.zones if zone.layout is None)


def ready_way(way: WayToBoard, inputs: DeckInputs) -> ReadyWay:
    """Make a way ready to be laid and say what it costs at least, so that hopeless ones are not laid.

    Supports and their hours are known before a board is laid, and so are the boards that the area takes.
    Saw cuts, bearers and what is wasted come on top.

    Args:
        way: The way. Record. [-]
        inputs: The loft, the price book, the choices and every zone with what raises it. Record. [-]

    Returns:
        The way and its least cost. Record. [GBP]

    Raises:
        Refusal: The book lacks something that this way needs.

    Source:
        Arithmetic.
    """
    sources = sources_of(way, inputs.price_book.of_kind(Board), inputs.choices.store)
    ready = ready_deck(
        inputs.supported,
        way.board,
        sources,
        inputs.survey.hatch.outline,
        joists_left_out=way.joists_left_out,
    )
    take_off = deck_take_off(ready.designs, way.board, inputs.price_book)
    bought = _bought(take_off, inputs)
    hours = labour(deck_works(ready.designs, ()), inputs.price_book, inputs.choices.conditions)
    boards = _with_vat(least_cost_of_boards(ready, _alike_by_code(way)), inputs.vat_not_reclaimed_percent)
    costs = [boards, *(line.cost for line in bought), *(line.cost for line in hours)]
    working = Working("sum of boards for the area, supports and hours, before waste, cuts and bearers",
                      tuple(map(worked_out, costs)), ARITHMETIC)  # fmt: skip
    total = sum((cost.value for cost in costs), Decimal("0.00"))
    return ReadyWay(
        way=way,
        ready=ready,
        at_least=Figure(f"least cost of the deck with {_described(way, ready)}", total, "GBP", working),
    )


def costed_deck(ready: ReadyWay, laid: LaidDeck, inputs: DeckInputs) -> DeckWithBoard:
    """Design a deck that was laid one way, and cost it: packs, supports, screws and hours together.

    Args:
        ready: The way, ready to be laid. Record. [mm]
        laid: Its layout. Record. [mm]
        inputs: The price book, the conditions of the loft and the VAT that stays. Record. [-]

    Returns:
        The deck with its whole cost. Record. [GBP]

    Raises:
        Refusal: The book lacks something that this way needs.

    Source:
        Common practice, no source: whole costs compared.
    """
    way, designed = ready.way, design_deck(ready.ready, laid)
    take_off = (
        *boards_to_buy(designed, _alike_by_code(way)),
        *deck_take_off(designed.zones, way.board, inputs.price_book),
    )
    bought = _bought(take_off, inputs)
    works = deck_works(designed.zones, designed.cuts)
    hours = labour(works, inputs.price_book, inputs.choices.conditions)
    costs = [*(line.cost for line in bought), *(line.cost for line in hours)]
    total = sum((cost.value for cost in costs), Decimal("0.00"))
    working = Working("sum of materials and hours of the deck", tuple(map(worked_out, costs)), ARITHMETIC)
    return DeckWithBoard(
        way=way,
        description=ready.description,
        designed=designed,
        take_off=take_off,
        purchases=bought,
        labour=hours,
        cost=Figure(f"cost of the deck with {ready.description}", total, "GBP", working),
    )


def _described(way: WayToBoard, ready: ReadyDeck) -> str:
    """What it is boarded with, and on how many joists where some are left out."""
    if not way.joists_left_out:
        return way.description
    carrying = sum(len(zone.problem.joist_lines) for zone in ready.zones)
    every = sum(len(zone.frame.joists) for zone in ready.zones)
    return f"{way.description} on {carrying} of {every} joists"


def _alike_by_code(way: WayToBoard) -> AlikeByCode:
    return {each.board.code: each.products for each in way.alike}


def _bought(take_off: Sequence[TakeOffLine], inputs: DeckInputs) -> tuple[Purchase, ...]:
    return purchases(take_off, inputs.price_book, vat_not_reclaimed_percent=inputs.vat_not_reclaimed_percent)


def _with_vat(cost: Figure[Decimal], percent: Decimal) -> Figure[Decimal]:
    if not percent:
        return cost
    inputs = (worked_out(cost), published("VAT not reclaimed", percent, "%"))
    working = Working("cost × (1 + VAT not reclaimed / 100)", inputs, "VATA 1994 s.26; arithmetic")
    return Figure(cost.name, to_penny(cost.value * (100 + percent) / 100), "GBP", working)
