"""What is to be boarded, with what, and by which rules: the layout problem, before anyone solves it.

x runs across the joists, which is the way the boards' long edges lie; y runs along the joists.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

from estimating.plane import Polygon, bounds, is_simple
from estimating.refusals import Requirements

EdgeProfile = Literal["tg", "square"]
EndJoint = Literal["butt", "tg", "floating"]

LEAST_COVER_MM = 50
LARGEST_SPREAD_MM = 200_000


@dataclass(frozen=True, slots=True, kw_only=True)
class BoardProduct:
    """A board as it covers once laid, tongue not counted, and what it costs."""

    code: str
    cover_length_mm: int
    cover_width_mm: int
    thickness_mm: int
    ends: EdgeProfile = "tg"
    sides: EdgeProfile = "tg"
    price_pence: int = 0
    pack_size: int = 1

    def __post_init__(self) -> None:
        needs = Requirements()
        for name in ("cover_length_mm", "cover_width_mm"):
            needs.require(
                getattr(self, name) >= LEAST_COVER_MM, name, f"must be at least {LEAST_COVER_MM} mm"
            )
        needs.require(self.thickness_mm > 0, "thickness_mm", "must be more than 0 mm")
        for name in ("ends", "sides"):
            needs.require(getattr(self, name) in ("tg", "square"), name, 'must be "tg" or "square"')
        needs.require(self.price_pence >= 0, "price_pence", "must not be negative")
        needs.require(self.pack_size >= 1, "pack_size", "must be at least 1")
        needs.settle()


@dataclass(frozen=True, slots=True, kw_only=True)
class LayingRules:
    """How boards are cut and laid.

    That end joints lie on joists and are staggered is NHBC Standards 6.4.19; that a board spans two bays is
    LABC Warranty, floor decks. The measures are common practice, no source. Joints may float between joists
    only where the board's own data say so.
    """

    kerf_mm: int = 3
    gap_tolerance_mm: int = 3  # a piece may be so much short of its span, or two halves never make a board
    joint_tolerance_mm: int = 0  # how far from a joist's centre line ends may meet
    min_piece_mm: int = 300  # unless the piece fills its run
    min_strip_mm: int = 80  # narrower offcuts are waste; a deck is surveyed so that it needs no such strip
    min_supports: int = 2  # joists or edge bearers under each piece
    max_overhang_mm: int = 150  # a free end further from its joist needs an edge bearer
    min_stagger_mm: int = 300
    end_joint: EndJoint = "butt"  # "tg": factory ends only; "floating": those between joists too

    def __post_init__(self) -> None:
        needs = Requirements()
        for name in self.__dataclass_fields__:
            if name != "end_joint":
                needs.require(getattr(self, name) >= 0, name, "must not be negative")
        needs.require(self.min_piece_mm > self.gap_tolerance_mm, "min_piece_mm", "must be more than the gap")
        known = self.end_joint in ("butt", "tg", "floating")
        needs.require(known, "end_joint", 'must be "butt", "tg" or "floating"')
        needs.settle()


@dataclass(frozen=True, slots=True, kw_only=True)
class PedestalRule:
    """Where pedestals stand along a joist: at every seam between rows, or by spacing alone."""

    max_spacing_mm: int = 600
    merge_mm: int = 75
    box: int = 12
    per_seam: bool = True

    def __post_init__(self) -> None:
        needs = Requirements()
        needs.require(self.max_spacing_mm > 0, "max_spacing_mm", "must be more than 0 mm")
        needs.require(self.merge_mm >= 0, "merge_mm", "must not be negative")
        needs.require(self.box >= 1, "box", "must be at least 1")
        needs.settle()


@dataclass(frozen=True, slots=True)
class KeepOutArea:
    """Something the deck goes round: a hatch, a chimney, a tank, a strut."""

    name: str
    kind: str
    outline: Polygon


@dataclass(frozen=True, slots=True, kw_only=True)
class LayoutProblem:
    """One zone of deck to board: its finished edge, the joists under it, the board and the rules.

    The perimeter gap is already taken off the outline. Row 0 starts at the row origin; joist lines are the
    joists' centre lines in ascending order.
    """

    reference: str
    outline: Polygon
    keep_outs: tuple[KeepOutArea, ...]
    joist_lines: tuple[int, ...]
    row_origin_mm: int
    product: BoardProduct
    rules: LayingRules = field(default_factory=LayingRules)
    pedestals: PedestalRule = field(default_factory=PedestalRule)

    def __post_init__(self) -> None:
        needs = Requirements()
        if needs.require(
            is_simple(self.outline), "outline", "must be one plain shape whose sides do not cross"
        ):
            left, low, right, high = bounds(self.outline)
            needs.require(
                max(right - left, high - low) <= LARGEST_SPREAD_MM,
                "outline",
                f"must not spread over more than {LARGEST_SPREAD_MM // 1000} m",
            )
            needs.require(
                low - LARGEST_SPREAD_MM <= self.row_origin_mm <= low,
                "row_origin_mm",
                "must lie at the lowest edge of the outline or below it, or deck would be left without rows",
            )
        for number, keep_out in enumerate(self.keep_outs):
            needs.require(
                is_simple(keep_out.outline),
                f"keep_outs[{number}].outline",
                "must be one plain shape whose sides do not cross",
            )
        needs.require(bool(self.joist_lines), "joist_lines", "must name at least one joist")
        for number, (line, following) in enumerate(zip(self.joist_lines, self.joist_lines[1:], strict=False)):
            needs.require(
                line < following, f"joist_lines[{number + 1}]", "must lie beyond the joist before it"
            )
        needs.require(
            self.rules.end_joint != "floating" or self.product.ends == "tg",
            "product.ends",
            "must be tongued and grooved, or end joints cannot float between joists",
        )
        needs.settle()


@dataclass(frozen=True, slots=True, kw_only=True)
class BoardSource:
    """Boards of one length to cut from: on sale, or so many already in the firm's store.

    A board at hand costs what the firm says it is worth, usually nothing, so that it is used first. An offcut
    from an earlier job is one too, at the length it still covers; `cut` says that it has no factory ends left
    to meet on.
    """

    code: str
    cover_length_mm: int
    price_pence: int
    at_hand: int | None = None  # None: as many as are wanted can be bought
    cut: bool = False

    def __post_init__(self) -> None:
        needs = Requirements()
        needs.require(
            self.cover_length_mm >= LEAST_COVER_MM,
            "cover_length_mm",
            f"must be at least {LEAST_COVER_MM} mm",
        )
        needs.require(self.price_pence >= 0, "price_pence", "must not be negative")
        needs.require(self.at_hand is None or self.at_hand >= 1, "at_hand", "must be at least 1")
        needs.settle()


@dataclass(frozen=True, slots=True)
class DeckTask:
    """All zones that are boarded together, from the same boards, so that they share offcuts.

    Every zone has the same product, which is the longest board on sale; sources may differ in length alone.
    """

    zones: tuple[LayoutProblem, ...]
    sources: tuple[BoardSource, ...]

    def __post_init__(self) -> None:
        needs = Requirements()
        needs.require(bool(self.zones), "zones", "must be at least one")
        first = self.zones[0].product if self.zones else None
        for number, zone in enumerate(self.zones):
            needs.require(
                zone.product == first,
                f"zones[{number}].product",
                "must be the board of the other zones, or offcuts cannot be shared",
            )
        on_sale = [source for source in self.sources if source.at_hand is None]
        needs.require(bool(on_sale), "sources", "must hold a board on sale")
        needs.settle()

    @classmethod
    def of(cls, problem: LayoutProblem) -> DeckTask:
        """One zone boarded by itself from its own product."""
        return cls((problem,), (source_of(problem.product),))


def source_of(product: BoardProduct) -> BoardSource:
    """Return a product as boards on sale, one board's share of its pack.

    Args:
        product: The board. Record. [mm]

    Returns:
        The source. Record. [mm]

    Source:
        Arithmetic.
    """
    return BoardSource(
        code=product.code,
        cover_length_mm=product.cover_length_mm,
        price_pence=product.price_pence // product.pack_size,
    )
