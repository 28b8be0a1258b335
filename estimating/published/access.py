"""Openings into lofts.

Document: NHBC Standards 2020 7.2.12, access. Address: nhbc-standards.co.uk, 7-2-12-access. Read.
"""

from __future__ import annotations

SOURCE = "NHBC Standards 2020 7.2.12"

LEAST_CLEAR_OPENING_MM = 520
"""Each direction, in new homes."""
