"""The checker's look at each joint: what carries it, what ends meet, and what lies beside it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from estimating.design.boards.checking.fault import Fault
from estimating.design.boards.checking.opened_boards import BoardInHand
from estimating.design.boards.layout import Piece
from estimating.design.boards.problem import LayoutProblem

Joint = tuple[Piece, Piece]


def joint_faults(
    problem: LayoutProblem, left: Piece, right: Piece, boards: Mapping[int, BoardInHand]
) -> Iterator[Fault]:
    """Check that two pieces may meet where they do, with the ends they have there.

    Args:
        problem: The layout problem. Record. [mm]
        left: The piece on the left. Record. [mm]
        right: The piece on the right. Record. [mm]
        boards: The boards they are cut from, by number. Mapping. [mm]

    Returns:
        The faults. Iterator of records. [-]

    Source:
        End joints on joists: NHBC Standards 6.4.19; factory ends: board makers' general practice.
    """
    rules, pair = problem.rules, (left.number, right.number)
    on_joist = joist_at(problem, left, right) is not None
    if rules.end_joint != "floating" and not on_joist:
        yield Fault("joint", pair, f"meet at {left.x1} mm, where there is no joist")
    if rules.end_joint == "tg" or (rules.end_joint == "floating" and not on_joist):
        first, second = boards[left.board], boards[right.board]
        uncut = left.board_x + left.length_mm == first.length_mm and right.board_x == 0
        if not (uncut and first.factory_ends and second.factory_ends):
            yield Fault("factory end", pair, "meet with a cut end")


def joist_at(problem: LayoutProblem, left: Piece, right: Piece) -> int | None:
    """Find the joist nearest to where two pieces meet, within the joint tolerance.

    Args:
        problem: The layout problem. Record. [mm]
        left: The piece on the left. Record. [mm]
        right: The piece on the right. Record. [mm]

    Returns:
        The joist's number from 0, or None where no joist is near enough. Scalar. [-]

    Source:
        Own definition.
    """
    away = [
        (max(left.x1 - line, line - right.x0, 0), joist) for joist, line in enumerate(problem.joist_lines)
    ]
    nearest = min(away)
    return nearest[1] if nearest[0] <= problem.rules.joint_tolerance_mm else None


def line_up_faults(problem: LayoutProblem, joints: Mapping[int, Sequence[Joint]]) -> Iterator[Fault]:
    """Check that joints of adjacent rows keep apart.

    Joints on joists are as far apart as their joists. Where joints float, they are as far apart as the ends
    of the boards that follow them, and two of them may not lie in one bay between joists.

    Args:
        problem: The layout problem. Record. [mm]
        joints: The joints of each row, as pairs of pieces. Mapping. [mm]

    Returns:
        The faults. Iterator of records. [-]

    Source:
        Staggered end joints: NHBC Standards 6.4.19; the measure and the bay: common practice, no source.
    """
    floating = problem.rules.end_joint == "floating"
    for row, below in joints.items():
        for one in below:
            for other in joints.get(row + 1, []):
                says = (_floating if floating else _on_joists)(problem, one, other)
                if says:
                    pieces = (one[0].number, other[0].number)
                    yield Fault("stagger", pieces, f"joints of rows {row + 1} and {row + 2} {says}")


def _on_joists(problem: LayoutProblem, one: Joint, other: Joint) -> str:
    first, second = joist_at(problem, *one), joist_at(problem, *other)
    if first is None or second is None:
        return ""
    apart = abs(problem.joist_lines[first] - problem.joist_lines[second])
    near = first == second or apart < problem.rules.min_stagger_mm
    return f"are {apart} mm apart" if near else ""


def _floating(problem: LayoutProblem, one: Joint, other: Joint) -> str:
    first, second = one[1].x0, other[1].x0
    apart = abs(first - second)
    if apart < problem.rules.min_stagger_mm or apart == 0:
        return f"are {apart} mm apart"
    reach = problem.rules.joint_tolerance_mm
    low, high = min(first, second), max(first, second)
    if any(max(abs(line - low), abs(line - high)) <= reach for line in problem.joist_lines):
        return "are on one joist"
    parted = any(low - reach <= line <= high + reach for line in problem.joist_lines)
    return "" if parted else "are in one bay"
