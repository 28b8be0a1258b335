"""Heat through the ceiling: U-values, the thickness a target needs, squashed wool, and what is saved.

Functions here take and return pint quantities. The estimate, which tries many build-ups while someone types,
may call the plain numbers of `resistance`, `timber_fraction_of` and `squashed_resistance_m2k_w` instead; they
are the same computation.
"""

from estimating.checks.heat.build_up import BridgedLayer, Ceiling, Layer, Resistance
from estimating.checks.heat.corrections import (
    AirGaps,
    Fixings,
    air_gap_correction,
    corrected_u,
    fixing_correction,
)
from estimating.checks.heat.savings import (
    AnnualSaving,
    CeilingChange,
    Heating,
    annual_saving,
    degree_days,
)
from estimating.checks.heat.squashed import SquashedWool, squashed_wool
from estimating.checks.heat.thickness import (
    BridgingJoists,
    continuous_thickness,
    required_over_thickness,
    table_thickness_between_and_over,
)
from estimating.checks.heat.timber import timber_fraction
from estimating.checks.heat.u_values import UValue, area_weighted_u, reported_u, u_value

__all__ = [
    "AirGaps",
    "AnnualSaving",
    "BridgedLayer",
    "BridgingJoists",
    "Ceiling",
    "CeilingChange",
    "Fixings",
    "Heating",
    "Layer",
    "Resistance",
    "SquashedWool",
    "UValue",
    "air_gap_correction",
    "annual_saving",
    "area_weighted_u",
    "continuous_thickness",
    "corrected_u",
    "degree_days",
    "fixing_correction",
    "reported_u",
    "required_over_thickness",
    "squashed_wool",
    "table_thickness_between_and_over",
    "timber_fraction",
    "u_value",
]
