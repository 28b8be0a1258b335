"""What would cure a deck that cannot be boarded: its smallest change, or another board, tried and laid."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from itertools import combinations, islice, product
from typing import NamedTuple

from estimating.design.boards.changes import (
    Change,
    Site,
    edges_moved,
    rows_started_anew,
    site_alone,
    with_move,
)
from estimating.design.boards.edges import edges_of
from estimating.design.boards.layout import Cure, Layout, NoLayout
from estimating.design.boards.problem import LayoutProblem
from estimating.design.boards.refused import ADVICE
from estimating.design.boards.row_starts import start_in_words
from estimating.design.boards.tries import Tries, laid_first

BOARDS_TRIED = 8
STARTS_COMPARED = 3
BEST_OF_AN_EDGE = 4


def with_cures(
    problem: LayoutProblem,
    refused: NoLayout,
    *,
    others: Sequence[LayoutProblem] = (),
    site: Site | None = None,
    board_names: Mapping[str, str] | None = None,
) -> NoLayout:
    """Look for what would cure a refused deck and say it with the refusal.

    Starting the rows elsewhere leaves the deck as it is and is looked for first, then the least move of an
    edge, then of two end edges together; other boards are tried on the deck as it is. Every cure was laid.
    The search is bounded by tries, not by time, so that it finds the same on every machine.

    Args:
        problem: The problem that has no layout. Record. [mm]
        refused: Why it has none. Record. [-]
        others: The same deck with other boards. Sequence of records. [mm]
        site: What lies round the deck, where that is known. Record. [mm]
        board_names: What to call boards, by code. Mapping. [-]

    Returns:
        The refusal with its cures, the smallest change first, other boards last. Record. [-]

    Source:
        Own definition.
    """
    tried, site, names = Tries(problem), site or site_alone(problem), board_names or {}
    boards = (_board(other, names) for other in others[:BOARDS_TRIED] if _differs(other, problem))
    cures = (
        *sorted(islice(_rows_started(problem, site, tried), STARTS_COMPARED), key=_boards)[:1],
        *islice(_edges_moved(problem, site, tried), 1),
        *(cure for cure in boards if cure),
    )
    why = next((refused.why.removesuffix(each) for each in ADVICE if refused.why.endswith(each)), refused.why)
    return replace(refused, why=f"{why.rstrip()} {_advice(cures, site.furthest_mm)}", cures=cures)


def changed(problem: LayoutProblem, cure: Cure, site: Site | None = None) -> LayoutProblem | None:
    """Make the change that a cure tells of; a cure by another board leaves the deck as it is.

    Args:
        problem: The problem that was refused. Record. [mm]
        cure: One of its cures. Record. [mm]
        site: The site that the cure was found on. Record. [mm]

    Returns:
        The problem that can be laid; None where an edge may not go there. Record. [mm]

    Source:
        Own definition.
    """
    change: Change | None = Change(problem)
    for move in cure.moves:
        if change is not None:
            edge = next(edge for edge in edges_of(change.problem.outline) if edge.side == move.side)
            change = with_move(change, site or site_alone(problem), edge, move)
    if change is None:
        return None
    if cure.row_origin_mm is None:
        return change.problem
    return replace(change.problem, row_origin_mm=cure.row_origin_mm)


class _Moved(NamedTuple):
    """An edge moved in vain: the line-ups that are left at the least."""

    line_ups: int
    change: Change


def _rows_started(problem: LayoutProblem, site: Site, tried: Tries) -> Iterator[Cure]:
    """Other row starts, which may use half of the tries."""
    enough = tried.left // 2
    for change in rows_started_anew(problem):
        if tried.left <= enough:
            return
        layout = tried.laid(change.problem)
        if layout:
            words = start_in_words(change.problem, site.turns)
            yield Cure(words=words, boards=layout.boards, row_origin_mm=change.problem.row_origin_mm)


def _edges_moved(problem: LayoutProblem, site: Site, tried: Tries) -> Iterator[Cure]:
    """One edge moved, the least move first; where none serves, two."""
    in_vain: list[_Moved] = []
    enough = tried.left // 4
    for change in edges_moved(problem, site):
        if tried.left <= enough:
            break
        line_ups = tried.line_ups(change.problem)
        layout = None if line_ups else laid_first(change.problem)
        if layout:
            yield _moved_cure(change, layout)
        else:
            in_vain.append(_Moved(line_ups, change))
    yield from _two_edges(site, in_vain, tried)


def _two_edges(site: Site, moved: Sequence[_Moved], tried: Tries) -> Iterator[Cure]:
    """Two edges moved together, of the moves of each that leave the fewest line-ups; the least move first."""
    best: dict[int, list[Change]] = {}
    for each in sorted(moved, key=lambda each: (each.line_ups, each.change.moved_mm)):
        of_edge = best.setdefault(each.change.moves[0].side, [])
        if len(of_edge) < BEST_OF_AN_EDGE:
            of_edge.append(each.change)
    pairs = [
        (one, other)
        for (_, ones), (_, others) in combinations(sorted(best.items()), 2)
        for one, other in product(ones, others)
    ]
    for one, other in sorted(pairs, key=lambda pair: pair[0].moved_mm + pair[1].moved_mm):
        move = other.moves[0]
        edge = next((each for each in edges_of(one.problem.outline) if each.side == move.side), None)
        change = with_move(one, site, edge, move) if edge and tried.left > 0 else None
        layout = tried.laid(change.problem) if change else None
        if change and layout:
            yield _moved_cure(change, layout)


def _boards(cure: Cure) -> int:
    return cure.boards


def _moved_cure(change: Change, layout: Layout) -> Cure:
    words = " and ".join(move.words for move in change.moves)
    return Cure(words=words, boards=layout.boards, moves=change.moves)


def _differs(other: LayoutProblem, problem: LayoutProblem) -> bool:
    """Whether a board of another face is laid; another thickness alone cures nothing."""
    one, two = other.product, problem.product
    return (one.cover_length_mm, one.cover_width_mm, one.ends, one.sides) != (
        two.cover_length_mm,
        two.cover_width_mm,
        two.ends,
        two.sides,
    )


def _board(problem: LayoutProblem, names: Mapping[str, str]) -> Cure | None:
    layout = laid_first(problem)
    code = problem.product.code
    if layout is None:
        return None
    return Cure(words=names.get(code, f"board {code}"), boards=layout.boards, board_code=code)


def _advice(cures: Sequence[Cure], furthest_mm: int) -> str:
    if not cures:
        return f"No cure was found in edges moved by up to {furthest_mm} mm: choose another board."
    first, *more = (f"with {cure.words} ({_count(cure.boards)})" for cure in cures)
    also = f"; or {'; or '.join(more)}" if more else ""
    return f"It can be laid {first}{also}."


def _count(boards: int) -> str:
    return "1 board" if boards == 1 else f"{boards} boards"
