"""What a change from a tablet does, and that none is lost or done twice."""

from __future__ import annotations

import json
from datetime import date
from uuid import UUID, uuid4

import pytest
from django.test import Client
from django.urls import reverse

from jobs.surveys.models import Clearance, Finding, Photograph, Survey
from jobs.surveys.services import open_survey, save_section
from jobs.surveys.tablet import receive
from jobs.surveys.tablet.body import MOST_BYTES, MOST_FIELDS
from jobs.surveys.tablet.models import KeptAside, Reason, SentChange
from tests.jobs.surveys.lofts import TRUSSED
from tests.jobs.surveys.tablet.sending import (
    OTHER_TABLET,
    TABLET,
    answers,
    digest,
    envelope,
    picture,
    sealed,
    send,
    upload,
)

pytestmark = pytest.mark.django_db


@pytest.fixture
def number(survey) -> str:
    save_section(survey, section="roof", typed={"span": "6 m"})
    return survey.number


def stands(number: str, section: str = "roof") -> dict[str, str]:
    return Survey.objects.get(number=number).answers.get(section, {})


def waiting(number: str) -> list[tuple[str, str, str]]:
    rows = KeptAside.objects.filter(survey__number=number, settled_at=None)
    return list(rows.values_list("name", "other", "reason"))


def test_a_change_made_over_what_the_survey_says_is_written(tablet, number):
    answer = send(tablet, number, change := answers(span=("6 m", "7.6 m"), pitch_degrees=("", "35")))
    assert answer.status_code == 200
    told = answer.json()
    assert (told["id"], told["state"], told["aside"]) == (change["id"], "saved", [])
    assert told["words"] == "Saved in the office."
    assert stands(number) == {"span": "7.6 m", "pitch_degrees": "35"}
    assert waiting(number) == []


def test_what_the_survey_says_already_is_no_difference(tablet, number):
    send(tablet, number, answers(span=("5 m", "6 m")))
    assert stands(number) == {"span": "6 m"}
    assert waiting(number) == []


def test_where_somebody_else_was_meanwhile_both_values_are_kept(tablet, number):
    answer = send(tablet, number, answers(span=("5 m", "7 m"), ridge_height=("", "2.4 m"))).json()
    assert answer["state"] == "kept aside"
    assert [each["name"] for each in answer["aside"]] == ["span"]
    assert '"6 m"' in answer["aside"][0]["words"]
    assert stands(number) == {"span": "6 m", "ridge_height": "2.4 m"}
    assert waiting(number) == [("span", "7 m", Reason.DIFFERS)]


def test_line_ends_are_no_difference(tablet, number):
    save_section(Survey.objects.get(number=number), section="roof", typed={"roof_notes": "wet\r\nfelt"})
    send(tablet, number, answers(roof_notes=("wet\nfelt", "wet\nfelt\ntorn")))
    assert stands(number)["roof_notes"] == "wet\nfelt\ntorn"


def test_a_question_that_is_no_longer_asked_is_kept_aside(tablet, number):
    send(tablet, number, answers(old_question=("", "an answer")))
    send(tablet, number, answers("old section", anything=("", "another")))
    assert stands(number) == {"span": "6 m"}
    assert waiting(number) == [
        ("old_question", "an answer", Reason.NO_QUESTION), ("anything", "another", Reason.NO_QUESTION)
    ]  # fmt: skip


@pytest.mark.parametrize("quoted", [False, True])
def test_a_closed_survey_stays_and_what_would_change_it_is_kept_aside(request, tablet, number, quoted):
    if quoted:
        request.getfixturevalue("offer")
    else:
        Survey.objects.filter(number=number).update(state=Survey.State.COMPLETE)
    send(tablet, number, answers(span=("6 m", "7 m"), pitch_degrees=("", "35")))
    send(tablet, number, envelope("hazards", fields={"seen_bats": ("", "yes")}))
    assert stands(number) == {"span": "6 m"}
    assert {(name, why) for name, _, why in waiting(number)} == {
        ("span", Reason.CLOSED), ("pitch_degrees", Reason.CLOSED), ("seen_bats", Reason.CLOSED)
    }  # fmt: skip


