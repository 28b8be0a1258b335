"""The deck designed with one board: all of its zones laid together, each supported and set out."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, replace
from decimal import Decimal

from estimating.design.areas import region_area_m2
from estimating.design.battens import Stretch, batten_lines, batten_pieces_mm, batten_stretches
from estimating.design.boards.bearers import edge_bearers
from estimating.design.boards.cutting_list import BoardCuts, cutting_list
from estimating.design.boards.lay import Effort, lay_deck
from estimating.design.boards.laying_order import laying_order
from estimating.design.boards.layout import LaidDeck, Layout, NoLayout
from estimating.design.boards.numbered_as_laid import numbered_as_laid
from estimating.design.boards.problem import DeckTask, LayoutProblem, source_of
from estimating.design.design import ZoneDesign
from estimating.design.pedestals import place_pedestals
from estimating.design.setting_out import crossings, gauge_mm, setting_out
from estimating.design.supports import Support
from estimating.design.zones import ZoneFrame, layout_problem
from estimating.plane import Point, Polygon, bounds, quarter_turned
from estimating.price_book import Batten, Board
from estimating.published.panel_centres import greatest_centres_mm
from estimating.working import Figure, Working, measured

LayDeck = Callable[[DeckTask], LaidDeck]
"""Whatever lays a deck: at once, with proof, or by looking up what was found before."""


@dataclass(frozen=True, slots=True)
class DesignedDeck:
    """All zones designed with one board, and the layout and the cutting list that they share."""

    zones: tuple[ZoneDesign, ...]
    task: DeckTask
    laid: LaidDeck
    cuts: tuple[BoardCuts, ...]


@dataclass(frozen=True, slots=True)
class _ReadyZone:
    """A zone with one board chosen: what carries it is known, and what is to be laid."""

    frame: ZoneFrame
    support: Support
    stretches: tuple[Stretch, ...]
    problem: LayoutProblem


def first_layout(task: DeckTask) -> LaidDeck:
    """Lay a deck as well as can be while someone types.

    Args:
        task: The zones and the boards to cut from. Record. [mm]

    Returns:
        An answer for each zone. Record. [mm]

    Source:
        As lay_deck.
    """
    return lay_deck(task, Effort.FIRST)


def design_deck(
    supported: Sequence[tuple[ZoneFrame, Support]],
    board: Board,
    hatch: Polygon,
    lay: LayDeck,
    *,
    designed: Iterable[DesignedDeck] = (),
) -> DesignedDeck:
    """Lay one board over all zones together and place what carries it.

    Zones are laid together because a board opened in one may be finished in another, whichever way the
    joists of each run. Where no layout keeps every rule a zone still has its supports and setting out, and
    says why it has no boards.

    Args:
        supported: Each zone in its own frame, and what raises it. Sequence of pairs. [mm]
        board: The board. Record. [mm]
        hatch: The hatch on plan, where the crew comes up. Polygon. [mm]
        lay: What lays the boards. Function. [-]
        designed: Decks designed before; one laid with a board of the same face is not laid again. Sequence.
            [mm]

    Returns:
        The zones designed and their common layout. Record. [mm]

    Source:
        As the parts it is put together from.
    """
    ready = [_ready(frame, board, support) for frame, support in supported]
    problems = tuple(each.problem for each in ready)
    task = DeckTask(problems, (source_of(problems[0].product),))
    found = next((deck.laid for deck in designed if _laid_alike(deck.task, task)), None)
    laid = _of_board(found, board.code) if found else lay(task)
    orders = [_laying_order(each, answer, hatch) for each, answer in zip(ready, laid.zones, strict=True)]
    laid = numbered_as_laid(laid, orders, _nearest_first(supported, hatch))
    pairs = tuple(zip(problems, laid.zones, strict=True))
    return DesignedDeck(
        zones=tuple(
            _design_zone(each, board, answer, order, hatch)
            for each, answer, order in zip(ready, laid.zones, orders, strict=True)
        ),
        task=task,
        laid=laid,
        cuts=cutting_list(
            [(problem, layout) for problem, layout in pairs if isinstance(layout, Layout)], task.sources
        ),
    )


def _laying_order(ready: _ReadyZone, answer: Layout | NoLayout, hatch: Polygon) -> tuple[int, ...]:
    if not isinstance(answer, Layout):
        return ()
    return laying_order(ready.problem, answer, _middle(quarter_turned(hatch, ready.frame.turns)))


def _nearest_first(supported: Sequence[tuple[ZoneFrame, Support]], hatch: Polygon) -> list[int]:
    """The places of the zones, the one at the hatch first, so that the crew lays its way outward."""
    x, y = _middle(hatch)

    def away(place: int) -> tuple[int, int]:
        left, low, right, high = bounds(supported[place][0].finished_edge)
        return max(left - x, x - right, 0) ** 2 + max(low - y, y - high, 0) ** 2, place

    return sorted(range(len(supported)), key=away)


def _ready(frame: ZoneFrame, board: Board, support: Support) -> _ReadyZone:
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
        holes = [area.outline for area in frame.keep_outs]
        stretches = batten_stretches(frame.outline, holes, lines)
    return _ReadyZone(frame, support, stretches, layout_problem(frame, board, lines, support.pedestal))


def _design_zone(
    ready: _ReadyZone, board: Board, answer: Layout | NoLayout, order: tuple[int, ...], hatch: Polygon
) -> ZoneDesign:
    frame, support, problem = ready.frame, ready.support, ready.problem
    layout = answer if isinstance(answer, Layout) else None
    pedestal = support.pedestal
    pedestals = place_pedestals(frame, problem, layout, support, hatch)
    marks = [(each.joist, each.at) for each in pedestals]
    return ZoneDesign(
        zone=frame.zone.name,
        joist_field=frame.joist_field.name,
        board_code=board.code,
        problem=problem,
        turns=frame.turns,
        layout=layout,
        no_layout=None if isinstance(answer, Layout) else answer,
        laying_order=order,
        pedestals=pedestals,
        battens=tuple(
            (frame.on_plan((x, low)), frame.on_plan((x, high))) for x, low, high in ready.stretches
        ),
        support_code=support.product.code,
        stacked=support.stacked,
        batten_pieces_mm=_batten_pieces(frame, support, ready.stretches),
        setting_out=setting_out(frame.joist_field, marks or _batten_marks(frame, ready.stretches)),
        edge_bearers=_edge_bearers(frame, problem, layout) if layout else (),
        finished_edge=frame.finished_edge,
        gauge_mm=gauge_mm(board.cover_width_mm, pedestal.base_mm)
        if pedestal and pedestal.at_every_seam
        else None,
        support_height_mm=support.height_mm,
        support_needed_mm=support.needed_mm,
        deck_area_m2=_deck_area_m2(frame),
    )


def _laid_alike(one: DeckTask, other: DeckTask) -> bool:
    """Whether two tasks differ in nothing but the board's code, thickness and price."""
    return len(one.zones) == len(other.zones) and all(
        _same_face(zone, another) for zone, another in zip(one.zones, other.zones, strict=True)
    )


def _same_face(one: LayoutProblem, other: LayoutProblem) -> bool:
    face = replace(
        one.product,
        code=other.product.code,
        thickness_mm=other.product.thickness_mm,
        price_pence=other.product.price_pence,
        pack_size=other.product.pack_size,
    )
    return face == other.product and replace(one, product=face) == other


def _of_board(laid: LaidDeck, code: str) -> LaidDeck:
    """The same layout with another board of the same face."""
    zones = tuple(
        replace(zone, opened=tuple(replace(board, code=code) for board in zone.opened))
        if isinstance(zone, Layout)
        else zone
        for zone in laid.zones
    )
    return replace(laid, zones=zones)


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


def _middle(polygon: Polygon) -> Point:
    left, low, right, high = bounds(polygon)
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
