"""Greatest support centres of floor panels and boards, by what they are made of.

Documents: NHBC Standards 6.4.19, Table 7 (floor decking, normal domestic load 1.5 kN/m²); LABC Warranty
technical blog, floor decks: timber fixing requirements in domestic locations, which gives the same for
chipboard. Addresses: nhbc-standards.co.uk, 6-4-19-floor-decking; labcwarranty.co.uk/technical-blog; read.
"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from estimating.refusals import Requirements

SOURCE = "NHBC Standards 6.4.19 Table 7 (P5 chipboard, 1.5 kN/m²); LABC Warranty, floor decks"
CHIPBOARD = "P5 chipboard"

GREATEST_CENTRES_MM: Mapping[str, Mapping[int, int]] = MappingProxyType(
    {
        CHIPBOARD: MappingProxyType({18: 450, 22: 600}),
        "softwood boarding": MappingProxyType({16: 450, 19: 600}),
        "plywood": MappingProxyType({15: 450, 18: 600}),
        "OSB/3": MappingProxyType({15: 450, 18: 600}),
    }
)
"""By material: the greatest centres by thickness. Where Table 7 lists 400 and 450 mm, 450 is the greatest."""


def greatest_centres_mm(thickness_mm: float, material: str = CHIPBOARD) -> int | None:
    """Give the greatest support centres of a panel as thick as this, by the next thinner row.

    Args:
        thickness_mm: The panel's thickness. Scalar. [mm]
        material: What it is made of. Choice. [-]

    Returns:
        The greatest centres, or None for panels thinner than the table goes. Scalar. [mm]

    Raises:
        Refusal: The table does not list the material, or the thickness is not more than 0.

    Source:
        NHBC Standards 6.4.19 Table 7; taking the next thinner row is our own caution.
    """
    needs = Requirements()
    needs.require(thickness_mm > 0, "thickness_mm", "must be more than 0 mm")
    known = material in GREATEST_CENTRES_MM
    needs.require(known, "material", f"must be one of: {', '.join(GREATEST_CENTRES_MM)}")
    needs.settle()
    rows = GREATEST_CENTRES_MM[material]
    return max((centres for thick, centres in rows.items() if thick <= thickness_mm), default=None)
