"""A bound for joints that float looks at every millimetre, and a quick walk says the same as a plain one."""

from __future__ import annotations

from dataclasses import replace

from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st

from estimating.design.boards import Layout, LayoutProblem, lay_boards
from estimating.design.boards.checking.bound_checker import certified_bound
from estimating.design.boards.checking.floating_runs import FloatingRun
from estimating.design.boards.checking.possible_pieces import RUN_END, Stop, may_be_carried
from estimating.design.boards.checking.row_shapes import RowRun, runs_by_row
from estimating.design.boards.lay import Effort
from estimating.design.boards.layout import Certificate
from estimating.design.boards.problem import BoardProduct, LayingRules
from estimating.layout_json import problem_from_json
from tests.estimating.boards.problems import LONG_BOARD, any_problem, deck

UNREACHED = 1 << 60
RARELY = settings(
    max_examples=15,
    deadline=None,
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.filter_too_much],
    derandomize=True,
)
SMALL = BoardProduct(code="small", cover_length_mm=300, cover_width_mm=200, thickness_mm=22)


def _plain_worth(problem: LayoutProblem, run: RowRun, prices: list[int]) -> int:
    """The cheapest way from end to end, tried with a piece between every two lines."""
    rules, length = problem.rules, problem.product.cover_length_mm
    ends, joists = (run.left, run.right), set(problem.joist_lines)
    inside = range(run.left + rules.min_piece_mm, run.right - rules.min_piece_mm + 1)
    cost = {run.left: 0}
    for x in [*inside, run.right]:
        for before in list(cost):
            span = x - before
            whole = (before, x) == ends
            floats = [line not in joists and line not in ends for line in (before, x)]
            stops = [Stop(RUN_END if line in ends else 0, line, line) for line in (before, x)]
            if span > length + rules.gap_tolerance_mm or (span < rules.min_piece_mm and not whole):
                continue
            if all(floats) and span < length:
                continue
            if not all(floats) and not may_be_carried(problem, *stops):
                continue
            takes = length if all(floats) else max(span - rules.gap_tolerance_mm, 1)
            cost[x] = min(cost.get(x, UNREACHED), cost[before] + prices[takes + rules.kerf_mm])
    return cost.get(run.right, UNREACHED)


@settings(max_examples=25, deadline=None, derandomize=True)
@given(
    st.integers(150, 700),
    st.sampled_from([90, 130, 200]),
    st.integers(0, 80),
    st.sampled_from([0, 3]),
    st.lists(st.tuples(st.integers(4, 303), st.integers(1, 50)), max_size=6),
)
def test_every_millimetre_is_looked_at(width, centres, first_joist, gap, listed):
    rules = LayingRules(end_joint="floating", min_piece_mm=60, max_overhang_mm=40, gap_tolerance_mm=gap)
    problem = deck(width, 200, board=SMALL, centres_mm=centres, first_joist_mm=first_joist, rules=rules)
    prices = [max((price for e, price in listed if e <= takes), default=0) for takes in range(304)]
    ((run,),) = runs_by_row(problem)
    found = FloatingRun(problem, run).worth(lambda kept: prices, UNREACHED)
    assert min(found, UNREACHED) == _plain_worth(problem, run, prices)


@RARELY
@given(any_problem(), st.integers(1, 6))
def test_no_layout_with_floating_joints_takes_fewer_boards_than_is_proved(data, parts):
    data["rules"]["end_joint"] = "floating"
    problem = problem_from_json(data)
    answer = lay_boards(problem, Effort.FIRST)
    assume(isinstance(answer, Layout))
    assert isinstance(answer, Layout)
    capacity = problem.product.cover_length_mm + problem.rules.kerf_mm
    steps = tuple((share * capacity // (parts + 1) + 1, share) for share in range(1, parts + 1))
    full = tuple((takes, 2 * price) for takes, price in steps)
    certificate = Certificate(2 * parts, full, steps, steps, ())
    bound = certified_bound(problem, certificate)
    assert bound <= answer.boards
    # whoever may float may also keep to joists
    on_joists = replace(problem, rules=replace(problem.rules, end_joint="butt"))
    if isinstance(lay_boards(on_joists, Effort.FIRST), Layout):
        assert bound <= certified_bound(on_joists, certificate)


def test_what_is_claimed_of_floating_joints_is_proved_by_the_checker():
    rules = LayingRules(end_joint="floating")
    problem = deck(5200, 1800, board=LONG_BOARD, rules=rules)
    answer = lay_boards(problem)
    assert isinstance(answer, Layout)
    assert answer.bound is not None
    assert answer.bound.least == answer.bound.certified == certified_bound(problem, answer.bound.certificate)
    # 9.36 m² of boards that cover 1.44 m²
    assert 7 <= answer.bound.least <= answer.boards
