"""The fewest boards for a small deck, by trying every way to lay it and every way to saw it."""

from __future__ import annotations

from collections import Counter
from functools import cache
from itertools import groupby, product
from math import inf
from typing import Any

from tests.estimating.boards.every_piece import Blank, apart, every_run

Blanks = tuple[Blank, ...]


def fewest_boards(data: dict[str, Any]) -> int | None:
    """Try everything; None where no way of laying staggers."""
    sawing = _Sawing(data)
    best = None
    for blanks in sorted(_every_list_of_blanks(data), key=lambda blanks: (sawing.by_area(blanks), blanks)):
        if best is not None and sawing.by_area(blanks) >= best:
            break
        boards = sawing.boards(blanks)
        best = boards if best is None else min(best, boards)
    return best


def _every_list_of_blanks(data: dict[str, Any]) -> set[Blanks]:
    """What may have to be sawn: the blanks of each way to lay the deck whose joints keep apart."""
    # a way is known by its last row's joints and its blanks; what went before no longer matters
    reached: set[tuple[int, frozenset[int], Blanks]] = {(-2, frozenset(), ())}
    for row, runs in groupby(every_run(data), key=lambda run: run.row):
        ways = {
            (
                frozenset(piece.joist for way in ways for piece in way if piece.joist is not None),
                tuple(piece.blank for way in ways for piece in way),
            )
            for ways in product(*(run.ways() for run in runs))
        }
        reached = {
            (row, joints, tuple(sorted(before + blanks)))
            for below, met, before in reached
            for joints, blanks in ways
            if below < row - 1 or all(apart(data, one, other) for one in met for other in joints)
        }
    return {blanks for _, _, blanks in reached}


class _Sawing:
    """Saws one kind of board by straight full cuts, in every way there is."""

    def __init__(self, data: dict[str, Any]) -> None:
        self._length, self._width = data["product"]["cover_length"], data["product"]["cover_width"]
        self._kerf = data["rules"]["kerf"]
        self._profiled = data["product"]["sides"] == "tg"
        self.boards = cache(self._boards)
        self._need = cache(self._length_for)

    def by_area(self, blanks: Blanks) -> int:
        """No fewer than this, whatever the saw."""
        area = sum((blank.length_mm + self._kerf) * blank.height_mm for blank in blanks)
        return -(-area // ((self._length + self._kerf) * self._width))

    def _boards(self, blanks: Blanks) -> int:
        """Saw the longest from a new board, together with each set of others that it leaves room for."""
        if not blanks:
            return 0
        first, rest = blanks[-1], blanks[:-1]
        least = len(blanks)
        for others in sorted(self._beside(first, rest), key=len, reverse=True):
            if least == self.by_area(blanks):
                break
            left = tuple(sorted((Counter(rest) - Counter(others)).elements()))
            least = min(least, 1 + self.boards(left))
        return least

    def _beside(self, first: Blank, rest: Blanks) -> set[Blanks]:
        """Sets of other pieces that fit into the board of the first; whatever fits, fewer of it fit too."""
        found: set[Blanks] = {()}
        newest: set[Blanks] = {()}
        while newest:
            longer = set()
            for others in newest:
                for one in set(Counter(rest) - Counter(others)):
                    more = tuple(sorted((*others, one)))
                    if more not in found and self._fits((*more, first)):
                        longer.add(more)
            found |= longer
            newest = longer
        return found

    def _fits(self, blanks: Blanks) -> bool:
        area = sum((blank.length_mm + self._kerf) * blank.height_mm for blank in blanks)
        if area > (self._length + self._kerf) * self._width:
            return False
        return self._need(tuple(sorted(blanks)), self._width, True, True) <= self._length

    def _length_for(self, blanks: Blanks, width: int, has_groove: bool, has_tongue: bool) -> float:
        """The least length of a strip of board that the pieces can be sawn from; its groove is below."""
        if len(blanks) == 1:
            fits = self._is_one(blanks[0], width, has_groove, has_tongue)
            return blanks[0].length_mm if fits else inf
        least = inf
        for one, other in _parted(blanks):
            if one <= other:  # a cut across the board parts it alike either way round
                lengths = (self._need(part, width, has_groove, has_tongue) for part in (one, other))
                least = min(least, sum(lengths) + self._kerf)
            for y in self._rips(one, width):
                below, above = (y, has_groove, False), (width - y - self._kerf, False, has_tongue)
                least = min(least, max(self._need(one, *below), self._need(other, *above)))
        return least

    def _is_one(self, blank: Blank, width: int, has_groove: bool, has_tongue: bool) -> bool:
        needs_groove = self._profiled and blank.kind in "FG"
        needs_tongue = self._profiled and blank.kind in "FT"
        return blank.height_mm <= width and has_groove >= needs_groove and has_tongue >= needs_tongue

    def _rips(self, below: Blanks, width: int) -> list[int]:
        """Where the part may be ripped: just above some of the lower pieces laid one over the other."""
        sums = {-self._kerf}
        for blank in below:
            sums |= {at + self._kerf + blank.height_mm for at in sums}
        return [at for at in sorted(sums) if 0 < at < width - self._kerf]


def _parted(blanks: Blanks) -> set[tuple[Blanks, Blanks]]:
    """Every way to part pieces in two, like pieces not told apart."""
    return {
        (
            tuple(blank for place, blank in enumerate(blanks) if taken >> place & 1),
            tuple(blank for place, blank in enumerate(blanks) if not taken >> place & 1),
        )
        for taken in range(1, (1 << len(blanks)) - 1)
    }
