"""Lay the boards of a deck: a valid layout and how good it is, or why there is none."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from enum import Enum

from estimating.design.boards.layout import Bound, LaidDeck, Layout, NoLayout
from estimating.design.boards.problem import DeckTask, LayoutProblem
from estimating.design.boards.refused import no_legal_stagger, stretch_that_cannot_be_laid
from estimating.design.boards.solving.allot import allotted
from estimating.design.boards.solving.bounds import added_up, best_added_up
from estimating.design.boards.solving.deck_runs import DeckRuns
from estimating.design.boards.solving.improved import Laid, Patience, improved
from estimating.design.boards.solving.part_layouts import Found, Width
from estimating.design.boards.solving.search import RowSearch
from estimating.design.boards.solving.solver import solver_at_hand
from estimating.design.boards.solving.stagger import fewest_line_ups

FIRST_WIDTH, WIDE = Width(3, 1), Width(6, 1)


class Effort(Enum):
    """How long a layout is looked for, counted in steps of work, never in seconds."""

    FIRST = "a good layout, while someone types"
    COUNT = "the fewest boards and how good that is, before cuts are saved"
    PROOF = "the best layout and how good it is, within seconds"
    LONG = "the same, with the patience of the worker"


_WITHIN_SECONDS = Patience(
    widths=(Width(16, 3),),
    looks=45,
    questions=3,
    saves_cuts=True,
    tidy_looks=10,
    most_steps=3_000,
    most_tidy_steps=800,
)
PATIENCE = {
    Effort.COUNT: _WITHIN_SECONDS._replace(saves_cuts=False),
    Effort.PROOF: _WITHIN_SECONDS,
    Effort.LONG: Patience(
        widths=(Width(40, 3), Width(200, 4)),
        looks=2_000,
        questions=12,
        saves_cuts=True,
        tidy_looks=400,
        most_steps=20_000,
        most_tidy_steps=3_000,
    ),
}


def lay_boards(problem: LayoutProblem, effort: Effort = Effort.PROOF) -> Layout | NoLayout:
    """Lay boards on one zone by itself, or explain why it cannot be done.

    Args:
        problem: The deck, joists, board and rules. Record. [mm]
        effort: How long to look. Choice. [-]

    Returns:
        A layout that keeps every rule, with its bound, or the reason there is none. Record. [mm]

    Source:
        As lay_deck.
    """
    laid = lay_deck(DeckTask.of(problem), effort)
    answer = laid.zones[0]
    return replace(answer, bound=laid.bound) if isinstance(answer, Layout) else answer


def lay_deck(task: DeckTask, effort: Effort = Effort.PROOF) -> LaidDeck:
    """Lay all zones of a deck together, sharing offcuts and staggering the joints, as cheaply as can be.

    A first layout comes from laying row by row. Then, if asked, prices prove a bound and guide a search for a
    layout that reaches it, and exact programmes look where a gap remains. Only where no layout is found is
    the stagger looked at on its own, and only its answer decides that there is none. The same task always
    gives the same answer.

    Args:
        task: The zones and the boards to cut from. Record. [mm]
        effort: How long to look. Choice. [-]

    Returns:
        An answer for each zone, and the cost and bound of those that were laid. Record. [mm]

    Source:
        Rules: NHBC Standards 6.4.19; LABC Warranty, floor decks. The search is our own.
    """
    deck, refused = _without_stretches_that_cannot_be_laid(DeckRuns.of(task))
    first = _first(deck, effort) if deck else None
    if deck and first is None:
        deck, first, more = _despite_stagger(deck)
        refused |= more
    if deck is None or first is None:
        return LaidDeck(tuple(refused[number] for number in range(len(task.zones))), 0, None)
    bound: Bound | None = None
    if effort in PATIENCE and deck.rows:
        first, bound = _proved(deck, first, PATIENCE[effort])
    layouts = iter(allotted(deck, first.sawing, first.choices))
    zones = tuple(
        refused[number] if number in refused else next(layouts) for number in range(len(task.zones))
    )
    return LaidDeck(zones, first.cost, bound)


def _proved(deck: DeckRuns, first: Laid, patience: Patience) -> tuple[Laid, Bound]:
    """The best layout that programmes find, where there is a solver, and the bound that may be claimed."""
    if not solver_at_hand():
        return first, best_added_up(deck.task)
    best = improved(deck, first, patience)
    if any(zone.rules.end_joint == "floating" for zone in deck.task.zones):
        return best.laid, best_added_up(deck.task, best.bound.certificate)
    return best.laid, added_up(deck.task, best.bound)


def _without_stretches_that_cannot_be_laid(deck: DeckRuns) -> tuple[DeckRuns | None, dict[int, NoLayout]]:
    refused: dict[int, NoLayout] = {}
    for number, (zone, runs) in enumerate(zip(deck.task.zones, deck.runs, strict=True)):
        bad = next((run for run in runs if not run.can_be_laid), None)
        if bad is not None:
            refused[number] = stretch_that_cannot_be_laid(zone, bad)
    return deck.without(refused), refused


def _first(deck: DeckRuns, effort: Effort) -> Laid | None:
    """Lay from the bottom and from the top; in haste, from the top only where the bottom leads nowhere."""
    if not deck.rows:
        return Laid(0, (), RowSearch(deck).sawing)
    # without prices a search does not know what a mixture is worth, so one length by itself is tried too
    first = [_laid_from(deck, effort, None)]
    if len(deck.task.sources) > 1:
        first += [_laid_from(deck, effort, longest) for longest in deck.longest_on_sale]
    return min((laid for laid in first if laid), key=lambda laid: laid.cost, default=None)


def _laid_from(deck: DeckRuns, effort: Effort, only: int | None) -> Laid | None:
    search = RowSearch(deck, only=only)
    in_haste = effort is Effort.FIRST or solver_at_hand()  # a search guided by prices follows
    found = search.lay(FIRST_WIDTH if in_haste else WIDE)
    if found is None or not in_haste or deck.few_steps:
        found = _better(found, search.lay(WIDE, downward=True))
    return Laid(found.cost, found.choices, search.sawing) if found else None


def _better(one: Found | None, other: Found | None) -> Found | None:
    found = [each for each in (one, other) if each is not None]
    return min(found, key=lambda each: (each.cost, each.spent), default=None)


def _despite_stagger(deck: DeckRuns) -> tuple[DeckRuns | None, Laid | None, dict[int, NoLayout]]:
    """Leave out the zones that cannot be staggered, and lay the others on joints that can."""
    refused: dict[int, NoLayout] = {}
    joints: list[tuple[int, ...]] = []
    for number, (zone, runs) in enumerate(zip(deck.task.zones, deck.runs, strict=True)):
        found = fewest_line_ups(zone, runs)
        if found.line_ups:
            refused[deck.numbers[number]] = no_legal_stagger(zone, runs, found)
        else:
            joints.append(found.joints)
    left = deck.without(refused)
    return left, _laid_on(left, joints) if left else None, refused


def _laid_on(deck: DeckRuns, joints: Sequence[Sequence[int]]) -> Laid:
    """Lay on joists already known to stagger; each row has a way across them, so the search gets through."""
    search = RowSearch(deck)
    found = _better(search.lay(WIDE, only=joints), search.lay(WIDE, downward=True, only=joints))
    if found is None:
        raise AssertionError("joints that stagger leave every row a way across")
    return Laid(found.cost, found.choices, search.sawing)
