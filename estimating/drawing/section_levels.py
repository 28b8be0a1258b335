"""The levels of a section, from the ceiling upward."""

from __future__ import annotations

from dataclasses import dataclass

from estimating.design.design import Design, InsulationDesign, ZoneDesign
from estimating.survey import JoistField


@dataclass(frozen=True, slots=True, kw_only=True)
class Heights:
    """The levels of a section, from the top of the ceiling. [mm]"""

    joist_top_mm: int
    insulation_top_mm: int
    deck_underside_mm: int
    deck_top_mm: int


def section_heights(design: Design, zone: ZoneDesign, joists: JoistField) -> Heights:
    """Return the levels of a section through one zone.

    Args:
        design: Where everything goes. Record. [mm]
        zone: The zone cut through. Record. [mm]
        joists: Its joists. Record. [mm]

    Returns:
        The levels. Record. [mm]

    Source:
        Arithmetic.
    """
    underside = joists.depth_mm + zone.support_height_mm.value
    return Heights(
        joist_top_mm=joists.depth_mm,
        insulation_top_mm=design.insulation.finished_depth_mm.value,
        deck_underside_mm=underside,
        deck_top_mm=underside + zone.problem.product.thickness_mm,
    )


def layer_tops_mm(insulation: InsulationDesign) -> tuple[tuple[str, int], ...]:
    """Name the layers of insulation from the ceiling upward, with the level each reaches.

    Args:
        insulation: The insulation as it will lie. Record. [mm]

    Returns:
        Words for each layer and its top above the ceiling. Tuple of pairs. [mm]

    Source:
        Arithmetic.
    """
    tops: list[tuple[str, int]] = []
    if insulation.existing_depth_mm:
        tops.append((f"{insulation.existing_depth_mm} as found", insulation.existing_depth_mm))
    for layer in insulation.layers:
        low = tops[-1][1] if tops else 0
        words = f"{layer.thickness_mm} {'between' if layer.between else 'across'}"
        tops.append((words, low + layer.thickness_mm))
    return tuple(tops)
