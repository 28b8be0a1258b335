"""The best layout and how good it is: prices, a search guided by them, exact programmes for what is left."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import NamedTuple

from estimating.design.boards.layout import Bound
from estimating.design.boards.solving.allot import Choice
from estimating.design.boards.solving.certify import costs_of
from estimating.design.boards.solving.deck_runs import DeckRuns
from estimating.design.boards.solving.exact import ChosenBoards, ExactProgramme
from estimating.design.boards.solving.patterns import Pattern, all_patterns, with_fewer_pieces
from estimating.design.boards.solving.programme import PriceProgramme
from estimating.design.boards.solving.realised import cuts_in, realised
from estimating.design.boards.solving.run_classes import KINDS
from estimating.design.boards.solving.sawing import NewBoard, Sawing
from estimating.design.boards.solving.search import RowSearch, Width

MOST_PATTERNS = 1_500
MOST_TIDY_PATTERNS = 500


class Patience(NamedTuple):
    """How much work an improvement may take, in widths of search and nodes of programmes."""

    widths: tuple[Width, ...]
    nodes: int
    most_steps: int  # a programme with more columns is not asked
    tidy_nodes: int


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
        steps = sum(1 for _ in deck.steps())
        butt = deck.first_problem.rules.end_joint == "butt"
        self._may_ask = butt and steps <= patience.most_steps

    def made(self) -> Improved:
        """Do it all."""
        for width in self._patience.widths:
            if self._best.cost > self._least:
                self._search_within(width)
        if self._best.cost > self._least and self._may_ask:
            self._ask()
        self._tidy()
        certificate = self._guide.certificate()
        return Improved(self._best, Bound(self._least, self._guide.bound, certificate))

    def _search_within(self, width: Width) -> None:
        """Search for the bound itself, and failing that for anything better than the best so far."""
        for within in dict.fromkeys((self._least, self._best.cost - 1)):
            for downward in (False, True):
                found = self._search.lay(width, downward=downward, within=within)
                if found:
                    self._take(Laid(found.cost, found.choices, self._search.sawing))
                    break
            if self._best.cost <= within:
                return

    def _take(self, laid: Laid) -> None:
        if self._rank(laid) < self._rank(self._best):
            self._best = laid

    def _rank(self, laid: Laid) -> tuple[int, int, int, int]:
        cuts = cuts_in(laid.sawing, laid.choices, self._gap)
        bearers = sum(choice.step.bearers for choice in laid.choices)
        return laid.cost, cuts + bearers, len(laid.choices), cuts

    def _ask(self) -> None:
        """Ask the programme for the bound, and failing that for the least below the best so far."""
        patterns, complete = self._patterns()
        programme = ExactProgramme(self._deck, self._search.sawing, patterns)
        for cost in dict.fromkeys((self._least, self._best.cost - 1)):
            answer = programme.within(cost, least=self._least, nodes=self._patience.nodes)
            cheapest = self._realise(answer.chosen) if answer.chosen else cost + 1
            if complete and answer.certain and cheapest is not None:
                self._least = max(self._least, cheapest)
            if self._best.cost <= self._least:
                return

    def _patterns(self) -> tuple[Sequence[Pattern], bool]:
        """All patterns that a cheaper layout could have; if too many, those met while pricing."""
        guide, sources = self._guide, self._deck.task.sources
        if any(source.at_hand is not None for source in sources):
            return self._programme.patterns, False
        slack = (self._best.cost - 1) * guide.unit - guide.total
        limits = [cost * guide.unit - slack for cost in costs_of(sources)]
        found = all_patterns(self._pieces(), guide.prices, self._programme.capacities, limits, MOST_PATTERNS)
        return (self._programme.patterns, False) if found is None else (found, True)

    def _pieces(self) -> list[list[int]]:
        """What pieces take, for each kind, rising."""
        cuts = {self._search.sawing.cut_for(step) for step in self._deck.steps()}
        return [sorted({cut.takes_mm for cut in cuts if KINDS[cut.kind] == kind}) for kind in KINDS.values()]

    def _realise(self, chosen: ChosenBoards) -> int | None:
        """Take what the programme chose if boards can be cut so, and say what it costs."""
        choices = realised(self._deck, self._search.sawing, chosen)
        if choices is None:
            return None
        costs = costs_of(self._deck.task.sources)
        cost = sum(costs[each.source.source] for each in choices if isinstance(each.source, NewBoard))
        self._used = [pattern for pattern, _ in chosen.patterns]
        self._take(Laid(cost, choices, self._search.sawing))
        return cost

    def _tidy(self) -> None:
        """Ask for the fewest cuts at the cost reached."""
        if not self._may_ask or not self._patience.tidy_nodes:
            return
        patterns = with_fewer_pieces([*self._used, *self._programme.patterns], MOST_TIDY_PATTERNS)
        programme = ExactProgramme(self._deck, self._search.sawing, patterns)
        answer = programme.within(
            self._best.cost, least=self._guide.bound, nodes=self._patience.tidy_nodes, tidy=True
        )
        if answer.chosen:
            self._realise(answer.chosen)
