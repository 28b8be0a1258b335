"""Centres of uneven joists one after another. What a loft's centres are is common practice, no source."""

from __future__ import annotations

import pytest
from django import forms
from hypothesis import given
from hypothesis import strategies as st

from jobs.surveys.as_measured import survey_as_measured
from jobs.surveys.typed.centres import CentresField, lines_from
from jobs.surveys.typed.lengths import read_bare_numbers_in
from tests.jobs.surveys.lofts import CUT_ROOF, changed
from tests.jobs.surveys.typed.centre_cases import READ, REFUSED


def read(text: str, unit: str = "mm") -> tuple[int, ...]:
    field = CentresField(label="Centres")
    field.read_bare_numbers_in(unit)
    return field.clean(text)


@pytest.mark.parametrize(("text", "unit", "spacings"), READ)
def test_centres_are_read_one_after_another(text, unit, spacings):
    assert read(text, unit) == spacings


@pytest.mark.parametrize(("text", "unit"), REFUSED)
def test_what_could_be_two_lists_or_none_is_refused(text, unit):
    with pytest.raises(forms.ValidationError):
        read(text, unit)


@given(st.lists(st.integers(100, 1500), min_size=1, max_size=40))
def test_what_the_drawing_writes_is_read_back(spacings):
    assert read(", ".join(f"{mm} mm" for mm in spacings)) == tuple(spacings)
    assert read("\n".join(f"{mm} mm x 2" for mm in spacings), "ft") == tuple(
        mm for mm in spacings for _ in range(2)
    )


@given(st.integers(1, 2000), st.integers(1, 2000), st.sampled_from(["mm", "cm", "m", "in", "ft"]))
def test_either_side_of_the_x_gives_one_meaning_or_none(one, other, unit):
    def meaning(text: str) -> tuple[int, ...] | None:
        try:
            return read(text, unit)
        except forms.ValidationError:
            return None

    assert meaning(f"{one} x {other}") == meaning(f"{other}x{one}")


def test_it_says_how_many_joists_and_how_far_the_last_one_lies():
    field = CentresField(label="Centres")
    field.clean("395 407 400 x 6")
    assert field.understood == "9 joists, 0 to 3\N{NO-BREAK SPACE}202\N{NO-BREAK SPACE}mm"


def test_lines_run_on_from_the_first_joist():
    assert lines_from(140, (395, 407)) == (140, 535, 942)


@pytest.mark.django_db
def test_a_field_told_by_centres_one_after_another_is_the_one_told_by_readings(survey):
    survey.answers = CUT_ROOF
    by_readings = survey_as_measured(survey).joist_fields
    listed = {"joists-0-readings": "", "joists-0-spacings": "395 407 388 422 386 407"}
    survey.answers = changed(CUT_ROOF, "plan", **listed)
    assert survey_as_measured(survey).joist_fields == by_readings


@pytest.mark.parametrize(
    ("more", "gap"),
    [
        ({"joists-0-first": ""}, ("joists-0-first", "is missing")),
        ({"joists-0-readings": "0 400"}, ("joists-0-readings", "give even centres, centres one after")),
        ({"joists-0-count": "9"}, ("joists-0-spacings", "give even centres, centres one after")),
        ({"joists-0-spacings": "400 x 400"}, ("joists-0-spacings", '"400x400" is not a centre')),
    ],
)
def test_what_a_list_of_centres_lacks_or_says_twice_is_told(more, gap):
    form = read_plan(
        {"joists-0-runs_along": "y", "joists-0-first": "140", "joists-0-spacings": "395", **more}
    )
    told = [(name, words) for name, words in form.gaps() if name.startswith("joists")]
    assert [name for name, _ in told] == [gap[0]]
    assert told[0][1].startswith(gap[1])


def read_plan(typed):
    from jobs.surveys.plan.form import PlanForm  # noqa: PLC0415 - the plan needs a site that is set up

    form = PlanForm(typed, length_unit="mm")
    form.is_valid()
    read_bare_numbers_in(form, "mm")
    return form
