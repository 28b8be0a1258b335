"""What holds for any deck: it is laid by every rule or the reason is given; moving it changes nothing."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

from hypothesis import HealthCheck, assume, given, settings

from estimating.design.boards import KeepOutArea, Layout, LayoutProblem, NoLayout, lay_boards
from estimating.design.boards.bearers import edge_bearers
from estimating.design.boards.checking.checker import faults
from estimating.design.boards.cutting_list import cutting_list
from estimating.design.boards.laying_order import laying_order
from estimating.design.boards.pedestal_grid import pedestal_points
from estimating.layout_json import layout_as_json, problem_from_json
from estimating.plane import Polygon
from tests.estimating.boards.problems import any_problem
from tests.published.layout_validator import Deck, pedestal_grid, validate

RARELY = settings(
    max_examples=15, deadline=None, suppress_health_check=[HealthCheck.too_slow], derandomize=True
)


@RARELY
@given(any_problem())
def test_any_deck_is_laid_by_every_rule_or_explained(data):
    problem = problem_from_json(data)
    answer = lay_boards(problem)
    if isinstance(answer, NoLayout):
        assert answer.why.endswith(".")
        assert answer.stagger_breaks is None or answer.stagger_breaks == len(answer.line_ups) > 0
        return
    report = validate(data, layout_as_json(answer))
    assert report["errors"] == []
    assert faults(problem, answer) == ()
    boards = cutting_list([(problem, answer)])
    assert sum(len(board.cuts) for board in boards) == report["stats"]["cuts"]
    assert len(edge_bearers(problem, answer)) == report["stats"]["edge_bearers"]
    assert sorted(laying_order(problem, answer, (1000, 500))) == [piece.number for piece in answer.pieces]


@RARELY
@given(any_problem())
def test_pedestals_equal_the_published_grid_and_stay_out_of_keep_outs(data):
    problem = problem_from_json(data)
    corners = {x for k in problem.keep_outs for x, _ in k.outline} | {x for x, _ in problem.outline}
    assume(not corners & set(problem.joist_lines))  # on an edge we count the deck at either side
    points = pedestal_points(problem)
    assert list(points) == pedestal_grid(data)[0]
    for keep_out in problem.keep_outs:
        left, right = min(x for x, _ in keep_out.outline), max(x for x, _ in keep_out.outline)
        low, high = min(y for _, y in keep_out.outline), max(y for _, y in keep_out.outline)
        assert not any(left < x < right and low < y < high for x, y in points)


@RARELY
@given(any_problem())
def test_joists_under_deck_carry_pedestals_no_further_apart_than_the_greatest_spacing(data):
    problem = problem_from_json(data)
    under = {x: Deck(data).section(x + 0.001) for x in problem.joist_lines}
    points = pedestal_points(replace(problem, pedestals=replace(problem.pedestals, per_seam=False)))
    for x, stretches in under.items():
        ys = sorted(y for at, y in points if at == x)
        for low, high in stretches:
            on_it = [y for y in ys if low - 1 <= y <= high + 1]
            assert on_it
            assert high - on_it[-1] <= problem.pedestals.merge_mm + 1
            assert all(b - a <= 601 for a, b in pairwise(on_it))


def _moved(polygon: Polygon, right: int, up: int) -> Polygon:
    return tuple((x + right, y + up) for x, y in polygon)


def _problem_moved(problem: LayoutProblem, right: int, up: int) -> LayoutProblem:
    return replace(
        problem,
        outline=_moved(problem.outline, right, up),
        keep_outs=tuple(KeepOutArea(k.name, k.kind, _moved(k.outline, right, up)) for k in problem.keep_outs),
        joist_lines=tuple(x + right for x in problem.joist_lines),
        row_origin_mm=problem.row_origin_mm + up,
    )


@RARELY
@given(any_problem())
def test_a_deck_moved_takes_the_same_boards(data):
    problem = problem_from_json(data)
    here, there = lay_boards(problem), lay_boards(_problem_moved(problem, 1234, -567))
    if isinstance(here, Layout):
        assert isinstance(there, Layout)
        assert there.boards == here.boards
        assert [(p.x0 + 1234, p.y0 - 567) for p in here.pieces] == [(p.x0, p.y0) for p in there.pieces]
    else:
        assert isinstance(there, NoLayout)
        assert there.stagger_breaks == here.stagger_breaks


@RARELY
@given(any_problem())
def test_end_joints_never_fall_between_joists(data):
    problem = problem_from_json(data)
    answer = lay_boards(problem)
    if isinstance(answer, Layout):
        for joint in answer.joints:
            away = abs(problem.joist_lines[joint.joist] - joint.x)
            assert away <= problem.rules.joint_tolerance_mm
