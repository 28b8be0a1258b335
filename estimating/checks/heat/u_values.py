"""U-values of a ceiling by the combined method, from quantities to quantities."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from decimal import ROUND_HALF_UP, Decimal
from typing import Any

from pint import Quantity

from estimating.checks.heat.build_up import RESISTANCE, TRANSMITTANCE, Ceiling
from estimating.checks.heat.plain import amount_of, at_least_nothing, more_than_nothing
from estimating.checks.heat.resistance import GREATEST_RATIO_OF_LIMITS, resistance_limits_m2k_w
from estimating.refusals import Refusal


@dataclass(frozen=True, slots=True, kw_only=True)
class UValue:
    """The limits of resistance, their mean, and the U-value at full precision."""

    upper: Quantity[Any]
    lower: Quantity[Any]
    total_resistance: Quantity[Any]
    u: Quantity[Any]
    ratio_of_limits: float
    greatest_error: float
    convention: str

    @property
    def is_valid(self) -> bool:
        """Whether the limits lie close enough together for their mean to be trusted."""
        return self.ratio_of_limits <= GREATEST_RATIO_OF_LIMITS


def u_value(build_up: Ceiling) -> UValue:
    """Work out the U-value of a ceiling with any layers and one or two sets of timbers through them.

    Args:
        build_up: The ceiling, inside to outside. Record. [mm, W/mK, m2K/W]

    Returns:
        Upper limit, lower limit, their mean and the U-value, with the greatest relative error and the
        roof-space convention used. Record. [m2K/W, W/m2K]

    Raises:
        Refusal: The layers have no resistance, or more than two sets of timbers cross them.

    Source:
        BS EN ISO 6946 combined method; BR 443 (2019). The limit of 1.5 on the ratio of the two limits is
        BS EN ISO 6946, clause number not confirmed.
    """
    upper, lower = resistance_limits_m2k_w([each.slab for each in build_up.layers], build_up.surfaces_m2k_w)
    total = (upper + lower) / 2
    return UValue(
        upper=amount_of(upper, RESISTANCE),
        lower=amount_of(lower, RESISTANCE),
        total_resistance=amount_of(total, RESISTANCE),
        u=amount_of(1 / total, TRANSMITTANCE),
        ratio_of_limits=upper / lower,
        greatest_error=(upper - lower) / (2 * total),
        convention=build_up.roof_space.name,
    )


def area_weighted_u(parts: Iterable[tuple[Quantity[Any], Quantity[Any]]]) -> Quantity[Any]:
    """Give the U-value of a whole ceiling whose parts differ: deck, open loft, hatch, what nobody can reach.

    Args:
        parts: Area and U-value of each part. Sequence of pairs. [m2, W/m2K]

    Returns:
        The U-value of the whole. Scalar. [W/m2K]

    Raises:
        Refusal: The parts have no area together, or an amount is less than 0.

    Source:
        Definition: sum of area × U over sum of area.
    """
    area_m2 = heat_w_k = 0.0
    for area, u in parts:
        part_m2 = at_least_nothing(area, "m**2", "parts.area")
        area_m2 += part_m2
        heat_w_k += part_m2 * at_least_nothing(u, TRANSMITTANCE, "parts.u")
    if not area_m2:
        raise Refusal("parts", "must have some area together")
    return amount_of(heat_w_k / area_m2, TRANSMITTANCE)


def reported_u(u: Quantity[Any]) -> Decimal:
    """Round a U-value as it is reported: to two significant figures, half up.

    Args:
        u: The U-value at full precision. Scalar. [W/m2K]

    Returns:
        The U-value to two figures. Scalar. [W/m2K]

    Raises:
        Refusal: The U-value is not more than 0.

    Source:
        BS EN ISO 6946:2017 6.5.2.
    """
    return to_two_figures(Decimal(str(more_than_nothing(u, TRANSMITTANCE, "u"))))


def to_two_figures(number: Decimal) -> Decimal:
    """Round a plain number to two significant figures, half up.

    Args:
        number: The number. Scalar. [as given]

    Returns:
        The number to two figures. Scalar. [as given]

    Source:
        BS EN ISO 6946:2017 6.5.2.
    """
    rounded = number.quantize(Decimal(1).scaleb(number.adjusted() - 1), rounding=ROUND_HALF_UP)
    if rounded.adjusted() > number.adjusted():  # 0.0996 has become 0.100: three figures
        rounded = rounded.quantize(Decimal(1).scaleb(rounded.adjusted() - 1))
    return rounded
