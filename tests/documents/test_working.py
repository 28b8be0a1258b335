from __future__ import annotations

import pytest

from estimating.working_in_steps import working_in_steps
from jobs.documents.working import working_context, working_pdf
from jobs.quotes.frozen import frozen_estimate
from tests.documents.reading import pages, read, roles

pytestmark = pytest.mark.django_db


@pytest.fixture
def pdf(offer) -> bytes:
    return working_pdf(offer, made_by="Bram Tollkeeper")


def test_every_figure_of_the_estimate_stands_on_the_paper(pdf, offer):
    words = " ".join(pages(pdf)).replace(" ", "")
    for step in working_in_steps(frozen_estimate(offer)):
        assert step.name.replace(" ", "") in words
        for figure in step.figures:
            assert (figure.name[:1].upper() + figure.name[1:]).replace(" ", "") in words, figure.name
            assert figure.shown.replace(" ", "") in words, figure.name


def test_a_figure_stands_with_its_numbers_its_inputs_and_its_source(pdf):
    words = " ".join(pages(pdf))
    assert "= 97 mm joist depth + 225 mm pedestal height − 270 mm finished insulation" in words
    assert "joist depth 97 mm, measured; pedestal height 225 mm, worked out" in words
    assert "Source: BS EN ISO 6946" in words


def test_the_steps_stand_in_the_order_of_the_work(offer):
    names = [step.name for step in working_context(offer, made_by="")["steps"]]
    assert names[0] == "Survey and design"
    assert names[-1] == "Price"


def test_the_paper_says_who_asked_for_it_and_for_whom_it_is(pdf, offer):
    paper = read(pdf)
    assert paper.metadata.title == f"Working of quote {offer.quote.number}, revision A"
    words = pages(pdf)
    assert all("for the office" in page for page in words)
    assert "Bram Tollkeeper" in words[0]
    assert roles(pdf) >= {"/H1", "/H2", "/H3"}
