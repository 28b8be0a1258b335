"""A deck task has one name, and a laid deck reads back as it was written, with its bound and certificate."""

from __future__ import annotations

import json
from dataclasses import fields, replace
from typing import Any

import pytest

from estimating.deck_json import (
    _LaidForm,
    deck_task_as_json,
    deck_task_digest,
    deck_task_from_json,
    laid_deck_as_json,
    laid_deck_from_json,
)
from estimating.design.boards import lay_boards
from estimating.design.boards.layout import Bound, Certificate, LaidDeck, Layout, NoLayout
from estimating.design.boards.problem import BoardSource, DeckTask
from estimating.layout_json import problem_from_json
from estimating.refusals import Refusal
from tests.estimating.boards.problems import case

CERTIFICATE = Certificate(unit=10, full=((1203, 5),), groove=(), tongue=((303, 1),), joists=((0, 4, 2),))


@pytest.fixture
def task() -> DeckTask:
    problem = problem_from_json(case("v02")["problem_data"])
    at_hand = BoardSource(code="kept", cover_length_mm=900, price_pence=0, at_hand=2, cut=True)
    one = DeckTask.of(problem)
    return replace(one, sources=(*one.sources, at_hand))


@pytest.fixture
def laid(task: DeckTask) -> LaidDeck:
    layout = lay_boards(task.zones[0])
    assert isinstance(layout, Layout)
    bound = Bound(least=layout.boards, certified=layout.boards - 1, certificate=CERTIFICATE)
    unlaid = NoLayout("B", 2, "the joists leave no choice", at_least=1)
    return LaidDeck((replace(layout, bound=bound), unlaid), layout.boards, bound)


def through_text(form: dict[str, Any]) -> Any:
    return json.loads(json.dumps(form))


def test_a_task_reads_back_as_it_was_written(task):
    assert deck_task_from_json(through_text(deck_task_as_json(task))) == task


def test_a_laid_deck_reads_back_with_its_bound_and_what_could_not_be_laid(laid):
    assert laid_deck_from_json(through_text(laid_deck_as_json(laid))) == laid


def test_no_field_of_a_laid_deck_is_left_out_of_its_form():
    assert [each.name for each in fields(_LaidForm)] == [each.name for each in fields(LaidDeck)]


def test_equal_tasks_have_one_digest_and_a_moved_joist_another(task):
    digest = deck_task_digest(deck_task_as_json(task))
    assert digest == deck_task_digest(through_text(deck_task_as_json(task)))
    zone = task.zones[0]
    moved = replace(zone, joist_lines=(zone.joist_lines[0] + 1, *zone.joist_lines[1:]))
    assert digest != deck_task_digest(deck_task_as_json(replace(task, zones=(moved,))))


def test_a_form_of_another_shape_is_refused_by_its_path(laid):
    form = through_text(laid_deck_as_json(laid))
    del form["zones"][0]["layout"]["pieces"][0]["x0"]
    form["zones"][1]["no_layout"]["why"] = 3
    with pytest.raises(Refusal) as refused:
        laid_deck_from_json(form)
    assert {each.field for each in refused.value.each} == {
        "zones[0].layout.pieces[0].x0",
        "zones[1].no_layout.why",
    }
