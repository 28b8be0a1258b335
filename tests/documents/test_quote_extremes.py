"""The quote's paper holds together at both ends of what a firm sends."""

from __future__ import annotations

import re
from itertools import pairwise

import pytest
from django.template.loader import render_to_string

from jobs.documents.quote import quote_context, quote_pdf
from tests.documents.extremes import EXTREMES, UNBROKEN, make_extreme
from tests.documents.reading import body, fonts, pages, read, tags

pytestmark = pytest.mark.django_db

LEAST_FILLED = 0.45
"""How far down a page must be filled at least, unless the drawing's own sheet comes after it."""


@pytest.mark.parametrize("name", EXTREMES)
def test_the_paper_holds_together_with(name, firm, survey, office):
    revision = make_extreme(name, survey, office)
    pdf, html = quote_pdf(revision), render_to_string("documents/quote.html", quote_context(revision))
    upright = [page for page in read(pdf).pages if page.mediabox.height > page.mediabox.width]
    words = pages(pdf)

    for number, page in enumerate(words, start=1):
        assert f"Page {number} of {len(words)}" in page
        assert f"quote {revision.quote.number}, revision A" in page
    filled = [body(page) for page in upright]
    assert all(page[-1].down > LEAST_FILLED for page in filled[:-1])
    headings = set(re.findall(r"<h[123]>(.*?)</h[123]>", html))
    assert len(headings) > 8
    assert [page[-1].words for page in filled if page[-1].words in headings] == []
    assert all("Source-Sans" in font for font in fonts(pdf))


def test_sums_stand_once_under_the_last_of_many_lines_and_the_heads_on_every_page(firm, survey, office):
    pdf = quote_pdf(make_extreme("sixty lines", survey, office))
    words = pages(pdf)
    assert sum(page.count("Sum without VAT") for page in words) == 1
    headed = [page for page in words if "Part VAT rate Without VAT" in page]
    assert len(headed) > 3
    assert "Sum without VAT" in headed[-1]
    with_lines = [page for page in words if "crawling boards" not in page and "Visit: protecting" in page]
    assert set(with_lines) <= set(headed)


def test_no_row_of_a_table_is_parted_between_two_pages(firm, survey, office):
    """Every row of prices has its amount on the page of its name: both are there or neither is."""
    pdf = quote_pdf(make_extreme("sixty lines", survey, office))
    for page in read(pdf).pages:
        names = [each for each in body(page) if each.words.startswith("Visit: protecting the house")]
        amounts = [each for each in body(page) if each.words == "£123.21"]
        assert len(names) == len(amounts)


def test_a_name_that_cannot_break_is_there_whole(firm, survey, office):
    pdf = quote_pdf(make_extreme("long names", survey, office))
    first = pages(pdf)[0]
    assert UNBROKEN in first
    assert "Ŵyn-Llŷr" in first


def test_a_paper_in_the_firms_dress_says_who_the_firm_is_and_where_to_pay(firm, survey, office):
    pdf = quote_pdf(make_extreme("one line", survey, office))
    words = pages(pdf)
    assert "is registered in England and Wales, number 00000000." in words[0]
    assert "Registered office: 2 Sawpit Lane, Ambleford." in words[0]
    whole = " ".join(words)
    for told in (
        "Where to pay",
        "00-00-00",
        "Our insurance",
        "An invented insurer",
        "Thank you for asking us",
    ):
        assert told in whole
    assert "Logo of Quillfeather Lofts" in [tag.alternative for tag in tags(pdf)]


# ISO 14289-1 (PDF/UA-1), 7.3 figures have alternatives, 7.4 headings in order, 7.5 cells have headers.
def test_the_tree_of_tags_can_be_read_without_eyes(firm, survey, office):
    pdf = quote_pdf(make_extreme("many options", survey, office))
    found, root = list(tags(pdf)), read(pdf).trailer["/Root"]
    assert root["/MarkInfo"]["/Marked"]
    assert root["/ViewerPreferences"]["/DisplayDocTitle"]
    assert b"pdfuaid:part" in root["/Metadata"].get_data()
    figures = [tag for tag in found if tag.role == "/Figure"]
    assert len(figures) == 3
    assert all(figure.alternative for figure in figures)
    levels = [int(tag.role[2:]) for tag in found if tag.role in {"/H1", "/H2", "/H3", "/H4"}]
    assert levels[0] == 1
    assert levels.count(1) == 1
    assert all(after - before <= 1 for before, after in pairwise(levels))
    heads = {str(tag.element["/ID"]) for tag in found if tag.role == "/TH"}
    cells = [tag for tag in found if tag.role == "/TD"]
    assert cells
    assert all(cell.headers and set(cell.headers) <= heads for cell in cells)
