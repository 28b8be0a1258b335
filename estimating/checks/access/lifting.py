"""What one person, or two, may lift before an employer must look closer."""

from __future__ import annotations

from estimating.published.manual_handling import (
    FIGURES_KG,
    RATE_REDUCTIONS,
    TWIST_REDUCTIONS,
    Lifter,
    LiftZone,
    Reach,
)
from estimating.refusals import Requirements


def lifting_figure_kg(
    zone: LiftZone,
    lifter: Lifter,
    reach: Reach,
    *,
    twist_degrees: float = 0,
    lifts_a_minute: float = 0,
) -> float:
    """Give the weight up to which a lift needs no closer look.

    Args:
        zone: Where the hands are. Choice. [-]
        lifter: A man or a woman. Choice. [-]
        reach: Close to the body, or at arm's length. Choice. [-]
        twist_degrees: How far the body twists. Scalar. [degrees]
        lifts_a_minute: How often. Scalar. [1/min]

    Returns:
        The weight. Scalar. [kg]

    Raises:
        Refusal: Twist or rate is less than 0.

    Source:
        HSE INDG143 (rev 4) and L23, partly from memory; a rate between two bands takes the band below.
    """
    needs = Requirements()
    needs.require(twist_degrees >= 0, "twist_degrees", "must not be less than 0 degrees")
    needs.require(lifts_a_minute >= 0, "lifts_a_minute", "must not be less than 0")
    needs.settle()
    twist = next((less for beyond, less in TWIST_REDUCTIONS if twist_degrees > beyond), 0.0)
    rate = next(
        (
            less
            for least, less, counts in RATE_REDUCTIONS
            if lifts_a_minute > least or (counts and lifts_a_minute == least)
        ),
        0.0,
    )
    return FIGURES_KG[zone][lifter, reach] * (1 - twist) * (1 - rate)
