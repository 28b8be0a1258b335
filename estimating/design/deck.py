"""One zone of deck designed with one board: laid, supported and set out."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace
from decimal import Decimal

from estimating.design.areas import region_area_m2
from estimating.design.battens import Stretch, batten_lines, batten_pieces_mm, batten_stretches
from estimating.design.boards.bearers import edge_bearers
from estimating.design.boards.cutting_list import cutting_list
from estimating.design.boards.lay import lay_boards
from estimating.design.boards.laying_order import laying_order
from estimating.design.boards.layout import Layout
from estimating.design.boards.pedestal_grid import pedestal_points
from estimating.design.boards.problem import LayoutProblem
from estimating.design.design import PlacedPedestal, ZoneDesign
from estimating.design.setting_out import crossings, gauge_mm, setting_out
from estimating.design.supports import Support
from estimating.design.zones import ZoneFrame, layout_problem
from estimating.plane import Point, Polygon, bounds, quarter_turned
from estimating.price_book import Batten, Board
from estimating.published.panel_centres import greatest_centres_mm
from estimating.working import Figure, Working, measured


def design_zone(
    frame: ZoneFrame,
    board: Board,
    support: Support,
    hatch: Polygon,
    *,
    laid: Iterable[ZoneDesign] = (),
) -> ZoneDesign:
    """Lay one board over one zone and place what carries it.

    Where no layout keeps every rule the zone still has its supports and setting out, and says why it has no
    boards.

    Args:
        frame: The zone in its own frame. Record. [mm]
        board: The board. Record. [mm]
        support: What raises the deck. Record. [mm]
        hatch: The hatch on plan, where the crew comes up. Polygon. [mm]
        laid: Zones laid before; one laid with a board of the same face is not laid again. Sequence. [mm]

    Returns:
        The zone designed. Record. [mm]

    Source:
        As the parts it is put together from.
    """
    holes = [area.outline for area in frame.keep_outs]
    stretches: tuple[Stretch, ...] = ()
    lines = frame.joist_lines
    if isinstance(support.product, Batten):
        lines = batten_lines(
            frame.outline,
            cover_length_mm=board.cover_length_mm,
            max_centres_mm=min(
                board.max_joist_centres_mm,
                greatest_centres_mm(board.thickness_mm) or board.max_joist_centres_mm,
            ),
            width_mm=support.product.width_mm,
        )
        stretches = batten_stretches(frame.outline, holes, lines)
    problem = layout_problem(frame, board, lines, support.pedestal)
    for zone in laid:
        if _laid_alike(zone.problem, problem):
            return replace(zone, board_code=board.code, problem=problem)
    found = lay_boards(problem)
    layout = found if isinstance(found, Layout) else None
    pedestals = _pedestals(frame, problem, support) if support.pedestal else ()
    marks = [(pedestal.joist, pedestal.at) for pedestal in pedestals]
    pedestal = support.pedestal
    return ZoneDesign(
        zone=frame.zone.name,
        joist_field=frame.joist_field.name,
        board_code=board.code,
        problem=problem,
        turns=frame.turns,
        layout=layout,
        no_layout=None if isinstance(found, Layout) else found,
        cuts=cutting_list(problem, layout) if layout else (),
        laying_order=laying_order(problem, layout, _middle(hatch, frame.turns)) if layout else (),
        pedestals=pedestals,
        battens=tuple((frame.on_plan((x, low)), frame.on_plan((x, high))) for x, low, high in stretches),
        support_code=support.product.code,
        stacked=support.stacked,
        batten_pieces_mm=_batten_pieces(frame, support, stretches),
        setting_out=setting_out(frame.joist_field, marks or _batten_marks(frame, stretches)),
        edge_bearers=_edge_bearers(frame, problem, layout) if layout else (),
        finished_edge=frame.finished_edge,
        gauge_mm=gauge_mm(board.cover_width_mm, pedestal.base_mm)
        if pedestal and pedestal.at_every_seam
        else None,
        support_height_mm=support.height_mm,
        support_needed_mm=support.needed_mm,
        deck_area_m2=_deck_area_m2(frame),
    )


def _laid_alike(one: LayoutProblem, other: LayoutProblem) -> bool:
    """Whether two problems differ in nothing but the board's code, thickness and price."""
    face = replace(
        one.product,
        code=other.product.code,
        thickness_mm=other.product.thickness_mm,
        price_pence=other.product.price_pence,
        pack_size=other.product.pack_size,
    )
    return face == other.product and replace(one, product=face) == other


def _pedestals(frame: ZoneFrame, problem: LayoutProblem, support: Support) -> tuple[PlacedPedestal, ...]:
    numbers = {joist.at_mm: joist.number for joist in frame.joists}
    return tuple(
        PlacedPedestal(at=frame.on_plan(point), joist=numbers[point[0]], height_mm=support.height_mm.value)
        for point in pedestal_points(problem)
    )


def _batten_marks(frame: ZoneFrame, stretches: Sequence[Stretch]) -> list[tuple[int, Point]]:
    numbers = {joist.at_mm: joist.number for joist in frame.joists}
    return [
        (numbers[y], frame.on_plan((x, y)))
        for x, low, high in stretches
        for y in crossings(frame.joist_lines, low, high)
    ]


def _batten_pieces(frame: ZoneFrame, support: Support, stretches: Sequence[Stretch]) -> tuple[int, ...]:
    if not isinstance(support.product, Batten):
        return ()
    length_mm = support.product.length_mm
    return tuple(
        piece
        for _, low, high in stretches
        for piece in batten_pieces_mm(low, high, frame.joist_lines, length_mm)
    )


def _edge_bearers(
    frame: ZoneFrame, problem: LayoutProblem, layout: Layout
) -> tuple[tuple[Point, Point], ...]:
    return tuple(
        (frame.on_plan((bearer.x, bearer.y0)), frame.on_plan((bearer.x, bearer.y1)))
        for bearer in edge_bearers(problem, layout)
    )


def _middle(polygon: Polygon, turns: int) -> Point:
    left, low, right, high = bounds(quarter_turned(polygon, turns))
    return (left + right) // 2, (low + high) // 2


def _deck_area_m2(frame: ZoneFrame) -> Figure[Decimal]:
    holes = [area.outline for area in frame.keep_outs]
    edge, deck = region_area_m2(frame.outline), region_area_m2(frame.outline, holes)
    inputs = (
        measured("finished edge, perimeter gap taken off", edge, "m²"),
        measured("hatch and keep-outs in it", edge - deck, "m²"),
    )
    working = Working("area in the finished edge − hatch and keep-outs", inputs, "geometry")
    return Figure(f"deck area of zone {frame.zone.name}", deck, "m²", working)
