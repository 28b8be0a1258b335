"""Where a deck has the headroom that the firm asks for, by pitch and span."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from decimal import Decimal
from math import ceil, floor, radians, tan

from estimating.checks.access.record import HeadroomStrip
from estimating.checks.verdicts import Verdict
from estimating.plane import area_mm2, bounds, overlap_area_mm2
from estimating.refusals import Requirements
from estimating.survey import Axis, DeckZone, Polygon, Severity, Survey
from estimating.working import Figure, Given, Working, chosen, measured, worked_out

SOURCE = "geometry: two equal slopes from the wall plates up, and flat under the ridge"


def headroom_strip_mm(
    *, span_mm: float, pitch_degrees: float, ridge_mm: float, deck_top_mm: float, least_mm: float
) -> tuple[float, float] | None:
    """Give the strip in which there is at least some headroom over a deck.

    Args:
        span_mm: Span from wall plate to wall plate. Scalar. [mm]
        pitch_degrees: Pitch of both slopes. Scalar. [degrees]
        ridge_mm: From the top of the joists to the underside of the ridge. Scalar. [mm]
        deck_top_mm: From the top of the joists to the top of the deck. Scalar. [mm]
        least_mm: The headroom asked for. Scalar. [mm]

    Returns:
        From and to, from one wall plate; None where it is nowhere. Pair. [mm]

    Raises:
        Refusal: A length is not more than 0, or the pitch not between 0 and 90 degrees.

    Source:
        Geometry.
    """
    needs = Requirements()
    needs.require(span_mm > 0, "span_mm", "must be more than 0 mm")
    needs.require(0 < pitch_degrees < 90, "pitch_degrees", "must be between 0 and 90 degrees")
    needs.require(ridge_mm > 0, "ridge_mm", "must be more than 0 mm")
    needs.require(deck_top_mm >= 0, "deck_top_mm", "must not be less than 0 mm")
    needs.require(least_mm > 0, "least_mm", "must be more than 0 mm")
    needs.settle()
    height = deck_top_mm + least_mm
    from_plate = height / tan(radians(pitch_degrees))
    if height > ridge_mm or from_plate > span_mm / 2:
        return None
    return from_plate, span_mm - from_plate


def headroom_strip(survey: Survey, deck_top_above_joist_mm: Figure[int], least_mm: int) -> HeadroomStrip:
    """Work out where the firm's least headroom is met over the deck, from the front eaves.

    Args:
        survey: Roof and outline. Record. [mm]
        deck_top_above_joist_mm: Support and board together. Scalar. [mm]
        least_mm: The firm's least headroom. Scalar. [mm]

    Returns:
        The strip, empty where there is none. Record. [mm]

    Source:
        Geometry.
    """
    roof = survey.roof
    _, front, _, _ = bounds(survey.outline)
    strip = headroom_strip_mm(
        span_mm=roof.span_mm,
        pitch_degrees=float(roof.pitch_degrees),
        ridge_mm=roof.ridge_height_mm,
        deck_top_mm=deck_top_above_joist_mm.value,
        least_mm=least_mm,
    )
    deck = deck_top_above_joist_mm.name
    given: tuple[Given, ...] = (
        worked_out(deck_top_above_joist_mm),
        chosen("least headroom", least_mm, "mm"),
        measured("pitch", roof.pitch_degrees, "°"),
    )
    span = measured("span", roof.span_mm, "mm")
    if strip:
        distance = f"({deck} + least headroom) / tan(pitch)"
        low, high = front + ceil(strip[0]), front + floor(strip[1])
        begins = Working(f"{distance}, from the front eaves", given, SOURCE)
        ends = Working(f"span − {distance}", (*given, span), SOURCE)
    else:
        low = high = front + roof.span_mm // 2
        ridge = measured("ridge above joist tops", roof.ridge_height_mm, "mm")
        nowhere = f"span / 2, where pitch and ridge above joist tops leave less than {deck} + least headroom"
        begins = ends = Working(nowhere, (span, *given, ridge), SOURCE)
    return HeadroomStrip(
        from_mm=Figure("headroom from", low, "mm", begins), to_mm=Figure("headroom to", high, "mm", ends)
    )


def strip_area(survey: Survey, strip: HeadroomStrip) -> Polygon | None:
    """Give the strip with headroom over the whole length of the loft.

    Args:
        survey: The outline. Record. [mm]
        strip: Where there is headroom. Record. [mm]

    Returns:
        A rectangle; None where there is none. Polygon. [mm]

    Source:
        Own definition.
    """
    left, front, right, back = bounds(survey.outline)
    low, high = max(front, strip.from_mm.value), min(back, strip.to_mm.value)
    if low >= high:
        return None
    return ((left, low), (right, low), (right, high), (left, high))


def headroom_strip_verdicts(
    survey: Survey, strip: HeadroomStrip, zones: Iterable[DeckZone], least_mm: int
) -> Iterator[Verdict]:
    """Caution where a zone lies partly under less headroom than the firm asks for.

    Args:
        survey: The outline. Record. [mm]
        strip: Where there is headroom. Record. [mm]
        zones: The zones as wished. Sequence. [mm]
        least_mm: The firm's least headroom. Scalar. [mm]

    Returns:
        A verdict for each such zone. Iterator. [-]

    Source:
        Geometry; the least headroom is the firm's own.
    """
    within = strip_area(survey, strip)
    metres = (Decimal(least_mm) / 1000).quantize(Decimal("0.01"))
    for zone in zones:
        if survey.joist_field(zone.joist_field).runs_along is Axis.X:
            continue  # a wing: its rafters run as its joists do, to a ridge that nobody measured
        inside = overlap_area_mm2(zone.outline, within) if within else 0
        share = round(100 * (1 - inside / area_mm2(zone.outline)))
        if share < 1:
            continue
        where = f"from {strip.from_mm.value} to {strip.to_mm.value} mm from the front eaves"
        told = f"that is there only {where}" if within else "that is nowhere in this loft"
        yield Verdict(
            subject="headroom",
            severity=Severity.CAUTION,
            words=(
                f"Zone {zone.name}: {share} % of it has less than {metres} m of headroom over the deck; "
                f"{told}."
            ),
            source="geometry; the least headroom is the firm's own",
            figure=strip.from_mm,
        )
