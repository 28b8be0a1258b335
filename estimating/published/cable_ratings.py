"""What flat twin-and-earth cable carries, clipped, in insulation of some depth, or wholly covered by it.

Documents: BS 7671:2018 Tables 4D5 and 52.2, regulation 523.9, read in reprints; the standard itself was not
read. Of 2.5 mm² and more, methods 101, 102 and A are from memory.
Address: ericpalmer.fsnet.co.uk/Table4D5.html, and public study notes.
"""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal
from types import MappingProxyType

SOURCE = "BS 7671:2018 Tables 4D5 and 52.2, read in reprints"
CLIPPED = "C"
METHODS = ("100", "101", "102", "103", CLIPPED, "A")
"""100 and 101: over a ceiling, under up to or over 100 mm of insulation; 102 and 103: in a stud wall,
touching its inner face or not; C: clipped to a surface; A: in conduit in an insulated wall."""

RATINGS_A: Mapping[Decimal, Mapping[str, Decimal]] = MappingProxyType(
    {
        Decimal(size): MappingProxyType(dict(zip(METHODS, map(Decimal, ratings.split()), strict=True)))
        for size, ratings in {
            "1.0": "13 10.5 13 8 16 11.5",
            "1.5": "16 13 16 10 20 14.5",
            "2.5": "21 17 21 13.5 27 20",
            "4": "27 22 27 17.5 37 26",
            "6": "34 27 35 23.5 47 32",
            "10": "45 36 47 32 64 44",
            "16": "57 46 63 42.5 85 57",
        }.items()
    }
)
FACTORS_BY_LENGTH_MM: Mapping[int, Decimal] = MappingProxyType(
    {
        50: Decimal("0.88"),
        100: Decimal("0.78"),
        200: Decimal("0.63"),
        400: Decimal("0.51"),
        500: Decimal("0.50"),
    }
)
"""Wholly surrounded by insulation over such a length, 500 mm or more alike."""
