"""What boards are cut into: pieces wanted, and the offcuts and strips at hand."""

from __future__ import annotations

from typing import NamedTuple

from estimating.design.boards.rows import Kind
from estimating.design.boards.steps import LEFT_END, NO_END


class Cut(NamedTuple):
    """What a piece takes: capacity, factory ends, and its width and kept edge if its width can be shared."""

    takes_mm: int
    factory_ends: int
    kind: Kind
    width_mm: int


class Offcut(NamedTuple):
    """A full-width part of a board: capacity left, and which factory ends it still has."""

    capacity_mm: int
    factory_ends: int


class Strip(NamedTuple):
    """A ripped part of a board: the long edge it keeps, its width and the capacity left."""

    keeps: Kind
    width_mm: int
    capacity_mm: int


class NewBoard(NamedTuple):
    """A board to buy, by the number of its source."""

    source: int


Source = Offcut | Strip | NewBoard


class Stock(NamedTuple):
    """Offcuts and strips at hand, each sorted."""

    offcuts: tuple[Offcut, ...] = ()
    strips: tuple[Strip, ...] = ()


class Taken(NamedTuple):
    """One way to take a piece, least loss first: what is lost in worth, and what is left.

    `region_mm` is the capacity ripped for it, 0 when it is taken at full width or from a strip.
    """

    loss: int
    cuts: int
    cost: int
    region_mm: int
    source: Source
    stock: int


def rest_of(offcut: Offcut, cut: Cut, region_mm: int = 0) -> Offcut:
    """Say what is left of an offcut at full width when a piece is taken from it.

    Pieces are cut from the left unless they need the right factory end, so a piece that needs neither
    uses up the left one.

    Args:
        offcut: What it is taken from. Record. [mm]
        cut: What is taken. Record. [mm]
        region_mm: The capacity ripped for it, 0 for a piece of full width. Scalar. [mm]

    Returns:
        The rest. Record. [mm]

    Source:
        Geometry.
    """
    used = cut.factory_ends or (LEFT_END if offcut.factory_ends & LEFT_END else NO_END)
    rest = offcut.capacity_mm - (region_mm or cut.takes_mm)
    return Offcut(rest, offcut.factory_ends & ~used if rest else NO_END)
