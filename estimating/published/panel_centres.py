"""Greatest support centres of chipboard floor panels.

Documents: NHBC Standards 6.4.19, Table 7 (floor decking, normal domestic load 1.5 kN/m²); LABC Warranty
technical blog, floor decks: timber fixing requirements in domestic locations, which gives the same.
Addresses: nhbc-standards.co.uk, 6-4-19-floor-decking; labcwarranty.co.uk/technical-blog. Both read.
"""

from __future__ import annotations

from types import MappingProxyType

SOURCE = "NHBC Standards 6.4.19 Table 7 (P5 chipboard, 1.5 kN/m²); LABC Warranty, floor decks"

GREATEST_CENTRES_MM_BY_THICKNESS_MM = MappingProxyType({18: 450, 22: 600})


def greatest_centres_mm(thickness_mm: int) -> int | None:
    """Give the greatest support centres of chipboard as thick as this, by the next thinner row.

    Args:
        thickness_mm: The board's thickness. Scalar. [mm]

    Returns:
        The greatest centres, or None for boards thinner than the table goes. Scalar. [mm]

    Source:
        NHBC Standards 6.4.19 Table 7; taking the next thinner row is our own caution.
    """
    rows = [
        centres for thick, centres in GREATEST_CENTRES_MM_BY_THICKNESS_MM.items() if thick <= thickness_mm
    ]
    return max(rows, default=None)
