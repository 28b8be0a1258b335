"""Nothing lost and nothing doubled, whatever the line, the tablets and the people do.

Each history is a run of taps and faults made up by hypothesis, against the real addresses: requests and
answers lost, copies that come late, two tablets on one survey, clocks that are wrong, sessions that end, a
new version of the form, uploads that break, another person signing in, an office that types, closes and
chooses meanwhile. At the end everything is delivered, and every value must stand in the survey or be kept
aside, once.
"""

from __future__ import annotations

import json
import logging
from collections import Counter
from contextlib import suppress
from dataclasses import dataclass, field
from typing import Any
from uuid import UUID

import pytest
from django.contrib.auth.models import User
from django.db import connection, transaction
from django.http import HttpResponse
from django.test import Client
from hypothesis import HealthCheck, settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, initialize, rule, run_state_machine_as_test

from jobs.surveys.forms import RoofForm
from jobs.surveys.models import Survey
from jobs.surveys.services import SurveyKept, save_section
from jobs.surveys.tablet.choosing import choose
from jobs.surveys.tablet.keeping import unsettled
from jobs.surveys.tablet.models import ArrivedPhotograph, SentChange
from jobs.surveys.writing import answers_now
from tests.jobs.surveys.tablet.model_tablet import PIECE_BYTES, Box, Tablet
from tests.jobs.surveys.tablet.sending import digest, picture

HISTORIES = 1000 if connection.vendor == "sqlite" else 200
"""The rules are the same on either database, and so is their order within one transaction."""
TURNS = 5
"""In each somebody taps at a tablet, it tries to send, and something happens elsewhere. That is one rule and
not many, because hypothesis would leave most of many out of most histories."""

GOES: Box = ("roof", "roof_notes")
"""The question that a new version of the form no longer asks."""
BOXES: tuple[Box, ...] = (("roof", "span"), GOES, ("plan", "zones-3-left"), ("hazards", "words_bats"))
SEEN: Box = ("hazards", "seen_bats")
PICTURES = {colour: picture(colour) for colour in ("navy", "olive")}
CLOCKS = ("1999-12-31T23:59:59Z", "2038-01-19T03:14:08Z")

AT_A_TABLET = (
    *(("type", where, what) for where in BOXES for what in ("new", "new", "theirs", "own")),
    *(("answer", seen) for seen in ("yes", "no", "not seen", "")),
    *(("photograph", shot, hazard) for shot in PICTURES for hazard in ("", "bats")),
    *(("set_clock", clock) for clock in CLOCKS),
    ("say_complete",),
    *(("look",),) * 2,
    *(("look_and_type", where, what) for where in BOXES[:2] for what in ("theirs", "again")),
    *(("come_in_a_new_version",),) * 2,
    *(("sign_in", person) for person in (0, 1)),
    ("sign_out",),
)
TRIES = ("none", "none", "none", "request lost", "answer lost", "copied", "damaged")
ELSEWHERE = (
    "nothing", "nothing", "nothing", "look_there", "type_there", "type_there", "close_or_open", "choose",
    "bring_a_copy", "bring_a_copy", "forge", "start_anew",
)  # fmt: skip

which_tablet = st.integers(0, 1)


def some(of: tuple[Any, ...], *, most: int) -> Any:
    return st.lists(st.sampled_from(of), min_size=1, max_size=most)


@dataclass
class Scene:
    """What every history begins with: a survey, people with a session each, and one browser for all."""

    survey: Survey
    people: tuple[User, ...]
    sessions: tuple[str, ...]
    browser: Client
    gone: set[str] = field(default_factory=set)


