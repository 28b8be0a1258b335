"""Every legal piece of small decks, found anew for tests: nothing here is shared with how layouts are found.

The deck in rows comes from the published validator; the rules are read again from the layout problem's JSON.
Only decks with butt joints and no joint tolerance.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import product
from typing import Any, NamedTuple

from tests.published.layout_validator import Deck


class Blank(NamedTuple):
    """What a piece takes from a board: kind F, G, T or M as the validator names them, and its least size."""

    kind: str
    length_mm: int
    height_mm: int


class RunPiece(NamedTuple):
    """One way to cover a part of a run, and the joist that carries its right end; None at the run's end."""

    x0: int
    x1: int
    joist: int | None
    blank: Blank


@dataclass(frozen=True)
class RunPieces:
    """A run of a row with every legal piece, by where it begins."""

    row: int
    x0: int
    x1: int
    pieces: dict[int, list[RunPiece]]

    def ways(self, at: int | None = None) -> list[tuple[RunPiece, ...]]:
        """Every way to lay the run from end to end."""
        at = self.x0 if at is None else at
        if at == self.x1:
            return [()]
        return [(piece, *rest) for piece in self.pieces.get(at, []) for rest in self.ways(piece.x1)]


def every_run(data: dict[str, Any]) -> list[RunPieces]:
    """Find the runs of a deck and their pieces."""
    deck = Deck(data)
    return [
        RunPieces(row, x0, x1, _pieces(data, deck, row, x0, x1))
        for row in range(deck.nrows)
        for x0, x1 in deck.runs[row]
    ]


def _pieces(data: dict[str, Any], deck: Deck, row: int, x0: int, x1: int) -> dict[int, list[RunPiece]]:
    rules, board = data["rules"], data["product"]
    assert (rules["end_joint"], rules["joint_tol"]) == ("butt", 0)
    stops: dict[int, int | None] = {x0: None}
    stops |= {x: number for number, x in enumerate(data["joists"]["x"]) if x0 < x < x1}
    stops[x1] = None
    found: dict[int, list[RunPiece]] = {}
    for a, b in product(stops, stops):
        if a < b <= a + board["cover_length"] + rules["gap_tol"] and _is_legal(data, a, b, (x0, x1)):
            kind, height = deck.kind(row, a, b)
            blank = Blank(kind, max(b - a - rules["gap_tol"], 1), height)
            found.setdefault(a, []).append(RunPiece(a, b, stops[b], blank))
    return found


def _is_legal(data: dict[str, Any], a: int, b: int, run: tuple[int, int]) -> bool:
    """Long enough, and carried by enough joists or edge bearers however it is cut."""
    rules = data["rules"]
    if b - a < rules["min_piece"] and (a, b) != run:
        return False
    return all(carried >= rules["min_supports"] for carried in _carried(data, a, b, run))


def _carried(data: dict[str, Any], a: int, b: int, run: tuple[int, int]) -> set[int]:
    """By how much a piece is carried, cut to its span or short by the gap at either end."""
    gap, far = data["rules"]["gap_tol"], data["rules"]["max_overhang"]
    found = set()
    for x0, x1 in ((a, b), (a + gap, b), (a, b - gap)):
        under = [x for x in data["joists"]["x"] if x0 - gap <= x <= x1 + gap]
        left = a == run[0] and (not under or under[0] - x0 > far + gap)
        right = b == run[1] and (not under or x1 - under[-1] > far + gap)
        found.add(len(under) + left + right)
    return found


def hangs_on_a_few_mm(data: dict[str, Any]) -> bool:
    """Whether some piece may or may not be laid, by how far it is cut short at either end."""
    deck, longest = Deck(data), data["product"]["cover_length"] + data["rules"]["gap_tol"]
    for run in {run for row in deck.runs for run in row}:
        stops = [run[0], *(x for x in data["joists"]["x"] if run[0] < x < run[1]), run[1]]
        for a, b in product(stops, stops):
            if a < b <= a + longest:
                enough = {each >= data["rules"]["min_supports"] for each in _carried(data, a, b, run)}
                if len(enough) > 1:
                    return True
    return False


def apart(data: dict[str, Any], one: int, other: int) -> bool:
    """Whether joints on two joists may lie in adjacent rows."""
    lines = data["joists"]["x"]
    return one != other and abs(lines[one] - lines[other]) >= data["rules"]["min_stagger"]
