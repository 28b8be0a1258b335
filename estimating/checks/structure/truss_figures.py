"""Trussed rafters by the rules that need no design: openings, tanks and what storage they are meant for.

Nothing here computes a tie as a joist. What goes beyond these rules is for the truss designer.
"""

from __future__ import annotations

from math import radians, tan

from estimating.published.loads import GRAVITY_M_S2
from estimating.published.truss_rules import BAYS_OF_A_TIE, GREATEST_NODE_LOAD_KN
from estimating.refusals import Requirements


def widest_opening_mm(centres_mm: float, thickness_mm: float) -> float:
    """Give the widest clear opening that may be trimmed by spacing trusses, without cutting one.

    Args:
        centres_mm: Usual distance from truss to truss. Scalar. [mm]
        thickness_mm: Thickness of a truss. Scalar. [mm]

    Returns:
        The clear width; a wider opening is for the truss designer. Scalar. [mm]

    Raises:
        Refusal: A size is not more than 0, or the trusses leave no room.

    Source:
        BS 5268-3:2002 7.6, by C. Mindham, Roof Construction and Loft Conversion.
    """
    _require_bays(centres_mm, thickness_mm)
    return 2 * centres_mm - 2 * thickness_mm


def reduced_bay_mm(centres_mm: float, thickness_mm: float, clear_width_mm: float) -> float:
    """Give the distance of the next truss beside an opening, so that no truss carries more than before.

    Args:
        centres_mm: Usual distance from truss to truss. Scalar. [mm]
        thickness_mm: Thickness of a truss. Scalar. [mm]
        clear_width_mm: Clear width of the opening. Scalar. [mm]

    Returns:
        The reduced distance, no more than which the truss beside stands off. Scalar. [mm]

    Raises:
        Refusal: A size is not more than 0, the trusses leave no room, or the opening is too wide.

    Source:
        BS 5268-3:2002 7.6, by C. Mindham, Roof Construction and Loft Conversion.
    """
    _require_bays(centres_mm, thickness_mm)
    widest = widest_opening_mm(centres_mm, thickness_mm)
    needs = Requirements()
    fits = 0 < clear_width_mm <= widest
    needs.require(fits, "clear_width_mm", f"must be from more than 0 to {widest:.0f} mm, or a designer asked")
    needs.settle()
    return 2 * centres_mm - clear_width_mm - thickness_mm


def tie_bay_mm(span_mm: float) -> float:
    """Give the distance between the nodes of a Fink truss along its tie.

    Args:
        span_mm: Span of the truss. Scalar. [mm]

    Returns:
        A third of the span. Scalar. [mm]

    Raises:
        Refusal: The span is not more than 0.

    Source:
        Geometry.
    """
    needs = Requirements()
    needs.require(span_mm > 0, "span_mm", "must be more than 0 mm")
    needs.settle()
    return span_mm / BAYS_OF_A_TIE


def truss_rise_mm(span_mm: float, pitch_degrees: float) -> float:
    """Give the rise of a truss with two equal slopes.

    Args:
        span_mm: Span of the truss. Scalar. [mm]
        pitch_degrees: Pitch of the roof. Scalar. [degrees]

    Returns:
        From tie to apex, on centre lines. Scalar. [mm]

    Raises:
        Refusal: The span is not more than 0, or the pitch not between 0 and 90 degrees.

    Source:
        Geometry.
    """
    needs = Requirements()
    needs.require(span_mm > 0, "span_mm", "must be more than 0 mm")
    needs.require(0 < pitch_degrees < 90, "pitch_degrees", "must be between 0 and 90 degrees")
    needs.settle()
    return span_mm / 2 * tan(radians(pitch_degrees))


def width_between_webs_mm(span_mm: float, pitch_degrees: float, above_tie_mm: float) -> float:
    """Give the width between the inner webs of a Fink truss at a height, on centre lines.

    Args:
        span_mm: Span of the truss. Scalar. [mm]
        pitch_degrees: Pitch of the roof. Scalar. [degrees]
        above_tie_mm: Height above the tie. Scalar. [mm]

    Returns:
        The width, 0 at the apex. Scalar. [mm]

    Raises:
        Refusal: The truss cannot be so, or the height is not between tie and apex.

    Source:
        Geometry: the inner webs meet at the apex.
    """
    rise = truss_rise_mm(span_mm, pitch_degrees)
    needs = Requirements()
    needs.require(0 <= above_tie_mm <= rise, "above_tie_mm", f"must be from 0 to {rise:.0f} mm, the apex")
    needs.settle()
    return tie_bay_mm(span_mm) * (1 - above_tie_mm / rise)


def storage_on_bay_kn(storage_kn_m2: float, centres_mm: float, span_mm: float) -> float:
    """Give the storage that one bay of one tie carries.

    Args:
        storage_kn_m2: Storage on each square metre. Scalar. [kN/m2]
        centres_mm: Distance from truss to truss. Scalar. [mm]
        span_mm: Span of the truss. Scalar. [mm]

    Returns:
        The load. Scalar. [kN]

    Raises:
        Refusal: The load is less than 0, or a length not more.

    Source:
        Statics; a Fink truss has three bays.
    """
    needs = Requirements()
    needs.require(storage_kn_m2 >= 0, "storage_kn_m2", "must not be less than 0 kN/m²")
    needs.require(centres_mm > 0, "centres_mm", "must be more than 0 mm")
    needs.settle()
    return storage_kn_m2 * centres_mm / 1000 * tie_bay_mm(span_mm) / 1000


def tank_node_load_kn(litres: float, trusses: int) -> float:
    """Give the load of a full tank on each node of the ties that carry it, two nodes to a truss.

    Args:
        litres: Water in the tank. Scalar. [l]
        trusses: How many trusses carry it. Scalar. [count]

    Returns:
        The load on a node. Scalar. [kN]

    Raises:
        Refusal: Litres or trusses are not more than 0.

    Source:
        Statics; BS 5268-3 7.5, as quoted by a fabricator, for its limit of 0.45 kN.
    """
    needs = Requirements()
    needs.require(litres > 0, "litres", "must be more than 0 litres")
    needs.require(trusses > 0, "trusses", "must be at least 1")
    needs.settle()
    return litres * GRAVITY_M_S2 / 1000 / (2 * trusses)


def tank_within_limit(litres: float, trusses: int) -> bool:
    """Tell whether a tank loads no node by more than trussed rafters are usually designed for.

    Args:
        litres: Water in the tank. Scalar. [l]
        trusses: How many trusses carry it. Scalar. [count]

    Returns:
        Whether it does. Flag. [-]

    Raises:
        Refusal: Litres or trusses are not more than 0.

    Source:
        BS 5268-3 7.5, as quoted by a fabricator.
    """
    return tank_node_load_kn(litres, trusses) <= GREATEST_NODE_LOAD_KN


def _require_bays(centres_mm: float, thickness_mm: float) -> None:
    needs = Requirements()
    needs.require(thickness_mm > 0, "thickness_mm", "must be more than 0 mm")
    needs.require(centres_mm > thickness_mm, "centres_mm", "must be more than the thickness of a truss")
    needs.settle()
