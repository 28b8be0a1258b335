"""What may be lifted before an employer looks closer: weights by height and reach, and what lowers them.

Document: HSE INDG143 (rev 4) and L23, figure for lifting and lowering: 25 kg at the waist and 5 kg overhead
at arm's length read, the other figures from memory; reductions for twisting and for frequent lifts read.
Address: watmos.simplyhas.com, a training text that quotes the leaflet.
"""

from __future__ import annotations

from collections.abc import Mapping
from enum import StrEnum
from types import MappingProxyType

SOURCE = "HSE INDG143 (rev 4) and L23, figures partly from memory"


class LiftZone(StrEnum):
    """Where hands are while lifting."""

    SHOULDER_TO_HEAD = "shoulder to head"
    ELBOW_TO_SHOULDER = "elbow to shoulder"
    KNUCKLE_TO_ELBOW = "knuckle to elbow"
    SHIN_TO_KNUCKLE = "shin to knuckle"
    FLOOR_TO_SHIN = "floor to shin"


class Lifter(StrEnum):
    MAN = "man"
    WOMAN = "woman"


class Reach(StrEnum):
    CLOSE = "close"
    FAR = "far"


FIGURES_KG: Mapping[LiftZone, Mapping[tuple[Lifter, Reach], int]] = MappingProxyType(
    {
        zone: MappingProxyType(
            {
                (Lifter.MAN, Reach.CLOSE): man_close,
                (Lifter.MAN, Reach.FAR): man_far,
                (Lifter.WOMAN, Reach.CLOSE): woman_close,
                (Lifter.WOMAN, Reach.FAR): woman_far,
            }
        )
        for zone, (man_close, man_far, woman_close, woman_far) in {
            LiftZone.SHOULDER_TO_HEAD: (10, 5, 7, 3),
            LiftZone.ELBOW_TO_SHOULDER: (20, 10, 13, 7),
            LiftZone.KNUCKLE_TO_ELBOW: (25, 15, 16, 10),
            LiftZone.SHIN_TO_KNUCKLE: (20, 10, 13, 7),
            LiftZone.FLOOR_TO_SHIN: (10, 5, 7, 3),
        }.items()
    }
)

TWIST_REDUCTIONS = ((90.0, 0.2), (45.0, 0.1))
"""Beyond so many degrees, less by such a share."""
RATE_REDUCTIONS = ((12.0, 0.8, False), (5.0, 0.5, True), (1.0, 0.3, True))
"""From so many lifts a minute (whether that many counts), less by such a share. The leaflet gives 1 to 2,
5 to 8 and above 12; a rate between takes the band below, which is our own rule."""
TWO_PEOPLE_SHARE = 2 / 3
"""Of the sum of what each may lift: L23, from memory."""
GREATEST_CARRY_M = 10