def test_a_tablet_that_changes_its_own_value_leaves_one_to_choose_about(tablet, number):
    send(tablet, number, answers(span=("5 m", "7 m")))
    send(tablet, number, answers(span=("7 m", "8 m")))
    assert waiting(number) == [("span", "8 m", Reason.DIFFERS)]
    send(tablet, number, answers(span=("8 m", "6 m")))
    assert waiting(number) == []
    assert stands(number) == {"span": "6 m"}


def test_another_tablets_value_stays_to_choose_about(tablet, number):
    send(tablet, number, answers(span=("5 m", "7 m")))
    send(tablet, number, answers(span=("7 m", "8 m"), tablet=OTHER_TABLET))
    assert {other for _, other, _ in waiting(number)} == {"7 m", "8 m"}


def test_a_value_that_the_survey_comes_to_say_waits_no_more(tablet, number):
    send(tablet, number, answers(span=("5 m", "7 m")))
    send(tablet, number, answers(span=("6 m", "7 m"), tablet=OTHER_TABLET))
    assert waiting(number) == []
    assert KeptAside.objects.get().taken


def test_the_same_value_is_kept_aside_once_for_each_tablet(tablet, number):
    for _ in range(2):
        send(tablet, number, answers(span=("5 m", "7 m")))
        send(tablet, number, answers(span=("5 m", "7 m"), tablet=OTHER_TABLET))
    assert waiting(number) == [("span", "7 m", Reason.DIFFERS)] * 2


def test_a_removed_row_is_emptied_and_its_number_stays(tablet, number):
    send(tablet, number, answers("plan", **{"zones-7-left": ("", "900"), "zones-7-name": ("", "Deck")}))
    send(tablet, number, answers("plan", **{"zones-7-left": ("900", "1 m"), "zones-7-DELETE": ("", "on")}))
    assert stands(number, "plan") == {"zones-7-left": "", "zones-7-name": ""}


def test_hazards_become_findings_and_words_wait_for_their_answer(tablet, survey):
    number = survey.number
    send(tablet, number, envelope("hazards", fields={"words_bats": ("", "Droppings")}))
    assert not survey.findings.exists()
    send(tablet, number, envelope("hazards", fields={"seen_bats": ("", "yes")}))
    assert [(row.hazard, row.seen, row.words) for row in survey.findings.all()] == [
        ("bats", "yes", "Droppings")
    ]
    send(tablet, number, envelope("hazards", fields={"seen_bats": ("yes", "")}))
    assert not survey.findings.exists()
    assert stands(number, "hazards") == {"words_bats": "Droppings"}


@pytest.fixture
def cleared(survey, office) -> Finding:
    stop = Finding.objects.create(survey=survey, hazard="wiring", seen="yes", severity="stop", words="Bare")
    Clearance.objects.create(finding=stop, recorded_by=office, dated=date(2026, 11, 20))
    return stop


@pytest.mark.parametrize(
    ("name", "after", "reason"),
    [
        ("seen_bats", "perhaps", Reason.NO_ANSWER),
        ("seen_dragons", "yes", Reason.NO_QUESTION),
        ("bats", "yes", Reason.NO_QUESTION),
        ("seen_wiring", "no", Reason.CLEARED),
        ("words_wiring", "Nothing", Reason.CLEARED),
    ],
)
def test_an_answer_that_a_hazard_cannot_take_is_kept_aside(tablet, cleared, name, after, reason):
    now = {"seen_wiring": "yes", "words_wiring": "Bare"}.get(name, "")
    send(tablet, cleared.survey.number, envelope("hazards", fields={name: (now, after)}))
    assert waiting(cleared.survey.number) == [(name, after, reason)]
    cleared.refresh_from_db()
    assert (cleared.seen, cleared.words) == ("yes", "Bare")


