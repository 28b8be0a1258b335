"""The section through deck, insulation and joists, and the whole roof beside it."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from typing import Literal

from estimating.checks.verdicts import Checks
from estimating.design.design import Design, InsulationDesign, ZoneDesign
from estimating.drawing.dimensions import Axis as Line
from estimating.drawing.dimensions import ticks
from estimating.drawing.labels import label_box, spread, write_in
from estimating.drawing.roof_profile import PROFILE_PX, draw_roof_profile
from estimating.drawing.section_levels import Heights, layer_tops_mm, section_heights
from estimating.drawing.svg import TEXT_PX, Canvas
from estimating.drawing.view import SCREEN, Format
from estimating.survey import JoistField, Survey

CEILING_MM = 12
WIDEST_MM = 900
LEFT_PX = 100.0
RIGHT_PX = 106.0
TOP_PX = 24.0
FOOT_PX = 40.0
TALLEST_PX = 360.0
SHORTEST_BESIDE_ROOF_PX = 230.0
"""Below this the roof beside the section is too small for its headroom to be written in it."""
POST_MM = 36
PLATE_MM = 90
PLATE_THICK_MM = 8
WAVE_MM = 60


@dataclass(frozen=True, slots=True, kw_only=True)
class _Cut:
    """One section on its canvas: levels upward from the ceiling, positions rightward from the first joist."""

    canvas: Canvas
    heights: Heights
    px_per_mm: float
    left_px: float
    right_px: float
    ceiling_px: float
    joist_places_px: tuple[float, ...]

    def level(self, above_ceiling_mm: float) -> float:
        return self.ceiling_px - above_ceiling_mm * self.px_per_mm

    def slab(self, kind: str, low_mm: float, high_mm: float) -> None:
        top, bottom = self.level(high_mm), self.level(low_mm)
        self.canvas.box(kind, (self.left_px, top), (self.right_px - self.left_px, bottom - top))


def section(
    survey: Survey,
    design: Design,
    checks: Checks | None = None,
    *,
    zone: str | None = None,
    drawn_for: Format = SCREEN,
) -> str:
    """Draw the section: ceiling, joists, insulation, supports, gap and deck, and the roof above them.

    Args:
        survey: What was measured. Record. [mm]
        design: Where everything goes. Record. [mm]
        checks: What the checks found, for the headroom. Record. [mm]
        zone: The zone to cut through, or None for the first. Text. [-]
        drawn_for: The room for the drawing, and its colours. Record. [px]

    Returns:
        One SVG element. Text. [-]

    Source:
        Timber in section crossed, insulation waved: habits of BS 8541-2:2011, from memory.
    """
    cut_zone = next(each for each in design.zones if zone in (None, each.zone))
    joists = survey.joist_field(cut_zone.joist_field)
    heights = section_heights(design, cut_zone, joists)
    beside = not drawn_for.is_narrow
    width = drawn_for.width_px - (PROFILE_PX if beside else 0)
    cut = _fitted(heights, joists, drawn_for, width)
    _draw_battens(cut, cut_zone, "board--cut")
    _draw_insulation(cut, design.insulation)
    _draw_battens(cut, cut_zone, "board--traced")
    _draw_joists(cut, joists)
    _draw_pedestals(cut, cut_zone)
    _draw_deck(cut)
    _name_layers(cut, design.insulation)
    _dimension(cut, joists, "pedestal" if cut_zone.pedestals else "battens")
    if beside:
        draw_roof_profile(cut.canvas, width, survey, heights.deck_top_mm - heights.joist_top_mm, checks)
    return cut.canvas.svg(
        title=f"Section through the deck, loft {survey.reference}",
        description=_described(design, heights),
        palette=drawn_for.palette,
    )


def _fitted(heights: Heights, joists: JoistField, drawn_for: Format, width: float) -> _Cut:
    centres = min(joists.centres_mm)
    shown = 1 if drawn_for.is_narrow else 2
    across = min(centres * shown, max(WIDEST_MM, centres + 4 * joists.width_mm))
    px_per_mm = min((width - LEFT_PX - RIGHT_PX) / across, TALLEST_PX / (heights.deck_top_mm + CEILING_MM))
    half = across * px_per_mm / 2
    middle = LEFT_PX + (width - LEFT_PX - RIGHT_PX) / 2
    height = TOP_PX + (heights.deck_top_mm + CEILING_MM) * px_per_mm + FOOT_PX
    spare = 0.0 if drawn_for.is_narrow else max(SHORTEST_BESIDE_ROOF_PX - height, 0.0)
    first = middle - centres * px_per_mm * (shown - 1) / 2
    return _Cut(
        canvas=Canvas(drawn_for.width_px, height + spare, "section"),
        heights=heights,
        px_per_mm=px_per_mm,
        left_px=middle - half,
        right_px=middle + half,
        ceiling_px=TOP_PX + spare / 2 + heights.deck_top_mm * px_per_mm,
        joist_places_px=tuple(first + centres * px_per_mm * rank for rank in range(shown)),
    )


def _draw_insulation(cut: _Cut, insulation: InsulationDesign) -> None:
    """What lies there and each layer to lay, one on the other, with a line between them."""
    tops = layer_tops_mm(insulation)
    cut.slab("layer", 0, cut.heights.insulation_top_mm)
    low = 0
    for _, top in tops:
        _draw_wave(cut, low, top)
        cut.canvas.line("layer-line", (cut.left_px, cut.level(top)), (cut.right_px, cut.level(top)))
        low = top


def _name_layers(cut: _Cut, insulation: InsulationDesign) -> None:
    """Between two joists, or beside the only one, where the layer is thick enough to write in."""
    places = cut.joist_places_px
    middle = (places[0] + (places[1] if len(places) > 1 else cut.right_px)) / 2
    clear = 2 * (middle - places[0]) - PLATE_MM * cut.px_per_mm
    low = 0
    for words, top in layer_tops_mm(insulation):
        box = label_box((middle, cut.level((low + top) / 2)), words)
        if box.bottom - box.top <= cut.level(low) - cut.level(top) - 2 and box.right - box.left <= clear:
            write_in(cut.canvas, "text", box, words, ground=True)
        low = top


def _draw_wave(cut: _Cut, low_mm: int, high_mm: int) -> None:
    """One wave as deep as the layer, the sign for soft insulation in section."""
    top, bottom = cut.level(high_mm) + 2, cut.level(low_mm) - 2
    if bottom - top < 4:
        return
    half = max(WAVE_MM * cut.px_per_mm, 6.0) / 2
    strokes, x, down = [f"M{cut.left_px:.1f} {bottom:.1f}"], cut.left_px, False
    while x + half <= cut.right_px + 0.1:
        end = bottom if down else top
        strokes.append(f"S{x + half * 0.35:.1f} {end:.1f} {x + half:.1f} {end:.1f}")
        x, down = x + half, not down
    cut.canvas.path("layer-line", "".join(strokes))


def _draw_joists(cut: _Cut, joists: JoistField) -> None:
    cut.slab("ceiling", -CEILING_MM, 0)
    wide, tall = joists.width_mm * cut.px_per_mm, joists.depth_mm * cut.px_per_mm
    top = cut.level(joists.depth_mm)
    for place in cut.joist_places_px:
        left, right, bottom = place - wide / 2, place + wide / 2, top + tall
        cut.canvas.box("joist--section", (left, top), (wide, tall))
        cut.canvas.lines("leader", [((left, top), (right, bottom)), ((left, bottom), (right, top))])


def _draw_battens(cut: _Cut, zone: ZoneDesign, kind: str) -> None:
    """The battens beyond the cut, one on the other: behind the insulation, then outlined through it."""
    layers = zone.stacked if zone.battens else 0
    low, high = cut.level(cut.heights.joist_top_mm), cut.level(cut.heights.deck_underside_mm)
    for rank in range(layers):
        deep = (low - high) / layers
        cut.canvas.box(kind, (cut.left_px, high + rank * deep), (cut.right_px - cut.left_px, deep))


def _draw_pedestals(cut: _Cut, zone: ZoneDesign) -> None:
    """A pedestal on every joist: plate, post, plate."""
    if not zone.pedestals:
        return
    low, high = cut.level(cut.heights.joist_top_mm), cut.level(cut.heights.deck_underside_mm)
    post, plate = POST_MM * cut.px_per_mm, PLATE_MM * cut.px_per_mm
    thick = max(PLATE_THICK_MM * cut.px_per_mm, 2.0)
    for place in cut.joist_places_px:
        cut.canvas.box("pedestal", (place - plate / 2, high), (plate, thick))
        cut.canvas.box("pedestal", (place - post / 2, high), (post, low - high))
        cut.canvas.box("pedestal", (place - plate / 2, low - thick), (plate, thick))


def _draw_deck(cut: _Cut) -> None:
    cut.slab("board", cut.heights.deck_underside_mm, cut.heights.deck_top_mm)
    top = cut.level(cut.heights.deck_top_mm)
    cut.canvas.line("edge", (cut.left_px, top), (cut.right_px, top))
    joint = cut.joist_places_px[-1]
    cut.canvas.line("mark", (joint, top), (joint, cut.level(cut.heights.deck_underside_mm)))


def _dimension(cut: _Cut, joists: JoistField, support: str) -> None:
    """What is built on the left, what fills it on the right, the joists' centres below."""
    levels = cut.heights
    built = (0, levels.joist_top_mm, levels.deck_underside_mm, levels.deck_top_mm)
    _levels(cut, built, ("joist", support, "board"), outward=-1)
    filled = (0, levels.insulation_top_mm, levels.deck_underside_mm)
    _levels(cut, filled, ("insulation", "gap"), outward=1)
    if len(cut.joist_places_px) > 1:
        line_px = cut.ceiling_px + CEILING_MM * cut.px_per_mm + 24
        first, second = cut.joist_places_px
        below = Line(level=True, line_px=line_px, place=lambda at: at)
        ticks(cut.canvas, below, (first, second))
        cut.canvas.line("dimension", below.spot(first), below.spot(second))
        cut.canvas.words("text", below.spot((first + second) / 2, 4), _centres(joists))


