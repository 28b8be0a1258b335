"""In which unit a survey's bare numbers are: the firm's on the day it was begun, and that one for good."""

from __future__ import annotations

from datetime import date

import pytest
from django.forms.models import model_to_dict
from django.urls import reverse

from estimating.lengths import in_words
from jobs.firm.length_units import LengthUnit
from jobs.firm.settings.forms import WorkingForm
from jobs.surveys.plan.proposed_zone import with_proposed_zone
from jobs.surveys.reading import read_section
from jobs.surveys.services import copy_survey, open_survey
from tests.jobs.surveys.lofts import TRUSSED

pytestmark = pytest.mark.django_db


def write_in(firm, unit: LengthUnit) -> None:
    firm.length_unit = unit
    firm.save()


def begin(building, surveyor):
    return open_survey(building, by=surveyor, visited_on=date(2026, 11, 18))


def ceiling_mm(survey, typed: str):
    form = read_section(survey, "arrive", {"floor_to_ceiling": typed})
    form.is_valid()
    return form.cleaned_data.get("floor_to_ceiling"), form.errors.get("floor_to_ceiling")


def test_a_survey_is_begun_in_the_firms_unit_and_keeps_it_when_the_firm_changes_its_mind(
    building, surveyor, firm
):
    assert ceiling_mm(begin(building, surveyor), "2400") == (2400, None)
    write_in(firm, LengthUnit.METRES)
    in_metres = begin(building, surveyor)
    assert ceiling_mm(in_metres, "2.4") == (2400, None)
    write_in(firm, LengthUnit.MILLIMETRES)
    in_metres.refresh_from_db()
    assert ceiling_mm(in_metres, "2.4") == (2400, None)


def test_a_copy_reads_its_numbers_as_the_survey_they_come_from(building, surveyor, firm):
    write_in(firm, LengthUnit.FEET)
    first = begin(building, surveyor)
    write_in(firm, LengthUnit.MILLIMETRES)
    copy = copy_survey(first, by=surveyor, visited_on=date(2026, 11, 20))
    assert copy.length_unit == LengthUnit.FEET
    assert ceiling_mm(copy, "8") == (2438, None)


def test_a_firm_may_have_every_bare_number_asked_about(building, surveyor, firm):
    write_in(firm, LengthUnit.ALWAYS_ASK)
    survey = begin(building, surveyor)
    read, errors = ceiling_mm(survey, "8")
    assert read is None
    assert errors == ['"8" needs its unit: write 8 m, 8 cm, 8 mm, 8 ft or 8 in']
    assert ceiling_mm(survey, "8 ft") == (2438, None)
    form = read_section(survey, "arrive", {})
    assert form.fields["floor_to_ceiling"].unit == "write the unit"


def test_rows_of_the_plan_read_by_the_same_unit(building, surveyor, firm):
    write_in(firm, LengthUnit.METRES)
    plan = read_section(
        begin(building, surveyor), "plan", {"zones-0-left": "1.2", "joists-0-readings": "0 0.4"}
    )
    assert plan.is_valid()
    assert plan.rows["zones"].forms[0].fields["left"].understood == in_words(1200)
    assert plan.rows["joists"].forms[0].cleaned_data["readings"] == (0, 400)
    assert plan.rows["zones"].empty_form.fields["left"].unit == "m unless you say"


def test_a_proposed_deck_is_written_with_its_unit_where_bare_numbers_are_not_millimetres(survey, firm):
    survey.answers = {section: dict(answers) for section, answers in TRUSSED.items()}
    plan = {name: text for name, text in survey.answers["plan"].items() if not name.startswith("zones-")}
    bare = with_proposed_zone(survey, plan).typed["zones-0-length"]
    in_mm = {
        section: {
            name: f"{text} mm" if text.isdecimal() and len(text) > 2 else text for name, text in told.items()
        }
        for section, told in survey.answers.items()
    }
    survey.length_unit, survey.answers = LengthUnit.ALWAYS_ASK, in_mm
    plan = {name: text for name, text in in_mm["plan"].items() if not name.startswith("zones-")}
    assert with_proposed_zone(survey, plan).typed["zones-0-length"] == f"{bare} mm"


def test_the_page_tells_its_own_reader_the_kind_and_the_unit(survey, surveyor, firm, logged_in):
    survey.length_unit = LengthUnit.METRES
    survey.save()
    page = logged_in(surveyor).get(reverse("survey_section", args=[survey.number, "plan"])).content.decode()
    assert 'data-length-unit="m"' in page
    assert 'data-reads="length" data-unit="m"' in page
    assert 'data-reads="corners" data-unit="m"' in page


def test_the_owner_chooses_the_unit_on_the_firms_screen(owner, firm, logged_in):
    client = logged_in(owner)
    assert "Unit of a length written without one" in client.get(reverse("firm_working")).content.decode()
    told = {name: value for name, value in model_to_dict(firm).items() if name in WorkingForm.Meta.fields}
    assert client.post(reverse("firm_working"), told | {"length_unit": "ft"}).status_code == 302
    firm.refresh_from_db()
    assert firm.length_unit == LengthUnit.FEET
    assert client.post(reverse("firm_working"), told | {"length_unit": "yards"}).status_code == 422
