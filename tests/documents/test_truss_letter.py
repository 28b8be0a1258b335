from __future__ import annotations

import pytest

from jobs.documents.truss_letter import NotTrussed, truss_letter_context, truss_letter_pdf
from tests.documents.reading import pages, read, roles
from tests.jobs.offers import make_offer, worked_loft

pytestmark = pytest.mark.django_db


@pytest.fixture
def pdf(offer) -> bytes:
    return truss_letter_pdf(offer, made_by="Bram Tollkeeper")


def test_every_line_stands_in_the_letter_with_where_it_came_from(pdf, offer):
    words = "".join("".join(pages(pdf)).split())
    for _, lines in truss_letter_context(offer, made_by="")["parts"]:
        for line in lines:
            for each in (line.label[1:], line.value):
                assert "".join(each.split()) in words, line.label


def test_the_letter_asks_and_promises_that_nothing_is_laid_before_the_answer(pdf):
    words = " ".join(pages(pdf))
    assert "To the designer of the trussed rafters" in words
    assert "tell us in writing" in words
    assert "Nothing is laid on the ties before we have your answer." in words
    assert "will cut, notch or drill no truss" in words


def test_the_letter_says_who_asks_and_about_which_house(pdf, offer):
    first = pages(pdf)[0]
    assert "Quillfeather Lofts" in first
    assert offer.quote.property.address in first
    assert "Bram Tollkeeper" in " ".join(pages(pdf))
    assert read(pdf).metadata.title == (
        f"Letter to the truss designer, quote {offer.quote.number}, revision A"
    )
    assert roles(pdf) >= {"/H1", "/H2", "/Table", "/TH"}


def test_a_cut_roof_has_no_letter(firm, survey, office):
    cut = make_offer(survey, office, worked=worked_loft("cut roof"))
    with pytest.raises(NotTrussed, match="no trussed rafters"):
        truss_letter_context(cut, made_by="")
