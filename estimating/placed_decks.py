"""The deck taken, placed: edges and rows where they take least, and what would cure a zone without boards.

Placing takes several layouts, so it is done for the deck taken and not for every way compared.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from estimating.costed_decks import DeckInputs, DeckWithBoard, costed_deck, ready_way
from estimating.design.boards.problem import LayoutProblem
from estimating.design.cured import ProblemOf, refusal_with_cures
from estimating.design.deck import first_layout
from estimating.design.placing import placed_zones
from estimating.design.ready_deck import zone_problem
from estimating.design.supports import Support
from estimating.design.zones import ZoneFrame
from estimating.price_book import Board


def placed_deck(deck: DeckWithBoard, inputs: DeckInputs, boards: Sequence[Board]) -> DeckWithBoard:
    """Move edges as far as the surveyor allows and start the rows where the deck taken takes least.

    A zone that cannot be boarded even so says what would cure it.

    Args:
        deck: The deck taken, as wished. Record. [GBP]
        inputs: What it was made with. Record. [-]
        boards: All boards that may be used, whichever the office chose. Sequence. [-]

    Returns:
        The deck placed, designed and costed anew if anything changed. Record. [GBP]

    Raises:
        Refusal: The book lacks something that the deck now needs.

    Source:
        Common practice, no source.
    """
    frames = tuple(frame for frame, _ in inputs.supported)
    supports = tuple(support for _, support in inputs.supported)
    left_out = deck.way.joists_left_out
    problems_of = [_ProblemOfZone(deck.board, support, left_out) for support in supports]
    placed = placed_zones(frames, problems_of, deck.designed.task.sources)
    if any(frame.edge_moves or frame.row_origin_mm is not None for frame in placed):
        inputs = replace(inputs, supported=tuple(zip(placed, supports, strict=True)))
        ready = ready_way(deck.way, inputs)
        task = ready.ready.task
        deck = costed_deck(ready, inputs.lay(task) or first_layout(task), inputs)
    return _with_cures(deck, inputs, problems_of, boards) if deck.unlaid else deck


@dataclass(frozen=True, slots=True)
class _ProblemOfZone:
    """What sets the problem of a zone wherever its edges lie; equal for equal boards and supports."""

    board: Board
    support: Support
    joists_left_out: int

    def __call__(self, frame: ZoneFrame) -> LayoutProblem:
        return zone_problem(frame, self.board, self.support, self.joists_left_out)


def _with_cures(
    deck: DeckWithBoard, inputs: DeckInputs, problems_of: Sequence[ProblemOf], boards: Sequence[Board]
) -> DeckWithBoard:
    zones = []
    for zone, (frame, support), problem_of in zip(deck.zones, inputs.supported, problems_of, strict=True):
        cured = zone
        if zone.no_layout:
            others = tuple((zone_problem(frame, board, support), board.description) for board in boards)
            refused = refusal_with_cures(frame, problem_of, zone.no_layout, boards=others)
            cured = replace(zone, no_layout=refused)
        zones.append(cured)
    return replace(deck, designed=replace(deck.designed, zones=tuple(zones)))
