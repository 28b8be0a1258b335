"""A bound is added up again from its certificate, and never says more than is so."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st

from estimating.design.boards import Layout, LayoutProblem, lay_boards
from estimating.design.boards.checking.bound_checker import certified_bound, certified_cost
from estimating.design.boards.lay import Effort
from estimating.design.boards.layout import Certificate
from estimating.design.boards.problem import BoardSource, DeckTask, LayingRules
from estimating.layout_json import problem_from_json
from tests.estimating.boards.problems import LONG_BOARD, any_problem, case, case_names, deck
from tests.published.layout_validator import check_bound

CERTIFIED = [name for name in case_names() if "lower_bound" in case(name)["expect"]]
RARELY = settings(
    max_examples=25,
    deadline=None,
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.filter_too_much],
    derandomize=True,
)


def _certificate(published: dict[str, Any]) -> Certificate:
    full, groove, tongue = (tuple((e, price) for e, price in published.get(k, [])) for k in "FGT")
    joists = tuple((0, int(joist), price) for joist, price in published.get("joist", {}).items())
    return Certificate(published["D"], full, groove, tongue, joists)


def _published(name: str) -> tuple[dict[str, Any], dict[str, Any]]:
    return case(name)["problem_data"], case(name)["expect"]["lower_bound"]["certificate"]


@pytest.mark.parametrize("name", CERTIFIED)
def test_published_certificates_prove_what_they_claim(name):
    data, published = _published(name)
    bound = certified_bound(problem_from_json(data), _certificate(published))
    assert bound == case(name)["expect"]["lower_bound"]["boards"] == check_bound(data, published)[0]


@RARELY
@given(st.sampled_from(CERTIFIED), st.data())
def test_changed_prices_prove_the_same_by_both_checkers(name, drawn):
    data, published = _published(name)
    share = st.sampled_from([100, 100, 100, 100, 99, 101, 50])
    changed = {"D": published["D"] * drawn.draw(share) // 100, "joist": {}}
    for kind in "FGT":
        changed[kind] = [[e, price * drawn.draw(share) // 100] for e, price in published.get(kind, [])]
    for joist in range(len(data["joists"]["x"])):
        price = published.get("joist", {}).get(str(joist), 0)
        changed["joist"][str(joist)] = price * drawn.draw(share) // 100 + drawn.draw(
            st.sampled_from([0, 0, 99])
        )
    bound = certified_bound(problem_from_json(data), _certificate(changed))
    assert bound == check_bound(data, changed)[0]


def _dual_feasible(problem: LayoutProblem, parts: int) -> dict[str, Any]:
    """Prices that rise by one at each share of a board, halved for strips so that two of them are one board.

    Source: Clautiaux, Alves, Valério de Carvalho (2010), A survey of dual-feasible functions; from memory.
    """
    capacity = problem.product.cover_length_mm + problem.rules.kerf_mm
    steps = [(share * capacity // (parts + 1) + 1, share) for share in range(1, parts + 1)]
    strips = [[e, price] for e, price in steps]
    return {"D": 2 * parts, "F": [[e, 2 * price] for e, price in steps], "G": strips, "T": strips}


@RARELY
@given(any_problem(), st.integers(1, 5), st.lists(st.integers(0, 3), max_size=8))
def test_no_layout_takes_fewer_boards_than_any_certificate_proves(data, parts, joist_prices):
    problem = problem_from_json(data)
    published = _dual_feasible(problem, parts)
    published["joist"] = {str(joist): price for joist, price in enumerate(joist_prices)}
    answer = lay_boards(problem, Effort.FIRST)
    assume(isinstance(answer, Layout))
    assert isinstance(answer, Layout)
    bound = certified_bound(problem, _certificate(published))
    assert bound <= answer.boards
    # ours takes the least that a piece cut short by the gap must keep, and tells square edges apart
    assert bound <= check_bound(data, published)[0]


@RARELY
@given(
    st.integers(1300, 9000),
    st.integers(400, 4000),
    st.sampled_from([400, 450, 600]),
    st.integers(1, 5),
    st.lists(st.integers(0, 3), max_size=8),
)
def test_a_plain_deck_is_worth_the_same_by_both_checkers(width, depth, centres, parts, joist_prices):
    data = {**case("v04")["problem_data"], "joists": {"x": list(range(30, width + 1, centres))}}
    data["deck"] = {"outer": [[0, 0], [width, 0], [width, depth], [0, depth]], "keepouts": []}
    data["rows"] = {"y0": 0}
    problem = problem_from_json(data)
    published = _dual_feasible(problem, parts)
    published["joist"] = {str(joist): price for joist, price in enumerate(joist_prices)}
    bound, says = check_bound(data, published)
    assume(says != "no legal layout exists")
    assert certified_bound(problem, _certificate(published)) == bound


QUARTERS = Certificate(
    unit=4, full=((600, 1), (1200, 2), (1800, 3), (2400, 4)), groove=(), tongue=(), joists=()
)
PLAIN = deck(4800, 1200, first_joist_mm=0, board=LONG_BOARD)


def test_a_board_worth_more_than_its_unit_proves_nothing():
    assert certified_bound(PLAIN, QUARTERS) == 4
    assert certified_bound(PLAIN, replace(QUARTERS, full=((600, 1), (1800, 4)))) == 0
    assert certified_bound(PLAIN, replace(QUARTERS, unit=3)) == 0
    assert certified_bound(PLAIN, replace(QUARTERS, groove=((1804, 4),))) == 4
    assert certified_bound(PLAIN, replace(QUARTERS, groove=((1800, 4),))) == 0


@pytest.mark.parametrize(
    "wrong",
    [
        {"unit": 0},
        {"unit": -1},
        {"full": ((0, 1),)},
        {"full": ((1300, -1),)},
        {"groove": ((1300, -1),)},
        {"joists": ((0, 3, -1),)},
    ],
)
def test_prices_that_cannot_be_prove_nothing(wrong):
    assert certified_bound(PLAIN, replace(QUARTERS, **wrong)) == 0


def test_a_joist_is_paid_back_for_every_other_row():
    problem = deck(3600, 3000, first_joist_mm=0, board=LONG_BOARD)
    # every row of 3600 has a joint on a joist at 1200 to 2400; five rows, of which three may share a joist
    priced = replace(QUARTERS, unit=2, full=(), joists=tuple((0, joist, 2) for joist in (2, 3, 4)))
    assert certified_bound(problem, priced) == 0
    assert certified_bound(problem, replace(priced, joists=((1, 3, 2),))) == 0
    two_places = replace(problem, rules=LayingRules(min_piece_mm=1500))  # leaves the joist at 1800 alone
    assert certified_bound(two_places, replace(priced, joists=((0, 3, 2),))) == 2


def test_zones_are_counted_together_and_boards_at_hand_are_taken_off_at_their_worth():
    new = BoardSource(code="new", cover_length_mm=2400, price_pence=1500)
    two_zones = (PLAIN, PLAIN)
    assert certified_cost(DeckTask(two_zones, (new,)), QUARTERS) == 8
    free = replace(new, code="free", at_hand=3)
    assert certified_cost(DeckTask(two_zones, (new, free)), QUARTERS) == 5
    half = replace(free, cover_length_mm=1200)
    assert certified_cost(DeckTask(two_zones, (new, half)), QUARTERS) == 7  # 6.5


def test_a_bound_over_two_lengths_on_sale_is_in_pence():
    long, short = (
        BoardSource(code=f"{length}", cover_length_mm=length, price_pence=price)
        for length, price in ((2400, 1500), (1200, 750))
    )
    pence = replace(QUARTERS, full=tuple((e, 1500 * price) for e, price in QUARTERS.full))
    assert certified_cost(DeckTask((PLAIN,), (long, short)), pence) == 4 * 1500
    assert certified_cost(DeckTask((PLAIN,), (long, replace(short, price_pence=749))), pence) == 0
