"""The linear programme whose prices prove a bound: patterns of boards against ways to lay every run.

Patterns come by column generation. The programme itself is solved by HiGHS, which is optional: without it
there are no prices, and searches go by length alone.
"""

from __future__ import annotations

from collections import Counter
from typing import Any

from estimating.design.boards.solving.certify import Guide, Prices, costs_of, guide_by
from estimating.design.boards.solving.deck_runs import DeckRuns
from estimating.design.boards.solving.patterns import Pattern, better_patterns, first_patterns
from estimating.design.boards.solving.run_classes import NEITHER, NO_JOIST, rows_with_joints, run_classes
from estimating.design.boards.solving.solver import new_solver

INFINITY = float("inf")
BOARD_UNIT = 1_000_000
MOST_ROUNDS = 40
SLACK = 100  # what a board may be worth over its unit before a better pattern is looked for


class PriceProgramme:
    """Finds the best prices for a deck and keeps the patterns it met on the way."""

    def __init__(self, deck: DeckRuns) -> None:
        kerf = deck.first_problem.rules.kerf_mm
        self._deck, self._classes = deck, run_classes(deck, coarse=True)
        self.capacities = [source.cover_length_mm + kerf for source in deck.task.sources]
        self._costs = costs_of(deck.task.sources)
        self._unit = max(1, BOARD_UNIT // max(self._costs))
        self._items = [
            sorted({way.takes for each in self._classes for way in each.ways if way.kind == kind})
            for kind in range(NEITHER)
        ]
        self._row_of_item = self._numbered_items()
        self.patterns: list[Pattern] = []
        self._rows: list[tuple[float, float]] = []
        self._solver: Any = None

    def _numbered_items(self) -> dict[tuple[int, int], int]:
        items = [(kind, takes) for kind in range(NEITHER) for takes in self._items[kind]]
        return {item: row for row, item in enumerate(items)}

    def solve(self) -> Guide:
        """Find the prices and the bound they prove."""
        self._build()
        known = set(self.patterns)
        for _ in range(MOST_ROUNDS):
            self._solver.run()
            prices, limits = self._prices()
            fresh = [each for each in better_patterns(prices, self.capacities, limits) if each not in known]
            if not fresh:
                break
            known.update(fresh)
            for pattern in fresh:
                self._add(pattern)
        tolerant = any(zone.rules.joint_tolerance_mm for zone in self._deck.task.zones)
        return guide_by(self._deck, run_classes(self._deck) if tolerant else self._classes, prices)

    def _build(self) -> None:
        solver = new_solver()
        columns: list[tuple[float, list[int], list[float]]] = []
        bounds: list[tuple[float, float]] = [(0.0, INFINITY)] * len(self._row_of_item)
        for kind in range(NEITHER):
            for low, high in zip(self._items[kind], self._items[kind][1:], strict=False):
                # a longer piece's place serves a shorter piece too
                columns.append(
                    (0.0, [self._row_of_item[kind, low], self._row_of_item[kind, high]], [1.0, -1.0])
                )
        caps = rows_with_joints(self._classes)
        joist_rows = {key: len(bounds) + place for place, key in enumerate(caps)}
        bounds += [(-INFINITY, float(cap)) for cap in caps.values()]
        self._joist_rows = joist_rows
        hand = [place for place, source in enumerate(self._deck.task.sources) if source.at_hand is not None]
        self._hand_rows = {place: len(bounds) + number for number, place in enumerate(hand)}
        bounds += [(-INFINITY, float(self._deck.task.sources[place].at_hand or 0)) for place in hand]
        for each in self._classes:
            first = len(bounds)
            count = float(len(each.rows))
            bounds += [(count, count)] + [(0.0, 0.0)] * (each.stops - 2)
            for way in each.ways:
                rows, values = [first + way.start], [1.0]
                if way.end < each.stops - 1:
                    rows.append(first + way.end)
                    values.append(-1.0)
                if way.kind != NEITHER:
                    rows.append(self._row_of_item[way.kind, way.takes])
                    values.append(-1.0)
                if way.joist != NO_JOIST:
                    rows.append(joist_rows[each.zone, way.joist])
                    values.append(1.0)
                columns.append((0.0, rows, values))
        for least, most in bounds:
            solver.addRow(least, most, 0, [], [])
        for cost, rows, values in columns:
            solver.addCol(cost, 0.0, INFINITY, len(rows), rows, values)
        self._solver = solver
        for pattern in first_patterns(self._items, self.capacities):
            self._add(pattern)

    def _add(self, pattern: Pattern) -> None:
        rows, values = [], []
        for (kind, takes, _), count in sorted(Counter(pattern.places()).items()):
            rows.append(self._row_of_item[kind, takes])
            values.append(float(count))
        if pattern.source in self._hand_rows:
            rows.append(self._hand_rows[pattern.source])
            values.append(1.0)
        self._solver.addCol(float(self._costs[pattern.source]), 0.0, INFINITY, len(rows), rows, values)
        self.patterns.append(pattern)

    def _prices(self) -> tuple[Prices, list[int]]:
        duals = self._solver.getSolution().row_dual
        tables: list[tuple[tuple[int, int], ...]] = []
        for kind in range(NEITHER):
            tables.append(
                tuple(
                    (takes, max(0, int(duals[self._row_of_item[kind, takes]] * self._unit + 0.01)))
                    for takes in self._items[kind]
                )
            )
        joists = {key: max(0, int(-duals[row] * self._unit + 0.5)) for key, row in self._joist_rows.items()}
        limits = [
            self._costs[place] * self._unit
            + SLACK
            + (int(-duals[self._hand_rows[place]] * self._unit) if place in self._hand_rows else 0)
            for place in range(len(self.capacities))
        ]
        prices = Prices(tables[0], tables[1], tables[2], {key: each for key, each in joists.items() if each})
        return prices, limits
