"""Whether the deck clears the insulation, because squashed wool keeps less heat in."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from estimating.checks.verdicts import Verdict
from estimating.design.design import ZoneDesign
from estimating.published.ventilation import CLEAR_GAP_MM, CLEAR_GAP_SOURCE
from estimating.survey import Severity

_SOURCE = f"NHBC Standards 7.2.12 (insulation not compressed); gap: {CLEAR_GAP_SOURCE}"


def gap_verdicts(zones: Iterable[ZoneDesign], least_gap: int) -> Iterator[Verdict]:
    """Stop the job where no support in the price book keeps the deck off the insulation by the gap.

    A firm may ask for less than common practice, and is told so; less than nothing is refused with the
    choices.

    Args:
        zones: The zones designed. Sequence. [mm]
        least_gap: The gap asked for. Scalar. [mm]

    Returns:
        A verdict for each zone. Iterator. [-]

    Source:
        NHBC Standards 7.2.12; common practice, no source, for the gap.
    """
    for zone in zones:
        short = zone.support_needed_mm.value - zone.support_height_mm.value
        if short > 0:
            severity = Severity.STOP
            highest = max((each.height_mm for each in zone.pedestals), default=zone.support_height_mm.value)
            words = (
                f"Zone {zone.zone}: the highest support in the price book is {highest} mm, {short} mm short "
                f"of clearing the insulation by {least_gap} mm. Add a higher one to the price book, or lay "
                "thinner insulation."
            )
        else:
            severity = Severity.NOTE
            clears = f"clears the insulation by {least_gap} mm or more"
            if not least_gap:
                clears = "stands no lower than the top of the insulation"
            asked = gap_in_words(least_gap)
            words = f"Zone {zone.zone}: the deck {clears}. {asked[:1].upper()}{asked[1:]}."
        yield Verdict(
            subject="gap above insulation",
            severity=severity,
            words=words,
            source=_SOURCE,
            figure=zone.support_height_mm,
        )


def gap_in_words(least_gap: int) -> str:
    """Say which gap was asked for, beside that of common practice.

    Args:
        least_gap: The gap asked for. Scalar. [mm]

    Returns:
        The words, without a full stop. Text. [-]

    Source:
        Common practice, no published clause.
    """
    usual = f"{CLEAR_GAP_MM} mm is common practice, and no published clause asks for it"
    if least_gap == CLEAR_GAP_MM:
        return usual
    asked = f"{least_gap} mm" if least_gap else "no gap"
    than = "less" if least_gap < CLEAR_GAP_MM else "more"
    return f"{asked} was asked for, {than} than usual; {usual}"
