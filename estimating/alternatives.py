"""The ways to board a deck compared by what the whole deck would cost, and the cheapest taken."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from decimal import Decimal

from estimating.costed_decks import DeckInputs, DeckWithBoard, ReadyWay, costed_deck, ready_way
from estimating.design.boards.layout import LaidDeck
from estimating.design.carried import carried_lines
from estimating.design.deck import first_layout, with_board
from estimating.design.ready_deck import same_face
from estimating.placed_decks import placed_deck
from estimating.price_book import Board
from estimating.refusals import Refusal, Refusals
from estimating.unfit_boards import least_unfit, why_unfit
from estimating.ways_to_board import AlikeBoards, WayToBoard, alike_boards, ways_to_board
from estimating.working import Figure

TAKEN = "taken: the deck costs the firm least with it"
TAKEN_SO_FAR = "taken: the deck costs the firm least with it of the ways laid so far"
ON_FEWER_JOISTS = (
    "on fewer joists, each of which carries more: choose it if whoever answers for the joists agrees"
)
FEWEST_JOISTS_TRIED = 2
"""How many smaller sets of joists are tried for one way."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BoardAlternative:
    """A way that was looked at: what the deck would cost the firm with it, and why it was taken or not.

    `cost` is None where it was not laid; `at_least` is then what no layout of it stays under, if that is
    known. `board_codes` name both boards where two lengths are mixed.
    """

    board_code: str
    description: str
    boards: int | None
    cost: Figure[Decimal] | None
    taken: bool
    why: str
    at_least: Figure[Decimal] | None = None
    board_codes: tuple[str, ...] = ()


def choose_board(inputs: DeckInputs) -> tuple[DeckWithBoard, tuple[BoardAlternative, ...]]:
    """Design the deck every way that could be cheapest and take the one that costs least in all.

    Packs, supports, screws and hours are compared together, because narrow boards are cheap themselves and
    dear in pedestals. Ways are laid in the order of what they cost at least, so that those that could not
    win any more are not laid. A board chosen by the office is used as it is; the checks say what is wrong
    with it. All ways are compared with the edges as wished; then those of the deck taken are placed.

    Args:
        inputs: The loft, the price book, the choices, every zone with what raises it, and what lays. Record.
            [-]

    Returns:
        The deck taken, and every way looked at, the one taken first. Pair. [GBP]

    Raises:
        Refusal: The board chosen is not in the price book, or something that any board needs is missing.

    Source:
        Common practice, no source: whole costs compared; NHBC Standards 6.4.19 for spans.
    """
    boards = _boards_to_try(inputs)
    chosen = bool(inputs.choices.board_code)
    unfit = [(each, why) for each in boards if not chosen and (why := why_unfit(each.board, inputs))]
    fit = [each for each in boards if all(each is not other for other, _ in unfit)]
    if not fit:
        fit = [least_unfit(boards, inputs)]
        unfit = [(each, why) for each, why in unfit if each is not fit[0]]
    tried = _Tried(inputs)
    ways = tuple(ways_to_board(fit))
    if inputs.choices.fewer_joists:
        ways += tuple(_on_fewer_joists(ways, inputs))
    tried.every(ways)
    if not tried.decks:
        raise Refusals({str(each): each for refusal in tried.refusals for each in refusal.each}.values())
    best = tried.best
    if not inputs.choices.fewer_joists:  # told, not taken
        tried.every(tuple(_on_fewer_joists((best.way,), inputs)))
    placed = placed_deck(best, inputs, _usable(inputs))
    passed_over = (_alternative(WayToBoard((each,)), why=why) for each, why in unfit)
    taken, *others = tried.told(best)
    return placed, (_as_placed(taken, best, placed), *others, *passed_over)


def _as_placed(taken: BoardAlternative, wished: DeckWithBoard, placed: DeckWithBoard) -> BoardAlternative:
    """The way taken as it is placed; the others are not, so the difference is told beside it."""
    saved = wished.cost.value - placed.cost.value
    why = taken.why
    if saved and len(wished.unlaid) == len(placed.unlaid):
        why += f"; its edges and rows as placed {'save' if saved > 0 else 'take'} £{abs(saved)} more"
    return replace(taken, why=why, boards=placed.boards, cost=placed.cost)


def _usable(inputs: DeckInputs) -> list[Board]:
    """All boards that fit, also those that the office did not choose."""
    every = (each.board for each in alike_boards(inputs.price_book.of_kind(Board)))
    return [board for board in every if not why_unfit(board, inputs)]


