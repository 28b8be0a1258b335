"""Ceiling joists: one field of them, alike in direction, size and centres."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from itertools import pairwise

from estimating.plane import Polygon, bounds, is_simple
from estimating.published.timber_classes import STRENGTH_CLASSES
from estimating.refusals import Requirements


class Axis(StrEnum):
    """The plan axis that joists run along."""

    X = "x"
    Y = "y"


class CutKind(StrEnum):
    """How a joist was weakened."""

    NOTCH = "notch"
    HOLE = "hole"
    CUT_THROUGH = "cut through"


@dataclass(frozen=True, slots=True, kw_only=True)
class JoistCut:
    """A notch, a hole or a cut found in a joist; `joist` counts from 1 in the order of the field.

    `depth_mm` is how deep the notch is, or the hole's diameter; `from_support_mm` its distance along the
    joist from the nearer support.
    """

    joist: int
    kind: CutKind
    depth_mm: int
    from_support_mm: int

    def __post_init__(self) -> None:
        needs = Requirements()
        needs.require(self.joist >= 1, "joist", "must be at least 1")
        needs.require(self.depth_mm > 0, "depth_mm", "must be more than 0 mm")
        needs.require(self.from_support_mm >= 0, "from_support_mm", "must not be less than 0 mm")
        needs.settle()


@dataclass(frozen=True, slots=True, kw_only=True)
class JoistField:
    """An area of ceiling whose joists share direction, size and centres.

    `centre_lines_mm` are positions on the axis the joists cross: their y when they run along x, their x
    when they run along y. `top_offsets_mm` say how much higher each joist's top is than that of the first,
    lower ones negative; nothing where all are alike. `span_mm` is the clear span from support to support;
    where a joist runs over several supports, `spans_mm` gives each clear span in order and `binders` how
    many of the supports between them are binders. `bearing_mm` is how long a joist rests on its support.
    """

    name: str
    outline: Polygon
    runs_along: Axis
    centre_lines_mm: tuple[int, ...]
    depth_mm: int
    width_mm: int
    span_mm: int | None = None
    grade: str | None = None
    top_offsets_mm: tuple[int, ...] = ()
    spans_mm: tuple[int, ...] = ()
    binders: int = 0
    bearing_mm: int | None = None
    cuts: tuple[JoistCut, ...] = ()

    def __post_init__(self) -> None:
        needs = Requirements()
        needs.require(bool(self.name.strip()), "name", "is missing")
        needs.require(is_simple(self.outline), "outline", "must be a closed shape whose sides do not cross")
        needs.require(len(self.centre_lines_mm) >= 2, "centre_lines_mm", "must name at least two joists")
        ascending = all(a < b for a, b in pairwise(self.centre_lines_mm))
        needs.require(ascending, "centre_lines_mm", "must rise from one joist to the next")
        needs.require(self.depth_mm > 0, "depth_mm", "must be more than 0 mm")
        needs.require(self.width_mm > 0, "width_mm", "must be more than 0 mm")
        needs.require(self.span_mm is None or self.span_mm > 0, "span_mm", "must be more than 0 mm")
        self._require_tops(needs)
        self._require_supports(needs)
        known = self.grade is None or self.grade in STRENGTH_CLASSES
        needs.require(known, "grade", f"must be one of: {', '.join(STRENGTH_CLASSES)}")
        for number, cut in enumerate(self.cuts):
            here = cut.joist <= len(self.centre_lines_mm)
            needs.require(here, f"cuts[{number}].joist", f"must be at most {len(self.centre_lines_mm)}")
        needs.settle()

    def _require_tops(self, needs: Requirements) -> None:
        if not self.top_offsets_mm:
            return
        count = len(self.centre_lines_mm)
        each = len(self.top_offsets_mm) == count
        needs.require(each, "top_offsets_mm", f"must give one reading for each of the {count} joists")
        needs.require(self.top_offsets_mm[0] == 0, "top_offsets_mm", "must begin at 0, which is joist 1")
        likely = all(abs(top) < self.depth_mm for top in self.top_offsets_mm)
        needs.require(likely, "top_offsets_mm", "must differ by less than the joists are deep")

    def _require_supports(self, needs: Requirements) -> None:
        needs.require(all(span > 0 for span in self.spans_mm), "spans_mm", "must be more than 0 mm each")
        between = max(0, len(self.spans_mm) - 1)
        needs.require(
            0 <= self.binders <= between, "binders", f"must be from 0 to {between}, the supports in between"
        )
        needs.require(self.bearing_mm is None or self.bearing_mm > 0, "bearing_mm", "must be more than 0 mm")

    @property
    def clear_spans_mm(self) -> tuple[int, ...]:
        """The clear spans of a joist in order, as measured; nothing where none was."""
        return self.spans_mm or ((self.span_mm,) if self.span_mm else ())

    @property
    def length_mm(self) -> int:
        """How far the field reaches along its joists."""
        x0, y0, x1, y1 = bounds(self.outline)
        return x1 - x0 if self.runs_along is Axis.X else y1 - y0

    @property
    def centres_mm(self) -> tuple[int, ...]:
        """The distances from each joist to the next."""
        return tuple(b - a for a, b in pairwise(self.centre_lines_mm))


def evenly_spaced(*, first_mm: int, centres_mm: int, count: int) -> tuple[int, ...]:
    """Set out joist centre lines at even centres.

    Args:
        first_mm: Position of the first centre line. Scalar. [mm]
        centres_mm: Distance from one joist to the next. Scalar. [mm]
        count: How many joists. Scalar. [count]

    Returns:
        The centre lines, rising. One per joist. [mm]

    Raises:
        Refusal: Centres or count are not positive.

    Source:
        Arithmetic.
    """
    needs = Requirements()
    needs.require(centres_mm > 0, "centres_mm", "must be more than 0 mm")
    needs.require(count > 0, "count", "must be at least 1")
    needs.settle()
    return tuple(first_mm + centres_mm * number for number in range(count))
