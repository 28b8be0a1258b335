"""The answer to a layout problem: pieces placed and boards bought, or why there is none."""

from __future__ import annotations

from dataclasses import dataclass

from estimating.design.boards.edges import EdgeMove


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
    """Two ends meeting in a row: the line they share and the joist that carries them, -1 where they float."""

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
class OpenedBoard:
    """A board that pieces are cut from: its number in the whole deck, what it is and how long."""

    number: int
    code: str
    length_mm: int
    bought: bool  # else it was at hand


@dataclass(frozen=True, slots=True)
class Certificate:
    """Whole-number prices that prove a bound; anyone can add them up again.

    A price is given for pieces from a capacity on, by what they keep: full width, groove edge, tongue edge;
    and for each joist of a zone that too few rows may have joints on. `unit` is what one penny of boards (one
    board, where there is one length) can be worth at most.
    """

    unit: int
    full: tuple[tuple[int, int], ...]
    groove: tuple[tuple[int, int], ...]
    tongue: tuple[tuple[int, int], ...]
    joists: tuple[tuple[int, int, int], ...]  # zone, joist, price


@dataclass(frozen=True, slots=True)
class Bound:
    """What no layout can better: boards bought, or their price in pence where lengths are mixed.

    The certificate proves `certified`; `least` may be higher where every cheaper layout was searched for and
    none was found.
    """

    least: int
    certified: int
    certificate: Certificate


@dataclass(frozen=True, slots=True)
class Layout:
    """A deck boarded by every rule.

    `boards` counts those bought that this zone is the first to cut; `opened` lists every board its pieces
    come from. The bound is that of the zone laid by itself, None where no proof was asked for.
    """

    reference: str
    boards: int
    pieces: tuple[Piece, ...]
    joints: tuple[Joint, ...]
    opened: tuple[OpenedBoard, ...] = ()
    bound: Bound | None = None

    @property
    def proved(self) -> bool:
        """Whether no layout of this zone by itself takes fewer boards."""
        return self.bound is not None and self.bound.least >= self.boards


@dataclass(frozen=True, slots=True, kw_only=True)
class Cure:
    """A change after which the deck was laid by every rule, in words, and the boards it then took.

    It is edges moved, rows started from another line, or another board.
    """

    words: str
    boards: int
    moves: tuple[EdgeMove, ...] = ()
    row_origin_mm: int | None = None
    board_code: str = ""


@dataclass(frozen=True, slots=True)
class NoLayout:
    """No layout meets every rule: how far off the best is, and why in plain words.

    stagger_breaks is the fewest line-ups found, or None when no line-up would help because some stretch of a
    row cannot be boarded at all. at_least is how many any layout must have: fewer than stagger_breaks only
    when the search was too large to finish, and 0 only when a legal layout may exist after all. `cures` are
    the changes found to help, the smallest first; only some who ask for a layout look for them.
    """

    reference: str
    stagger_breaks: int | None
    why: str
    line_ups: tuple[LineUp, ...] = ()
    at_least: int = 0
    cures: tuple[Cure, ...] = ()


@dataclass(frozen=True, slots=True)
class LaidDeck:
    """All zones of a task laid together: one answer for each zone, and what holds for the whole.

    `cost` counts boards where one length is on sale, else it is in pence; so does the bound. Boards at hand
    cost nothing.
    """

    zones: tuple[Layout | NoLayout, ...]
    cost: int
    bound: Bound | None

    @property
    def boards(self) -> int:
        """Boards bought."""
        return sum(zone.boards for zone in self.zones if isinstance(zone, Layout))

    @property
    def proved(self) -> bool:
        """Whether nothing cheaper exists."""
        return self.bound is not None and self.bound.least >= self.cost
