"""Whether joints leave a way on: the lines of a run from which its end can still be reached."""

from __future__ import annotations

from estimating.design.boards.solving.deck_runs import DeckRuns, Row
from estimating.design.boards.solving.stagger import Staggering
from estimating.design.boards.steps import RUN_END, RunSteps


class WaysOn:
    """Knows the ways across every run of a deck; joists and lines are bits, for speed."""

    def __init__(self, deck: DeckRuns) -> None:
        self._staggering = tuple(Staggering.of(zone) for zone in deck.task.zones)
        runs = [run for row in deck.rows for run in row.runs]
        self._reaches = {id(run): _reaches(run) for run in runs}
        self._bits = {id(run): sum({1 << joist for joist in run.joists if joist >= 0}) for run in runs}
        self._open: dict[tuple[int, int], int] = {}

    def open_lines(self, run: RunSteps, barred: int) -> int:
        """From which lines of a run its end can still be reached, as bits."""
        key = (id(run), barred & self._bits[id(run)])
        open_lines = self._open.get(key)
        if open_lines is None:
            open_lines = 1 << len(run.lines) - 1
            for line_bit, joint, reach in self._reaches[id(run)]:
                if reach & open_lines and not joint & barred:
                    open_lines |= line_bit
            self._open[key] = open_lines
        return open_lines

    def barred_by(self, zone: int, joints: int) -> int:
        """The joists of a zone that the row beside these joints may not use."""
        return self._staggering[zone].barred_by(joints)


class WayOn:
    """Whether the joints of a row, as far as it is laid, leave the following row a way across."""

    def __init__(self, ways: WaysOn, row: Row, following: Row | None, barred: int) -> None:
        self._ways, self._zone = ways, row.zone
        self._following = following.runs if following else ()
        self._barred = barred
        self._beside = following is not None and row.beside(following)
        self._known: dict[int, bool] = {}

    def barred_by(self, joints: int) -> int:
        """The joists barred to the following row."""
        return self._barred | (self._ways.barred_by(self._zone, joints) if self._beside else 0)

    def from_joints(self, joints: int) -> bool:
        """Whether every run of the following row can still be laid."""
        way = self._known.get(joints)
        if way is None:
            barred = self.barred_by(joints)
            way = all(self._ways.open_lines(run, barred) & 1 for run in self._following)
            self._known[joints] = way
        return way


def joint_bit(joist: int) -> int:
    """Write a joint as the bit of its joist.

    Args:
        joist: The joist's number, or the end of the run. Scalar. [-]

    Returns:
        The bit, 0 at the end of a run. Scalar. [-]

    Source:
        Own definition.
    """
    return 0 if joist == RUN_END else 1 << joist


def _reaches(run: RunSteps) -> list[tuple[int, int, int]]:
    """Each line from last to first: its bit, its joint's bit and the lines it leads to, as bits."""
    return [
        (1 << line, joint_bit(run.joists[line]), sum(1 << step.to for step in run.steps[line]))
        for line in range(len(run.steps) - 1, -1, -1)
    ]
