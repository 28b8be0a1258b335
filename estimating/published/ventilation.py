"""Openings that a cold roof space is ventilated by, as a gap along each metre, and the gap under a deck.

Document: BS 5250:2021, read in summaries by a roofing firm and in a trade magazine; the standard itself was
not read. Confidence is per row. A gap of 1 mm along a metre is an opening of 1000 mm². Settings of the day
they were read: have them confirmed before work depends on them.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from types import MappingProxyType

READ_ON = date(2026, 11, 25)
SOURCE = "BS 5250:2021, second hand, as read in November 2026"

MM2_A_METRE = 1000
"""What a gap of 1 mm comes to along a metre."""

CLEAR_GAP_MM = 50
"""From the top of the insulation to the underside of a raised deck."""
CLEAR_GAP_SOURCE = "common practice, no published clause"

EAVES_PATH_MM = 50
"""Between insulation and underlay where the roof comes down on the ceiling."""
EAVES_PATH_SOURCE = "BRE, Thermal insulation: avoiding risks, 2.1(c), as quoted"


@dataclass(frozen=True, slots=True, kw_only=True)
class EavesGap:
    """The continuous gap along each eaves under one underlay, and what to know of the figure."""

    above_low_pitch_mm: int
    at_low_pitch_mm: int
    confidence: str
    caveat: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class VentilationPractice:
    """What is asked for; a low pitch is this or less, a steep pitch and a wide span are more than this.

    `eaves` goes by the words of the survey's underlay.
    """

    eaves: Mapping[str, EavesGap]
    low_pitch_degrees: int
    steep_pitch_degrees: int
    wide_span_mm: int
    ridge_mm: int
    source: str


BS_5250 = VentilationPractice(
    eaves=MappingProxyType(
        {
            "non-breathing": EavesGap(
                above_low_pitch_mm=10,
                at_low_pitch_mm=25,
                confidence="summaries agree, of Approved Documents C and F too",
            ),
            "breathing": EavesGap(
                above_low_pitch_mm=7,
                at_low_pitch_mm=7,
                confidence="second hand, low: the figure differs between summaries",
                caveat=(
                    "That is for a ceiling that is not well sealed, and sources differ: 3 mm is said to do "
                    "over a sealed one, and new homes are said to be asked for 5 mm at the ridge as well."
                ),
            ),
            "none": EavesGap(
                above_low_pitch_mm=0,
                at_low_pitch_mm=0,
                confidence="common practice, no source: air comes in between the tiles",
            ),
        }
    ),
    low_pitch_degrees=15,
    steep_pitch_degrees=35,
    wide_span_mm=10_000,
    ridge_mm=5,
    source=SOURCE,
)
