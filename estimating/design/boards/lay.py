"""Lay the boards of one zone: a valid layout, or why there is none."""

from __future__ import annotations

from collections.abc import Sequence
from enum import Enum

from estimating.design.boards.layout import LaidDeck, Layout, NoLayout
from estimating.design.boards.problem import DeckTask, LayoutProblem
from estimating.design.boards.refused import no_legal_stagger, stretch_that_cannot_be_laid
from estimating.design.boards.rows import DeckRows
from estimating.design.boards.solving.allot import allotted
from estimating.design.boards.solving.search import Found, RowSearch
from estimating.design.boards.solving.stagger import fewest_line_ups
from estimating.design.boards.steps import steps_of_every_run


class Effort(Enum):
    """How long a layout is looked for, counted in steps of work, never in seconds."""

    FIRST = "a good layout, while someone types"
    PROOF = "the best layout and how good it is, within seconds"
    LONG = "the same, with the patience of the worker"


def lay_deck(task: DeckTask, effort: Effort = Effort.PROOF) -> LaidDeck:
    """Lay all zones of a deck together, sharing offcuts between them.

    Args:
        task: The zones and the boards to cut from. Record. [mm]
        effort: How long to look. Choice. [-]

    Returns:
        An answer for each zone, and the bound of the whole. Record. [mm]

    Source:
        As lay_boards.
    """
    zones = tuple(lay_boards(zone, effort) for zone in task.zones)
    return LaidDeck(zones, sum(zone.boards for zone in zones if isinstance(zone, Layout)), None)


def lay_boards(problem: LayoutProblem, effort: Effort = Effort.PROOF) -> Layout | NoLayout:
    """Lay boards on a deck, using offcuts and staggering the joints, or explain why it cannot be done.

    The rows are laid from the bottom and from the top, and the better of the two is kept: fewest boards,
    then fewest pieces and bearers. Only where neither gets through is the stagger looked at on its own, and
    only its answer decides whether there is no layout. The same problem always gives the same layout.

    Args:
        problem: The deck, joists, board and rules. Record. [mm]
        effort: How long to look. Choice. [-]

    Returns:
        A layout that keeps every rule, or the reason there is none. Record. [mm]

    Source:
        Rules: NHBC Standards 6.4.19; LABC Warranty, floor decks. The search is our own.
    """
    runs = steps_of_every_run(problem, DeckRows(problem))
    for steps in runs:
        if not steps.can_be_laid:
            return stretch_that_cannot_be_laid(problem, steps)
    search = RowSearch(problem, runs)
    found = _better(search.lay(), search.lay(downward=True))
    if found is None:
        joints = fewest_line_ups(problem, runs)
        if joints.line_ups:
            return no_legal_stagger(problem, runs, joints)
        found = _laid_on(search, joints.joints)
    return allotted(problem, search.sawing, found.choices)


def _better(one: Found | None, other: Found | None) -> Found | None:
    found = [each for each in (one, other) if each is not None]
    return min(found, key=lambda each: (each.boards, each.cost), default=None)


def _laid_on(search: RowSearch, joints: Sequence[int]) -> Found:
    """Lay on joists already known to stagger; each row has a way across them, so the search gets through."""
    found = _better(search.lay(only=joints), search.lay(downward=True, only=joints))
    if found is None:
        raise AssertionError("joints that stagger leave every row a way across")
    return found
