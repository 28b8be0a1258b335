"""Laying and sawing a deck as a model for CP-SAT, written anew: pieces from the validator, boards by pattern.

Where ripped pieces differ in width, or boards can be sawn in too many ways, only some of the ways are in the
model: what it finds can then be built, but what it proves is not proved of the deck.
"""

from __future__ import annotations

from itertools import groupby
from math import ceil
from typing import Any, NamedTuple

from tests.estimating.boards.every_piece import Blank, RunPiece, RunPieces, apart, every_run
from tests.estimating.boards.sawing_patterns import Lanes


class Outcome(NamedTuple):
    """The fewest boards found, None if none was; what no layout can better, 0 if that is not proved."""

    boards: int | None
    least: int
    impossible: bool


def fewest_by_cp_sat(cp_model: Any, data: dict[str, Any], effort: float) -> Outcome:
    """Ask CP-SAT for the fewest boards: one worker, a fixed seed and a fixed amount of work."""
    model = cp_model.CpModel()
    laying = _Laying(data, every_run(data), model)
    lanes = Lanes(data, {blank for blank, _ in laying.chosen})
    boards = [(pattern, model.new_int_var(0, len(laying.chosen), "")) for pattern in lanes.patterns]
    for number, lane in enumerate("FGT"):
        wanted = [
            (lanes.takes(blank), chosen) for blank, chosen in laying.chosen if lanes.lane(blank) == lane
        ]
        for least in sorted({takes for takes, _ in wanted}):
            # a longer place serves a shorter piece, so it is enough to count from each length on
            places = sum(
                sum(takes >= least for takes in pattern[number]) * count for pattern, count in boards
            )
            model.add(places >= sum(chosen for takes, chosen in wanted if takes >= least))
    model.minimize(sum(count for _, count in boards))
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    solver.parameters.random_seed = 1
    solver.parameters.max_deterministic_time = effort
    status = solver.solve(model)
    if status == cp_model.INFEASIBLE:
        return Outcome(None, 0, True)
    found = status in (cp_model.OPTIMAL, cp_model.FEASIBLE)
    least = max(0, ceil(solver.best_objective_bound - 1e-6)) if lanes.complete else 0
    return Outcome(round(solver.objective_value) if found else None, least, False)


class _Laying:
    """A path of pieces through every run, and joints that keep apart."""

    def __init__(self, data: dict[str, Any], runs: list[RunPieces], model: Any) -> None:
        self._model = model
        self.chosen: list[tuple[Blank, Any]] = []
        joints: dict[int, dict[int, Any]] = {}
        for row, in_row in groupby(runs, key=lambda run: run.row):
            joints[row] = {}
            for run in in_row:
                joints[row].update(self._laid(run))
        for row, below in joints.items():
            for one, joint in below.items():
                for other, above in joints.get(row + 1, {}).items():
                    if not apart(data, one, other):
                        model.add(joint + above <= 1)

    def _laid(self, run: RunPieces) -> dict[int, Any]:
        """One path; returns whether it has a joint, for each joist."""
        into: dict[int, list[Any]] = {run.x1: []}
        out: dict[int, list[Any]] = {run.x0: []}
        joists: dict[int, int] = {}
        for piece in _pieces_of(run):
            chosen = self._model.new_bool_var("")
            self.chosen.append((piece.blank, chosen))
            out.setdefault(piece.x0, []).append(chosen)
            into.setdefault(piece.x1, []).append(chosen)
            if piece.joist is not None:
                joists[piece.x1] = piece.joist
        self._model.add(sum(out[run.x0]) == 1)
        self._model.add(sum(into[run.x1]) == 1)
        for x in (into.keys() | out.keys()) - {run.x0, run.x1}:
            self._model.add(sum(into.get(x, [])) == sum(out.get(x, [])))
        return {joist: sum(into[x]) for x, joist in joists.items()}


def _pieces_of(run: RunPieces) -> list[RunPiece]:
    return [piece for pieces in run.pieces.values() for piece in pieces]
