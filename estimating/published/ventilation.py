"""Openings that a cold roof space is ventilated by, in mm² along each metre.

Document: BS 5250:2021, read in summaries by a roofing firm and in a trade magazine; the standard itself was
not read. Confidence is per row. Dated November 2026: have it confirmed before work depends on it.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

SOURCE = "BS 5250:2021, second hand, as read in November 2026"

LOW_PITCH_DEGREES = 15
STEEP_PITCH_DEGREES = 35
WIDE_SPAN_MM = 10_000
RIDGE_MM2_M = 5_000
"""High-level opening above 35 degrees, or where the span is over 10 m: 5 mm continuous."""


@dataclass(frozen=True, slots=True, kw_only=True)
class EavesRule:
    """Openings at each eaves by the underlay: above 15 degrees, and at 15 degrees or less."""

    above_low_pitch_mm2_m: int
    at_low_pitch_mm2_m: int
    ridge_always: bool
    confidence: str


EAVES_RULES: Mapping[str, EavesRule] = MappingProxyType(
    {
        "non-breathing": EavesRule(
            above_low_pitch_mm2_m=10_000,
            at_low_pitch_mm2_m=25_000,
            ridge_always=False,
            confidence="second hand",
        ),
        "breathing": EavesRule(
            above_low_pitch_mm2_m=7_000,
            at_low_pitch_mm2_m=7_000,
            ridge_always=True,
            confidence=(
                "second hand and unsure: 7 mm under a ceiling that is not well sealed, and 5 mm at the ridge "
                "as NHBC is said to ask"
            ),
        ),
    }
)
"""By the words of the survey's underlay. A roof without one has no row: its tiles let air in anywhere."""
