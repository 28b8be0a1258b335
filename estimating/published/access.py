"""Openings into lofts.

Document: NHBC Standards 2020 7.2.12, access. Address: nhbc-standards.co.uk, 7-2-12-access. Read.
"""

from __future__ import annotations

SOURCE = "NHBC Standards 2020 7.2.12"

LEAST_CLEAR_OPENING_MM = 520
"""Each direction, in new homes."""


def opening_is_large_enough(length_mm: float, width_mm: float) -> bool:
    """Tell whether a clear opening is as large as one into the loft of a new home.

    Args:
        length_mm: One clear side. Scalar. [mm]
        width_mm: The other. Scalar. [mm]

    Returns:
        Whether it is. Flag. [-]

    Source:
        NHBC Standards 2020 7.2.12.
    """
    return min(length_mm, width_mm) >= LEAST_CLEAR_OPENING_MM
