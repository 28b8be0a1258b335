"""A deck with its boards chosen, before they are laid: what carries them is known, and what is asked."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from decimal import Decimal

from estimating.design.areas import region_area_m2
from estimating.design.battens import Stretch, batten_lines, batten_pieces_mm, batten_stretches
from estimating.design.boards.problem import BoardSource, DeckTask, LayoutProblem
from estimating.design.carried import carried_lines
from estimating.design.design import ZoneDesign
from estimating.design.pedestals import place_pedestals
from estimating.design.setting_out import crossings, gauge_mm, setting_out
from estimating.design.supports import Support
from estimating.design.zones import ZoneFrame, layout_problem
from estimating.plane import Point, Polygon
from estimating.price_book import Batten, Board
from estimating.published.panel_centres import greatest_centres_mm
from estimating.working import Figure, Working, measured


@dataclass(frozen=True, slots=True)
class ReadyZone:
    """A zone without boards yet; `design` has what can be known before they are laid."""

    frame: ZoneFrame
    support: Support
    design: ZoneDesign

    @property
    def problem(self) -> LayoutProblem:
        return self.design.problem


@dataclass(frozen=True, slots=True)
class ReadyDeck:
    """All zones ready to be laid together from the same boards."""

    zones: tuple[ReadyZone, ...]
    task: DeckTask
    hatch: Polygon

    @property
    def designs(self) -> tuple[ZoneDesign, ...]:
        """The zones as far as they are designed."""
        return tuple(zone.design for zone in self.zones)


def ready_deck(
    supported: Sequence[tuple[ZoneFrame, Support]],
    board: Board,
    sources: Sequence[BoardSource],
    hatch: Polygon,
    *,
    joists_left_out: int = 0,
) -> ReadyDeck:
    """Place what carries a deck of one board and set the problem of laying it.

    Args:
        supported: Each zone in its own frame, and what raises it. Sequence of pairs. [mm]
        board: The board, the longest where lengths are mixed. Record. [mm]
        sources: What it is cut from: boards on sale and boards at hand. Sequence. [mm]
        hatch: The hatch on plan, where the crew comes up. Polygon. [mm]
        joists_left_out: 0 to stand on all joists, 1 for the next smaller set that the board allows, and so
            on; a zone that has no such set stands on its smallest. Scalar. [-]

    Returns:
        The deck without a layout. Record. [mm]

    Source:
        As the parts it is put together from.
    """
    zones = tuple(_ready(frame, board, support, hatch, joists_left_out) for frame, support in supported)
    return ReadyDeck(zones, DeckTask(tuple(zone.problem for zone in zones), tuple(sources)), hatch)


def zone_problem(frame: ZoneFrame, board: Board, support: Support, joists_left_out: int = 0) -> LayoutProblem:
    """Set the problem of boarding one zone on what carries it: its joists, fewer of them, or battens.

    Args:
        frame: The zone in its own frame. Record. [mm]
        board: The board. Record. [mm]
        support: What raises it. Record. [mm]
        joists_left_out: As for a ready deck. Scalar. [-]

    Returns:
        The problem. Record. [mm]

    Source:
        As carried_lines and batten_lines.
    """
    sets = carried_lines(frame, board)
    lines = sets[min(joists_left_out, len(sets) - 1)]
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
    return layout_problem(frame, board, lines, support.pedestal)


def _ready(
    frame: ZoneFrame, board: Board, support: Support, hatch: Polygon, joists_left_out: int
) -> ReadyZone:
    problem = zone_problem(frame, board, support, joists_left_out)
    stretches: tuple[Stretch, ...] = ()
    if isinstance(support.product, Batten):
        holes = [area.outline for area in frame.keep_outs]
        stretches = batten_stretches(frame.outline, holes, problem.joist_lines)
    pedestal = support.pedestal
    design = ZoneDesign(
        zone=frame.zone.name,
        joist_field=frame.joist_field.name,
        board_code=board.code,
        problem=problem,
        turns=frame.turns,
        layout=None,
        no_layout=None,
        laying_order=(),
        pedestals=place_pedestals(frame, problem, None, support, hatch),
        battens=tuple((frame.on_plan((x, low)), frame.on_plan((x, high))) for x, low, high in stretches),
        support_code=support.product.code,
        stacked=support.stacked,
        batten_pieces_mm=_batten_pieces(frame, support, stretches),
        setting_out=setting_out(frame.joist_field, _batten_marks(frame, stretches), support.packing_mm),
        edge_bearers=(),
        finished_edge=frame.finished_edge,
        gauge_mm=gauge_mm(board.cover_width_mm, pedestal.base_mm)
        if pedestal and pedestal.at_every_seam
        else None,
        support_height_mm=support.height_mm,
        support_needed_mm=support.needed_mm,
        deck_area_m2=_deck_area_m2(frame),
        edge_moves=frame.edge_moves,
    )
    return ReadyZone(frame, support, design)


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


def _deck_area_m2(frame: ZoneFrame) -> Figure[Decimal]:
    holes = [area.outline for area in frame.keep_outs]
    edge, deck = region_area_m2(frame.outline), region_area_m2(frame.outline, holes)
    inputs = (
        measured("finished edge, perimeter gap taken off", edge, "m²"),
        measured("hatch and keep-outs in it", edge - deck, "m²"),
    )
    working = Working("area in the finished edge − hatch and keep-outs", inputs, "geometry")
    return Figure(f"deck area of zone {frame.zone.name}", deck, "m²", working)


def same_face(one: DeckTask, other: DeckTask) -> bool:
    """Tell whether two decks differ in nothing but the board's code, thickness and price.

    Args:
        one: A task of boards of one length. Record. [mm]
        other: Another. Record. [mm]

    Returns:
        Whether a layout of the one is one of the other too. Scalar. [-]

    Source:
        Geometry.
    """
    if len(one.zones) != len(other.zones) or not _same_sources(one.sources, other.sources):
        return False
    return all(_same_problem(*pair) for pair in zip(one.zones, other.zones, strict=True))


def _same_sources(some: Sequence[BoardSource], others: Sequence[BoardSource]) -> bool:
    """Where there is but one length to cut from its price does not matter, else it must be the same."""
    if len(some) == len(others) == 1:
        return some[0].at_hand is None and some[0].cover_length_mm == others[0].cover_length_mm
    return tuple(some) == tuple(others)


def _same_problem(one: LayoutProblem, other: LayoutProblem) -> bool:
    face = replace(
        one.product,
        code=other.product.code,
        thickness_mm=other.product.thickness_mm,
        price_pence=other.product.price_pence,
        pack_size=other.product.pack_size,
    )
    return face == other.product and replace(one, product=face) == other
