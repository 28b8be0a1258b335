"""Boards over bays: two bays at least, LABC Warranty, floor decks; the strip is information only."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

from estimating.checks.deck.boards_over_bays import boards_over_bays_verdicts
from estimating.checks.verdicts import Verdict
from estimating.estimate import Estimate, estimate
from estimating.price_book import Board
from estimating.survey import Severity
from tests.estimating import lofts


@cache
def _worked() -> Estimate:
    return estimate(lofts.trussed_loft(), lofts.price_book(), lofts.choices())


def _told(**changes: int) -> list[Verdict]:
    worked = _worked()
    code = worked.design.zones[0].board_code
    board = next(each for each in worked.price_book.of_kind(Board) if each.code == code)
    return list(boards_over_bays_verdicts(worked.design.zones, replace(board, **changes)))


def test_a_board_as_long_as_two_bays_is_within_the_rule() -> None:
    assert [each.severity for each in _told(cover_length_mm=1200)] == [Severity.NOTE]


def test_a_board_shorter_than_two_bays_is_outside_the_rule() -> None:
    short, strip = _told(cover_length_mm=1199)
    assert short.severity is Severity.CAUTION
    assert "shorter than two bays of 600 mm" in short.words
    assert strip.severity is Severity.NOTE


def test_the_strip_is_information_and_nothing_more() -> None:
    (strip,) = _told(cover_length_mm=2400)
    assert "for information" in strip.words
    assert "information only" in strip.source


def test_a_thinner_board_uses_more_of_its_strength() -> None:
    (thick,) = _told(thickness_mm=22)
    (thin,) = _told(thickness_mm=18)
    assert thin.figure.value > thick.figure.value
