"""What a page says of its boards: how many, how good that is, and whether something better may still come."""

from __future__ import annotations

from dataclasses import dataclass

from estimating.quantities.board_count import BoardCount
from jobs.layouts.landing import Waiting
from jobs.layouts.store import Awaited

NOTHING = Awaited()


@dataclass(frozen=True, slots=True)
class BoardsShown:
    """The boards of one estimate in words; `count` is None where some zone has no layout."""

    count: BoardCount | None
    waiting: Waiting | None = None

    @property
    def words(self) -> str:
        """Say how good the count of boards is: "32 boards, proved the fewest"."""
        if self.count is None:
            return "No layout yet; a longer search is under way" if self.waiting else ""
        number = self.count.boards.value
        awaited = self.waiting.awaited if self.waiting else NOTHING
        return f"{number} board{'' if number == 1 else 's'}, {_how_good(self.count, awaited)}"

    @property
    def bound_name(self) -> str:
        return (
            "No layout takes fewer than"
            if self.count and self.count.in_boards
            else "No layout costs less than"
        )

    @property
    def rule_of_thumb(self) -> str:
        """Say how far area plus ten per cent would have been out: "31, 1 short"."""
        if self.count is None:
            return ""
        would_order = self.count.rule_of_thumb.value
        over = would_order - self.count.boards.value
        if over == 0:
            return f"{would_order}, the same"
        return f"{would_order}, {abs(over)} {'over' if over > 0 else 'short'}"


def _how_good(count: BoardCount, awaited: Awaited) -> str:
    if count.gap is None:
        if awaited.shown or awaited.others:
            return "best so far; the proof is being worked out"
        return "the best found; not proved"
    if count.proved:
        words = "proved the fewest" if count.in_boards else "proved the cheapest"
    elif count.in_boards:
        words = f"at most {count.gap.value} more than the fewest"
    else:
        words = f"at most £{count.gap.value:,.2f} dearer than the cheapest"
    if awaited.others:
        return f"{words}; other ways to buy the deck are still being compared"
    if awaited.searches and not count.proved:
        return f"{words}; a longer search is under way"
    return words
