"""Keeping words on a drawing clear of one another: a label is placed where there is room, or not at all."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field

from estimating.drawing.svg import TEXT_PX, Canvas, Spot, text_width_px

RISE = 0.36
"""From the middle of a line of figures down to its base line, in parts of the text size."""


@dataclass(frozen=True, slots=True)
class Box:
    """An upright rectangle on the sheet. [px]"""

    left: float
    top: float
    right: float
    bottom: float

    def meets(self, other: Box) -> bool:
        """Say whether the two share any room."""
        return (
            self.left < other.right
            and other.left < self.right
            and self.top < other.bottom
            and other.top < self.bottom
        )

    def holds(self, other: Box) -> bool:
        """Say whether the other lies wholly within this one."""
        return (
            self.left <= other.left
            and other.right <= self.right
            and self.top <= other.top
            and other.bottom <= self.bottom
        )

    @property
    def middle(self) -> Spot:
        return (self.left + self.right) / 2, (self.top + self.bottom) / 2


@dataclass(slots=True)
class Room:
    """What is already taken on a drawing; faint lines may be written over when there is no better place."""

    taken: list[Box] = field(default_factory=list)
    faint: list[Box] = field(default_factory=list)

    def is_free(self, box: Box, *, faint_too: bool = False) -> bool:
        """Say whether nothing stands there yet."""
        if any(box.meets(other) for other in self.taken):
            return False
        return not faint_too or not any(box.meets(other) for other in self.faint)

    def take(self, box: Box) -> None:
        """Keep others away from there."""
        self.taken.append(box)

    def first_free(
        self, middles: Iterable[Spot], words: str, *, within: Box | None = None, faint_too: bool = False
    ) -> Box | None:
        """Return the box of the first place where the words have room, if there is one."""
        for middle in middles:
            box = label_box(middle, words)
            if (within is None or within.holds(box)) and self.is_free(box, faint_too=faint_too):
                return box
        return None


def box_around(spots: Sequence[Spot]) -> Box:
    """Return the least upright rectangle around spots of the sheet.

    Args:
        spots: The spots. Sequence of spots. [px]

    Returns:
        The rectangle. Record. [px]

    Source:
        Geometry.
    """
    xs, ys = [x for x, _ in spots], [y for _, y in spots]
    return Box(min(xs), min(ys), max(xs), max(ys))


def label_box(middle: Spot, words: str) -> Box:
    """Return the room that a line of words takes.

    Args:
        middle: The middle of the words. Spot. [px]
        words: What will be written. Text. [-]

    Returns:
        The room, with a pixel of air on every side. Record. [px]

    Source:
        Own definition.
    """
    across, down = text_width_px(words) / 2 + 1.5, TEXT_PX / 2
    return Box(middle[0] - across, middle[1] - down, middle[0] + across, middle[1] + down)


def write_in(canvas: Canvas, kind: str, box: Box, words: str, *, ground: bool = False) -> None:
    """Write words in their box, on a patch of the sheet's own colour when lines run behind them.

    Args:
        canvas: The drawing. Record. [-]
        kind: The kind of text. Text. [-]
        box: The room for the words. Record. [px]
        words: What to write. Text. [-]
        ground: Whether to lay the patch. Scalar. [-]

    Returns:
        Nothing. None. [-]

    Source:
        Own definition.
    """
    if ground:
        canvas.box("ground", (box.left, box.top), (box.right - box.left, box.bottom - box.top))
    x, y = box.middle
    canvas.words(kind, (x, y + TEXT_PX * RISE), words)


def spread(wished: Sequence[float], apart: float, low: float, high: float) -> list[float]:
    """Move labels as little as needed so that none is nearer than `apart` to the next.

    Args:
        wished: Where the labels would stand, rising. Sequence. [px]
        apart: The least distance between two. Scalar. [px]
        low: The least place allowed. Scalar. [px]
        high: The greatest place allowed. Scalar. [px]

    Returns:
        Where they stand, rising; beyond `high` only if they cannot all fit. List. [px]

    Source:
        Arithmetic: crowded neighbours share the shift that sets them apart.
    """
    groups: list[tuple[float, int]] = []  # the middle of each crowd, and how many stand in it
    for place in wished:
        middle, count = place, 1
        while groups and middle - groups[-1][0] < apart * (count + groups[-1][1]) / 2:
            earlier, others = groups.pop()
            middle = (middle * count + earlier * others) / (count + others)
            count += others
        groups.append((middle, count))
    places = [middle + apart * (rank - (count - 1) / 2) for middle, count in groups for rank in range(count)]
    for rank in range(len(places) - 1, -1, -1):
        places[rank] = min(places[rank], high - apart * (len(places) - 1 - rank))
    for rank in range(len(places)):
        places[rank] = max(places[rank], low + apart * rank)
    return places
