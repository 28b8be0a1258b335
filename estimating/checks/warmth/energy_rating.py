"""What an energy assessor will be able to see once the deck is down, and what proves the rest."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import ROUND_HALF_UP, Decimal
from enum import StrEnum

from estimating.checks.verdicts import Verdict
from estimating.design.areas import region_area_m2
from estimating.design.design import Design
from estimating.refusals import Requirements
from estimating.survey import InsulationMaterial, Severity, Survey
from estimating.working import Figure, Working, measured, worked_out

SOURCE = "RdSAP convention 3.04, second hand"
CLEAR_UP_TO, HIDDEN_ABOVE = 25, 75
ENOUGH_READINGS = 5
SUBJECT = "energy assessor"


class Seen(StrEnum):
    """How an assessor takes a loft of which part is hidden."""

    CLEAR = "clear"
    SPLIT = "split"
    HIDDEN = "hidden"


def as_assessor_sees(hidden_percent: float) -> Seen:
    """Tell how a loft is taken of which a share is hidden.

    Args:
        hidden_percent: Share of the insulation that nobody can see. Scalar. [%]

    Returns:
        Clear up to 25 per cent, split in two up to 75, hidden above. Choice. [-]

    Raises:
        Refusal: The share is not from 0 to 100.

    Source:
        RdSAP convention 3.04, second hand.
    """
    needs = Requirements()
    needs.require(0 <= hidden_percent <= 100, "hidden_percent", "must be from 0 to 100 per cent")
    needs.settle()
    if hidden_percent <= CLEAR_UP_TO:
        return Seen.CLEAR
    return Seen.SPLIT if hidden_percent <= HIDDEN_ABOVE else Seen.HIDDEN


def energy_rating_verdicts(survey: Survey, design: Design) -> Iterator[Verdict]:
    """Say what an assessor will see after the work, and caution where too few depths were read.

    Args:
        survey: The loft as measured. Record. [mm]
        design: The deck. Record. [m2]

    Returns:
        The verdicts. Iterator. [-]

    Source:
        RdSAP convention 3.04, second hand; five readings: common practice, no source.
    """
    hidden = _hidden_after(survey, design)
    seen = as_assessor_sees(hidden.value)
    words = f"The deck hides about {hidden.value} % of the insulation: an energy assessor takes the loft as"
    told = {
        Seen.CLEAR: f"{words} clear and measures beside the deck.",
        Seen.SPLIT: f"{words} two parts, and the covered one as unknown unless it is proved.",
        Seen.HIDDEN: f"{words} hidden, and its insulation as unknown unless it is proved.",
    }[seen]
    yield Verdict(
        subject=SUBJECT,
        severity=Severity.NOTE,
        words=(
            f"{told} Photographs with a tape in the insulation, taken before it is covered, keep the rating: "
            "they are on the job sheet, and go to the customer."
        ),
        source=SOURCE,
        figure=hidden,
    )
    readings = len(survey.insulation.depth_readings_mm)
    if survey.insulation.material is not InsulationMaterial.NONE and readings < ENOUGH_READINGS:
        yield Verdict(
            subject="insulation",
            severity=Severity.CAUTION,
            words=(
                f"Only {readings} depth{'s' if readings != 1 else ''} of the insulation "
                f"{'were' if readings != 1 else 'was'} read: read at least {ENOUGH_READINGS}, over the whole "
                "loft, before the price is firm."
            ),
            source="common practice, no source",
        )


def _hidden_after(survey: Survey, design: Design) -> Figure[int]:
    loft = region_area_m2(survey.outline)
    before = survey.insulation.hidden_percent
    deck = design.deck_area_m2.value / loft * 100 if loft else Decimal(0)
    value = min(100, max(before, int(deck.quantize(Decimal(1), rounding=ROUND_HALF_UP))))
    working = Working(
        "the greater of deck area / loft area × 100 and hidden before",
        (
            worked_out(design.deck_area_m2),
            measured("loft area", loft, "m²"),
            measured("hidden before", before, "%"),
        ),
        SOURCE,
    )
    return Figure("insulation hidden after the work", value, "%", working)
