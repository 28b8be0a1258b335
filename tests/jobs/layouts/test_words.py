"""How a count of boards is told: what was proved, what gap is left, and what may still come."""

from __future__ import annotations

from decimal import Decimal

import pytest

from estimating.quantities.board_count import BoardCount
from estimating.working import Figure, Working
from jobs.layouts.landing import Waiting
from jobs.layouts.store import Awaited
from jobs.layouts.words import BoardsShown

PROOF, OTHERS, SEARCH = Awaited(shown=("a",)), Awaited(others=("b",)), Awaited(searches=("a",))
NOTHING = Awaited()


def figure(value: int | Decimal, unit: str = "") -> Figure:
    return Figure("", value, unit, Working("", (), ""))


def counted(
    boards: int = 32, gap: int | Decimal | None = None, unit: str = "", thumb: int = 31
) -> BoardCount:
    return BoardCount(
        boards=figure(boards),
        least=None if gap is None else figure(boards - gap, unit),
        gap=None if gap is None else figure(gap, unit),
        waste_percent=figure(Decimal("4.0")),
        offcuts_kept=figure(0),
        rule_of_thumb=figure(thumb),
    )


@pytest.mark.parametrize(
    ("count", "awaited", "words"),
    [
        (counted(gap=0), NOTHING, "32 boards, proved the fewest"),
        (
            counted(gap=0),
            OTHERS,
            "32 boards, proved the fewest; other ways to buy the deck are still being compared",
        ),
        (counted(gap=0), SEARCH, "32 boards, proved the fewest"),
        (counted(boards=1, gap=0), NOTHING, "1 board, proved the fewest"),
        (counted(gap=1), NOTHING, "32 boards, at most 1 more than the fewest"),
        (counted(gap=1), SEARCH, "32 boards, at most 1 more than the fewest; a longer search is under way"),
        (counted(), PROOF, "32 boards, best so far; the proof is being worked out"),
        (counted(), OTHERS, "32 boards, best so far; the proof is being worked out"),
        (counted(), NOTHING, "32 boards, the best found; not proved"),
        (counted(gap=Decimal("0.00"), unit="GBP"), NOTHING, "32 boards, proved the cheapest"),
        (
            counted(gap=Decimal("4.5"), unit="GBP"),
            NOTHING,
            "32 boards, at most £4.50 dearer than the cheapest",
        ),
        (None, PROOF, "No layout yet; a longer search is under way"),
        (None, NOTHING, ""),
    ],
)
def test_how_good_the_count_is(count, awaited, words):
    assert BoardsShown(count, Waiting(awaited, 0) if awaited else None).words == words


@pytest.mark.parametrize(("thumb", "words"), [(31, "31, 1 short"), (32, "32, the same"), (35, "35, 3 over")])
def test_how_far_the_rule_of_thumb_would_have_been_out(thumb, words):
    assert BoardsShown(counted(thumb=thumb)).rule_of_thumb == words