def test_two_who_answer_a_hazard_otherwise_are_both_kept(tablet, survey):
    Finding.objects.create(survey=survey, hazard="bats", seen="no", severity="stop")
    send(tablet, survey.number, envelope("hazards", fields={"seen_bats": ("", "yes")}))
    assert survey.findings.get().seen == "no"
    assert waiting(survey.number) == [("seen_bats", "yes", Reason.DIFFERS)]


def test_the_same_change_again_gets_the_first_answer_byte_for_byte(tablet, number):
    change = answers(span=("6 m", "7 m"))
    first = send(tablet, number, change)
    send(tablet, number, answers(span=("7 m", "8 m")))
    again = send(tablet, number, change)
    assert again.content == first.content
    assert again["Idempotent-Replay"] == "true"
    assert "Idempotent-Replay" not in first
    assert stands(number) == {"span": "8 m"}
    assert SentChange.objects.count() == 2


def test_the_same_number_with_other_words_is_refused_and_both_are_kept_once(tablet, number):
    change = answers(span=("6 m", "7 m"))
    send(tablet, number, change)
    other = {**answers(span=("6 m", "9 m")), "id": change["id"]}
    for _ in range(2):
        answer = send(tablet, number, other)
        assert answer.status_code == 422
        assert answer.json()["error"] == "same number, other words"
    assert stands(number) == {"span": "7 m"}
    assert waiting(number) == [(change["id"], other["body"], Reason.OTHER_WORDS)]
    assert SentChange.objects.get().body == change["body"]


def test_the_same_change_to_another_survey_is_other_words(tablet, number, building, surveyor):
    other = open_survey(building, by=surveyor, visited_on=date(2026, 11, 19))
    change = answers(span=("6 m", "7 m"))
    send(tablet, number, change)
    assert send(tablet, other.number, change).status_code == 422
    assert stands(other.number) == {}


DAMAGED = [
    b"", b"[]", b"{", b"\xff\xfe", json.dumps({"id": str(uuid4())}).encode(),
    json.dumps({**answers(span=("", "1")), "digest": "0" * 64}).encode(),
    json.dumps({**answers(span=("", "1")), "digest": 5}).encode(),
    json.dumps({**answers(span=("", "1")), "id": "17"}).encode(),
    json.dumps(sealed("\ud800")).encode(),
    json.dumps(sealed("{}\0")).encode(),
]  # fmt: skip


@pytest.mark.parametrize("content", DAMAGED, ids=map(str, range(len(DAMAGED))))
def test_what_was_damaged_on_the_way_is_refused_and_kept_nowhere(tablet, number, content):
    answer = tablet.post(reverse("survey_changes", args=[number]), content, content_type="application/json")
    assert answer.status_code == 422
    assert answer.json()["error"] == "damaged"
    assert not SentChange.objects.exists()
    assert waiting(number) == []


def told(**other) -> str:
    good = {
        "form": 2, "tablet": str(TABLET), "number": 1, "made_at": "", "kind": "answers", "section": "roof",
        "fields": {"span": ["6 m", "7 m"]},
    }  # fmt: skip
    return json.dumps({**good, **other})


UNREAD = [
    "[]", "not JSON", '{"kind": "answers"}', "[" * 90_000, told(kind="a poem"), told(form=-1),
    told(form=True), told(tablet="mine"), told(number=2**60), told(number="1"), told(made_at=None),
    told(section=5),
    told(section="s" * 41), told(fields=[]), told(fields={"span": "7 m"}), told(fields={"span": ["7 m"]}),
    told(fields={"span": ["6 m", 7]}), told(fields={"n" * 101: ["", "7"]}),
    told(fields={f"n{each}": ["", "7"] for each in range(MOST_FIELDS + 1)}),
    told(kind="photograph"), told(kind="photograph", digest="0" * 64, shows="", hazard="", left_mm="far"),
]  # fmt: skip