def _levels(
    cut: _Cut, levels_mm: tuple[int, ...], names: tuple[str, ...], *, outward: Literal[-1, 1]
) -> None:
    """A dimension line whose figures stand level beside it, each with the name of what it measures."""
    edge = cut.left_px if outward < 0 else cut.right_px
    line = Line(level=False, line_px=edge + 14 * outward, place=cut.level, outward=outward)
    named = zip(names, pairwise(levels_mm), strict=True)
    heights = [(name, low, high) for name, (low, high) in named if high > low]
    places = [cut.level(level) for _, low, high in heights for level in (low, high)]
    cut.canvas.line("dimension", line.spot(max(places)), line.spot(min(places)))
    ticks(cut.canvas, line, places)
    downward = list(reversed(heights))
    middles = [cut.level((low + high) / 2) for _, low, high in downward]
    set_apart = spread(middles, TEXT_PX + 3, TEXT_PX, cut.ceiling_px)
    anchor = "text drawing__text--end" if outward < 0 else "text drawing__text--start"
    for (name, low, high), middle, y in zip(downward, middles, set_apart, strict=True):
        cut.canvas.line("leader", line.spot(middle), line.spot(y, 9))
        x, y_px = line.spot(y, 12)
        cut.canvas.words(anchor, (x, y_px + TEXT_PX * 0.36), f"{high - low} {name}")


def _centres(joists: JoistField) -> str:
    least, most = min(joists.centres_mm), max(joists.centres_mm)
    return f"{least} centres" if least == most else f"{least} to {most}"


def _described(design: Design, heights: Heights) -> str:
    layers = ", ".join(words for words, _ in layer_tops_mm(design.insulation)) or "none"
    return (
        f"From the ceiling upward in mm: joist {heights.joist_top_mm};"
        f" insulation {heights.insulation_top_mm} ({layers});"
        f" underside of the deck {heights.deck_underside_mm}; top of the deck {heights.deck_top_mm};"
        f" gap above the insulation {heights.deck_underside_mm - heights.insulation_top_mm}."
    )
