"""Trussed rafters: 0.25 kN/m² and 0.45 kN are those of BS 5268-3, from memory and second hand."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import pytest

from estimating.checks.structure.trusses import truss_check, truss_verdicts
from estimating.checks.verdicts import Verdict
from estimating.estimate import Estimate, estimate
from estimating.price_book import Board
from estimating.survey import KeepOut, KeepOutKind, RoofKind, Severity, Survey
from tests.estimating import lofts


@cache
def _worked() -> Estimate:
    return estimate(lofts.trussed_loft(), lofts.price_book(), lofts.choices())


def _board() -> Board:
    worked = _worked()
    code = worked.design.zones[0].board_code
    return next(each for each in worked.price_book.of_kind(Board) if each.code == code)


def _told(survey: Survey, board: Board | None = None) -> list[Verdict]:
    worked = _worked()
    check = truss_check(survey, worked.price_book, worked.design, board or _board())
    return list(truss_verdicts(survey, check))


def _with_tank(**measured: int) -> Survey:
    place = lofts.rectangle(7200, 2350, 7850, 2850)
    tank = KeepOut(name="header tank", kind=KeepOutKind.TANK, outline=place, **measured)
    return replace(_worked().survey, keep_outs=(tank,))


def _of_the_tank(survey: Survey) -> Verdict:
    return next(each for each in _told(survey) if "tank" in each.words)


def test_storage_left_is_the_allowance_less_deck_and_added_insulation_down_to_5_kg() -> None:
    check = _worked().checks.trusses
    left_kg = (0.25 - float(check.used_by_the_work_kn_m2.value)) * 1000 / 9.81
    assert check.storage_kg_m2.value == int(left_kg // 5) * 5
    assert check.storage_kg_m2.value % 5 == 0


def test_insulation_that_was_there_is_not_counted_against_the_allowance() -> None:
    names = [given.name for given in _worked().checks.trusses.used_by_the_work_kn_m2.working.inputs]
    assert names == ["insulation added", "boards", "pedestals"]


@pytest.mark.parametrize("more_kg", [0, 5, 15, 200])
def test_a_heavier_deck_never_leaves_more_and_never_less_than_nothing(more_kg: int) -> None:
    worked, board = _worked(), _board()
    heavier = replace(board, weight_kg=board.weight_kg + more_kg)
    left = truss_check(worked.survey, worked.price_book, worked.design, heavier).storage_kg_m2.value
    assert 0 <= left <= worked.checks.trusses.storage_kg_m2.value


def test_a_deck_that_uses_the_allowance_up_says_so_and_asks_the_designer() -> None:
    board = _board()
    told = _told(_worked().survey, replace(board, weight_kg=board.weight_kg + 200))
    assert "which use it up: ask the truss designer before any deck is laid" in told[0].words
    assert told[0].severity is Severity.CAUTION


def test_a_tank_nobody_measured_is_to_be_measured() -> None:
    for survey in (_with_tank(), _with_tank(litres=230), _with_tank(carried_by_trusses=3)):
        told = _of_the_tank(survey)
        assert told.severity is Severity.CAUTION
        assert "measure its litres and how many trusses carry it" in told.words


@pytest.mark.parametrize(
    ("litres", "trusses", "severity"),
    [
        (230, 3, Severity.NOTE),
        (230, 2, Severity.CAUTION),
        (100, 2, Severity.NOTE),
        (100, 1, Severity.CAUTION),
    ],
)
def test_a_tank_against_what_a_node_of_a_tie_is_designed_for(litres, trusses, severity) -> None:
    """230 litres on 3 trusses: 0.38 kN; on 2: 0.56 kN. 100 litres on 2: 0.25 kN; on 1: 0.49 kN."""
    assert _of_the_tank(_with_tank(litres=litres, carried_by_trusses=trusses)).severity is severity


def test_a_cut_roof_has_no_truss_check() -> None:
    worked = _worked()
    roof = replace(worked.survey.roof, kind=RoofKind.CUT)
    survey = replace(worked.survey, roof=roof)
    assert truss_check(survey, worked.price_book, worked.design, _board()) is None
    assert _told(survey) == []
