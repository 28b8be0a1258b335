"""The answer to a layout problem: pieces placed and boards bought, or why there is none."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, order=True)
class Piece:
    """One piece of board: where it lies on the deck, and where it lay in the board it was cut from.

    The placed rectangle is taken before notching. board_x is measured from the board's left factory end,
    board_y from its groove edge.
    """

    number: int
    row: int
    x0: int
    x1: int
    y0: int
    y1: int
    board: int
    board_x: int
    board_y: int

    @property
    def length_mm(self) -> int:
        return self.x1 - self.x0

    @property
    def width_mm(self) -> int:
        return self.y1 - self.y0


@dataclass(frozen=True, slots=True, order=True)
class Joint:
    """Two ends meeting in a row: the line they share and the joist that carries them."""

    row: int
    x: int
    joist: int


@dataclass(frozen=True, slots=True, order=True)
class LineUp:
    """Joints of two adjacent rows nearer than the stagger allows, by the joists they are on."""

    row: int
    joist: int
    joist_above: int


@dataclass(frozen=True, slots=True)
class Layout:
    """A deck boarded by every rule."""

    reference: str
    boards: int
    pieces: tuple[Piece, ...]
    joints: tuple[Joint, ...]


@dataclass(frozen=True, slots=True)
class NoLayout:
    """No layout meets every rule: how far off the best is, and why in plain words.

    stagger_breaks is the fewest line-ups found, or None when no line-up would help because some stretch of a
    row cannot be boarded at all. at_least is how many any layout must have: fewer than stagger_breaks only
    when the search was too large to finish, and 0 only when a legal layout may exist after all.
    """

    reference: str
    stagger_breaks: int | None
    why: str
    line_ups: tuple[LineUp, ...] = ()
    at_least: int = 0
