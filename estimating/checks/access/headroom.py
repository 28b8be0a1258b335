"""How much height is left under the ridge once the deck is up."""

from __future__ import annotations

from decimal import Decimal

from estimating.checks.verdicts import Verdict
from estimating.survey import Severity, Survey
from estimating.working import Figure, Working, measured, worked_out

KNEELING_HEIGHT_MM = 1200


def headroom_mm(survey: Survey, deck_top_above_joist_mm: Figure[int]) -> Figure[int]:
    """Give the height from the top of the deck to the underside of the ridge.

    Args:
        survey: The ridge height above the joists. Record. [mm]
        deck_top_above_joist_mm: Support and board together. Scalar. [mm]

    Returns:
        The headroom, below 0 when the deck would stand above the ridge. Scalar. [mm]

    Source:
        Geometry.
    """
    ridge = measured("ridge above joist tops", survey.roof.ridge_height_mm, "mm")
    working = Working(
        "ridge above joist tops − deck top above joists",
        (ridge, worked_out(deck_top_above_joist_mm)),
        "geometry",
    )
    return Figure(
        "headroom under the ridge", survey.roof.ridge_height_mm - deck_top_above_joist_mm.value, "mm", working
    )


def headroom_verdict(headroom: Figure[int]) -> Verdict:
    """Tell what the headroom is good for.

    Args:
        headroom: The headroom under the ridge. Scalar. [mm]

    Returns:
        The verdict. Record. [-]

    Source:
        Common practice, no source: under 1.2 m people kneel or crawl.
    """
    metres = (Decimal(headroom.value) / 1000).quantize(Decimal("0.01"))
    if headroom.value <= 0:
        severity, words = Severity.STOP, f"The deck would stand {-headroom.value} mm above the ridge."
    elif headroom.value < KNEELING_HEIGHT_MM:
        severity = Severity.CAUTION
        words = f"Headroom under the ridge is {metres} m once raised: crawling height, tell the customer."
    else:
        severity, words = Severity.NOTE, f"Headroom under the ridge is {metres} m once raised."
    return Verdict(
        subject="headroom",
        severity=severity,
        words=words,
        source="common practice, no source",
        figure=headroom,
    )
