"""What the screening of the ceiling says of the gap under a deck, in words."""

from __future__ import annotations

from collections.abc import Iterator

from estimating.checks.moisture.record import Moisture
from estimating.checks.verdicts import Verdict
from estimating.published.vapour import INSIDE_C, INSIDE_HUMIDITY, OUTSIDE_C, OUTSIDE_HUMIDITY
from estimating.published.ventilation import CLEAR_GAP_MM, CLEAR_GAP_SOURCE
from estimating.survey import Severity

SCREENING = "This is a screening, steady state; not a full year, and without the air that leaks past a hatch."


def moisture_verdicts(moisture: Moisture | None, gap_mm: int) -> Iterator[Verdict]:
    """Say whether water is to be expected under the boards, and why the deck is held off the insulation.

    A gap under 50 mm is not counted on to carry damp air away, because no figure is published for one.

    Args:
        moisture: The water and the temperatures, None where no insulation will lie. Record. [g/m2]
        gap_mm: The gap that the deck is built with. Scalar. [mm]

    Returns:
        A verdict, none without insulation. Iterator. [-]

    Source:
        BS EN ISO 13788:2012, steady state, as a screening; common practice, no source, for the gap.
    """
    if moisture is None:
        return
    on_wool, above = moisture.boards_on_wool_g_m2_day, moisture.boards_above_gap_g_m2_day
    outside = f"{OUTSIDE_C:.0f} °C and {OUTSIDE_HUMIDITY * 100:.0f} % outside"
    day = f"On a cold day ({outside}, {INSIDE_C:.0f} °C and {INSIDE_HUMIDITY * 100:.0f} % inside)"
    laid = f"about {on_wool.value} g of water would gather on each square metre under boards"
    severity, figure = Severity.NOTE, on_wool
    if above.value > 0:
        severity, figure = Severity.CAUTION, above
        words = (
            f"{day} about {above.value} g of water would gather on each square metre inside the insulation, "
            "even with air moving above it. Ask for a layer that keeps vapour out, on the warm side."
        )
    elif not on_wool.value:
        words = f"{day} no water would gather under the boards."
    elif gap_mm <= 0:
        severity = Severity.CAUTION
        words = f"{day} {laid} that lie on the insulation, as these do. Raise the deck."
    elif gap_mm < CLEAR_GAP_MM:
        severity = Severity.CAUTION
        words = (
            f"{day} {laid} laid on the insulation. The gap of {gap_mm} mm is less than the {CLEAR_GAP_MM} mm "
            "that is counted on to carry damp air away: look under the deck after the first winter."
        )
    else:
        words = f"{day} {laid} laid on the insulation, and none under this deck, which has air below it."
    yield Verdict(
        subject="moisture",
        severity=severity,
        words=f"{words} {SCREENING}",
        source=f"{figure.working.source}; gap: {CLEAR_GAP_SOURCE}",
        figure=figure,
    )
