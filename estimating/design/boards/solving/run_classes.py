"""Runs that are alike, and every way to lay them that a bound must allow for.

A bound holds only if it looks at no fewer pieces than are legal. So the ways here are a little wider than
the legal steps: an end may lie anywhere in the joint tolerance, and a support counts when the gap just
reaches it.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from typing import NamedTuple

from estimating.design.boards.problem import LayoutProblem
from estimating.design.boards.rows import Blank, DeckRows, Run
from estimating.design.boards.solving.deck_runs import DeckRuns
from estimating.design.boards.steps import RunSteps, Step

NO_JOIST = -1
FULL, GROOVE, TONGUE, NEITHER = 0, 1, 2, 3
KINDS = {"full": FULL, "groove": GROOVE, "tongue": TONGUE, "neither": NEITHER}
HEIGHT_SLACK_MM = 2
SLANTED_SLACK_MM = 6  # two heights, each rounded outward by up to a millimetre at both edges, and a little


class Way(NamedTuple):
    """One piece a run may be laid with: from stop to stop, what it keeps and what it takes of a board."""

    start: int
    end: int
    joist: int  # of its right end
    kind: int
    takes: int


class RunClass(NamedTuple):
    """Runs that can be laid in the same ways, by the rows they lie in."""

    zone: int
    joists: tuple[int, ...]  # of the stops between the ends, whether a way leads to them or not
    ways: tuple[Way, ...]
    rows: tuple[int, ...]

    @property
    def stops(self) -> int:
        """How many lines a piece may end on, both ends of the run with them."""
        return len(self.joists) + 2

    def least_worth(self, prices: tuple[list[int], ...], joists: dict[tuple[int, int], int]) -> int | None:
        """The least that one run of the class is worth however it is laid; None when it cannot be."""
        least: list[int | None] = [None] * self.stops
        least[0] = 0
        for start, end, joist, kind, takes in self.ways:
            reached = least[start]
            if reached is None:
                continue
            worth = reached + prices[kind][takes]
            if joist != NO_JOIST:
                worth += joists.get((self.zone, joist), 0)
            known = least[end]
            if known is None or worth < known:
                least[end] = worth
        return least[-1]


def run_classes(deck: DeckRuns, *, coarse: bool = False) -> tuple[RunClass, ...]:
    """Sort the runs of a deck into classes of like runs.

    Args:
        deck: The deck made ready. Record. [mm]
        coarse: Whether to look only at the ends and the middle of the joint tolerance. Prices found so are
            good, but what they prove must be added up over every way. Flag. [-]

    Returns:
        The classes, in the order of their first runs. Tuple of records. [mm]

    Source:
        Own definition.
    """
    drafts: dict[tuple[int, tuple[int, ...], tuple[_Draft, ...]], list[int]] = {}
    ripped: set[Blank] = set()
    for zone, (problem, rows) in enumerate(zip(deck.task.zones, deck.geometry, strict=True)):
        known: dict[object, tuple[tuple[int, ...], tuple[_Draft, ...]]] = {}
        floats = problem.rules.end_joint == "floating"
        for run, steps in zip(rows.runs, deck.runs[zone], strict=True):
            key = (run.x0, run.x1) if rows.is_clear(run) else run
            if key not in known:
                known[key] = _drafts_of_steps(steps) if floats else _drafts(problem, rows, run, coarse)
            joists, ways = known[key]
            drafts.setdefault((zone, joists, ways), []).append(run.row)
            ripped |= {draft.blank for draft in ways if draft.blank.kind != "full"}
    shared = _shared(ripped, deck)
    return tuple(
        RunClass(zone, joists, tuple(_way(draft, shared) for draft in ways), tuple(numbers))
        for (zone, joists, ways), numbers in drafts.items()
    )


class LeastPiece(NamedTuple):
    """The least that a step may be laid with: what it keeps, what it takes and how high it is."""

    kind: int
    takes: int
    height: int


def least_pieces(deck: DeckRuns) -> dict[tuple[int, Step], LeastPiece]:
    """Give the least piece for every step of every zone, cut as close to slanted edges as can be.

    Args:
        deck: The deck made ready. Record. [mm]

    Returns:
        The pieces, by zone and step. Mapping. [mm]

    Source:
        Geometry.
    """
    drafts: dict[tuple[int, Step], Blank] = {}
    for zone, rows in enumerate(deck.geometry):
        gap = deck.task.zones[zone].rules.gap_tolerance_mm
        for run in deck.runs[zone]:
            for steps in run.steps:
                for step in steps:
                    blank = (
                        rows.least_blank(run.run, step.x0 + gap, step.x1 - gap) if rows.slants else step.blank
                    )
                    drafts[zone, step] = Blank(blank.kind, 0, blank.y1 - blank.y0)
    shared = _shared({blank for blank in drafts.values() if blank.kind != "full"}, deck)
    return {
        key: LeastPiece(KINDS[blank.kind] if blank in shared else FULL, key[1].least_mm, blank.y1)
        for key, blank in drafts.items()
    }


class _Draft(NamedTuple):
    """A way before it is known whether its strip can be shared; the blank stands at height 0."""

    start: int
    end: int
    joist: int
    blank: Blank
    takes: int


def _way(draft: _Draft, shared: set[Blank]) -> Way:
    kind = KINDS[draft.blank.kind] if draft.blank in shared else FULL
    return Way(draft.start, draft.end, draft.joist, kind, draft.takes)


def _shared(ripped: set[Blank], deck: DeckRuns) -> set[Blank]:
    """The ripped pieces that may share a board's width with another, in doubt too many."""
    if any(rows.leaves_slivers for rows in deck.geometry):
        return ripped  # a sliver that stays open could be a strip beside any of them
    problem = deck.first_problem
    slack = SLANTED_SLACK_MM if any(rows.slants for rows in deck.geometry) else HEIGHT_SLACK_MM
    room = problem.product.cover_width_mm - problem.rules.kerf_mm + slack
    return {
        one
        for one in ripped
        for other in ripped
        if (other.kind != one.kind or one.kind == "neither") and one.y1 + other.y1 <= room
    }


