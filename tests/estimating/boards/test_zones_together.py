"""Zones laid together: each by its own rules, from boards that can be had, and no cheaper than is proved."""

from __future__ import annotations

from dataclasses import replace

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from estimating.design.boards import Layout
from estimating.design.boards.checking.bound_checker import certified_cost
from estimating.design.boards.checking.checker import deck_faults
from estimating.design.boards.lay import Effort, lay_deck
from estimating.design.boards.problem import BoardSource, DeckTask, source_of
from estimating.layout_json import problem_from_json
from tests.estimating.boards.problems import any_problem

RARELY = settings(
    max_examples=15, deadline=None, suppress_health_check=[HealthCheck.too_slow], derandomize=True
)


@st.composite
def any_task(draw: st.DrawFn) -> DeckTask:
    """One to three zones of one board and its rules, new boards of one or two lengths and some at hand."""
    first, *others = draw(st.lists(any_problem(), min_size=1, max_size=3))
    floating = first["product"]["ends"] == "tg" and draw(st.booleans())
    rules = {**first["rules"], "end_joint": "floating"} if floating else first["rules"]
    zones = tuple(
        problem_from_json({**each, "product": first["product"], "rules": rules}) for each in [first, *others]
    )
    new = source_of(zones[0].product)
    sources = [new]
    if draw(st.booleans()):
        shorter = new.cover_length_mm * draw(st.sampled_from([1, 2])) // 3
        sources.append(replace(new, code="shorter", cover_length_mm=shorter, price_pence=400))
    if draw(st.booleans()):
        length, at_hand = draw(st.integers(300, new.cover_length_mm)), draw(st.integers(1, 4))
        cut = draw(st.booleans())
        sources.append(
            BoardSource(code="store", cover_length_mm=length, price_pence=0, at_hand=at_hand, cut=cut)
        )
    return DeckTask(zones, tuple(sources))


@RARELY
@given(any_task())
def test_zones_laid_together_keep_every_rule_with_the_boards_they_share(task):
    laid = lay_deck(task, Effort.FIRST)
    assert deck_faults(task, laid) == ()


@settings(RARELY, max_examples=6)
@given(any_task())
def test_what_is_claimed_of_zones_together_is_proved_by_the_checker(task):
    laid = lay_deck(task)
    assert deck_faults(task, laid) == ()
    if laid.bound is None:
        return
    left = tuple(zone for zone, each in zip(task.zones, laid.zones, strict=True) if isinstance(each, Layout))
    proved = certified_cost(DeckTask(left, task.sources), laid.bound.certificate)
    assert proved <= laid.bound.certified <= laid.bound.least <= laid.cost
