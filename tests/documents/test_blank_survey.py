from __future__ import annotations

from collections.abc import Iterator
from functools import cache

import pytest
from django.forms import BoundField
from django.urls import reverse

from estimating.published.hazards import HAZARDS
from jobs.customers.models import Enquiry
from jobs.documents.blank_survey import blank_survey_context, blank_survey_pdf
from jobs.surveys.models import Survey
from jobs.surveys.photographs.wanted import PHOTOGRAPHS_WANTED
from jobs.surveys.plan.form import PlanForm
from jobs.surveys.reading import FORMS, read_section
from jobs.surveys.sections import SECTIONS
from tests.documents.reading import fonts, pages, read, roles
from tests.jobs.surveys.lofts import BUNGALOW

pytestmark = pytest.mark.django_db

MOST_PAGES = 6


blank_paper = cache(blank_survey_pdf)


@pytest.fixture
def blank(firm) -> bytes:
    return blank_paper()


@pytest.fixture
def begun(firm, survey) -> Survey:
    """A survey with some answers and one finding."""
    survey.answers = {section: dict(answers) for section, answers in BUNGALOW.items()}
    survey.save()
    survey.findings.create(hazard="wasps", seen="yes", severity="caution", words="Old nest by the vent")
    return survey


def closed_up(words: str) -> str:
    """Drop all space: a label in a narrow column is broken over lines."""
    return "".join(words.split())


def questions() -> Iterator[BoundField]:
    """Yield every question of every section, a row of the plan of each kind among them."""
    for form in (read_section(Survey(), section) for section in FORMS):
        rows = [row for table in form.rows.values() for row in table] if isinstance(form, PlanForm) else []
        for part in (form, *rows):
            yield from (field for group in part.grouped() for field in group.fields)


def test_every_question_of_every_section_is_asked_in_the_words_of_the_screen(blank):
    told = closed_up(" ".join(pages(blank)))
    for field in questions():
        assert closed_up(str(field.label)) in told, field.label


def test_every_hazard_is_asked_with_what_to_look_for(blank):
    told = closed_up(" ".join(pages(blank)))
    for hazard in HAZARDS:
        assert closed_up(hazard.title) in told
        assert closed_up(hazard.what_to_look_for) in told, hazard.title


def test_the_sections_stand_in_the_order_of_the_visit(blank):
    told = " ".join(pages(blank))
    at = [told.index(f"{number}. {section.title}") for number, section in enumerate(SECTIONS, start=1)]
    assert at == sorted(at)


def test_photographs_wanted_can_be_ticked_off(blank):
    last = pages(blank)[-1].lower()
    for words in PHOTOGRAPHS_WANTED:
        assert words in last


def test_there_are_rows_for_a_usual_loft(firm):
    plan = next(section for section in blank_survey_context()["sections"] if section["key"] == "plan")
    assert plan["joists"]["names"] == ["Joist field 1", "Joist field 2"]
    (tape,) = (tape for _, tape in plan["joists"]["groups"] if tape)
    assert sorted(joist for line in tape for joist in line) == list(range(1, 25))
    assert [len(table.rows) for table in plan["tables"]] == [8, 2]


def test_it_is_few_sheets_of_a4_and_says_how_it_is_drawn(blank):
    told = pages(blank)
    assert len(told) <= MOST_PAGES
    assert all(round(float(page.mediabox.width)) == 595 for page in read(blank).pages)
    for words in ("1 square = 250 mm", "left gable", "front eaves", "ring one", "for a price"):
        assert words in " ".join(told), words


def test_a_survey_begun_is_on_its_sheet_with_what_is_known(begun):
    paper = blank_survey_pdf(begun)
    told = " ".join(pages(paper))
    assert read(paper).metadata.title == f"Survey sheet {begun.number}"
    for words in ("Odile Pemberwick", "14 Larkfield Rise", "0161 496 0137", "18 November 2026",
                  "Old nest by the vent", BUNGALOW["arrive"]["hatch_long"]):  # fmt: skip
        assert words in told, words
    assert len(pages(paper)) <= MOST_PAGES


def test_the_paper_is_tagged_and_carries_its_fonts(blank):
    assert read(blank).trailer["/Root"]["/Lang"] == "en-GB"
    assert roles(blank) >= {"/H1", "/H2", "/H3", "/Table", "/TH", "/TD", "/Figure", "/LI"}
    assert all(fonts(blank).values())


def test_no_paper_calls_anything_safe(blank):
    assert "safe" not in " ".join(pages(blank)).lower()


def test_the_sheet_is_one_link_away_from_surveys_survey_and_enquiry(begun, office, logged_in):
    enquiry = Enquiry.objects.create(
        property=begun.property, taken_by=office, wants="Boxes, and the train set"
    )
    browser = logged_in(office)
    addresses = {
        reverse("surveys"): "/surveys/blank-sheet.pdf",
        reverse("survey", args=[begun.number]): f"/surveys/{begun.number}/blank-sheet.pdf",
        reverse("enquiry", args=[enquiry.pk]): f"/surveys/blank-sheet.pdf?enquiry={enquiry.pk}",
    }
    for page, paper in addresses.items():
        assert f'href="{paper}"' in browser.get(page).content.decode()
    answer = browser.get(f"/surveys/blank-sheet.pdf?enquiry={enquiry.pk}")
    assert answer["Content-Type"] == "application/pdf"
    assert answer["Cache-Control"] == "private, no-store"
    assert "Boxes, and the train set" in pages(answer.content)[0]
    assert browser.get(f"/surveys/{begun.number}/blank-sheet.pdf").status_code == 200


def test_nobody_reads_a_sheet_without_a_log_in(begun, client):
    for address in ("/surveys/blank-sheet.pdf", f"/surveys/{begun.number}/blank-sheet.pdf"):
        assert client.get(address).status_code == 302
