"""Notches and holes that joists may have without a calculation.

Document: the simple rules for notches and holes in joists of dwellings, as in BS 5268-2:2002 1.6.11.4 and the
NHBC Standards, chapter 6.4; from memory.
"""

from __future__ import annotations

SOURCE = "rules for notches and holes without calculation, BS 5268-2:2002 and NHBC Standards 6.4, from memory"

DEEPEST_COUNTED_MM = 250
"""A deeper joist counts as this deep."""
NOTCH_DEPTH_SHARE, NOTCH_FROM, NOTCH_TO = 0.125, 0.07, 0.25
HOLE_DIAMETER_SHARE, HOLE_FROM, HOLE_TO = 0.25, 0.25, 0.40
"""Shares of the depth, and of the span from the nearer support."""
