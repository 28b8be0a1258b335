"""From the programme's patterns to choices: which piece is cut from which place of which board."""

from __future__ import annotations

from collections.abc import Sequence

from estimating.design.boards.solving.allot import Choice
from estimating.design.boards.solving.deck_runs import DeckRuns
from estimating.design.boards.solving.exact import ChosenBoards, ChosenStep
from estimating.design.boards.solving.patterns import Pattern
from estimating.design.boards.solving.places import Place, place_for
from estimating.design.boards.solving.run_classes import FULL, GROOVE, NEITHER, TONGUE
from estimating.design.boards.solving.sawing import Sawing
from estimating.design.boards.solving.stock import Cut, NewBoard, Source, Strip, rest_of


def realised(deck: DeckRuns, sawing: Sawing, chosen: ChosenBoards) -> tuple[Choice, ...] | None:
    """Give each chosen piece its place in a board, or None where strips do not fit beside each other.

    Longer pieces choose first and take the smallest place that serves, which leaves no piece without one.

    Args:
        deck: The deck made ready. Record. [mm]
        sawing: The sawing that will cut the choices. Record. [mm]
        chosen: Pieces and patterns. Record. [mm]

    Returns:
        The choices, board by board. Tuple of records, or None. [mm]

    Source:
        Greedy matching of nested intervals.
    """
    boards = [pattern for pattern, count in chosen.patterns for _ in range(count)]
    given = _places_given(sawing, boards, chosen.steps)
    if given is None:
        return None
    choices: list[Choice] = []
    for number, pattern in enumerate(boards):
        parts = [
            [step for board, place, step in given if board == number and place.kind == kind]
            for kind in (FULL, GROOVE, TONGUE)
        ]
        cut = _cut_board(deck, sawing, pattern, parts)
        if cut is None:
            return None
        choices += cut
    return tuple(choices)


def _places_given(
    sawing: Sawing, boards: Sequence[Pattern], steps: Sequence[ChosenStep]
) -> list[tuple[int, Place, ChosenStep]] | None:
    free = sorted(
        ((place, board) for board, pattern in enumerate(boards) for place in pattern.places()),
        key=lambda each: (each[0].takes, each[0].width, each[1]),
    )
    wanted = [(place_for(sawing.cut_for(chosen.step)), chosen) for chosen in steps]
    wanted.sort(
        key=lambda each: (
            each[0].kind == NEITHER,
            -each[0].takes,
            -each[0].width,
            *each[1][:2],
            each[1].step.x0,
        )
    )
    given: list[tuple[int, Place, ChosenStep]] = []
    for piece, chosen in wanted:
        at = next((at for at, (place, _) in enumerate(free) if _serves(place, piece)), None)
        if at is None:
            return None
        place, board = free.pop(at)
        given.append((board, place, chosen))
    return given


def _serves(place: Place, piece: Place) -> bool:
    alike = piece.kind == place.kind or (piece.kind == NEITHER and place.kind != FULL)
    return alike and place.takes >= piece.takes and place.width >= piece.width


def _cut_board(
    deck: DeckRuns, sawing: Sawing, pattern: Pattern, parts: Sequence[Sequence[ChosenStep]]
) -> list[Choice] | None:
    source = deck.task.sources[pattern.source]
    offcut = sawing.opened(source)
    named: Source = NewBoard(pattern.source) if source.at_hand is None else offcut
    choices: list[Choice] = []
    for zone, row, step in parts[FULL]:
        choices.append(Choice(zone, row, step, named, 0))
        named = offcut = rest_of(offcut, sawing.cut_for(step))
    lanes = [list(lane) for lane in (parts[GROOVE], parts[TONGUE]) if lane]
    if not lanes:
        return choices
    # the lane whose first piece says how wide the other may be; a piece of either edge lies at the tongue
    own = max(lanes, key=lambda lane: sawing.cut_for(lane[0].step).kind != "neither")
    others = [step for lane in lanes if lane is not own for step in lane]
    own.sort(
        key=lambda chosen: (sawing.cut_for(chosen.step).kind == "neither", -_cut(sawing, chosen).width_mm)
    )
    if own and _cut(sawing, own[0]).width_mm < max(_cut(sawing, each).width_mm for each in own):
        return None
    first, region = _cut(sawing, own[0]), offcut.capacity_mm
    strip, beside = sawing.strips_of(first, region)
    if any(_cut(sawing, each).width_mm > beside.width_mm for each in others):
        return None
    choices.append(Choice(*own[0], named, region))
    strip = strip._replace(capacity_mm=region - first.takes_mm)
    for lane, rest in ((own[1:], strip), (others, beside)):
        left = rest
        for zone, row, step in lane:
            cut = sawing.cut_for(step)
            if cut.kind not in (left.keeps, "neither") or left.capacity_mm < cut.takes_mm:
                return None
            choices.append(Choice(zone, row, step, left, 0))
            left = left._replace(capacity_mm=left.capacity_mm - cut.takes_mm)
    return choices


def _cut(sawing: Sawing, chosen: ChosenStep) -> Cut:
    return sawing.cut_for(chosen.step)


def cuts_in(sawing: Sawing, choices: Sequence[Choice], gap_mm: int) -> int:
    """Count the saw cuts that choices make, none where a board or strip is used up.

    Args:
        sawing: The sawing they were made with. Record. [mm]
        choices: The choices. Sequence. [mm]
        gap_mm: As much longer a piece may be cut. Scalar. [mm]

    Returns:
        Cuts. Scalar. [count]

    Source:
        Straight full cuts; common practice, no source.
    """
    return sum(_cuts_of(sawing, choice, gap_mm) for choice in choices)


def _cuts_of(sawing: Sawing, choice: Choice, gap_mm: int) -> int:
    cut = sawing.cut_for(choice.step)
    if isinstance(choice.source, Strip):
        rest = choice.source.capacity_mm - cut.takes_mm
        return (rest > gap_mm) + (choice.source.width_mm > cut.width_mm)
    rest = rest_of(sawing.at_full_width(choice.source), cut, choice.region_mm).capacity_mm
    return int(rest > gap_mm) + (bool(choice.region_mm) and 1 + (choice.region_mm > cut.takes_mm))
