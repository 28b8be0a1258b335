"""Texts as people might type them into a length box, good and bad, made from a seed."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from random import Random
from typing import Any

from estimating.lengths import (
    read_corners_mm,
    read_length_mm,
    read_lengths_mm,
    read_offsets_mm,
    read_spans_mm,
)

UNITS = ("mm", "cm", "m", "ft", "in", None)

READERS: dict[str, Callable[..., Any]] = {
    "length": read_length_mm,
    "lengths": read_lengths_mm,
    "offsets": read_offsets_mm,
    "spans": read_spans_mm,
    "corners": read_corners_mm,
}

PIECES = (
    "0", "1", "5", "12", "20", "95", "007", "200", "300", "395", "5200", "52000", "900000", "1/2", "3/4",
    "15/16", "11/4", "1/0", "5.2", ".5", "1.25", "0.05", "5.11", "m", "cm", "mm", "ft", "in", "feet", "'",
    '"', "''", "’", "½", " m", " mm", " in", "metres", "M", " ", " ", " ", ", ", ",", ",", ";", "; ", "\n",
    "\t", "\N{NO-BREAK SPACE}", "\N{THIN SPACE}", "-", "+", "\N{MINUS SIGN}", "x", "/", ".", "İ",
    "\N{GRINNING FACE}",
)  # fmt: skip
WHOLE = (
    "5200", "5.2", "5.2 m", "520cm", "17' 3\"", "17ft 3", "17 3/4 in", "5,200", "5 200", "5,200 m", "900 800",
    "2.7 m 2.5 m", "0 395 802 1190", "1.2, 1.6", "1,200,1,600", "2 700 2 500", "3' 6\" 4'", "0 -4 -6 3",
    "0,0; 8.2,0; 8.2,4; 0,4", "0,0; 8200,0; 8200,4 m", "1 m 20", "3\u00a0730\u00a0mm, 2\u00a0500\u00a0mm",
)  # fmt: skip


def texts(random: Random, count: int) -> Iterator[str]:
    """Yield texts put together from pieces, and good ones with a letter changed, left out or doubled."""
    for number in range(count):
        if number % 3:
            yield "".join(random.choice(PIECES) for _ in range(random.randint(1, 8)))
            continue
        text = random.choice(WHOLE)
        place = random.randrange(len(text))
        put = random.choice(["", text[place] * 2, random.choice(PIECES), text[place]])
        yield text[:place] + put + text[place + 1 :]
