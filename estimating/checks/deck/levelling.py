"""Whether the supports of the price book make the deck level where the tops of joists differ."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from estimating.checks.verdicts import Verdict
from estimating.design.design import ZoneDesign
from estimating.design.levelling import MOST_PACKING_MM
from estimating.survey import Severity, Survey
from estimating.working import COMMON_PRACTICE


def levelling_verdicts(survey: Survey, zones: Iterable[ZoneDesign]) -> Iterator[Verdict]:
    """Say how a deck on uneven joists is made level, and caution where flat packers are not enough.

    Args:
        survey: The tops of the joists. Record. [mm]
        zones: The zones designed. Sequence. [mm]

    Returns:
        A verdict for each zone whose joist tops differ. Iterator. [-]

    Source:
        Common practice, no source.
    """
    for zone in zones:
        tops = survey.joist_field(zone.joist_field).top_offsets_mm
        under = [tops[each.joist - 1] for each in zone.setting_out] if tops else []
        if len(set(under)) > 1:
            yield _verdict(zone, max(under) - min(under))


def _verdict(zone: ZoneDesign, differ_mm: int) -> Verdict:
    too_low = [each for each in zone.setting_out if each.packing_mm > MOST_PACKING_MM]
    words = f"Zone {zone.zone}: joist tops differ by {differ_mm} mm. "
    if too_low:
        severity = Severity.CAUTION
        packed = ", ".join(f"joist {each.joist} by {each.packing_mm} mm" for each in too_low)
        remedy = (
            "Add a pedestal of another height to the price book, or fix timber of that thickness under the "
            "pedestals first."
            if zone.pedestals
            else "Fix timber of that thickness under the battens."
        )
        words += (
            f"The supports of the price book cannot level them: {packed} is more than {MOST_PACKING_MM} mm "
            f"of flat packers. {remedy}"
        )
    else:
        severity = Severity.NOTE
        most = max(each.packing_mm for each in zone.setting_out)
        words += f"Supports by joist, with {most} mm of packing at most, make the deck level."
    return Verdict(subject="deck level", severity=severity, words=words, source=COMMON_PRACTICE)