@pytest.mark.parametrize("body", UNREAD, ids=map(str, range(len(UNREAD))))
def test_what_came_whole_and_cannot_be_read_is_refused_and_kept_once_for_a_person(tablet, number, body):
    change = sealed(body)
    for _ in range(2):
        answer = send(tablet, number, change)
        assert answer.status_code == 422
        assert answer.json()["error"] == "could not be read"
    assert waiting(number) == [(change["id"], body, Reason.UNREAD)]
    assert stands(number) == {"span": "6 m"}
    assert not SentChange.objects.exists()


def test_a_newer_site_reads_what_an_older_one_kept(tablet, number, monkeypatch):
    change = answers(span=("6 m", "7 m"))
    with monkeypatch.context() as older:
        older.setattr("jobs.surveys.tablet.apply.KINDS", {})
        assert send(tablet, number, change).status_code == 422
    assert send(tablet, number, change).status_code == 200
    assert stands(number) == {"span": "7 m"}
    assert waiting(number) == []


def test_letters_that_no_database_keeps_are_shown_as_such(tablet, number):
    send(tablet, number, sealed(told(fields={"roof_notes": ["", "a\0b\ud83d"]})))
    assert stands(number)["roof_notes"] == "a\N{REPLACEMENT CHARACTER}b\N{REPLACEMENT CHARACTER}"


def test_the_tablets_clock_decides_nothing(tablet, number):
    send(tablet, number, envelope("answers", section="roof", made_at="2031", fields={"span": ["6 m", "7 m"]}))
    send(tablet, number, envelope("answers", section="roof", made_at="1999", fields={"span": ["7 m", "8 m"]}))
    assert stands(number) == {"span": "8 m"}


def test_a_survey_with_gaps_stays_open_and_the_receipt_says_why(tablet, number):
    change = envelope("complete")
    answer = send(tablet, number, change).json()
    assert answer["state"] == "kept aside"
    assert "still missing" in answer["words"]
    assert Survey.objects.get(number=number).is_open()
    assert waiting(number) == []
    assert send(tablet, number, change).json() == answer


def test_a_full_survey_is_completed_once(tablet, survey):
    for section, typed in TRUSSED.items():
        save_section(survey, section=section, typed=typed)
    from estimating.published.hazards import HAZARDS  # noqa: PLC0415

    fields = {f"seen_{hazard.key}": ("", "no") for hazard in HAZARDS}
    send(tablet, survey.number, envelope("hazards", fields=fields))
    assert send(tablet, survey.number, envelope("complete")).json()["state"] == "saved"
    assert not Survey.objects.get().is_open()
    again = send(tablet, survey.number, envelope("complete", tablet=OTHER_TABLET)).json()
    assert again["words"] == "Saved in the office. The survey was complete already."


PICTURE = picture()


def cited(**other):
    words = {"shows": "The hatch", "hazard": "", "left_mm": 4200, "front_mm": None}
    return envelope("photograph", **{"digest": digest(PICTURE), **words, **other})


def test_a_photograph_is_asked_for_before_it_is_cited(tablet, number):
    answer = send(tablet, number, change := cited())
    assert answer.status_code == 409
    assert answer.json()["wants"] == digest(PICTURE)
    upload(tablet, number, PICTURE)
    assert send(tablet, number, change).json()["state"] == "saved"
    photograph = Photograph.objects.get()
    assert (photograph.shows, photograph.left_mm, photograph.front_mm) == ("The hatch", 4200, None)
    assert photograph.sent_sha256 == digest(PICTURE)


@pytest.mark.parametrize("kind", ["photograph", "photograph words"])
def test_newer_words_mend_the_photograph_that_is_there(tablet, number, kind):
    upload(tablet, number, PICTURE)
    send(tablet, number, cited())
    again = envelope(kind, digest=digest(PICTURE), shows="Hatch, shut", hazard="", left_mm=None, front_mm=900)
    send(tablet, number, again)
    photograph = Photograph.objects.get()
    assert (photograph.shows, photograph.left_mm, photograph.front_mm) == ("Hatch, shut", None, 900)


