"""Water vapour in air and through layers, and the weather that a ceiling is screened in.

Documents: BS EN ISO 13788:2012 Annex E and 5.3, read in a transcription that two public codes share; vapour
resistance factors of BR 443 (2019) and BS EN ISO 10456, read in a transcription of the same.
Address: github.com/swwilshub/OpenUValue, psychrometrics tests and VERIFY.md section 4.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from estimating.published.conductivities import (
    CHIPBOARD,
    MINERAL_WOOL_ROLL,
    PLASTERBOARD,
    RIGID_FOAM_BOARD,
    Material,
)

SOURCE = "BS EN ISO 13788:2012 Annex E, read in a transcription"
FACTORS_SOURCE = "vapour resistance factors of BS EN ISO 10456, read in a transcription"
SCREENING_SOURCE = (
    f"{SOURCE}; {FACTORS_SOURCE}; screening, steady state; not a full year; weather by common practice, no "
    "source"
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


def _factor(material: Material) -> int:
    factor = material.vapour_resistance_factor
    if factor is None:
        raise LookupError(f"no vapour resistance factor was read for {material.name}")
    return factor


PLASTERBOARD_FACTOR = _factor(PLASTERBOARD)
BOARD_FACTOR = _factor(CHIPBOARD)
ROLL_FACTOR = _factor(MINERAL_WOOL_ROLL)
INSULATION_FACTOR: Mapping[str, int] = MappingProxyType(
    {
        "none": 1,
        "mineral wool": ROLL_FACTOR,
        "loose fill": 1,  # from memory: 1 to 2, the more open taken
        "rigid board": _factor(RIGID_FOAM_BOARD),
    }
)
"""How much harder vapour passes than through air, by the words of the survey's insulation."""