def _boards_to_try(inputs: DeckInputs) -> tuple[AlikeBoards, ...]:
    boards, code = inputs.price_book.of_kind(Board), inputs.choices.board_code
    every = alike_boards(boards)
    if code is None:
        return every
    chosen = next((board for board in boards if board.code == code), None)
    if chosen is None:
        codes = ", ".join(board.code for board in boards)
        raise Refusal("choices.board_code", f"must be a board of the price book: {codes}")
    alike = next(each.products for each in every if chosen in each.products)
    return (AlikeBoards((chosen, *(each for each in alike if each is not chosen))),)


def _on_fewer_joists(ways: Iterable[WayToBoard], inputs: DeckInputs) -> Iterator[WayToBoard]:
    for way in ways:
        sets = max(len(carried_lines(frame, way.board)) for frame, _ in inputs.supported)
        for left_out in range(1, min(sets, FEWEST_JOISTS_TRIED + 1)):
            yield replace(way, joists_left_out=left_out)


class _Tried:
    """The ways looked at so far: laid and costed, not laid, or refused because the book lacks something."""

    def __init__(self, inputs: DeckInputs) -> None:
        self._inputs = inputs
        self.decks: list[DeckWithBoard] = []
        self.not_laid: list[ReadyWay] = []
        self.refused: list[tuple[WayToBoard, Refusal]] = []

    @property
    def best(self) -> DeckWithBoard:
        """The cheapest deck of those with the fewest zones that cannot be laid; of equals, one length."""
        return min(self.decks, key=lambda deck: (len(deck.unlaid), deck.cost.value, deck.way.is_mixed))

    @property
    def refusals(self) -> list[Refusal]:
        return [refusal for _, refusal in self.refused]

    def every(self, ways: Sequence[WayToBoard]) -> None:
        """Look at ways, those first that might cost least."""
        ready = [found for way in ways if (found := self._ready(way))]
        for each in sorted(ready, key=lambda found: found.at_least.value):
            laid = self._laid(each)
            if laid is None:
                self.not_laid.append(each)
                continue
            try:
                self.decks.append(costed_deck(each, laid, self._inputs))
            except Refusal as refusal:
                self.refused.append((each.way, refusal))

    def _ready(self, way: WayToBoard) -> ReadyWay | None:
        try:
            return ready_way(way, self._inputs)
        except Refusal as refusal:
            self.refused.append((way, refusal))
            return None

    def _laid(self, each: ReadyWay) -> LaidDeck | None:
        """Its layout; none when it cannot win any more, or when enough have been laid for now."""
        task = each.ready.task
        for deck in self.decks:
            if same_face(deck.designed.task, task):
                return with_board(deck.designed.laid, each.way.board.code)
        legal = [deck for deck in self.decks if not deck.unlaid]
        if legal and each.at_least.value >= self.best.cost.value:
            return None
        found = self._inputs.lay(task)
        return found if found or legal else first_layout(task)

    def told(self, best: DeckWithBoard) -> Iterator[BoardAlternative]:
        """Say of every way what it costs and why it was taken or not, the one taken first."""
        for deck in sorted(self.decks, key=lambda deck: deck is not best):
            yield _alternative(deck.way, why=self._why(deck, best), deck=deck, taken=deck is best)
        for each in self.not_laid:
            yield _alternative(each.way, why=_why_not_laid(each, best), ready=each)
        for way, refusal in self.refused:
            yield _alternative(way, why=f"the price book {refusal.requirement}")

    def _why(self, deck: DeckWithBoard, best: DeckWithBoard) -> str:
        more = deck.cost.value - best.cost.value
        if deck is best:
            open_ways = [each for each in self.not_laid if each.at_least.value < best.cost.value]
            return TAKEN_SO_FAR if open_ways else TAKEN
        if deck.unlaid:
            return "; ".join(each.no_layout.why for each in deck.unlaid if each.no_layout)
        if not more:
            return "the deck would cost the firm the same"
        if more < 0:
            return f"the deck would cost the firm £{-more} less, but {ON_FEWER_JOISTS}"
        return f"the deck would cost the firm £{more} more"


def _why_not_laid(each: ReadyWay, best: DeckWithBoard) -> str:
    more = each.at_least.value - best.cost.value
    if more >= 0:
        return f"the deck would cost the firm at least £{more} more"
    return f"not laid yet: the deck would cost the firm £{each.at_least.value} at least"


def _alternative(
    way: WayToBoard,
    *,
    why: str,
    deck: DeckWithBoard | None = None,
    ready: ReadyWay | None = None,
    taken: bool = False,
) -> BoardAlternative:
    told = deck or ready
    return BoardAlternative(
        board_code=way.board.code,
        description=told.description if told else way.description,
        boards=deck.boards if deck else None,
        cost=deck.cost if deck else None,
        taken=taken,
        why=why,
        at_least=ready.at_least if ready else None,
        board_codes=way.codes,
    )
