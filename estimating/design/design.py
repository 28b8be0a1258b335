"""Where everything goes, frozen: zones with their boards and supports, and the insulation below them."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from estimating.design.boards.cutting_list import BoardCuts
from estimating.design.boards.edges import EdgeMove
from estimating.design.boards.layout import Layout, NoLayout
from estimating.design.boards.problem import LayoutProblem
from estimating.design.boards.row_starts import rows_in_words
from estimating.plane import Point, Polygon
from estimating.working import Figure


@dataclass(frozen=True, slots=True, kw_only=True)
class InsulationLayer:
    """One layer to lay; `between` joists or across them, over `areas`."""

    roll_code: str
    thickness_mm: int
    between: bool
    deck_area_m2: Figure[Decimal]
    open_area_m2: Figure[Decimal]


@dataclass(frozen=True, slots=True, kw_only=True)
class InsulationDesign:
    """The insulation as it will lie; depths are from the top of the ceiling."""

    existing_depth_mm: int
    layers: tuple[InsulationLayer, ...]
    finished_depth_mm: Figure[int]
    meets_target: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class PlacedPedestal:
    """One pedestal on plan, with the joist it stands on (its number from the datum, from 1).

    `why` says what it is there for when the product's rule alone would not put it there. `code` is its
    product, empty for the one product of its zone.
    """

    at: Point
    joist: int
    height_mm: int
    why: str = ""
    code: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class SettingOut:
    """What two people with a tape mark on one joist: positions along it, from the front eaves or left gable.

    `packing_mm` goes under each support on it, because its top is lower than others.
    """

    joist: int
    joist_line_mm: int
    positions_mm: tuple[int, ...]
    packing_mm: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class ZoneDesign:
    """One zone designed; `problem` and `layout` stand in the zone's own frame, x across the joists.

    `turns` is how many quarter turns take plan coordinates into that frame. `layout` is None only when
    `no_layout` says why there is none. `support_code` is the pedestal or batten, of pedestals of several
    heights that on most joists; battens stand `stacked` on top of each other, and `batten_pieces_mm` are what
    one layer of them is cut into. Support heights are counted from the top of joist 1. `edge_moves` are how
    the finished edge was moved from where it was wished.
    """

    zone: str
    joist_field: str
    board_code: str
    problem: LayoutProblem
    turns: int
    layout: Layout | None
    no_layout: NoLayout | None
    laying_order: tuple[int, ...]
    pedestals: tuple[PlacedPedestal, ...]
    battens: tuple[tuple[Point, Point], ...]
    support_code: str
    stacked: int
    batten_pieces_mm: tuple[int, ...]
    setting_out: tuple[SettingOut, ...]
    edge_bearers: tuple[tuple[Point, Point], ...]
    finished_edge: Polygon
    gauge_mm: Figure[int] | None
    support_height_mm: Figure[int]
    support_needed_mm: Figure[int]
    deck_area_m2: Figure[Decimal]
    edge_moves: tuple[EdgeMove, ...] = ()

    @property
    def moves_in_words(self) -> tuple[str, ...]:
        """How edges were moved from where they were wished, a sentence each."""
        return tuple(f"{move.words[:1].upper()}{move.words[1:]}." for move in self.edge_moves)

    @property
    def rows_in_words(self) -> str:
        """From which edge the rows start, and how wide the outer ones are; nothing without boards."""
        return rows_in_words(self.problem, self.turns) if self.layout else ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Design:
    """Where everything goes; `cuts` tell how the boards of all zones are sawn, since zones share them."""

    zones: tuple[ZoneDesign, ...]
    cuts: tuple[BoardCuts, ...]
    insulation: InsulationDesign
    deck_area_m2: Figure[Decimal]
    open_area_m2: Figure[Decimal]
    deck_top_above_joist_mm: Figure[int]
    gap_above_insulation_mm: Figure[int]