def _stops(problem: LayoutProblem, run: Run, coarse: bool) -> list[tuple[int, int]]:
    rules = problem.rules
    tolerance = rules.joint_tolerance_mm
    first, last = run.x0 + rules.min_piece_mm, run.x1 - rules.min_piece_mm
    reach = sorted({-tolerance, 0, tolerance}) if coarse else range(-tolerance, tolerance + 1)
    found = {line + off: joist for joist, line in enumerate(problem.joist_lines) for off in reach}
    inside = sorted((x, joist) for x, joist in found.items() if first <= x <= last)
    return [(run.x0, NO_JOIST), *inside, (run.x1, NO_JOIST)]


def _drafts(
    problem: LayoutProblem, rows: DeckRows, run: Run, coarse: bool
) -> tuple[tuple[int, ...], tuple[_Draft, ...]]:
    rules, product = problem.rules, problem.product
    stops = _stops(problem, run, coarse)
    last = len(stops) - 1
    longest = product.cover_length_mm + rules.gap_tolerance_mm
    found: list[_Draft] = []
    for at, (x0, joist0) in enumerate(stops[:-1]):
        for to in range(at + 1, len(stops)):
            x1, joist1 = stops[to]
            if x1 - x0 > longest:
                break
            free = (at == 0, to == last)
            if (joist0 == joist1 != NO_JOIST) or (x1 - x0 < rules.min_piece_mm and not all(free)):
                continue
            if not _may_be_carried(problem, (x0, x1), free):
                continue
            if (
                rules.end_joint == "tg"
                and not any(free)
                and x1 - x0 < product.cover_length_mm - rules.gap_tolerance_mm
            ):
                continue
            # a piece may leave a gap at either end, and need not keep what it would only meet there
            blank = rows.least_blank(run, x0 + rules.gap_tolerance_mm, x1 - rules.gap_tolerance_mm)
            takes = max(x1 - x0 - rules.gap_tolerance_mm, 1) + rules.kerf_mm
            found.append(_Draft(at, to, joist1, Blank(blank.kind, 0, blank.y1 - blank.y0), takes))
    return tuple(joist for _, joist in stops[1:-1]), tuple(found)


def _drafts_of_steps(run: RunSteps) -> tuple[tuple[int, ...], tuple[_Draft, ...]]:
    """Where joints float, the legal steps alone: prices found so are good, but prove nothing yet."""
    found = tuple(
        _Draft(at, step.to, NO_JOIST, Blank(step.blank.kind, 0, step.blank.y1 - step.blank.y0), step.least_mm)
        for at, steps in enumerate(run.steps)
        for step in steps
    )
    return (NO_JOIST,) * (len(run.lines) - 2), found


def _may_be_carried(problem: LayoutProblem, span: tuple[int, int], free: tuple[bool, bool]) -> bool:
    rules, lines = problem.rules, problem.joist_lines
    reach = rules.gap_tolerance_mm + rules.joint_tolerance_mm
    first, past = bisect_left(lines, span[0] - reach), bisect_right(lines, span[1] + reach)
    bare = first >= past
    count = past - first
    count += free[0] and (bare or lines[first] - span[0] > rules.max_overhang_mm)
    count += free[1] and (bare or span[1] - lines[past - 1] > rules.max_overhang_mm)
    return count >= rules.min_supports


def rows_with_joints(classes: tuple[RunClass, ...]) -> dict[tuple[int, int], int]:
    """Give for each joist of each zone how many rows at most can have joints on it.

    Of neighbouring rows only every second can, because joints of adjacent rows are staggered.

    Args:
        classes: The classes of runs. Tuple. [-]

    Returns:
        The most rows, by zone and joist. Mapping. [-]

    Source:
        Staggered end joints: NHBC Standards 6.4.19; counting.
    """
    rows: dict[tuple[int, int], set[int]] = {}
    for each in classes:
        for joist in {*each.joists} - {NO_JOIST}:
            rows.setdefault((each.zone, joist), set()).update(each.rows)
    return {key: _every_second(sorted(numbers)) for key, numbers in rows.items()}


def _every_second(numbers: list[int]) -> int:
    most, length, before = 0, 0, None
    for number in numbers:
        length = length + 1 if before is not None and number == before + 1 else 1
        most += length % 2
        before = number
    return most
