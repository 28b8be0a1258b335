"""Water vapour in air and through layers, and the weather that a ceiling is screened in.

Document: BS EN ISO 13788:2012 Annex E and 5.3, read in a transcription that two public codes share.
Address: github.com/swwilshub/OpenUValue, psychrometrics tests.
"""

from __future__ import annotations

from dataclasses import dataclass

SOURCE = "BS EN ISO 13788:2012 Annex E, read in a transcription"
SCREENING_SOURCE = (
    f"{SOURCE}; steady state, as a screening: no full year after ISO 13788; weather by common practice, "
    "no source"
)

PRESSURE_AT_FREEZING_PA = 610.5
VAPOUR_PERMEABILITY_OF_AIR = 2.0e-10
"""kg/(m.s.Pa)."""


@dataclass(frozen=True, slots=True)
class Branch:
    """One branch of the formula: pressure = 610.5 exp(a t / (b + t)), t in °C."""

    a: float
    b: float


OVER_WATER = Branch(17.269, 237.3)
OVER_ICE = Branch(21.875, 265.5)

INSIDE_C, INSIDE_HUMIDITY = 20.0, 0.60
OUTSIDE_C, OUTSIDE_HUMIDITY = 0.0, 0.90
"""A cold day over a lived-in room; common practice, no source. A damp room or a colder day is worse."""
