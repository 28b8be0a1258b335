"""The areas that insulation covers: under the deck, and in the open loft beside it."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import ROUND_HALF_UP, Decimal
from fractions import Fraction

from estimating.plane import Polygon, trapezoids
from estimating.survey import KeepOutKind, Survey
from estimating.working import Figure, Working, measured

NOT_INSULATED = frozenset({KeepOutKind.CHIMNEY, KeepOutKind.FLUE, KeepOutKind.TANK})
_SOURCE = (
    "Geometry. Chimneys and flues are kept clear (Approved Document J); a tank is insulated on its sides and "
    "top, not beneath (common practice, no source)"
)


def region_area_m2(outline: Polygon, holes: Sequence[Polygon] = ()) -> Decimal:
    """Give the area of an outline less what is taken out of it, to a hundredth of a square metre.

    Args:
        outline: The outer edge. Polygon. [mm]
        holes: What is taken out; may overlap each other and the outline. Sequence of polygons. [mm]

    Returns:
        The area. Scalar. [m2]

    Source:
        Geometry.
    """
    exact = sum(
        (
            Fraction(s.right - s.left) * (s.high_left - s.low_left + s.high_right - s.low_right) / 2
            for s in trapezoids(outline, holes)
        ),
        Fraction(0),
    )
    metres = Decimal(exact.numerator) / Decimal(exact.denominator) / 1_000_000
    return metres.quantize(Decimal("0.01"), rounding=ROUND_HALF_UP)


def _holes(survey: Survey) -> list[Polygon]:
    hot_or_wet = [each.outline for each in survey.keep_outs if each.kind in NOT_INSULATED]
    return [survey.hatch.outline, *hot_or_wet]


def area_under_deck_m2(survey: Survey) -> Figure[Decimal]:
    """Give the area to insulate below the deck: the zones, less the hatch, chimneys, flues and tanks.

    Args:
        survey: The loft as measured. Record. [mm]

    Returns:
        The area. Scalar. [m2]

    Source:
        Geometry; Approved Document J for chimneys and flues; common practice, no source, for tanks.
    """
    zones = [region_area_m2(zone.outline, _holes(survey)) for zone in survey.zones]
    inputs = tuple(
        measured(f"area of zone {zone.name}, less hatch, chimneys, flues and tanks", area, "m²")
        for zone, area in zip(survey.zones, zones, strict=True)
    )
    working = Working("sum of the zones, less hatch, chimneys, flues and tanks", inputs, _SOURCE)
    return Figure("area to insulate under the deck", sum(zones, Decimal("0.00")), "m²", working)


def open_loft_area_m2(survey: Survey) -> Figure[Decimal]:
    """Give the area to insulate beside the deck: the loft less zones, hatch, chimneys, flues and tanks.

    Args:
        survey: The loft as measured. Record. [mm]

    Returns:
        The area. Scalar. [m2]

    Source:
        Geometry; Approved Document J for chimneys and flues; common practice, no source, for tanks.
    """
    zones = [zone.outline for zone in survey.zones]
    loft = region_area_m2(survey.outline)
    in_zones = sum((region_area_m2(zone) for zone in zones), Decimal("0.00"))
    left = region_area_m2(survey.outline, [*zones, *_holes(survey)])
    inputs = (
        measured("loft", loft, "m²"),
        measured("zones", in_zones, "m²"),
        measured("hatch, chimneys, flues and tanks beside them", loft - in_zones - left, "m²"),
    )
    working = Working("loft − zones − hatch, chimneys, flues and tanks beside them", inputs, _SOURCE)
    return Figure("open loft to insulate", left, "m²", working)
