"""The thickness of insulation that a target U-value needs, solved rather than looked up."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from pint import Quantity

from estimating.checks.heat.build_up import CONDUCTIVITY, RESISTANCE, TRANSMITTANCE, Ceiling
from estimating.checks.heat.plain import amount_of, at_least_nothing, fraction, more_than_nothing
from estimating.checks.heat.resistance import Slab, resistance_limits_m2k_w

_HALVINGS = 40  # leaves an error of a millionth of a millionth of the target's resistance


def required_over_thickness(
    build_up: Ceiling, conductivity: Quantity[Any], target: Quantity[Any]
) -> Quantity[Any]:
    """Solve for the thickness to lay across the joists so that the ceiling just meets a target.

    Args:
        build_up: The ceiling without the layer across. Record. [mm, W/mK, m2K/W]
        conductivity: Conductivity of the layer across. Scalar. [W/mK]
        target: The U-value to meet. Scalar. [W/m2K]

    Returns:
        The thickness, not rounded to what can be bought; 0 when the target is met already. Scalar. [mm]

    Raises:
        Refusal: Conductivity or target is not more than 0.

    Source:
        BS EN ISO 6946 combined method, solved by halving.
    """
    conductivity_w_mk = more_than_nothing(conductivity, CONDUCTIVITY, "conductivity")
    target_w_m2k = more_than_nothing(target, TRANSMITTANCE, "target")
    slabs = [each.slab for each in build_up.layers]
    lacking = resistance_lacking_m2k_w(slabs, build_up.surfaces_m2k_w, target_w_m2k)
    return amount_of(1000 * lacking * conductivity_w_mk, "mm")


def resistance_lacking_m2k_w(slabs: Sequence[Slab], surfaces_m2k_w: float, target_w_m2k: float) -> float:
    """Solve for the unbridged resistance that a ceiling lacks of a target, in plain numbers.

    Args:
        slabs: The layers there are. Sequence. [m2K/W]
        surfaces_m2k_w: Surfaces and roof space together. Scalar. [m2K/W]
        target_w_m2k: The U-value to meet. Scalar. [W/m2K]

    Returns:
        The resistance to add, 0 when the target is met already. Scalar. [m2K/W]

    Source:
        BS EN ISO 6946 combined method, solved by halving.
    """
    wanted = 1 / target_w_m2k

    def total_with(added: float) -> float:
        return sum(resistance_limits_m2k_w(slabs, surfaces_m2k_w + added)) / 2

    least, most = 0.0, wanted
    if total_with(least) >= wanted:
        return least
    for _ in range(_HALVINGS):
        middle = (least + most) / 2
        least, most = (middle, most) if total_with(middle) < wanted else (least, middle)
    return most


@dataclass(frozen=True, slots=True, kw_only=True)
class BridgingJoists:
    """The joists that the tables of Approved Document L reckon with."""

    depth: Quantity[Any]
    timber_fraction: float
    timber_conductivity: Quantity[Any]


def table_thickness_between_and_over(
    target: Quantity[Any], conductivity: Quantity[Any], joists: BridgingJoists, surfaces: Quantity[Any]
) -> Quantity[Any]:
    """Give the base thickness between and over joists as the old tables of Approved Document L print it.

    The tables behave as the lower limit of resistance alone, with no plasterboard, so that they ask for 1 to
    8 mm more than the combined method.

    Args:
        target: The U-value to meet. Scalar. [W/m2K]
        conductivity: Conductivity of the insulation. Scalar. [W/mK]
        joists: Depth, share and conductivity of the joists. Record. [mm, W/mK]
        surfaces: Both surfaces together; the tables took 0.14. Scalar. [m2K/W]

    Returns:
        The whole thickness, ceiling to top. Scalar. [mm]

    Raises:
        Refusal: An amount is not more than 0, or the share is not from 0 to 1.

    Source:
        Approved Document L (1995 and 2002) Appendix A roof tables, as reproduced in a textbook reprint
        (briangwilliams.us, Table 4.6); the reading of the method is our own, within 1.5 mm.
    """
    lacking = _beside_surfaces_m2k_w(target, surfaces)
    wool_w_mk = more_than_nothing(conductivity, CONDUCTIVITY, "conductivity")
    timber_w_mk = more_than_nothing(joists.timber_conductivity, CONDUCTIVITY, "joists.timber_conductivity")
    depth_m = more_than_nothing(joists.depth, "m", "joists.depth")
    share = fraction(joists.timber_fraction, "joists.timber_fraction")
    bridged_w_mk = (1 - share) * wool_w_mk + share * timber_w_mk
    between_m = min(lacking * bridged_w_mk, depth_m)
    over_m = (lacking - between_m / bridged_w_mk) * wool_w_mk
    return amount_of(1000 * (between_m + over_m), "mm")


def continuous_thickness(
    target: Quantity[Any], conductivity: Quantity[Any], surfaces: Quantity[Any]
) -> Quantity[Any]:
    """Give the thickness of a layer that no timber crosses, as Approved Document L printed it.

    Args:
        target: The U-value to meet. Scalar. [W/m2K]
        conductivity: Conductivity of the insulation. Scalar. [W/mK]
        surfaces: Both surfaces together; the tables took 0.14. Scalar. [m2K/W]

    Returns:
        The thickness. Scalar. [mm]

    Raises:
        Refusal: Conductivity or target is not more than 0.

    Source:
        Approved Document L (1995 and 2002) Appendix A roof tables, as reproduced in a textbook reprint
        (briangwilliams.us, Table 4.6): conductivity × (1 / U − surfaces).
    """
    wool_w_mk = more_than_nothing(conductivity, CONDUCTIVITY, "conductivity")
    return amount_of(1000 * wool_w_mk * _beside_surfaces_m2k_w(target, surfaces), "mm")


def _beside_surfaces_m2k_w(target: Quantity[Any], surfaces: Quantity[Any]) -> float:
    target_w_m2k = more_than_nothing(target, TRANSMITTANCE, "target")
    return max(1 / target_w_m2k - at_least_nothing(surfaces, RESISTANCE, "surfaces"), 0.0)
