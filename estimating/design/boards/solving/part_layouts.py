"""Layouts that are not finished: what a row-by-row search keeps side by side."""

from __future__ import annotations

from typing import NamedTuple

from estimating.design.boards.solving.allot import Choice


class Width(NamedTuple):
    """How widely to search: part-layouts kept at each line, and ways to take each piece that are tried.

    Zeal is how much dearer than usual work is held, which makes a tidy layout within a cost that is known.
    """

    kept: int
    ways: int
    zeal: int = 1


class PartLayout(NamedTuple):
    """A layout up to some line of some row; the order of the fields is the order of preference."""

    rank: int
    turn: int
    spent: int
    cost: int
    priced: int  # what its joints add
    stock: int
    barred: int
    joints: int
    last: Chosen | None


class Chosen(NamedTuple):
    """The latest choice of a part-layout and what went before it."""

    before: Chosen | None
    choice: Choice


class Found(NamedTuple):
    """A finished search: what its boards cost, the work it makes, and every choice in order."""

    cost: int
    spent: int
    choices: tuple[Choice, ...]


def choices_of(part: PartLayout) -> tuple[Choice, ...]:
    """List every choice of a part-layout in the order it was made.

    Args:
        part: The part-layout. Record. [-]

    Returns:
        The choices. Tuple of records. [mm]

    Source:
        Own definition.
    """
    choices: list[Choice] = []
    last = part.last
    while last is not None:
        choices.append(last.choice)
        last = last.before
    return tuple(reversed(choices))
