"""The whole roof in section, small: where the deck lies under it and how high one can stand."""

from __future__ import annotations

from estimating.checks.verdicts import Checks
from estimating.drawing.dimensions import Axis as Line
from estimating.drawing.dimensions import chain
from estimating.drawing.svg import Canvas
from estimating.survey import Survey

PROFILE_PX = 270.0
INSET_PX = 34.0


def draw_roof_profile(
    canvas: Canvas, left_px: float, survey: Survey, deck_above_joist_mm: int, checks: Checks | None
) -> None:
    """Draw rafters, ceiling and deck to one scale, and dimension the room above the deck.

    The rafters run from the eaves to the measured ridge; where span and pitch put the ridge elsewhere, the
    measured height is what is drawn, because that is what people stand under.

    Args:
        canvas: The drawing. Record. [-]
        left_px: Where the profile's room begins. Scalar. [px]
        survey: The roof as measured. Record. [mm]
        deck_above_joist_mm: Top of the deck above the joists. Scalar. [mm]
        checks: What the checks found, for the headroom. Record. [mm]

    Returns:
        Nothing. None. [-]

    Source:
        Geometry.
    """
    roof = survey.roof
    room = PROFILE_PX - 2 * INSET_PX
    px_per_mm = min(room / roof.span_mm, (canvas.height_px - 110) / roof.ridge_height_mm)
    foot = canvas.height_px - 54
    middle = left_px + PROFILE_PX / 2
    half = roof.span_mm * px_per_mm / 2

    def level(above_joist_mm: float) -> float:
        return foot - above_joist_mm * px_per_mm

    ridge = level(roof.ridge_height_mm)
    canvas.polygon("roof", [(middle - half, foot), (middle, ridge), (middle + half, foot)])
    reach = max(half * (1 - deck_above_joist_mm / roof.ridge_height_mm) - 6, 0.0)
    canvas.line(
        "edge", (middle - reach, level(deck_above_joist_mm)), (middle + reach, level(deck_above_joist_mm))
    )
    headroom = Line(level=False, line_px=middle, place=level)
    clear = headroom_mm(survey, deck_above_joist_mm, checks)
    if clear > 0:
        chain(canvas, headroom, [deck_above_joist_mm, deck_above_joist_mm + clear])
    across = Line(level=True, line_px=foot + 24, place=lambda at: middle - half + at * px_per_mm)
    chain(canvas, across, [0, roof.span_mm])
    canvas.words(
        "text--soft", (middle, ridge - 14), f"roof at {roof.pitch_degrees:g}°, headroom above the deck"
    )


def headroom_mm(survey: Survey, deck_above_joist_mm: int, checks: Checks | None) -> int:
    """Return the height from the deck to the ridge: the check's figure, so that it is computed once.

    Args:
        survey: The roof as measured. Record. [mm]
        deck_above_joist_mm: Top of the deck above the joists. Scalar. [mm]
        checks: What the checks found. Record. [mm]

    Returns:
        The headroom. Scalar. [mm]

    Source:
        Arithmetic.
    """
    return checks.headroom_mm.value if checks else survey.roof.ridge_height_mm - deck_above_joist_mm
