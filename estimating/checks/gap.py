"""Whether the deck clears the insulation, because squashed wool keeps less heat in."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from estimating.checks.verdicts import Verdict
from estimating.design.design import ZoneDesign
from estimating.survey import Severity

_SOURCE = "NHBC Standards 7.2.12 (insulation not compressed); common practice, no source, for the gap"


def gap_verdicts(zones: Iterable[ZoneDesign], least_gap: int) -> Iterator[Verdict]:
    """Stop the job where no support in the price book keeps the deck off the insulation by the gap.

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
            words = f"Zone {zone.zone}: the deck clears the insulation by {least_gap} mm or more."
        yield Verdict(
            subject="gap above insulation",
            severity=severity,
            words=words,
            source=_SOURCE,
            figure=zone.support_height_mm,
        )
