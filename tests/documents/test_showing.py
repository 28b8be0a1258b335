"""A kept paper that is lost or changed is said to be so, wherever the office asks for it."""

from __future__ import annotations

import pytest
from django.urls import reverse

from jobs.documents.models import Paper
from jobs.documents.papers import keep_paper, paper_path

pytestmark = pytest.mark.django_db
PDF = b"%PDF-1.7 a paper"


@pytest.fixture
def address(offer, settings, tmp_path) -> str:
    settings.PAPERS_DIR = tmp_path
    offer.paper_sha256 = keep_paper(PDF, kind=Paper.Kind.QUOTE, title="Quote").sha256
    offer.save()
    return reverse("revision_paper", args=[offer.quote.number, offer.letter])


def test_a_paper_is_shown_for_one_persons_eyes(offer, address, office, logged_in):
    answer = logged_in(office).get(address)
    assert (answer.status_code, answer.content) == (200, PDF)
    assert answer.headers["Cache-Control"] == "private, no-store"
    assert answer.headers["Content-Disposition"] == f'inline; filename="{offer}.pdf"'


@pytest.mark.parametrize("lost", [True, False])
def test_one_that_is_lost_or_changed_is_said_to_be_so(offer, address, office, logged_in, lost):
    path = paper_path(offer.paper_sha256)
    if lost:
        path.unlink()
    else:
        path.write_bytes(b"%PDF-1.7 another")
    answer = logged_in(office).get(address)
    assert answer.status_code == 503
    words = "is missing" if lost else "was changed"
    assert f"{words}: restore it from a backup." in answer.content.decode()
