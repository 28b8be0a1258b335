"""Laying row by row with a few best part-layouts kept, each knowing its offcuts and its last joints.

Run-on laying takes one offcut to the next row and hopes. This keeps several such layouts side by side,
compares them at the same place of the same row by what they cost less what their offcuts are still worth,
and drops those whose joints leave the next row no way across. Where prices are known it also drops those
that can no longer end within a given cost.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import NamedTuple

from estimating.design.boards.solving.allot import Choice
from estimating.design.boards.solving.certify import Guide
from estimating.design.boards.solving.deck_runs import DeckRuns, Row
from estimating.design.boards.solving.length_worth import worth_by_length
from estimating.design.boards.solving.part_layouts import Chosen, Found, PartLayout, Width, choices_of
from estimating.design.boards.solving.run_classes import KINDS, rows_with_joints, run_classes
from estimating.design.boards.solving.sawing import Sawing
from estimating.design.boards.solving.ways_on import WayOn, WaysOn, joint_bit
from estimating.design.boards.steps import RunSteps, Step

# what work is worth as a share of a board: enough to choose between layouts of as many boards, seldom enough
# to buy another; tried on some eighty decks
CUT_COST = 1 / 120
PIECE_COST = 1 / 1200
BEARER_COST = 1 / 240
DOUBT = 10  # a tenth of what offcuts are worth at known prices is never realised


class _Move(NamedTuple):
    step: Step
    cut: int
    bit: int
    to_bit: int
    price: int


class _Pass(NamedTuple):
    """What holds while one run is laid; the limit is on what a part costs less its offcuts, at the end."""

    zone: int
    way_on: WayOn
    width: Width
    limit: int | None
    budget: int


class RowSearch:
    """Searches one deck; each call of lay is one pass over the rows, the same every time.

    `only` is the one source to buy from, where a deck may be laid of several.
    """

    def __init__(self, deck: DeckRuns, guide: Guide | None = None, *, only: int | None = None) -> None:
        self._deck, self._guide = deck, guide
        problem = deck.first_problem
        capacity = problem.product.cover_length_mm + problem.rules.kerf_mm
        if guide is None:
            worth, unit = worth_by_length((step.least_mm for step in deck.steps()), capacity)
        else:
            worth, unit = guide.worth, guide.unit
        self.sawing = Sawing(deck, worth, unit, doubt=DOUBT if guide else 0, only=only)
        self._unit = unit
        board = max(unit, worth.board[-1])
        self._cut_cost = max(1, int(board * CUT_COST))
        self._piece_cost, self._bearer_cost = int(board * PIECE_COST), int(board * BEARER_COST)
        self._ways = WaysOn(deck)
        runs = [run for row in deck.rows for run in row.runs]
        by_kind = guide.prices.by_kind(capacity) if guide else ()
        self._moves = {id(run): self._moves_of(zone, run) for zone, run in self._zoned()}
        self._turn = 0
        self._to_go = {id(run): self._least_to_end(run, by_kind) for run in runs} if guide else {}
        self._spare = self._joists_in_all() if guide else 0
        self.dropped = False

    def _zoned(self) -> Iterable[tuple[int, RunSteps]]:
        return ((row.zone, run) for row in self._deck.rows for run in row.runs)

    def _moves_of(self, zone: int, run: RunSteps) -> list[list[_Move]]:
        """The steps from each line, with the cut's number, and the joint and the line led to as bits."""
        joists = self._guide.prices.joists if self._guide else {}
        number = self.sawing.cut_number
        return [
            [
                _Move(
                    step,
                    number(step),
                    joint_bit(step.joist),
                    1 << step.to,
                    joists.get((zone, step.joist), 0),
                )
                for step in steps
            ]
            for steps in run.steps
        ]

    def _least_to_end(self, run: RunSteps, by_kind: tuple[list[int], ...]) -> list[int]:
        """From each line of a run, the least that the rest of it is worth."""
        far = 1 << 60
        least = [far] * len(run.lines)
        least[-1] = 0
        for line in range(len(run.steps) - 1, -1, -1):
            for move in self._moves[id(run)][line]:
                cut = self.sawing.cut_for(move.step)
                worth = by_kind[KINDS[cut.kind]][cut.takes_mm] + move.price + least[move.step.to]
                least[line] = min(least[line], worth)
        return least

    def _joists_in_all(self) -> int:
        assert self._guide is not None  # noqa: S101 - only called with a guide
        joists = self._guide.prices.joists
        if not joists:
            return 0
        caps = rows_with_joints(run_classes(self._deck))
        return sum(price * caps.get(key, 0) for key, price in joists.items())

    def lay(
        self,
        width: Width,
        *,
        downward: bool = False,
        within: int | None = None,
        only: Sequence[Sequence[int]] | None = None,
    ) -> Found | None:
        """Lay every row, from the bottom or from the top.

        `within` is the cost to stay within, where there is a guide; `only` allows each row of each zone some
        joists, as bits. `dropped` then says whether anything was dropped for want of width.
        """
        rows = self._deck.rows[::-1] if downward else self._deck.rows
        barred = self._barred(rows, only)
        limit = self._limit(rows, within)
        kept = [PartLayout(0, 0, 0, 0, 0, self.sawing.start, barred[0], 0, None)]
        self.dropped = False
        for number, row in enumerate(rows):
            following = rows[number + 1] if number + 1 < len(rows) else None
            way_on = WayOn(self._ways, row, following, barred[number + 1] if following else 0)
            for run in row.runs:
                if limit is not None:
                    limit += self._to_go[id(run)][0]
                kept = self._lay_run(run, kept, _Pass(row.zone, way_on, width, limit, within or 0))
            kept = [part._replace(barred=way_on.barred_by(part.joints), joints=0) for part in kept]
        if not kept:
            return None
        best = min(kept, key=lambda part: (part.cost, part.spent, part.turn))
        return Found(best.cost, best.spent, choices_of(best))

    def _barred(self, rows: Sequence[Row], only: Sequence[Sequence[int]] | None) -> list[int]:
        if only is None:
            return [0] * len(rows)
        allowed: dict[tuple[int, int], int] = {}
        for zone, joints in enumerate(only):
            numbers = [row.number for row in self._deck.rows if row.zone == zone]
            allowed.update({(zone, number): bits for number, bits in zip(numbers, joints, strict=True)})
        return [~allowed[row.zone, row.number] for row in rows]

    def _limit(self, rows: Sequence[Row], within: int | None) -> int | None:
        """What a part-layout may have cost at the start, less what its offcuts are worth."""
        if within is None or self._guide is None:
            return None
        worth = sum(self._to_go[id(run)][0] for row in rows for run in row.runs)
        return within * self._unit + self._spare - worth

    def _lay_run(self, run: RunSteps, kept: list[PartLayout], this: _Pass) -> list[PartLayout]:
        zone, way_on, width, limit, budget = this
        zeal = width.zeal
        moves, end = self._moves[id(run)], len(run.lines) - 1
        to_go = self._to_go.get(id(run))
        waiting: list[dict[tuple[int, int, int], PartLayout]] = [{} for _ in run.lines]
        waiting[0] = {(part.stock, part.barred, part.joints): part for part in kept}
        ways_to_take, unit = self.sawing.ways_to_take, self._unit
        worth, doubts = self.sawing.worth, self.sawing.doubts
        for line in range(end):
            for part in self._best(waiting[line].values(), way_on, width.kept):
                open_lines = self._ways.open_lines(run, part.barred)
                for step, cut, bit, to_bit, price in moves[line]:
                    if bit & part.barred or not open_lines & to_bit:
                        continue
                    joints, priced, to = part.joints | bit, part.priced + price, step.to
                    most = None if limit is None or to_go is None else limit - to_go[to]
                    for _, cuts, cost, region, source, stock in ways_to_take(part.stock, cut)[: width.ways]:
                        total = part.cost + cost
                        net = total * unit - worth[stock] + priced
                        if most is not None and (net > most or total > budget):
                            continue
                        spent = (
                            part.spent
                            + self._piece_cost
                            + self._cut_cost * cuts
                            + self._bearer_cost * step.bearers
                        )
                        rank = net + spent * zeal + doubts[stock]
                        key = (stock, part.barred, joints)
                        rival = waiting[to].get(key)
                        if rival is None or rank < rival.rank:
                            self._turn += 1
                            chosen = Chosen(part.last, Choice(zone, run.run.row, step, source, region))
                            waiting[to][key] = PartLayout(
                                rank, self._turn, spent, total, priced, stock, part.barred, joints, chosen
                            )
        return self._best(waiting[end].values(), way_on, width.kept)

    def _best(self, parts: Iterable[PartLayout], way_on: WayOn, most: int) -> list[PartLayout]:
        """The cheapest few that leave a way on, not all alike in joints, or one bad row would end all."""
        alike: dict[int, int] = {}
        best: list[PartLayout] = []
        for part in sorted(parts):
            if not way_on.from_joints(part.joints):
                continue
            same = alike.get(part.joints, 0)
            if same * 2 >= most or len(best) == most:
                self.dropped = True
                continue
            alike[part.joints] = same + 1
            best.append(part)
        return best
