"""The boards compared: each laid, counted and costed as the deck it would make, and the cheapest taken."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal

from estimating.checks.board_through_hatch import passes_hatch
from estimating.choices import Choices, Part
from estimating.design.deck import DesignedDeck, LayDeck, design_deck, first_layout
from estimating.design.design import ZoneDesign
from estimating.design.supports import Support
from estimating.design.zones import ZoneFrame
from estimating.price_book import Board, PriceBook
from estimating.published.panel_centres import greatest_centres_mm
from estimating.quantities.deck_take_off import deck_take_off, deck_works
from estimating.quantities.labour import labour
from estimating.quantities.purchases import purchases
from estimating.quantities.quantities import LabourLine, Purchase, TakeOffLine
from estimating.refusals import Refusal, Refusals
from estimating.survey import Survey
from estimating.working import ARITHMETIC, Figure, Working, worked_out


@dataclass(frozen=True, slots=True, kw_only=True)
class BoardAlternative:
    """A board that was looked at: what the deck would cost the firm with it, and why it was taken or not."""

    board_code: str
    description: str
    boards: int | None
    cost: Figure[Decimal] | None
    taken: bool
    why: str


@dataclass(frozen=True, slots=True, kw_only=True)
class DeckWithBoard:
    """The whole deck designed, counted and costed with one board."""

    board: Board
    designed: DesignedDeck
    take_off: tuple[TakeOffLine, ...]
    purchases: tuple[Purchase, ...]
    labour: tuple[LabourLine, ...]
    cost: Figure[Decimal]

    @property
    def zones(self) -> tuple[ZoneDesign, ...]:
        return self.designed.zones

    @property
    def boards(self) -> int:
        return self.designed.laid.boards

    @property
    def unlaid(self) -> tuple[ZoneDesign, ...]:
        return tuple(zone for zone in self.zones if zone.layout is None)


@dataclass(frozen=True, slots=True, kw_only=True)
class DeckInputs:
    """What every board is tried with."""

    survey: Survey
    price_book: PriceBook
    choices: Choices
    supported: tuple[tuple[ZoneFrame, Support], ...]
    vat_not_reclaimed_percent: Decimal = Decimal(0)
    lay: LayDeck = first_layout


def choose_board(inputs: DeckInputs) -> tuple[DeckWithBoard, tuple[BoardAlternative, ...]]:
    """Design the deck with every board that could serve and take the one that costs least in all.

    Packs, supports, screws and hours are compared together, because narrow boards are cheap themselves and
    dear in pedestals. A board chosen by the office is used as it is; the checks say what is wrong with it.

    Args:
        inputs: The loft, the price book, the choices and every zone with what raises it. Record. [-]

    Returns:
        The deck with the board taken, and every board looked at. Pair. [GBP]

    Raises:
        Refusal: The board chosen is not in the price book, or something that any board needs is missing.

    Source:
        Common practice, no source: whole costs compared; NHBC Standards 6.4.19 for spans.
    """
    designed: list[DeckWithBoard] = []
    passed_over: list[BoardAlternative] = []
    refusals: list[Refusal] = []
    for board in _boards_to_try(inputs):
        unfit = _why_unfit(board, inputs)
        if unfit:
            passed_over.append(_alternative(board, why=unfit))
            continue
        try:
            designed.append(_deck_with(board, inputs, designed))
        except Refusal as refusal:
            refusals.append(refusal)
            passed_over.append(_alternative(board, why=f"the price book {refusal.requirement}"))
    if refusals and not designed:
        raise Refusals({str(each): each for refusal in refusals for each in refusal.each}.values())
    if not designed:
        boards = inputs.price_book.of_kind(Board)
        board = max(boards, key=lambda each: (each.max_joist_centres_mm, each.thickness_mm))
        passed_over = [each for each in passed_over if each.board_code != board.code]
        designed.append(_deck_with(board, inputs, ()))
    best = min(designed, key=lambda deck: (len(deck.unlaid), deck.cost.value))
    return best, (*(_compared(deck, best) for deck in designed), *passed_over)


def _boards_to_try(inputs: DeckInputs) -> tuple[Board, ...]:
    boards, code = inputs.price_book.of_kind(Board), inputs.choices.board_code
    if code is None:
        return boards
    wanted = tuple(board for board in boards if board.code == code)
    if not wanted:
        codes = ", ".join(board.code for board in boards)
        raise Refusal("choices.board_code", f"must be a board of the price book: {codes}")
    return wanted


def _why_unfit(board: Board, inputs: DeckInputs) -> str:
    if inputs.choices.board_code:
        return ""
    bays = [frame.widest_bay_mm for frame, support in inputs.supported if support.pedestal]
    widest = max(bays, default=0)
    if widest > board.max_joist_centres_mm:
        return f"joists lie up to {widest} mm apart, outside the {board.max_joist_centres_mm} mm it allows"
    table = greatest_centres_mm(board.thickness_mm)
    if table is None or widest > table:
        limit = f"{table} mm for {board.thickness_mm} mm boards" if table else "which starts at 18 mm boards"
        return f"joists lie up to {widest} mm apart, outside the published table ({limit})"
    passes = Part.HATCH in inputs.choices.parts or passes_hatch(board, inputs.survey.hatch)
    return "" if passes else f"{board.cover_width_mm} mm wide, it does not pass the hatch"


def _deck_with(board: Board, inputs: DeckInputs, designed: Sequence[DeckWithBoard]) -> DeckWithBoard:
    deck = design_deck(
        inputs.supported,
        board,
        inputs.survey.hatch.outline,
        inputs.lay,
        designed=[each.designed for each in designed],
    )
    zones = deck.zones
    take_off = deck_take_off(zones, board, inputs.price_book)
    bought = purchases(
        take_off, inputs.price_book, vat_not_reclaimed_percent=inputs.vat_not_reclaimed_percent
    )
    hours = labour(deck_works(zones, deck.cuts), inputs.price_book, inputs.choices.conditions)
    costs = [*(line.cost for line in bought), *(line.cost for line in hours)]
    total = sum((cost.value for cost in costs), Decimal("0.00"))
    working = Working("materials + hours of the deck", tuple(map(worked_out, costs)), ARITHMETIC)
    return DeckWithBoard(
        board=board,
        designed=deck,
        take_off=take_off,
        purchases=bought,
        labour=hours,
        cost=Figure(f"cost of the deck with {board.description}", total, "GBP", working),
    )


def _compared(deck: DeckWithBoard, best: DeckWithBoard) -> BoardAlternative:
    if deck is best:
        why = "taken: the deck costs the firm least with it"
    elif deck.unlaid:
        why = "; ".join(each.no_layout.why for each in deck.unlaid if each.no_layout)
    else:
        why = f"the deck would cost the firm £{deck.cost.value - best.cost.value} more"
    return _alternative(deck.board, why=why, deck=deck, taken=deck is best)


def _alternative(
    board: Board, *, why: str, deck: DeckWithBoard | None = None, taken: bool = False
) -> BoardAlternative:
    return BoardAlternative(
        board_code=board.code,
        description=board.description,
        boards=deck.boards if deck else None,
        cost=deck.cost if deck else None,
        taken=taken,
        why=why,
    )
