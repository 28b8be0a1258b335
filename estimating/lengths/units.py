"""The units in which a loft is measured, and which number may stand without one."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from types import MappingProxyType

MM_PER: Mapping[str, Fraction] = MappingProxyType(
    {
        "mm": Fraction(1),
        "cm": Fraction(10),
        "m": Fraction(1000),
        "ft": Fraction(3048, 10),
        "in": Fraction(254, 10),
    }
)
"""Exact: international yard and pound agreement of 1959, 1 in = 25.4 mm and 1 ft = 12 in."""

UNIT_OF_NAME: Mapping[str, str] = MappingProxyType(
    {
        "mm": "mm", "millimetre": "mm", "millimetres": "mm", "millimeter": "mm", "millimeters": "mm",
        "cm": "cm", "centimetre": "cm", "centimetres": "cm", "centimeter": "cm", "centimeters": "cm",
        "m": "m", "metre": "m", "metres": "m", "meter": "m", "meters": "m",
        "ft": "ft", "foot": "ft", "feet": "ft", "'": "ft",
        "in": "in", "ins": "in", "inch": "in", "inches": "in", '"': "in", "''": "in",
    }
)  # fmt: skip

LONGEST_IN_A_LOFT_MM = 30_000
"""A long bungalow is 20 m. What would be longer is not taken from a number that could mean something else.
Common practice, no source."""

LONGEST_MM = 1_000_000
"""What is longer than 1 km is a slip of the finger, whatever its unit."""


@dataclass(frozen=True, slots=True)
class Bare:
    """Which number means a length in a unit although the unit was left out."""

    at_most: int
    takes_point: bool
    takes_fraction: bool


BARE: Mapping[str, Bare] = MappingProxyType(
    {
        # Nobody measures a tenth of a millimetre with a tape: "5.2" is more likely metres.
        "mm": Bare(at_most=30_000, takes_point=False, takes_fraction=False),
        "cm": Bare(at_most=3_000, takes_point=True, takes_fraction=False),
        # "5200" is no loft in metres, and neither is the "95" of a joist.
        "m": Bare(at_most=30, takes_point=True, takes_fraction=False),
        # "5.2" is five feet two inches to one person and five feet and a fifth to the next.
        "ft": Bare(at_most=98, takes_point=False, takes_fraction=True),
        "in": Bare(at_most=1_181, takes_point=True, takes_fraction=True),
    }
)
"""A bare number that is not taken here is asked about. `at_most` is LONGEST_IN_A_LOFT_MM in whole
units; halves and quarters are of inches or feet, never of anything metric. Common practice, no source."""

ASKED: Mapping[str | None, tuple[str, ...]] = MappingProxyType(
    {
        "mm": ("m", "cm", "mm"),
        "cm": ("m", "cm", "mm"),
        "m": ("m", "cm", "mm"),
        "ft": ("ft", "in", "m", "mm"),
        "in": ("in", "ft", "m", "mm"),
        None: ("m", "cm", "mm", "ft", "in"),
    }
)
"""The units that are offered where a number needs one, by the unit in which the firm writes."""

ASKED_OF_A_FRACTION = ("in", "ft")
