"""What gaps in the insulation and fixings through it add to a U-value."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from enum import IntEnum
from typing import Any

from pint import Quantity

from estimating.checks.heat.build_up import CONDUCTIVITY, RESISTANCE, TRANSMITTANCE
from estimating.checks.heat.plain import amount_of, at_least_nothing, more_than_nothing
from estimating.published.u_corrections import (
    ADDED_BY_AIR_GAPS_W_M2K,
    FIXING_FACTOR,
    LEAST_FIXING_CONDUCTIVITY_W_MK,
    LEFT_OUT_UNDER,
)
from estimating.refusals import Refusal


class AirGaps(IntEnum):
    """The levels of gaps in insulation; two layers, between and across joists, count as none."""

    NONE = 0
    SOME = 1
    MANY = 2


@dataclass(frozen=True, slots=True, kw_only=True)
class Fixings:
    """Fixings through a layer; `length` is the part within the insulation, `depth` the whole insulation."""

    conductivity: Quantity[Any]
    cross_section: Quantity[Any]
    number_per_area: Quantity[Any]
    length: Quantity[Any]
    depth: Quantity[Any]


def air_gap_correction(level: AirGaps, layer: Quantity[Any], total_unbridged: Quantity[Any]) -> Quantity[Any]:
    """Give what air gaps in one layer add to the U-value.

    Args:
        level: How many gaps there are. Choice. [-]
        layer: Resistance of the layer with gaps. Scalar. [m2K/W]
        total_unbridged: Total resistance ignoring timber, surfaces included. Scalar. [m2K/W]

    Returns:
        The correction. Scalar. [W/m2K]

    Raises:
        Refusal: The layer's resistance is more than the total's.

    Source:
        BR 443 (2019) 4.8.1; ISO/DIS 6946:2015 Annex F, Table F.1 (a draft); as reproduced in a transcription.
    """
    layer_m2k_w, total_m2k_w = _resistances_m2k_w(layer, total_unbridged)
    return amount_of(added_by_gaps_w_m2k(level, layer_m2k_w, total_m2k_w), TRANSMITTANCE)


def added_by_gaps_w_m2k(level: AirGaps, layer_m2k_w: float, total_unbridged_m2k_w: float) -> float:
    """Give what air gaps in one layer add to the U-value from plain numbers, for the estimate.

    Args:
        level: How many gaps there are. Choice. [-]
        layer_m2k_w: Resistance of the layer with gaps. Scalar. [m2K/W]
        total_unbridged_m2k_w: Total resistance ignoring timber, surfaces included. Scalar. [m2K/W]

    Returns:
        The correction. Scalar. [W/m2K]

    Source:
        BR 443 (2019) 4.8.1; ISO/DIS 6946:2015 Annex F, Table F.1 (a draft).
    """
    share: float = (layer_m2k_w / total_unbridged_m2k_w) ** 2
    return ADDED_BY_AIR_GAPS_W_M2K[level] * share


def fixing_correction(
    fixings: Fixings, layer: Quantity[Any], total_unbridged: Quantity[Any]
) -> Quantity[Any]:
    """Give what fixings through one layer add to the U-value.

    Plastic pedestals conduct too little to count. The formula does not hold for fixings whose ends both lie
    in metal sheets.

    Args:
        fixings: The fixings. Record. [W/mK, mm2, per m2, mm]
        layer: Resistance of the layer they go through. Scalar. [m2K/W]
        total_unbridged: Total resistance ignoring timber, surfaces included. Scalar. [m2K/W]

    Returns:
        The correction, 0 for fixings that conduct less than 1 W/mK. Scalar. [W/m2K]

    Raises:
        Refusal: A length is not more than 0, a fixing is longer than the insulation is deep, or the layer's
            resistance is more than the total's.

    Source:
        ISO/DIS 6946:2015 F.3.2, formula F.5 (a draft), and BR 443 (2019) 4.8.3; as reproduced in a
        transcription.
    """
    layer_m2k_w, total_m2k_w = _resistances_m2k_w(layer, total_unbridged)
    conductivity_w_mk = more_than_nothing(fixings.conductivity, CONDUCTIVITY, "fixings.conductivity")
    section_m2 = at_least_nothing(fixings.cross_section, "m**2", "fixings.cross_section")
    per_m2 = at_least_nothing(fixings.number_per_area, "1/m**2", "fixings.number_per_area")
    length_m = more_than_nothing(fixings.length, "m", "fixings.length")
    depth_m = more_than_nothing(fixings.depth, "m", "fixings.depth")
    if length_m > depth_m:
        raise Refusal("fixings.length", "must not be more than the depth of the insulation")
    if conductivity_w_mk < LEAST_FIXING_CONDUCTIVITY_W_MK:
        return amount_of(0.0, TRANSMITTANCE)
    factor = FIXING_FACTOR * length_m / depth_m
    added = factor * conductivity_w_mk * section_m2 * per_m2 / length_m * (layer_m2k_w / total_m2k_w) ** 2
    return amount_of(added, TRANSMITTANCE)


def corrected_u(u: Quantity[Any], corrections: Iterable[Quantity[Any]]) -> Quantity[Any]:
    """Add the corrections to a U-value, unless all of them together are too small to count.

    Args:
        u: The uncorrected U-value. Scalar. [W/m2K]
        corrections: Every correction that applies. Sequence. [W/m2K]

    Returns:
        The U-value, corrected in full or left as it was. Scalar. [W/m2K]

    Raises:
        Refusal: The U-value is not more than 0, or a correction is less than 0.

    Source:
        BS EN ISO 6946:2017 6.5.2; BR 443 (2019) 4.8: left out when their sum is under 3 % of the U-value.
    """
    plain_u = more_than_nothing(u, TRANSMITTANCE, "u")
    added = sum(at_least_nothing(each, TRANSMITTANCE, "corrections") for each in corrections)
    return amount_of(plain_u + counted_w_m2k(added, plain_u), TRANSMITTANCE)


def counted_w_m2k(added_w_m2k: float, u_w_m2k: float) -> float:
    """Give what counts of all corrections together, from plain numbers, for the estimate.

    Args:
        added_w_m2k: The sum of the corrections. Scalar. [W/m2K]
        u_w_m2k: The uncorrected U-value. Scalar. [W/m2K]

    Returns:
        The sum, or 0 where it is under 3 % of the U-value. Scalar. [W/m2K]

    Source:
        BS EN ISO 6946:2017 6.5.2; BR 443 (2019) 4.8.
    """
    return 0.0 if added_w_m2k < LEFT_OUT_UNDER * u_w_m2k else added_w_m2k


def _resistances_m2k_w(layer: Quantity[Any], total_unbridged: Quantity[Any]) -> tuple[float, float]:
    layer_m2k_w = at_least_nothing(layer, RESISTANCE, "layer")
    total_m2k_w = more_than_nothing(total_unbridged, RESISTANCE, "total_unbridged")
    if layer_m2k_w > total_m2k_w:
        raise Refusal("layer", "must not resist more than the whole ceiling")
    return layer_m2k_w, total_m2k_w
