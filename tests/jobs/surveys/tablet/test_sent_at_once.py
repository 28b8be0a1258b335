"""The same change at the same moment: one row, and both get the same answer."""

from __future__ import annotations

import json
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from threading import Barrier
from typing import Any

import pytest
from django.db import connections

from jobs.firm.write_roles import write_roles
from jobs.surveys.models import Survey
from jobs.surveys.services import open_survey
from jobs.surveys.tablet import receive
from jobs.surveys.tablet.body import read_envelope
from jobs.surveys.tablet.models import ArrivedPhotograph, KeptAside, SentChange
from jobs.surveys.tablet.receive import Answer, receive_change
from jobs.surveys.tablet.uploads import OutOfStep, Piece, add_piece
from tests.jobs.surveys.tablet.sending import OTHER_TABLET, answers, digest, picture

pytestmark = pytest.mark.django_db(transaction=True)


@pytest.fixture(autouse=True)
def roles(transactional_db):
    """A test of real transactions empties every table before it, the roles too."""
    write_roles()


def at_once(*each: Callable[[], Any]) -> list[Any]:
    """Do several things in threads that start together; each closes its own connection."""
    start = Barrier(len(each))

    def do(one: Callable[[], Any]) -> Any:
        try:
            start.wait()
            return one()
        finally:
            connections.close_all()

    with ThreadPoolExecutor(len(each)) as together:
        return list(together.map(do, each))


def sealed(change: dict[str, str]):
    return read_envelope(json.dumps(change).encode())


@pytest.mark.parametrize("attempt", range(5))
def test_a_change_sent_twice_at_once_is_written_once_and_answered_alike(survey, surveyor, attempt):
    change = sealed(answers(span=("", "7 m")))
    one, other = at_once(*[lambda: receive_change(survey.number, change, by=surveyor)] * 2)
    assert one.text == other.text
    assert {one.is_replay, other.is_replay} == {True, False}
    assert SentChange.objects.count() == 1


def test_two_tablets_at_once_leave_one_value_in_the_survey_and_one_aside(survey, surveyor):
    both = [sealed(answers(span=("", "6 m"))), sealed(answers(span=("", "7 m"), tablet=OTHER_TABLET))]
    at_once(*[lambda each=each: receive_change(survey.number, each, by=surveyor) for each in both])
    survey.refresh_from_db()
    assert {survey.answers["roof"]["span"], KeptAside.objects.get().other} == {"6 m", "7 m"}


def test_one_number_for_two_surveys_at_once_is_taken_by_one_of_them(survey, building, surveyor):
    other = open_survey(building, by=surveyor, visited_on=survey.visited_on)
    change = sealed(answers(span=("", "7 m")))
    told = at_once(
        *[lambda row=row: receive_change(row.number, change, by=surveyor) for row in (survey, other)]
    )
    assert sorted(each.status for each in told) == [200, 422]
    assert SentChange.objects.count() == KeptAside.objects.count() == 1


@pytest.mark.parametrize("attempt", range(5))
def test_the_last_piece_sent_twice_at_once_makes_one_photograph(survey, surveyor, attempt):
    content = picture()
    piece = Piece(0, len(content), content)

    def send() -> bool:
        try:
            return add_piece(survey, digest(content), piece, by=surveyor).whole
        except OutOfStep:
            return False

    assert any(at_once(send, send))
    assert ArrivedPhotograph.objects.count() == 1


def test_a_number_that_another_took_at_the_same_moment_is_looked_up_again(survey, surveyor, monkeypatch):
    """On any database: the number is taken between this change's look and its own writing."""
    change, take = sealed(answers(span=("", "7 m"))), receive._take

    def take_late(*told: Any) -> Answer:
        monkeypatch.setattr(receive, "_take", take)
        receive_change(survey.number, change, by=surveyor)
        return take(*told)

    monkeypatch.setattr(receive, "_take", take_late)
    assert receive_change(survey.number, change, by=surveyor).status == 200
    assert SentChange.objects.count() == 1
    assert Survey.objects.get().answers["roof"] == {"span": "7 m"}
