"""The deck designed: all of its zones laid together, each with its boards, supports and setting out."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from functools import lru_cache

from estimating.design.boards.bearers import edge_bearers
from estimating.design.boards.cutting_list import BoardCuts, cutting_list
from estimating.design.boards.lay import Effort, lay_deck
from estimating.design.boards.laying_order import laying_order
from estimating.design.boards.layout import LaidDeck, Layout, NoLayout
from estimating.design.boards.numbered_as_laid import numbered_as_laid
from estimating.design.boards.problem import DeckTask
from estimating.design.design import ZoneDesign
from estimating.design.pedestals import place_pedestals
from estimating.design.ready_deck import ReadyDeck, ReadyZone
from estimating.design.setting_out import setting_out
from estimating.plane import Point, Polygon, bounds, quarter_turned

LAYOUTS_KEPT = 48

LayDeck = Callable[[DeckTask], LaidDeck | None]
"""Whatever lays a deck: at once, with proof, or by looking up what was found before.

None says that there is no time for it now; a deck is then laid with what has been looked at so far.
"""


@dataclass(frozen=True, slots=True)
class DesignedDeck:
    """All zones designed with one board, and the layout and the cutting list that they share."""

    zones: tuple[ZoneDesign, ...]
    task: DeckTask
    laid: LaidDeck
    cuts: tuple[BoardCuts, ...]


@lru_cache(maxsize=LAYOUTS_KEPT)
def first_layout(task: DeckTask) -> LaidDeck:
    """Lay a deck as well as can be while someone types.

    The last few are kept, since most changes to a quote leave its deck as it is.

    Args:
        task: The zones and the boards to cut from. Record. [mm]

    Returns:
        An answer for each zone. Record. [mm]

    Source:
        As lay_deck.
    """
    return lay_deck(task, Effort.FIRST)


def at_most(count: int, lay: LayDeck) -> LayDeck:
    """Lay so many decks and then no more, so that a page answers in time.

    Counted in decks, never in seconds, so that the same loft gives the same answer on any machine.

    Args:
        count: How many decks are laid. Scalar. [count]
        lay: What lays them. Function. [-]

    Returns:
        What lays the first ones and gives None for others. Function. [-]

    Source:
        Own definition.
    """
    laid = iter(range(count))
    return lambda task: None if next(laid, None) is None else lay(task)


def design_deck(ready: ReadyDeck, laid: LaidDeck) -> DesignedDeck:
    """Give a deck its layout, and what follows from it: order, bearers, pedestals, cuts.

    Zones are laid together because a board opened in one may be finished in another, whichever way the
    joists of each run. Where no layout keeps every rule a zone still has its supports and setting out, and
    says why it has no boards.

    Args:
        ready: The deck ready to be laid. Record. [mm]
        laid: Its layout. Record. [mm]

    Returns:
        The zones designed and their common layout. Record. [mm]

    Source:
        As the parts it is put together from.
    """
    pairs = list(zip(ready.zones, laid.zones, strict=True))
    orders = [_laying_order(zone, answer, ready.hatch) for zone, answer in pairs]
    laid = numbered_as_laid(laid, orders, _nearest_first(ready))
    zones = tuple(
        _design_zone(zone, answer, order, ready.hatch)
        for zone, answer, order in zip(ready.zones, laid.zones, orders, strict=True)
    )
    boarded = [(zone.problem, zone.layout) for zone in zones if zone.layout]
    return DesignedDeck(zones, ready.task, laid, cutting_list(boarded, ready.task.sources))


def with_board(laid: LaidDeck, code: str) -> LaidDeck:
    """Give the same layout with another board of the same face.

    Args:
        laid: A layout of boards of one length. Record. [mm]
        code: The other board's code. Text. [-]

    Returns:
        The layout. Record. [mm]

    Source:
        Geometry.
    """
    zones = tuple(
        replace(zone, opened=tuple(replace(board, code=code) for board in zone.opened))
        if isinstance(zone, Layout)
        else zone
        for zone in laid.zones
    )
    return replace(laid, zones=zones)


def _laying_order(zone: ReadyZone, answer: Layout | NoLayout, hatch: Polygon) -> tuple[int, ...]:
    if not isinstance(answer, Layout):
        return ()
    return laying_order(zone.problem, answer, _middle(quarter_turned(hatch, zone.frame.turns)))


def _nearest_first(ready: ReadyDeck) -> list[int]:
    """The places of the zones, the one at the hatch first, so that the crew lays its way outward."""
    x, y = _middle(ready.hatch)

    def away(place: int) -> tuple[int, int]:
        left, low, right, high = bounds(ready.zones[place].frame.finished_edge)
        return max(left - x, x - right, 0) ** 2 + max(low - y, y - high, 0) ** 2, place

    return sorted(range(len(ready.zones)), key=away)


def _design_zone(
    zone: ReadyZone, answer: Layout | NoLayout, order: tuple[int, ...], hatch: Polygon
) -> ZoneDesign:
    frame, problem = zone.frame, zone.problem
    layout = answer if isinstance(answer, Layout) else None
    pedestals = place_pedestals(frame, problem, layout, zone.support, hatch)
    marks = [(each.joist, each.at) for each in pedestals]
    bearers = edge_bearers(problem, layout) if layout else ()
    return replace(
        zone.design,
        layout=layout,
        no_layout=None if isinstance(answer, Layout) else answer,
        laying_order=order,
        pedestals=pedestals,
        setting_out=setting_out(frame.joist_field, marks, zone.support.packing_mm)
        if marks
        else zone.design.setting_out,
        edge_bearers=tuple(
            (frame.on_plan((bearer.x, bearer.y0)), frame.on_plan((bearer.x, bearer.y1))) for bearer in bearers
        ),
    )


def _middle(polygon: Polygon) -> Point:
    left, low, right, high = bounds(polygon)
    return (left + right) // 2, (low + high) // 2