def test_a_photograph_waits_for_the_finding_it_is_tied_to(tablet, number):
    upload(tablet, number, PICTURE)
    send(tablet, number, cited(hazard="bats"))
    assert Photograph.objects.get().finding is None
    send(tablet, number, envelope("hazards", fields={"seen_bats": ("", "yes")}))
    assert Photograph.objects.get().finding.hazard == "bats"
    send(tablet, number, envelope("hazards", fields={"seen_bats": ("yes", "")}))
    send(tablet, number, envelope("hazards", fields={"seen_bats": ("", "no")}))
    assert Photograph.objects.get().finding.seen == "no"


def test_two_files_of_one_picture_are_one_photograph(tablet, number):
    upload(tablet, number, PICTURE)
    send(tablet, number, cited())
    other = PICTURE + b"\0"
    upload(tablet, number, other)
    assert send(tablet, number, cited(digest=digest(other), shows="")).status_code == 200
    assert Photograph.objects.get().shows == "The hatch"


def test_words_too_long_for_a_photograph_are_kept_aside_whole(tablet, number):
    upload(tablet, number, PICTURE)
    send(tablet, number, cited(shows="x" * 121))
    assert Photograph.objects.get().shows == "x" * 120
    assert waiting(number) == [(digest(PICTURE), "x" * 121, Reason.TOO_LONG)]


def test_a_photograph_is_taken_into_a_quoted_survey(tablet, number, offer):
    upload(tablet, number, PICTURE)
    assert send(tablet, number, cited()).json()["state"] == "saved"


def test_more_changes_in_a_minute_than_a_tablet_sends_must_wait(tablet, number, monkeypatch):
    monkeypatch.setattr(receive, "MOST_IN_A_MINUTE", 1)
    change = answers(span=("6 m", "7 m"))
    assert send(tablet, number, change).status_code == 200
    assert send(tablet, number, answers(span=("7 m", "8 m"))).status_code == 429
    assert send(tablet, number, change).status_code == 200
    assert stands(number) == {"span": "7 m"}


def test_a_flood_of_bodies_to_look_at_must_wait(tablet, number, monkeypatch):
    monkeypatch.setattr(receive, "MOST_BODIES_ASIDE", 1)
    assert send(tablet, number, sealed("one")).status_code == 422
    assert send(tablet, number, sealed("two")).status_code == 429


def test_a_tablet_is_told_in_json_why_it_may_not(number, crew, logged_in, tablet, client):
    change = answers(span=("6 m", "7 m"))
    for browser, survey, status, error in (
        (client, number, 401, "sign in"),
        (logged_in(crew), number, 403, "not allowed"),
        (tablet, "S-1999-0001", 404, "no such survey"),
    ):
        answer = send(browser, survey, change)
        assert (answer.status_code, answer.json()["error"]) == (status, error)
        assert answer["Cache-Control"] == "private, no-store"
    assert not SentChange.objects.exists()


def test_a_change_without_the_form_token_is_refused_in_json(number, surveyor):
    careful = Client(enforce_csrf_checks=True)
    careful.force_login(surveyor)
    answer = send(careful, number, answers(span=("6 m", "7 m")))
    assert (answer.status_code, answer.json()["error"]) == (403, "form token")
    assert not SentChange.objects.exists()


@pytest.mark.parametrize(
    "content", [b"x" * 3 * MOST_BYTES, json.dumps(sealed("x" * (MOST_BYTES + 1)))], ids="ab"
)
def test_what_is_larger_than_any_change_is_no_damage_that_would_mend_by_itself(tablet, number, content):
    answer = tablet.post(reverse("survey_changes", args=[number]), content, content_type="application/json")
    assert (answer.status_code, answer.json()["error"]) == (413, "too large")


def test_a_number_is_the_same_in_any_spelling(tablet, number):
    change = envelope("answers", id=UUID(int=7), section="roof", fields={"span": ["6 m", "7 m"]})
    first = send(tablet, number, change)
    assert send(tablet, number, {**change, "id": change["id"].upper()}).content == first.content
