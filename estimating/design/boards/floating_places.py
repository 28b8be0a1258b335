"""Where end joints that float are worth a look.

Ends that float are factory ends, tongue in groove, so between floating joints lie whole boards. Any
millimetre would do for the first of them; those worth looking at are where run-on laying comes out: each row
begins with what the row before it left over.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from functools import lru_cache

from estimating.design.boards.problem import LayoutProblem
from estimating.design.boards.rows import DeckRows, Run

MOST_PLACES = 240
FEWEST_FIRST_PIECES, MOST_FIRST_PIECES = 6, 24
LIKE_LENGTHS = 3  # run lengths that the offcuts of a deck are followed through


def floating_lines(problem: LayoutProblem, run: Run) -> Iterator[int]:
    """List the lines a first piece and then whole boards reach from the left end of a run.

    Args:
        problem: The layout problem. Record. [mm]
        run: The run. Record. [mm]

    Returns:
        Lines that leave a last piece to the right. Iterator. [mm]

    Source:
        Run-on laying: common practice, no source.
    """
    length, least = problem.product.cover_length_mm, problem.rules.min_piece_mm
    for first in _first_pieces(problem):
        yield from range(run.x0 + first, run.x1 - least + 1, length)


@lru_cache(maxsize=16)
def _first_pieces(problem: LayoutProblem) -> tuple[int, ...]:
    """First pieces of a run that waste little: whole boards, staggered ones, and what rows leave for others.

    A board gives a last piece at its left factory end and a first piece at its right one.
    """
    rules, length = problem.rules, problem.product.cover_length_mm
    runs = DeckRows(problem).runs
    lengths = Counter(run.x1 - run.x0 for run in runs)
    in_each = sum(-(-(run.x1 - run.x0) // length) for run in {run._replace(row=0) for run in runs})
    most = max(FEWEST_FIRST_PIECES, min(MOST_FIRST_PIECES, MOST_PLACES // max(in_each, 1)))
    apart = max(rules.min_stagger_mm, rules.min_piece_mm, 1)
    found = list(range(length, rules.min_piece_mm - 1, -apart))[: most // 2]
    like = [each for each, _ in sorted(lengths.items(), key=lambda item: (-item[1], item[0]))][:LIKE_LENGTHS]
    for first in found:  # grows as it goes
        for whole in like:
            for following in _followed(whole, first, length, rules.kerf_mm):
                if len(found) < most and rules.min_piece_mm <= following <= length and following not in found:
                    found.append(following)
    return tuple(found)


def _followed(run_mm: int, first: int, length: int, kerf: int) -> Iterator[int]:
    """Which first pieces go with one: what the end of its row leaves, and what leaves it the right end."""
    last = (run_mm - first - 1) % length + 1
    yield length - kerf - last
    yield (run_mm - (length - kerf - first) - 1) % length + 1
