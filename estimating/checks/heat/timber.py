"""The share of a ceiling that is timber, from the joists as measured."""

from __future__ import annotations

from typing import Any

from pint import Quantity

from estimating.checks.heat.plain import more_than_nothing
from estimating.published.timber_fractions import ADDITIONAL_TIMBERS, CEILING_JOISTS_UNMEASURED
from estimating.refusals import Refusal


def timber_fraction(width: Quantity[Any] | None = None, spacing: Quantity[Any] | None = None) -> float:
    """Give the share of the ceiling's area that is timber.

    A hundredth is added for binders, trimmers and noggings. When nobody measured the joists, the published
    default stands in.

    Args:
        width: Width of a joist, None when not measured. Scalar. [mm]
        spacing: Centre to centre of joists, None when not measured. Scalar. [mm]

    Returns:
        The fraction. Scalar. [-]

    Raises:
        Refusal: Only one of the two was given, or the joists leave no room between them.

    Source:
        BR 443 (2019) 4.5: width / spacing + 0.01; 4.5.1 for 0.1275, printed as 12.8 %.
    """
    if width is None and spacing is None:
        return CEILING_JOISTS_UNMEASURED
    if width is None or spacing is None:
        raise Refusal("width" if width is None else "spacing", "must be measured when the other one is")
    width_m, spacing_m = more_than_nothing(width, "m", "width"), more_than_nothing(spacing, "m", "spacing")
    if width_m >= spacing_m:
        raise Refusal("width", "must be less than the spacing")
    return timber_fraction_of(width_m, spacing_m)


def timber_fraction_of(width: float, spacing: float) -> float:
    """Give the share of timber from plain numbers, for the estimate; both in the same unit of length.

    Args:
        width: Width of a joist. Scalar. [mm]
        spacing: Centre to centre of joists. Scalar. [mm]

    Returns:
        The fraction, never more than 1. Scalar. [-]

    Source:
        BR 443 (2019) 4.5: width / spacing + 0.01.
    """
    return min(width / spacing + ADDITIONAL_TIMBERS, 1.0)
