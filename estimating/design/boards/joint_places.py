"""Where the ends of boards may meet: on joists, and where the maker allows it between them.

On a joist any ends may meet, as without the maker's word. Joint places are numbered from the left, so that a
set of joints is a set of bits.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Sequence
from functools import lru_cache

from estimating.design.boards.floating_places import floating_lines
from estimating.design.boards.problem import LARGEST_SPREAD_MM, LayoutProblem
from estimating.design.boards.rows import DeckRows, Run

FLOATING = -1  # instead of a joist


def joint_places(problem: LayoutProblem) -> tuple[int, ...]:
    """List the lines on which ends may meet anywhere in a deck, so that joints have numbers.

    Args:
        problem: The layout problem. Record. [mm]

    Returns:
        The joist lines; where end joints may float, also the places between that are worth a look. Rising.
        Tuple. [mm]

    Source:
        End joints on joists: NHBC Standards 6.4.19; between them as the maker's data allows.
    """
    return _with_floating_places(problem) if _floats(problem) else problem.joist_lines


def places_barred_by(problem: LayoutProblem) -> tuple[int, ...]:
    """Say for each joint place which places a joint there bars in the rows beside it, as bits.

    A joint bars its own joist and whatever is nearer than the least stagger; one that floats also bars the
    rest of its bay, because a bay between two joists carries one joint of two neighbouring rows at most.

    Args:
        problem: The layout problem. Record. [mm]

    Returns:
        The barred places of each place. Tuple. [-]

    Source:
        Staggered end joints: NHBC Standards 6.4.19; the measure and the bay: common practice, no source.
    """
    places, apart = joint_places(problem), problem.rules.min_stagger_mm
    barred = []
    for x in places:
        first, last = x - max(apart - 1, 0), x + max(apart - 1, 0)
        if _floats(problem):
            low, high = bay_of(problem, x)
            first, last = min(first, low), max(last, high)
        start, past = bisect_left(places, first), bisect_left(places, last + 1)
        barred.append(((1 << past - start) - 1) << start)
    return tuple(barred)


def lies_on_joist(problem: LayoutProblem, x: int) -> bool:
    """Tell whether a joint lies on a joist, within the joint tolerance.

    Args:
        problem: The layout problem. Record. [mm]
        x: Where the joint is. Scalar. [mm]

    Returns:
        Whether it does. Scalar. [-]

    Source:
        Own definition.
    """
    return bool(_joists_within(problem.joist_lines, x, problem.rules.joint_tolerance_mm))


def joist_under(problem: LayoutProblem, place: int) -> int:
    """Give the joist that a joint place lies on.

    Args:
        problem: The layout problem. Record. [mm]
        place: The place's number. Scalar. [-]

    Returns:
        The joist's number from 0, or FLOATING where it lies between joists. Scalar. [-]

    Source:
        Own definition.
    """
    if not _floats(problem):
        return place
    reach = problem.rules.joint_tolerance_mm
    return next(iter(_joists_within(problem.joist_lines, joint_places(problem)[place], reach)), FLOATING)


def bay_of(problem: LayoutProblem, x: int) -> tuple[int, int]:
    """Give the stretch that may hold one joint of two rows: about a joist, or between two of them.

    Args:
        problem: The layout problem. Record. [mm]
        x: Where the joint is. Scalar. [mm]

    Returns:
        Its first and last line. Pair. [mm]

    Source:
        Own definition.
    """
    joists, reach = problem.joist_lines, problem.rules.joint_tolerance_mm
    after = bisect_left(joists, x - reach)
    if lies_on_joist(problem, x):
        return joists[after] - reach, joists[after] + reach
    low = joists[after - 1] + reach + 1 if after else x - LARGEST_SPREAD_MM
    high = joists[after] - reach - 1 if after < len(joists) else x + LARGEST_SPREAD_MM
    return low, high


def stopping_lines(problem: LayoutProblem, run: Run) -> list[tuple[int, int]]:
    """List the lines inside a run where its pieces may end, each with the number of its joint place.

    Without joint tolerance these are the joist lines. With it, a run laid as far to the right as its boards
    reach stops at the far side of a joist's tolerance, or a longest piece beyond its start or such a stop;
    laid from the right, likewise. If any path fits, one on these lines does.

    Args:
        problem: The layout problem. Record. [mm]
        run: The run. Record. [mm]

    Returns:
        Lines and places, rising. List of pairs. [mm]

    Source:
        As joint_places.
    """
    lines = _on_joists(problem, run)
    if not _floats(problem):
        return lines
    numbers = {x: number for number, x in enumerate(joint_places(problem))}
    return [(x, numbers[x]) for x in _all_lines(problem, run)]


def _floats(problem: LayoutProblem) -> bool:
    return problem.rules.end_joint == "floating"


def _on_joists(problem: LayoutProblem, run: Run) -> list[tuple[int, int]]:
    rules, joists = problem.rules, problem.joist_lines
    tolerance, longest = rules.joint_tolerance_mm, problem.product.cover_length_mm + rules.gap_tolerance_mm
    found = {(x, number) for number, x in enumerate(joists)}
    for way, start in ((1, run.x0), (-1, run.x1)) if tolerance else ():
        found |= {(x + way * tolerance, number) for number, x in enumerate(joists)}
        for first in (start, *(x + way * tolerance for x in joists)):
            reached, on = first, range(1)
            while on:
                reached += way * longest
                on = _joists_within(joists, reached, tolerance)
                found |= {(reached, number) for number in on}
    nearest, furthest = run.x0 + rules.min_piece_mm, run.x1 - rules.min_piece_mm
    return sorted((x, number) for x, number in found if nearest <= x <= furthest)


def _joists_within(joist_lines: Sequence[int], x: int, tolerance: int) -> range:
    return range(bisect_left(joist_lines, x - tolerance), bisect_right(joist_lines, x + tolerance))


def _all_lines(problem: LayoutProblem, run: Run) -> list[int]:
    return sorted({x for x, _ in _on_joists(problem, run)}.union(floating_lines(problem, run)))


@lru_cache(maxsize=16)
def _with_floating_places(problem: LayoutProblem) -> tuple[int, ...]:
    runs = {run._replace(row=0) for run in DeckRows(problem).runs}
    return tuple(sorted({x for run in runs for x in _all_lines(problem, run)}))
