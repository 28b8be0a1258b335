"""Every published case: laid by the rules and near the best known, or refused with the fewest line-ups."""

from __future__ import annotations

import pytest

from estimating.design.boards import Layout, NoLayout, lay_boards
from estimating.design.boards.bearers import edge_bearers
from estimating.design.boards.checking.checker import faults
from estimating.design.boards.cutting_list import cutting_list
from estimating.design.boards.pedestal_grid import pedestal_points
from estimating.layout_json import layout_as_json, problem_from_json
from tests.estimating.boards.problems import case, case_names
from tests.published.layout_validator import pedestal_grid, validate

FEASIBLE = [name for name in case_names() if case(name)["expect"]["feasible"]]


@pytest.fixture(scope="module")
def laid():
    return {name: lay_boards(problem_from_json(case(name)["problem_data"])) for name in case_names()}


@pytest.mark.parametrize("name", FEASIBLE)
def test_a_layout_keeps_every_rule_by_both_checkers(laid, name):
    data = case(name)["problem_data"]
    assert validate(data, layout_as_json(laid[name]))["errors"] == []
    assert faults(problem_from_json(data), laid[name]) == ()


@pytest.mark.parametrize("name", FEASIBLE)
def test_boards_come_near_the_best_known(laid, name):
    best = case(name)["expect"]["best_known_boards"]
    assert laid[name].boards <= best * 1.06
    assert laid[name].boards >= case(name)["expect"]["proven_lower_bound"]


def test_fewer_boards_are_bought_than_by_run_on_laying(laid):
    greedy = sum(case(name)["expect"]["run_on_greedy"]["boards"] for name in FEASIBLE)
    best = sum(case(name)["expect"]["best_known_boards"] for name in FEASIBLE)
    ours = sum(laid[name].boards for name in FEASIBLE)
    assert ours < greedy
    assert ours <= best * 1.015


@pytest.mark.parametrize("name", sorted(set(case_names()) - set(FEASIBLE)))
def test_an_impossible_stagger_is_explained_with_its_fewest_line_ups(laid, name):
    answer = laid[name]
    assert isinstance(answer, NoLayout)
    assert answer.stagger_breaks == answer.at_least == len(answer.line_ups)
    assert answer.stagger_breaks == case(name)["expect"]["fewest_stagger_breaks"]
    problem = problem_from_json(case(name)["problem_data"])
    for line_up in answer.line_ups:
        assert f"the joist at {problem.joist_lines[line_up.joist]} mm" in answer.why


@pytest.mark.parametrize("name", case_names())
def test_pedestals_stand_where_the_published_rule_puts_them(name):
    data = case(name)["problem_data"]
    for step in (1, 2):
        assert list(pedestal_points(problem_from_json(data), step)) == pedestal_grid(data, step)[0]
    assert len(pedestal_points(problem_from_json(data))) == case(name)["expect"]["pedestals_seam_rule"]


@pytest.mark.parametrize("name", FEASIBLE)
def test_cuts_notches_offcuts_and_bearers_are_counted_as_the_validator_counts_them(laid, name):
    data, layout = case(name)["problem_data"], laid[name]
    assert isinstance(layout, Layout)
    problem = problem_from_json(data)
    counted = validate(data, layout_as_json(layout))["stats"]
    boards = cutting_list([(problem, layout)])
    assert sum(len(board.cuts) for board in boards) == counted["cuts"]
    # the validator passes over a strut amid a row, which the crew must still cut round
    assert sum(piece.notched for board in boards for piece in board.pieces) >= counted["notched_pieces"]
    assert len(edge_bearers(problem, layout)) == counted["edge_bearers"]
    assert len(layout.joints) == counted["joints"]
    kept = [(b.board, left.length_mm, left.width_mm) for b in boards for left in b.left_over if left.kept]
    assert sorted(kept) == sorted(tuple(offcut) for offcut in counted["offcuts_reusable"])
