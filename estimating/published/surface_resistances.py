"""Resistances of surfaces, roof spaces and air layers, in m²K/W, with how far each was read.

Documents: BR 443 (2019) 4.2 and 4.7, citing BS EN ISO 6946; Irish Technical Guidance Document L (2022)
Appendix A, Example A3, pages 52-53; both read in a transcription. The roof space classes of BS EN ISO 6946
other than 0.20 are from memory.
Address: github.com/swwilshub/OpenUValue (transcription of the clauses).
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

SOURCE = "BR 443 (2019) 4.2; BS EN ISO 6946; TGD L 2022 Appendix A Example A3"

INSIDE_SURFACE_UPWARD = 0.10
INSIDE_SURFACE_HORIZONTAL = 0.13
INSIDE_SURFACE_DOWNWARD = 0.17
INSIDE_SURFACE_FOR_MOULD = 0.25
"""BS EN ISO 13788:2012 4.4.1: for mould and surface condensation on opaque surfaces, never for U-values."""

OUTSIDE_SURFACE = 0.04
OUTSIDE_SURFACE_VENTILATED_ROOF = 0.10
OUTSIDE_SURFACE_VENTILATED_ROOF_LOW_EMISSIVITY = 0.17

ROOF_SPACE_TILED_BARE = 0.06  # from memory
ROOF_SPACE_TILED_WITH_FELT = 0.20
ROOF_SPACE_LOW_EMISSIVITY = 0.30  # from memory
ROOF_SPACE_BOARDED_AND_FELTED = 0.30  # from memory

STILL_AIR_UPWARD = 0.16  # from memory: ISO 6946:2007 table
STILL_AIR_HORIZONTAL = 0.18
STILL_AIR_UPWARD_LOW_EMISSIVITY = 0.34


@dataclass(frozen=True, slots=True, kw_only=True)
class RoofSpaceConvention:
    """How the loft above the insulation counts: the resistance of its air and tiles, and of what is outside.

    Two conventions are in use and give different U-values, so that the name is printed beside every result.
    """

    name: str
    roof_space_m2k_w: float
    outside_surface_m2k_w: float
    source: str


ROOF_SPACE_COUNTED = RoofSpaceConvention(
    name="roof space 0.20 and outside surface 0.04 m²K/W",
    roof_space_m2k_w=ROOF_SPACE_TILED_WITH_FELT,
    outside_surface_m2k_w=OUTSIDE_SURFACE,
    source="BS EN ISO 6946 unheated roof spaces; TGD L 2022 Appendix A Example A3, page 52",
)
VENTILATED_LOFT = RoofSpaceConvention(
    name="no roof space, as ventilated, and outside surface 0.10 m²K/W",
    roof_space_m2k_w=0.0,
    outside_surface_m2k_w=OUTSIDE_SURFACE_VENTILATED_ROOF,
    source="BR 443 (2019) 4.7.3, surface behind a well ventilated layer",
)
ROOF_SPACE_COUNTED_BARE = RoofSpaceConvention(
    name="roof space 0.06 (bare tiles) and outside surface 0.04 m²K/W",
    roof_space_m2k_w=ROOF_SPACE_TILED_BARE,
    outside_surface_m2k_w=OUTSIDE_SURFACE,
    source="BS EN ISO 6946 unheated roof spaces, from memory",
)


class RoofSpace(StrEnum):
    """The choice between the two conventions."""

    COUNTED = "counted"
    VENTILATED = "left out, as ventilated"


def roof_space_convention(roof_space: RoofSpace, *, bare_tiles: bool) -> RoofSpaceConvention:
    """Give the convention that a choice means under one roof.

    Args:
        roof_space: The choice. Choice. [-]
        bare_tiles: Whether the tiles have neither felt nor boards under them. Flag. [-]

    Returns:
        The resistances and the name to print beside the result. Record. [m2K/W]

    Source:
        BS EN ISO 6946; BR 443 (2019) 4.7.3; the class of bare tiles from memory.
    """
    if roof_space is RoofSpace.VENTILATED:
        return VENTILATED_LOFT
    return ROOF_SPACE_COUNTED_BARE if bare_tiles else ROOF_SPACE_COUNTED
