"""Centres of uneven joists, typed one after another as they are measured: 395 407 400 x 6.

The drawing of the plan reads them a second time while they are typed, in `static/js/plan/centres.js`; a test
gives the same texts to both. Change both together.
"""

from __future__ import annotations

import re
from itertools import accumulate

from estimating.lengths import in_words, read_length_mm
from estimating.refusals import Refusal
from jobs.surveys.typed.lengths import MeasuredField

LEAST_CENTRE_MM, MOST_CENTRE_MM = 100, 1500
"""Between these lies a centre of ceiling joists; common practice, no source."""
MOST_TIMES = 60

_TIMES = re.compile(r"\s*[x×*]\s*", re.IGNORECASE)
_UNIT_APART = re.compile(
    r"(?<=[0-9]) +(?=(?:mm|cm|m|in|ins|inch|inches|ft|foot|feet)(?:[\sx]|$))", re.IGNORECASE
)
_FEET = re.compile(r"ft|foot|feet|'(?!')")


class CentresField(MeasuredField):
    """Distances from each joist's centre to the next, cleaned to a tuple of whole millimetres.

    400 x 6 stands for six of 400. Of the two sides of an x only one may be able to be a centre and the other
    a count: 24 x 16 in inches could be either, and is refused.
    """

    def read(self, text: str) -> tuple[int, ...]:
        pieces = self._pieces(text)
        if not pieces:
            raise Refusal(str(self.label), "is missing")
        return tuple(spacing for piece in pieces for spacing in self._read_piece(piece))

    def say(self, read: tuple[int, ...]) -> str:
        return f"{len(read) + 1} joists, 0 to {in_words(sum(read))}"

    def _pieces(self, text: str) -> list[str]:
        joined = _TIMES.sub("x", text.strip())
        if re.search(r"[,;\n]", joined):
            return [piece.strip() for piece in re.split(r"[,;\n]", joined) if piece.strip()]
        pieces = _UNIT_APART.sub("", joined).split()
        units = {re.sub(r"x\d+$|^\d+x(?=[\d.])|[\d./]", "", piece.lower()) for piece in pieces}
        if len(pieces) > 1 and (len(units) > 1 or any(_FEET.search(unit) for unit in units)):
            raise Refusal(
                str(self.label), f'"{text}" can be read in two ways: put commas between the centres'
            )
        return pieces

    def _read_piece(self, piece: str) -> tuple[int, ...]:
        sides = piece.split("x")
        if len(sides) == 1:
            return (self._read_centre(piece),)
        readings = {
            (centre, times)
            for length, count in (sides[:2], sides[1::-1])
            if (centre := self._centre(length)) and (times := _times(count))
        }
        if len(readings) > 1:
            raise Refusal(
                str(self.label), f'"{piece}" can be read in two ways: write the unit beside the length'
            )
        if len(sides) != len(("length", "times")) or not readings:
            raise Refusal(str(self.label), f'"{piece}" is not a centre and how often: write 400 mm x 6')
        (centre, times) = readings.pop()
        return (centre,) * times

    def _read_centre(self, piece: str) -> int:
        centre_mm = read_length_mm(piece, **self.how())
        if not LEAST_CENTRE_MM <= centre_mm <= MOST_CENTRE_MM:
            raise Refusal(
                str(self.label),
                f'"{piece}" is no centre of joists: write one from {LEAST_CENTRE_MM} to {MOST_CENTRE_MM} mm',
            )
        return centre_mm

    def _centre(self, piece: str) -> int | None:
        try:
            return self._read_centre(piece)
        except Refusal:
            return None


def _times(text: str) -> int | None:
    times = int(text) if re.fullmatch(r"\s*[0-9]{1,2}\s*", text) else 0
    return times if 1 <= times <= MOST_TIMES else None


def lines_from(first_mm: int, spacings_mm: tuple[int, ...]) -> tuple[int, ...]:
    """Return the centre lines of joists from the first one on."""
    return tuple(accumulate(spacings_mm, initial=first_mm))
