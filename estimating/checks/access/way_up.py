"""The way up of one loft: the opening, the shaft through the ceiling, and the rooms below and above it."""

from __future__ import annotations

from dataclasses import dataclass
from math import floor, radians, tan

from estimating.checks.access.tilt import Slot
from estimating.choices import Choices, Part
from estimating.design.openings import Opening, choose_opening
from estimating.plane import bounds
from estimating.price_book import Ladder, PriceBook
from estimating.refusals import Refusal
from estimating.survey import Survey
from estimating.working import Figure, Given, Working, from_price_book, measured, worked_out

SOURCE = "geometry"
_OVER_HATCH = "headroom over the hatch"


@dataclass(frozen=True, slots=True, kw_only=True)
class WayUp:
    """The opening and the rooms below and above it [mm], each with where it came from.

    `clear_floor` is None where none was measured, `over_hatch` where the headroom there was; `ladder` is the
    one to buy.
    """

    long: Given
    short: Given
    shaft: Given
    below: Given
    above: Figure[int]
    clear_floor: Given | None
    over_hatch: Figure[int] | None
    ladder: Ladder | None

    @property
    def sides_mm(self) -> tuple[int, int]:
        return whole_mm(self.long), whole_mm(self.short)

    @property
    def lowest_room_mm(self) -> int:
        """How long a thing may be that stays upright."""
        return min(whole_mm(self.below), self.above.value)

    @property
    def not_measured(self) -> tuple[str, ...]:
        """What was taken, because nobody measured it, in words."""
        floor = "the floor below, taken as free" if self.clear_floor is None else ""
        roof = "the roof over the hatch, taken by its pitch" if self.over_hatch else ""
        return tuple(words for words in (floor, roof) if words)

    def slot_along(self, side: Given) -> Slot:
        """The hatch seen from the side, tilting along one of its sides."""
        floor_mm = None if self.clear_floor is None else float(whole_mm(self.clear_floor))
        below_mm, shaft_mm = whole_mm(self.below), whole_mm(self.shaft)
        return Slot(whole_mm(side), shaft_mm, below_mm, self.above.value, floor_mm)


def way_up(survey: Survey, price_book: PriceBook, choices: Choices) -> WayUp:
    """Read the way up: through the hatch there is, or the new one where one is cut for certain.

    The roof is taken to be as high wherever a board is leant as over the hatch's edge nearer the eaves: that
    holds along the ridge and towards it, and says nothing of the far slope, of webs and of struts. The room
    above is counted from the top of the lining.

    Args:
        survey: Hatch, roof and joists. Record. [mm]
        price_book: The new hatches and ladders. Record. [mm]
        choices: Whether a new hatch counts, and whether a ladder is offered. Record. [-]

    Returns:
        The way up. Record. [mm]

    Source:
        Geometry.
    """
    hatch = survey.hatch
    to_buy = _to_buy(survey, price_book, choices)
    sides, given = hatch.clear_sides_mm, measured
    if to_buy and Part.HATCH in choices.counted_parts:
        sides, given = to_buy.sides_mm, from_price_book
    shaft = measured("depth of the lining", hatch.lining_depth_mm, "mm")
    over = _over_hatch(survey)
    return WayUp(
        long=given("long side", max(sides), "mm"),
        short=given("short side", min(sides), "mm"),
        shaft=shaft,
        below=measured("floor to ceiling", hatch.floor_to_ceiling_mm, "mm"),
        above=_room_above(survey, over, shaft),
        clear_floor=measured("clear floor", hatch.clear_floor_mm, "mm") if hatch.clear_floor_mm else None,
        over_hatch=over,
        ladder=to_buy.ladder if to_buy else None,
    )


def whole_mm(given: Given) -> int:
    """Read a length of the way up.

    Args:
        given: The length. Record. [mm]

    Returns:
        The length. Scalar. [mm]

    Source:
        Own definition.
    """
    assert isinstance(given.value, int)  # noqa: S101 - all lengths here are whole millimetres
    return given.value


def _to_buy(survey: Survey, price_book: PriceBook, choices: Choices) -> Opening | None:
    """The hatch and ladder to buy; None where nothing serves, which is refused where it is bought."""
    try:
        return choose_opening(survey, price_book, choices)
    except Refusal:
        return None


def _over_hatch(survey: Survey) -> Figure[int] | None:
    """From the joists to the roof over the hatch by pitch and place; None where it was measured."""
    hatch, roof = survey.hatch, survey.roof
    if hatch.headroom_above_mm is not None:
        return None
    _, low, _, high = bounds(hatch.outline)
    _, front, _, back = bounds(survey.outline)
    from_eaves = max(0, min(low - front, back - high))
    slope = int(from_eaves * tan(radians(float(roof.pitch_degrees))))
    inputs = (
        measured("eaves to the nearer edge of the hatch", from_eaves, "mm"),
        measured("pitch", roof.pitch_degrees, "°"),
        measured("ridge above joist tops", roof.ridge_height_mm, "mm"),
    )
    formula = "eaves to the nearer edge of the hatch × tan(pitch), or ridge above joist tops where less"
    return Figure(_OVER_HATCH, min(roof.ridge_height_mm, slope), "mm", Working(formula, inputs, SOURCE))


def _room_above(survey: Survey, over: Figure[int] | None, shaft: Given) -> Figure[int]:
    """From the top of the lining to the roof."""
    joist_mm, ceiling_mm = max(each.depth_mm for each in survey.joist_fields), survey.plasterboard_mm
    if over is None:
        headroom = measured(_OVER_HATCH, survey.hatch.headroom_above_mm or 0, "mm")
    else:
        headroom = worked_out(over)
    inputs = (
        headroom,
        measured("joist depth", joist_mm, "mm"),
        measured("thickness of the ceiling", ceiling_mm, "mm"),
        shaft,
    )
    formula = f"{_OVER_HATCH} + joist depth + thickness of the ceiling − depth of the lining, rounded down"
    room = max(1, floor(whole_mm(headroom) + joist_mm + ceiling_mm - whole_mm(shaft)))
    return Figure("room above the lining", room, "mm", Working(formula, inputs, SOURCE))