class Histories(RuleBasedStateMachine):
    scene: Scene

    def __init__(self) -> None:
        super().__init__()
        self.example = transaction.atomic()
        self.example.__enter__()
        self.number = self.scene.survey.number
        self.tablets = [Tablet(UUID(int=place + 1), self.scene.sessions[place]) for place in range(2)]
        self.page: dict[str, str] = {}
        self.counts = Counter[str]()
        self.copies: list[dict[str, str]] = []
        self.first_answers: dict[str, bytes] = {}
        self.sealed: dict[str, dict[str, str]] = {}
        self.forged: set[tuple[str, str]] = set()
        self.forged_settled: set[tuple[str, str]] = set()
        self.typed: dict[tuple[Any, Box], list[str]] = {}
        self.typed_over: set[tuple[Any, Box, str]] = set()
        self.decided: set[tuple[Box, str]] = set()
        self.photographed: dict[str, str] = {}
        self.as_closed: dict[str, dict[str, str]] | None = None

    @initialize(is_gone=st.booleans(), is_filled=st.booleans())
    def begin(self, is_gone: bool, is_filled: bool) -> None:
        self.scene.gone.clear()
        if is_filled:
            for section, name in BOXES[:3]:
                save_section(self._survey(), section=section, typed={name: "0 mm"})
            for tablet in self.tablets:
                tablet.shows = dict.fromkeys(BOXES[:3], "0 mm")
            self._look_there()
        if is_gone:
            self.scene.gone.add(GOES[1])

    @rule(
        which=which_tablet,
        acts=some(AT_A_TABLET, most=5),
        tries=some(TRIES, most=4),
        elsewhere=some(ELSEWHERE, most=3),
        dice=st.integers(0, 20),
    )
    def turn(self, which: int, acts: list[Any], tries: list[str], elsewhere: list[str], dice: int) -> None:
        tablet = self.tablets[which]
        for what, *more in acts:
            getattr(self, f"_{what}")(tablet, *more)
        for what in tries:
            if tablet.outbox:
                self._send_first(tablet, what)
        for what in elsewhere:
            getattr(self, f"_{what}")(dice)

    # What people do at a tablet.

    def _type(self, tablet: Tablet, where: Box, what: str) -> None:
        (other,) = (each for each in self.tablets if each is not tablet)
        before = self.typed.get((tablet.uuid, where), [""])
        told = {"theirs": other.shows.get(where, ""), "own": before[0], "again": before[-1]}
        self._write(tablet, where, told[what] if what in told else self._new_value())

    def _answer(self, tablet: Tablet, seen: str) -> None:
        self._write(tablet, SEEN, seen)

    def _photograph(self, tablet: Tablet, shot: str, hazard: str) -> None:
        tablet.photograph(PICTURES[shot], shows=f"view {self._next('view')}", hazard=hazard)

    def _set_clock(self, tablet: Tablet, clock: str) -> None:
        tablet.clock = clock

    def _say_complete(self, tablet: Tablet) -> None:
        tablet.complete()

    def _look(self, tablet: Tablet) -> None:
        answer = self._browser(tablet).get(f"/surveys/{self.number}/carried/")
        if answer.status_code == 200:
            tablet.adopt(answer.json())

    def _look_and_type(self, tablet: Tablet, where: Box, what: str) -> None:
        self._look(tablet)
        self._type(tablet, where, what)

    def _come_in_a_new_version(self, tablet: Tablet) -> None:
        self.scene.gone.symmetric_difference_update({GOES[1]})
        tablet.form += 1

    def _sign_in(self, tablet: Tablet, person: int) -> None:
        tablet.session = self.scene.sessions[person]

    def _sign_out(self, tablet: Tablet) -> None:
        tablet.session = ""

    # What happens elsewhere.

    def _nothing(self, _dice: int) -> None:
        pass

    def _start_anew(self, _dice: int) -> None:
        """The server starts with another key, and nobody is signed in any more."""
        for tablet in self.tablets:
            tablet.session = ""

    def _bring_a_copy(self, dice: int) -> None:
        """A copy of a request comes late, whoever is signed in by then."""
        if self.copies:
            self._deliver(self.tablets[dice % 2], self.copies[dice % len(self.copies)])

    def _forge(self, dice: int) -> None:
        """Other words come under a number that is known."""
        if not self.first_answers:
            return
        number = sorted(self.first_answers)[dice % len(self.first_answers)]
        body = self.sealed[number]["body"] + " "
        answer = self._post(self.tablets[0], {"id": number, "body": body, "digest": digest(body.encode())})
        assert answer.status_code == (422 if self.tablets[0].session else 401)
        if self.tablets[0].session and (number, body) not in self.forged_settled:
            self.forged.add((number, body))

    def _look_there(self, _dice: int = 0) -> None:
        self.page = answers_now(self._survey(), "roof")

    def _type_there(self, _dice: int) -> None:
        (section, name), after = BOXES[0], self._new_value()
        with suppress(SurveyKept):
            save_section(
                self._survey(), section=section, typed={name: after}, as_shown=self.page, by=self._office
            )
            self._note("office", BOXES[0], self.page.get(name, ""), after)
            self.page = {**self.page, name: after}

    def _close_or_open(self, _dice: int) -> None:
        self._a_closed_survey_stays()
        survey = self._survey()
        self.as_closed = self._answers() if survey.is_open() else None
        state = Survey.State.COMPLETE if survey.is_open() else Survey.State.OPEN
        Survey.objects.filter(pk=survey.pk).update(state=state)

    def _choose(self, dice: int) -> None:
        rows, take = list(unsettled(self._survey())), dice % 3 > 0
        if not rows:
            return
        row = rows[dice % len(rows)]
        now = answers_now(self._survey(), row.section).get(row.name, "")
        with suppress(SurveyKept):
            choose(self.number, row.pk, take=take, shown=now, by=self._office)
            self.decided.add(((row.section, row.name), now if take else row.other))
            if (row.name, row.other) in self.forged:
                self.forged.remove((row.name, row.other))
                self.forged_settled.add((row.name, row.other))

    # What must hold once everything has been delivered.

    def teardown(self) -> None:
        try:
            self._deliver_everything()
            self._a_closed_survey_stays()
            self._every_change_is_there_once()
            self._every_value_stands_or_is_kept_aside_once()
            self._every_photograph_is_there_once()
        finally:
            transaction.set_rollback(True)
            self.example.__exit__(None, None, None)

    def _deliver_everything(self) -> None:
        for place, tablet in enumerate(self.tablets):
            tablet.session = self.scene.sessions[place]
            self._send_until_refused(tablet)
            assert not tablet.outbox
        for copy in self.copies:
            self._deliver(self.tablets[0], copy)

    def _every_change_is_there_once(self) -> None:
        rows = {str(row.pk): row.body for row in SentChange.objects.filter(survey=self.scene.survey)}
        assert rows == {number: sealed["body"] for number, sealed in self.sealed.items()}

    def _every_value_stands_or_is_kept_aside_once(self) -> None:
        says, rows = self._answers(), unsettled(self._survey()).select_related("change")
        aside = Counter(
            (row.change.tablet if row.change else "office", (row.section, row.name), row.other)
            for row in rows
            if row.section
        )
        for (writer, where, other), count in aside.items():
            assert count == 1, f"{other!r} of {where} waits twice"
            assert other != says[where[0]].get(where[1], ""), f"{other!r} of {where} waits for nothing"
            assert not self._typed_over_itself(writer, where, other), f"{other!r} of {where} is outdated"
        for (writer, where), (*_, value) in self.typed.items():
            assert (
                value == says[where[0]].get(where[1], "")
                or (writer, where, value) in aside
                or (where, value) in self.decided
                or any(who != writer for who, w, over in self.typed_over if (w, over) == (where, value))
            ), f"{value!r} of {where} is lost"
        bodies = Counter((row.name, row.other) for row in rows if not row.section)
        assert bodies == Counter(self.forged)

    def _typed_over_itself(self, writer: Any, where: Box, value: str) -> bool:
        """Tell whether a tablet told that it changed a value, and says something else by now."""
        return (writer, where, value) in self.typed_over and value not in self.typed[writer, where][-1:]

    def _a_closed_survey_stays(self) -> None:
        if self.as_closed is not None:
            assert self.as_closed == self._answers()

    def _every_photograph_is_there_once(self) -> None:
        rows = self.scene.survey.photographs.values_list("sent_sha256", "shows")
        assert sorted(rows) == sorted(self.photographed.items())
        assert ArrivedPhotograph.objects.count() == len(self.photographed)

    # How it is done.

    @property
    def _office(self) -> User:
        return self.scene.people[1]

    def _survey(self) -> Survey:
        return Survey.objects.get(pk=self.scene.survey.pk)

    def _answers(self) -> dict[str, dict[str, str]]:
        survey = self._survey()
        return {section: answers_now(survey, section) for section in ("roof", "plan", "hazards")}

    def _new_value(self) -> str:
        return f"{self._next('value')} mm"

    def _next(self, what: str) -> int:
        self.counts[what] += 1
        return self.counts[what]

    def _browser(self, tablet: Tablet) -> Client:
        self.scene.browser.cookies["sessionid"] = tablet.session
        return self.scene.browser

    def _write(self, tablet: Tablet, where: Box, text: str) -> None:
        if text != tablet.shows.get(where, ""):
            before, after = tablet.type(where, text)
            self._note(tablet.uuid, where, before, after)

    def _note(self, writer: Any, where: Box, before: str, after: str) -> None:
        self.typed.setdefault((writer, where), []).append(after)
        self.typed_over.add((writer, where, before))

    def _send_until_refused(self, tablet: Tablet) -> None:
        while tablet.outbox and self._send_first(tablet, "none"):
            pass

    def _send_first(self, tablet: Tablet, what: str) -> bool:
        """Try the first item of an outbox, and tell whether its receipt came."""
        item = tablet.outbox[0]
        if item.sealed is None:
            sealed = tablet.seal(item, self._next("change"))
            self.sealed[sealed["id"]] = sealed
        if what == "request lost":
            return False
        if what == "damaged":
            answer = self._post(tablet, {**item.sealed, "body": item.sealed["body"][:-1]})
            assert answer.status_code in {401, 422}
            return False
        answer = self._deliver(tablet, item.sealed)
        if what == "copied":
            self.copies.append(item.sealed)
        if answer.status_code == 409:
            return self._send_photograph(tablet, answer.json()["wants"], what)
        if answer.status_code != 200 or what == "answer lost":
            return False
        tablet.outbox.remove(item)
        return True

    def _send_photograph(self, tablet: Tablet, wanted: str, what: str) -> bool:
        """Send the pieces that are still wanted; a line that breaks leaves some for the next try."""
        content = tablet.pictures[wanted]
        address = f"/surveys/{self.number}/photographs/{wanted}/"
        browser = self._browser(tablet)
        begins_at = browser.get(address).json()["have"]
        while begins_at < len(content):
            piece = content[begins_at : begins_at + PIECE_BYTES]
            headers = {"Upload-Offset": str(begins_at), "Upload-Length": str(len(content))}
            for _ in range(2 if what == "copied" else 1):
                answer = browser.put(address, piece, content_type="application/octet-stream", headers=headers)
                assert answer.status_code in {200, 409}
            if what == "answer lost":
                return False
            begins_at = answer.json()["have"]
        return True

    def _deliver(self, tablet: Tablet, sealed: dict[str, str]) -> HttpResponse:
        """Let a change arrive, first or again, and hold its answer against the first one."""
        answer = self._post(tablet, sealed)
        if not tablet.session:
            assert answer.status_code == 401
            return answer
        first = self.first_answers.get(sealed["id"])
        if first is not None:
            assert (answer.status_code, answer.content) == (200, first)
            assert answer["Idempotent-Replay"] == "true"
        elif answer.status_code == 200:
            self._note_first(sealed, answer)
        else:
            assert answer.status_code == 409
        return answer

    def _note_first(self, sealed: dict[str, str], answer: HttpResponse) -> None:
        self.first_answers[sealed["id"]] = answer.content
        told = json.loads(sealed["body"])
        if told["kind"] == "photograph":
            self.photographed[told["digest"]] = told["shows"]

    def _post(self, tablet: Tablet, sealed: dict[str, str]) -> HttpResponse:
        address = f"/surveys/{self.number}/changes/"
        return self._browser(tablet).post(address, json.dumps(sealed), content_type="application/json")


@pytest.fixture
def scene(survey, surveyor, office, monkeypatch) -> Scene:
    browser, sessions = Client(), []
    for person in (surveyor, office):
        browser.cookies.clear()
        browser.force_login(person)
        browser.get("/surveys/carried/")  # so that no history need move the session's end
        sessions.append(browser.cookies["sessionid"].value)
    made = Scene(survey, (surveyor, office), tuple(sessions), browser)
    monkeypatch.setattr(
        RoofForm, "takes", classmethod(lambda cls, name: name in cls.base_fields and name not in made.gone)
    )
    return made


@pytest.fixture
def quiet():
    logging.disable(logging.CRITICAL)
    yield
    logging.disable(logging.NOTSET)


@pytest.mark.django_db
@pytest.mark.usefixtures("quiet")
@pytest.mark.parametrize("half", [0, 1])
def test_nothing_is_lost_and_nothing_doubled(scene, half):
    machine = type(f"Histories{half}", (Histories,), {"scene": scene})
    run_state_machine_as_test(
        machine,
        settings=settings(
            max_examples=HISTORIES // 2,
            stateful_step_count=TURNS,
            suppress_health_check=list(HealthCheck),
        ),
    )
