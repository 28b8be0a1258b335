"""The exact programme: a yes or no for every legal piece of every run, and whole boards by pattern.

It is asked for a layout within a cost, with the least work if wished. HiGHS solves it, on one thread and
within a number of looks, so that the same deck always gives the same answer.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from math import ceil, isfinite
from typing import Any, NamedTuple

from estimating.design.boards.solving.certify import costs_of
from estimating.design.boards.solving.deck_runs import DeckRuns, Row
from estimating.design.boards.solving.patterns import Pattern
from estimating.design.boards.solving.places import Place, any_width, place_for
from estimating.design.boards.solving.run_classes import FULL, GROOVE, KINDS, NEITHER, TONGUE, LeastPiece
from estimating.design.boards.solving.sawing import Sawing
from estimating.design.boards.solving.solver import new_solver, whole_numbers
from estimating.design.boards.solving.stagger import Staggering
from estimating.design.boards.steps import RUN_END, RunSteps, Step

INFINITY = float("inf")
PIECE_WORK, BEARER_WORK = 0.1, 0.5  # beside a cut
ROUNDING = 1e-5  # HiGHS counts in floating point
ROUNDED_MM = 2  # both edges of a strip may have been rounded outward
UNFIT_WORK = 1.0  # a place not used by the piece it is for costs the cut that using up a board saves
FEASIBLE = 2  # how HiGHS says that the point it returns keeps every row


class ChosenStep(NamedTuple):
    """A piece of a run that the programme chose."""

    zone: int
    row: int
    step: Step


class ChosenBoards(NamedTuple):
    """What the programme chose: the pieces, and how often each pattern is cut."""

    steps: tuple[ChosenStep, ...]
    patterns: tuple[tuple[Pattern, int], ...]


class Answer(NamedTuple):
    """The answer to one question: boards chosen, or none; and what any choice costs at least."""

    chosen: ChosenBoards | None
    least: int


class _Column(NamedTuple):
    cost: float
    most: float
    rows: list[int]
    values: list[float]


class Looks:
    """How often HiGHS may look up from its work before it is stopped: a measure that no clock is part of."""

    def __init__(self, left: int) -> None:
        self.left = left

    def spend(self, event: Any) -> None:
        """Count one look, and stop the solver when there are none left."""
        self.left -= 1
        if self.left <= 0:
            event.data_in.user_interrupt = True


class ExactProgramme:
    """The programme of one deck for given patterns, which do not know of factory ends.

    A relaxed programme is told the least piece for each step. It looks only at the area of strips and not at
    their widths, and so allows all that any way to rip boards does. What it says cannot be, cannot be; what
    it finds may not fit.
    """

    def __init__(
        self,
        deck: DeckRuns,
        sawing: Sawing,
        patterns: Sequence[Pattern],
        relaxed: Mapping[tuple[int, Step], LeastPiece] | None = None,
    ) -> None:
        self._deck, self._sawing, self._relaxed = deck, sawing, relaxed
        self._patterns = tuple(patterns)
        self._costs = costs_of(deck.task.sources)
        self._gap = deck.first_problem.rules.gap_tolerance_mm
        self._rows: list[tuple[float, float]] = []
        self._columns: list[_Column] = []
        self._whole: list[int] = []
        self._items: dict[Place, int] = {}
        self._joints: dict[tuple[int, int, int], list[int]] = {}
        self._steps: list[tuple[int, ChosenStep]] = []
        # otherwise lengths say as much and solve faster
        self._by_area = relaxed is not None and any(piece.kind == NEITHER for piece in relaxed.values())
        self._area = self._row(0.0, INFINITY)
        for row in deck.rows:
            for run in row.runs:
                self._lay(row, run)
        self._stagger()
        self._budget = self._row(0.0, INFINITY)
        self._cut_boards()
        self._serve_lesser_pieces()
        self._leave_places()

    @property
    def columns(self) -> int:
        """How large the programme is."""
        return len(self._columns)

    def _row(self, least: float, most: float) -> int:
        self._rows.append((least, most))
        return len(self._rows) - 1

    def _item(self, place: Place) -> int:
        """The row that says: as many places for such pieces as pieces."""
        if place not in self._items:
            self._items[place] = self._row(0.0, 0.0)
        return self._items[place]

    def _lay(self, row: Row, run: RunSteps) -> None:
        """One path of pieces from the left end of a run to its right end."""
        last = len(run.lines) - 1
        at = [self._row(1.0, 1.0)] + [self._row(0.0, 0.0) for _ in range(last - 1)]
        for line, steps in enumerate(run.steps):
            for step in steps:
                rows, values = [at[line]], [1.0]
                least = self._relaxed[row.zone, step] if self._relaxed else None
                place = any_width(least) if least else place_for(self._sawing.cut_for(step))
                if place.kind != NEITHER or least is None:
                    rows.append(self._item(place))
                    values.append(-1.0)
                if least and self._by_area:
                    rows.append(self._area)
                    values.append(-self._share(least))
                if step.to < last:
                    rows.append(at[step.to])
                    values.append(-1.0)
                if step.joist != RUN_END:
                    self._joints.setdefault((row.zone, row.number, step.joist), []).append(len(self._columns))
                self._steps.append((len(self._columns), ChosenStep(row.zone, row.number, step)))
                self._whole.append(len(self._columns))
                work = 1 + PIECE_WORK + BEARER_WORK * step.bearers
                self._columns.append(_Column(work, 1.0, rows, values))

    def _capacity(self, source: int) -> int:
        return self._deck.task.sources[source].cover_length_mm + self._deck.first_problem.rules.kerf_mm

    def _share(self, piece: LeastPiece) -> float:
        """The share of a board's area that a piece takes with its saw cuts, in doubt too little."""
        problem = self._deck.first_problem
        width = problem.product.cover_width_mm + problem.rules.kerf_mm
        high = width if piece.kind == FULL else piece.height + problem.rules.kerf_mm - ROUNDED_MM
        return piece.takes * high / self._capacity(0) / width

    def _stagger(self) -> None:
        """Of two joints too near each other in adjacent rows, one at most."""
        near = [Staggering.of(zone).near for zone in self._deck.task.zones]
        for (zone, number, joist), columns in list(self._joints.items()):
            for other in range(len(near[zone])):
                against = self._joints.get((zone, number + 1, other))
                if against and near[zone][joist] >> other & 1:
                    row = self._row(-INFINITY, 1.0)
                    for column in (*columns, *against):
                        self._columns[column].rows.append(row)
                        self._columns[column].values.append(1.0)

    def _cut_boards(self) -> None:
        self._first_pattern = len(self._columns)
        at_hand = {
            place: self._row(-INFINITY, float(source.at_hand))
            for place, source in enumerate(self._deck.task.sources)
            if source.at_hand is not None
        }
        for pattern in self._patterns:
            rows, values = [self._budget], [float(self._costs[pattern.source])]
            if self._by_area:
                rows.append(self._area)
                values.append(self._capacity(pattern.source) / self._capacity(0))
            for place, count in sorted(Counter(pattern.places()).items()):
                rows.append(self._item(place))
                values.append(float(count))
            if pattern.source in at_hand:
                rows.append(at_hand[pattern.source])
                values.append(1.0)
            self._whole.append(len(self._columns))
            self._columns.append(_Column(self._sawn_off(pattern), INFINITY, rows, values))

    def _sawn_off(self, pattern: Pattern) -> float:
        """The cuts of a board over one for each piece: one to rip, one less for a board used up."""
        lanes = [lane for lane in (pattern.groove, pattern.tongue) if lane]
        ripped = max((sum(lane) for lane in lanes), default=0)
        capacity = self._capacity(pattern.source)
        pieces = len(pattern.full) + sum(map(len, lanes))
        used_up = capacity - sum(pattern.full) - ripped <= self._gap * pieces
        return float(bool(lanes)) - used_up

    def _serve_lesser_pieces(self) -> None:
        """A larger piece's place serves a lesser one, and either strip one that keeps neither edge."""
        by_kind = {
            kind: sorted(place for place in self._items if place.kind == kind) for kind in KINDS.values()
        }
        for kind, places in by_kind.items():
            for piece in places:
                for others in (GROOVE, TONGUE) if kind == NEITHER else (kind,):
                    for place in _next_larger(piece, by_kind[others]):
                        self._serve(piece, place)

    def _serve(self, piece: Place, place: Place) -> None:
        rows = [self._items[piece], self._items[place]]
        self._columns.append(_Column(UNFIT_WORK, INFINITY, rows, [1.0, -1.0]))

    def _leave_places(self) -> None:
        """A place may stay unused, but its board is then not used up."""
        for row in self._items.values():
            self._columns.append(_Column(UNFIT_WORK, INFINITY, [row], [-1.0]))

    def within(self, cost: int, *, least: int, looks: Looks, tidy: bool = False) -> Answer:
        """Find a layout of at most a cost: the cheapest, or when tidy the one with the least work."""
        solver = new_solver()
        solver.cbMipInterrupt.subscribe(looks.spend)
        solver.setOptionValue("mip_abs_gap", 0.49 if tidy else 0.99)
        solver.setOptionValue("mip_rel_gap", 0.0)
        self._rows[self._budget] = (float(least), float(cost))
        for low, high in self._rows:
            solver.addRow(low, high, 0, [], [])
        for number, column in enumerate(self._columns):
            price = column.cost if tidy else self._price(number)
            solver.addCol(price, 0.0, column.most, len(column.rows), column.rows, column.values)
        whole = whole_numbers(len(self._whole))
        solver.changeColsIntegrality(len(self._whole), self._whole, whole)
        solver.run()
        chosen = self._chosen(solver)
        if chosen is None and solver.modelStatusToString(solver.getModelStatus()) == "Infeasible":
            return Answer(None, cost + 1)
        reached = solver.getInfo().mip_dual_bound
        if tidy or not isfinite(reached):
            return Answer(chosen, least)
        return Answer(chosen, max(least, min(cost + 1, ceil(reached - ROUNDING))))

    def _price(self, column: int) -> float:
        place = column - self._first_pattern
        return float(self._costs[self._patterns[place].source]) if 0 <= place < len(self._patterns) else 0.0

    def _chosen(self, solver: Any) -> ChosenBoards | None:
        if solver.getInfo().primal_solution_status != FEASIBLE:
            return None
        values = solver.getSolution().col_value
        steps = tuple(step for column, step in self._steps if values[column] > 0.5)
        cut = (
            (pattern, round(values[self._first_pattern + place]))
            for place, pattern in enumerate(self._patterns)
        )
        return ChosenBoards(steps, tuple((each, count) for each, count in cut if count))


def _next_larger(piece: Place, places: Sequence[Place]) -> Iterator[Place]:
    """Of the places that serve a piece too, the shortest of each width."""
    shortest: dict[int, Place] = {}
    for place in places:
        fits = place.takes >= piece.takes and place.width >= piece.width
        if fits and place != piece and place.width not in shortest:
            shortest[place.width] = place
    yield from shortest.values()
