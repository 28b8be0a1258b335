"""Photographs that come in pieces, over a line that breaks."""

from __future__ import annotations

import os
from datetime import timedelta
from pathlib import Path

import pytest
from django.utils import timezone

from jobs.surveys.models import Photograph
from jobs.surveys.photographs.kept import MOST_BYTES, read_photograph
from jobs.surveys.services import copy_survey
from jobs.surveys.tablet import uploads
from jobs.surveys.tablet.models import ArrivedPhotograph
from jobs.tasks import run_due
from tests.jobs.surveys.tablet.sending import digest, envelope, picture, put, send, upload

pytestmark = pytest.mark.django_db
PICTURE = picture()


def parts(settings) -> list[Path]:
    return list(Path(settings.ARRIVING_DIR).glob("*"))


def progress(client, number, content=PICTURE):
    return client.get(f"/surveys/{number}/photographs/{digest(content)}/").json()


def test_a_photograph_comes_in_pieces_and_is_built_anew(tablet, survey, surveyor, settings):
    assert progress(tablet, survey.number) == {"have": 0, "whole": False}
    assert put(tablet, survey.number, PICTURE, 0, 100).json() == {"have": 100, "whole": False}
    assert progress(tablet, survey.number) == {"have": 100, "whole": False}
    (part,) = parts(settings)
    assert part.stat().st_mode & 0o777 == 0o600
    last = put(tablet, survey.number, PICTURE, 100, len(PICTURE))
    assert last.json() == progress(tablet, survey.number) == {"have": len(PICTURE), "whole": True}
    arrived = ArrivedPhotograph.objects.get()
    assert (arrived.width, arrived.height, arrived.by) == (24, 16, surveyor)
    assert read_photograph(arrived.sha256)
    assert not Photograph.objects.exists()  # until a change cites it
    assert parts(settings) == []


def test_a_piece_whose_answer_was_lost_is_not_added_twice(tablet, survey):
    put(tablet, survey.number, PICTURE, 0, 100)
    again = put(tablet, survey.number, PICTURE, 0, 100)
    assert (again.status_code, again.json()["have"]) == (409, 100)
    ahead = put(tablet, survey.number, PICTURE, 200, 300)
    assert (ahead.status_code, ahead.json()["have"]) == (409, 100)
    put(tablet, survey.number, PICTURE, 100, len(PICTURE))
    assert put(tablet, survey.number, PICTURE, 100, len(PICTURE)).json()["whole"] is True
    assert ArrivedPhotograph.objects.count() == 1


def test_what_is_not_what_its_digest_says_is_thrown_away_and_begun_anew(tablet, survey, settings):
    garbled = b"\0" * len(PICTURE)
    address = f"/surveys/{survey.number}/photographs/{digest(PICTURE)}/"
    headers = {"upload-offset": "0", "upload-length": str(len(PICTURE))}
    answer = tablet.put(address, garbled, content_type="application/octet-stream", headers=headers)
    assert (answer.status_code, answer.json()["error"]) == (422, "damaged")
    assert parts(settings) == []
    assert upload(tablet, survey.number, PICTURE).json()["whole"] is True


def test_what_is_no_photograph_is_refused_and_not_kept_lying_about(tablet, survey, settings):
    content = b"not a picture at all"
    answer = put(tablet, survey.number, content, 0, len(content))
    assert (answer.status_code, answer.json()["error"]) == (422, "no photograph")
    assert parts(settings) == []
    assert not ArrivedPhotograph.objects.exists()


@pytest.mark.parametrize(
    ("headers", "status"),
    [
        ({"upload-offset": "-1"}, 400),
        ({"upload-offset": "a"}, 400),
        ({"upload-length": ""}, 400),
        ({"upload-length": "0"}, 400),
        ({"upload-length": str(MOST_BYTES + 1)}, 422),
        ({"upload-length": "50"}, 422),
    ],
)
def test_a_piece_that_cannot_be_placed_is_refused(tablet, survey, headers, status):
    answer = put(tablet, survey.number, PICTURE, 0, 100, **headers)
    assert answer.status_code == status
    assert answer.json()["words"]
    assert progress(tablet, survey.number)["have"] == 0


def test_a_piece_larger_than_any_is_not_read(tablet, survey):
    content = b"x" * (uploads.MOST_PIECE_BYTES + 1)
    assert put(tablet, survey.number, content, 0, len(content)).status_code == 413


def test_no_more_than_so_many_are_half_here(tablet, survey, monkeypatch):
    monkeypatch.setattr(uploads, "MOST_UNFINISHED", 1)
    put(tablet, survey.number, PICTURE, 0, 100)
    assert put(tablet, survey.number, picture("navy"), 0, 100).status_code == 503
    assert put(tablet, survey.number, PICTURE, 100, len(PICTURE)).json()["whole"] is True


def test_another_who_sends_the_same_file_finds_it_there(tablet, survey, office, logged_in):
    put(tablet, survey.number, PICTURE, 0, 100)
    assert put(logged_in(office), survey.number, PICTURE, 100, len(PICTURE)).json()["whole"] is True
    assert put(tablet, survey.number, PICTURE, 100, 200).json()["whole"] is True
    assert ArrivedPhotograph.objects.count() == 1


def test_one_who_waited_while_another_finished_is_told_so(survey, surveyor, settings):
    sent, end = digest(PICTURE), len(PICTURE)
    uploads.add_piece(survey, sent, uploads.Piece(0, end, PICTURE), by=surveyor)
    late = uploads._in_step_after_all(survey, sent, 0)
    assert late.whole
    assert parts(settings) == []


def test_halves_are_forgotten_after_a_fortnight_untouched(tablet, survey, settings):
    put(tablet, survey.number, PICTURE, 0, 100)
    (part,) = parts(settings)
    run_due(timezone.now() + timedelta(days=13))
    assert part.exists()
    long_ago = (timezone.now() - timedelta(days=15)).timestamp()
    os.utime(part, (long_ago, long_ago))
    run_due(timezone.now())
    assert not part.exists()
    assert progress(tablet, survey.number) == {"have": 0, "whole": False}


def test_a_photograph_copied_with_its_survey_need_not_be_sent_again(tablet, survey, surveyor):
    upload(tablet, survey.number, PICTURE)
    words = {"digest": digest(PICTURE), "shows": "Hatch", "hazard": "", "left_mm": None, "front_mm": None}
    send(tablet, survey.number, envelope("photograph", **words))
    copy = copy_survey(survey, by=surveyor, visited_on=survey.visited_on)
    assert progress(tablet, copy.number)["whole"] is True
    send(tablet, copy.number, envelope("photograph", **{**words, "shows": "The same hatch"}))
    assert [each.shows for each in Photograph.objects.all()] == ["Hatch", "The same hatch"]


def test_only_those_who_may_send_or_ask(crew, logged_in, client, survey):
    for browser, status in ((client, 401), (logged_in(crew), 403)):
        assert put(browser, survey.number, PICTURE, 0, 100).status_code == status
        address = f"/surveys/{survey.number}/photographs/{digest(PICTURE)}/"
        assert browser.get(address).status_code == status


def test_an_address_without_a_digest_is_nobodys(tablet, survey):
    assert tablet.get(f"/surveys/{survey.number}/photographs/..%2fsecret/").status_code == 404
    assert tablet.get(f"/surveys/{survey.number}/photographs/{'A' * 64}/").status_code == 404
    assert tablet.get(f"/surveys/S-1999-0001/photographs/{'a' * 64}/").json()["error"] == "no such survey"
