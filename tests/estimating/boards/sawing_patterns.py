"""The ways to saw a board: full pieces across it, then a groove lane and a tongue lane along the rest."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise, product
from typing import Any

from tests.estimating.boards.every_piece import Blank

MOST_WAYS = 6_000
MOST_BEGUN = 300_000

Lane = tuple[int, ...]
Way = tuple[Lane, Lane, Lane]


class Lanes:
    """In which lane each piece of a deck is sawn, and the ways to fill the lanes of a board.

    It is complete where no other way to saw could do better: nothing can lie beside anything, or every groove
    strip beside every tongue strip; and all ways are listed. Where they are too many, nothing is sawn beside
    anything, and boards of many pieces are left out.
    """

    def __init__(self, data: dict[str, Any], blanks: set[Blank]) -> None:
        assert data["product"]["sides"] == "tg"
        self._kerf, self._width = data["rules"]["kerf"], data["product"]["cover_width"]
        self._capacity = data["product"]["cover_length"] + self._kerf
        self._blanks = blanks
        ripped = {(blank.kind, blank.height_mm) for blank in blanks if blank.kind != "F"}
        together = {
            (groove, tongue)
            for (one, groove), (other, tongue) in product(ripped, ripped)
            if one in "GM" and other in "TM" and groove + self._kerf + tongue <= self._width
        }
        every = {(g, t) for one, g in ripped for other, t in ripped if (one, other) == ("G", "T")}
        of_one_width = not together or (together == every and not any(kind == "M" for kind, _ in ripped))
        self._groove_mm, self._tongue_mm = max(together, default=(0, 0))
        all_ways = self._listed(self._capacity)
        self.complete = all_ways is not None and of_one_width
        if all_ways is None:
            self._groove_mm = self._tongue_mm = 0
            all_ways = self._listed(3) or self._listed(2)
        assert all_ways is not None
        self.patterns = [way for way in all_ways if any(way)]

    def lane(self, blank: Blank) -> str:
        """The lane a piece is sawn in; F where it is given the whole width."""
        if blank.kind in "GM" and blank.height_mm <= self._groove_mm:
            return "G"
        return "T" if blank.kind in "TM" and blank.height_mm <= self._tongue_mm else "F"

    def takes(self, blank: Blank) -> int:
        """What a piece takes of a board's length."""
        return blank.length_mm + self._kerf

    def _listed(self, most_in_lane: int) -> list[Way] | None:
        """The ways that leave no room for a piece more, or for a longer one in a place; None if too many."""
        self._begun_so_far = 0
        lengths = {
            lane: sorted({self.takes(blank) for blank in self._blanks if self.lane(blank) == lane})
            for lane in "FGT"
        }
        found: list[Way] = []
        for way in self._ways(lengths, most_in_lane):
            found.append(way)
            if len(found) > MOST_WAYS or self._begun_so_far > MOST_BEGUN:
                return None
        return found

    def _ways(self, lengths: dict[str, list[int]], most: int) -> Iterator[Way]:
        for full in self._begun(lengths["F"], self._capacity, most):
            rest = self._capacity - sum(full)
            if lengths["G"] or lengths["T"]:
                for groove in self._filled(lengths["G"], rest, most):
                    for tongue in self._filled(lengths["T"], rest, most):
                        yield full, groove, tongue
            elif self._begun_so_far > MOST_BEGUN or _is_filled(full, lengths["F"], rest, most):
                yield full, (), ()

    def _filled(self, lengths: list[int], capacity: int, most: int) -> Iterator[Lane]:
        for begun in self._begun(lengths, capacity, most):
            if _is_filled(begun, lengths, capacity - sum(begun), most):
                yield begun

    def _begun(self, lengths: list[int], capacity: int, most: int) -> Iterator[Lane]:
        """Every way to begin a lane, its longest piece first."""
        self._begun_so_far += 1
        yield ()
        for place, each in enumerate(lengths):
            if each <= capacity and most:
                for rest in self._begun(lengths[: place + 1], capacity - each, most - 1):
                    yield (each, *rest)


def _is_filled(begun: Lane, lengths: list[int], left: int, most: int) -> bool:
    if len(begun) < most and any(each <= left for each in lengths):
        return False
    longer = dict(pairwise(lengths))
    return not any(each in longer and longer[each] - each <= left for each in begun)
