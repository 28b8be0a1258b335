"""The best layout and how good it is: prices, a search guided by them, exact programmes for what is left."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import NamedTuple

from estimating.design.boards.layout import Bound
from estimating.design.boards.solving.allot import Choice
from estimating.design.boards.solving.certify import costs_of
from estimating.design.boards.solving.deck_runs import DeckRuns
from estimating.design.boards.solving.every_pattern import all_patterns
from estimating.design.boards.solving.exact import Answer, ChosenBoards, ExactProgramme, Looks
from estimating.design.boards.solving.part_layouts import Width
from estimating.design.boards.solving.patterns import Pattern, with_fewer_pieces
from estimating.design.boards.solving.places import ANY_WIDTH, Place, any_width, place_for
from estimating.design.boards.solving.programme import PriceProgramme
from estimating.design.boards.solving.realised import cuts_in, realised
from estimating.design.boards.solving.run_classes import GROOVE, NEITHER, TONGUE, least_pieces
from estimating.design.boards.solving.sawing import Sawing
from estimating.design.boards.solving.search import RowSearch
from estimating.design.boards.solving.stock import NewBoard
from estimating.design.boards.steps import Step

MOST_PATTERNS = 6_000
MOST_TIDY_PATTERNS = 500
MANY_PATTERNS = 400  # those met while pricing are then tried first
FEW_STEPS = 1_500  # so few that the exact programme takes less time than a wide search
QUICK = Width(6, 2)
TIDYING = ((Width(6, 2, 10), False), (Width(6, 2, 30), False), (Width(6, 2, 10), True))


class Patience(NamedTuple):
    """How much work an improvement may take: how wide to search, and how long programmes may run."""

    widths: tuple[Width, ...]
    looks: int
    questions: int
    saves_cuts: bool
    tidy_looks: int
    most_steps: int  # a programme of more is not asked
    most_tidy_steps: int


class Laid(NamedTuple):
    """A way to lay a deck: what its boards cost, the choices and the sawing they were made with."""

    cost: int
    choices: tuple[Choice, ...]
    sawing: Sawing


@dataclass(frozen=True, slots=True)
class Improved:
    """The best way found, and the bound."""

    laid: Laid
    bound: Bound


def improved(deck: DeckRuns, first: Laid, patience: Patience) -> Improved:
    """Look for the least cost, then for the fewest cuts at that cost, and prove what can be proved.

    Args:
        deck: The deck made ready. Record. [mm]
        first: A way to lay it. Record. [mm]
        patience: How hard to look. Record. [-]

    Returns:
        The best way found and the bound. Record. [mm]

    Source:
        Linear programming bounds by column generation, guided beam search, integer programming.
    """
    return _Improvement(deck, first, patience).made()


class _Improvement:
    def __init__(self, deck: DeckRuns, first: Laid, patience: Patience) -> None:
        self._deck, self._best, self._patience = deck, first, patience
        self._programme = PriceProgramme(deck)
        self._guide = self._programme.solve()
        self._search = RowSearch(deck, self._guide)
        self._least = self._guide.bound
        self._used: list[Pattern] = []
        self._gap = deck.first_problem.rules.gap_tolerance_mm
        self._steps = sum(1 for _ in deck.steps())
        self._butt = deck.first_problem.rules.end_joint == "butt"  # patterns do not know of factory ends
        # within a tolerance the steps stop only where a longest piece needs it, which leaves layouts out
        self._every_layout = not any(zone.rules.joint_tolerance_mm for zone in deck.task.zones)
        self._least_pieces = least_pieces(deck)

    def made(self) -> Improved:
        """Do it all."""
        self._search_within(QUICK)
        if self._steps <= FEW_STEPS:
            self._ask()
        for width in self._patience.widths:
            self._search_within(width)
        if FEW_STEPS < self._steps <= self._patience.most_steps:
            self._ask()
        if self._patience.saves_cuts:
            self._tidy()
        bound = Bound(self._least, self._guide.bound, self._guide.certificate())
        return Improved(self._best, bound)

    @property
    def _done(self) -> bool:
        return self._best.cost <= self._least

    def _search_within(self, width: Width) -> None:
        """Search for the bound itself, and failing that for anything better than the best so far."""
        for within in (self._least, self._best.cost - 1):
            for downward in (False, True):
                if not self._done and within < self._best.cost:
                    self._search_once(width, downward, within)

    def _search_once(self, width: Width, downward: bool, within: int) -> None:
        found = self._search.lay(width, downward=downward, within=within)
        if found:
            self._take(Laid(found.cost, found.choices, self._search.sawing))

    def _take(self, laid: Laid) -> None:
        if self._rank(laid) < self._rank(self._best):
            self._best = laid

    def _rank(self, laid: Laid) -> tuple[int, int, int, int]:
        cuts = cuts_in(laid.sawing, laid.choices, self._gap)
        bearers = sum(choice.step.bearers for choice in laid.choices)
        return laid.cost, cuts + bearers, len(laid.choices), cuts

    def _ask(self) -> None:
        """Ask for the bound, then for the least below the best so far, then for one more each time."""
        if not self._butt:
            return
        costs = [self._least, self._best.cost - 1]
        if max(costs_of(self._deck.task.sources)) == 1:  # pence are too many to ask one by one
            costs += range(self._least + 1, self._best.cost - 1)
        asked = 0
        for cost in dict.fromkeys(costs):
            if asked < self._patience.questions and self._least <= cost < self._best.cost:
                asked += 1
                if not self._ask_for(cost):
                    return  # a harder question would not be answered either

    def _ask_for(self, cost: int) -> bool:
        """Ask with strips of any width, which proves, and with their widths, which finds what fits.

        Where the least itself is asked for there is nothing left to prove, so finding comes first. Of many
        patterns, those met while pricing are then likely to do.
        """
        asked_for_least = cost == self._least
        for relaxed in self._ways_to_ask(proof_first=not asked_for_least):
            patterns, complete = self._patterns(cost, relaxed=relaxed)
            if asked_for_least and complete and len(patterns) > MANY_PATTERNS:
                self._answered(cost, self._programme.patterns, relaxed)
            if self._best.cost <= cost:
                return True
            answer = self._answered(cost, patterns, relaxed)
            if relaxed and complete and self._every_layout:
                self._least = max(self._least, answer.least)
            if self._best.cost <= cost:
                return True
            if not answer.chosen and answer.least <= cost:
                return False
            if not answer.chosen and relaxed:
                return True
        return True

    def _ways_to_ask(self, *, proof_first: bool) -> tuple[bool, ...]:
        """Whether to relax: only so, where all strips fit beside each other anyhow."""
        if self._relaxing_changes_nothing and sum(self._widest) <= self._room_mm:
            return (True,)
        return (True, False) if proof_first else (False, True)

    @property
    def _room_mm(self) -> int:
        """How wide two strips side by side may be together."""
        problem = self._deck.first_problem
        return problem.product.cover_width_mm - problem.rules.kerf_mm

    @cached_property
    def _places(self) -> dict[tuple[int, Step], Place]:
        """The place that each step needs."""
        return {
            (zone, step): place_for(self._search.sawing.cut_for(step)) for zone, step in self._least_pieces
        }

    @cached_property
    def _relaxing_changes_nothing(self) -> bool:
        return all(
            place.kind != NEITHER and any_width(self._least_pieces[key])[:2] == place[:2]
            for key, place in self._places.items()
        )

    @property
    def _widest(self) -> tuple[int, int]:
        """The widest strip at the groove and the widest at the tongue."""
        places = self._places.values()
        groove, tongue = (
            max((place.width for place in places if place.kind == kind), default=0)
            for kind in (GROOVE, TONGUE)
        )
        return groove, tongue

    def _answered(self, cost: int, patterns: Sequence[Pattern], relaxed: bool) -> Answer:
        """Ask once, and take what comes if boards can be cut so."""
        least = self._least_pieces if relaxed else None
        programme = ExactProgramme(self._deck, self._search.sawing, patterns, least)
        looks = Looks(self._patience.looks)
        answer = programme.within(cost, least=self._least, looks=looks)
        if answer.chosen:
            self._realised(answer.chosen)
        return answer

    def _patterns(self, cost: int, *, relaxed: bool) -> tuple[Sequence[Pattern], bool]:
        """All patterns that a layout within a cost could have; if too many, those met while pricing."""
        guide, sources = self._guide, self._deck.task.sources
        if any(source.at_hand is not None for source in sources):
            return self._programme.patterns, False
        slack = cost * guide.unit - guide.total
        limits = [each * guide.unit - slack for each in costs_of(sources)]
        boards = list(zip(self._programme.capacities, limits, strict=True))
        room = self._room_mm
        if relaxed:
            room = 2 * ANY_WIDTH
            pieces = {any_width(piece) for piece in self._least_pieces.values() if piece.kind != NEITHER}
        else:
            pieces = set(self._places.values())
        found = all_patterns(pieces, guide.prices, boards, room, MOST_PATTERNS)
        return (self._programme.patterns, False) if found is None else (found, True)

    def _realised(self, chosen: ChosenBoards) -> bool:
        """Take what the programme chose, if boards can be cut so."""
        choices = realised(self._deck, self._search.sawing, chosen)
        if choices is None:
            return False
        costs = costs_of(self._deck.task.sources)
        cost = sum(costs[each.source.source] for each in choices if isinstance(each.source, NewBoard))
        self._used = [pattern for pattern, _ in chosen.patterns]
        self._take(Laid(cost, choices, self._search.sawing))
        return True

    def _tidy(self) -> None:
        """Look for the fewest cuts at the cost reached."""
        for width, downward in TIDYING:
            self._search_once(width, downward, self._best.cost)
        if self._butt and self._steps <= self._patience.most_tidy_steps:
            patterns = with_fewer_pieces([*self._used, *self._programme.patterns], MOST_TIDY_PATTERNS)
            programme = ExactProgramme(self._deck, self._search.sawing, patterns)
            looks = Looks(self._patience.tidy_looks)
            answer = programme.within(self._best.cost, least=self._guide.bound, looks=looks, tidy=True)
            if answer.chosen:
                self._realised(answer.chosen)
