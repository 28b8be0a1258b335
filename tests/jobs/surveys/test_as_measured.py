from __future__ import annotations

from datetime import date
from decimal import Decimal

import pytest

from estimating.choices import Part, RaiseWith
from estimating.price_book import Condition
from estimating.published.hazards import HAZARDS
from estimating.refusals import Refusal
from estimating.survey import Axis, RoofKind, Severity
from jobs.surveys.as_measured import (
    missing_for_price,
    requirement_in_words,
    survey_as_measured,
    wishes_as_choices,
)
from jobs.surveys.models import Clearance, Finding
from jobs.surveys.reading import place_of
from tests.jobs.surveys.lofts import BUNGALOW, CUT_ROOF, LOFTS, TRUSSED, changed

pytestmark = pytest.mark.django_db


def measured(survey, answers):
    survey.answers = answers
    return survey_as_measured(survey)


def refused(survey, answers) -> list[Refusal]:
    survey.answers = answers
    with pytest.raises(Refusal) as caught:
        survey_as_measured(survey)
    return list(caught.value.each)


def test_a_plain_trussed_loft_is_read_in_whole_millimetres(survey):
    loft = measured(survey, TRUSSED)
    assert loft.reference == survey.number
    assert loft.built_year == 1985
    assert loft.outline == ((0, 0), (8400, 0), (8400, 7600), (0, 7600))
    assert loft.roof.kind is RoofKind.TRUSSED
    assert loft.roof.span_mm == 7600
    assert loft.north_degrees == 90
    assert loft.joist_fields[0].outline == loft.outline
    assert loft.joist_fields[0].centre_lines_mm == tuple(range(300, 8101, 600))
    assert loft.hatch.outline == ((3730, 451), (4292, 451), (4292, 1177), (3730, 1177))
    assert loft.keep_outs[0].name == "tank"
    assert loft.zones[0].joist_field == "Ties"
    assert loft.insulation.depth_mm == 101
    assert loft.downlights == 2


def test_an_old_cut_roof_keeps_its_uneven_joists_from_the_first_one_given(survey):
    loft = measured(survey, CUT_ROOF)
    assert loft.joist_fields[0].centre_lines_mm == (140, 535, 942, 1330, 1752, 2138, 2545)
    assert (loft.joist_fields[0].depth_mm, loft.joist_fields[0].width_mm) == (102, 51)
    assert loft.roof.ridge_height_mm == 3099
    assert loft.roof.eaves_path_open is None
    assert loft.keep_outs[0].outline == ((4740, 2250), (5720, 2250), (5720, 2770), (4740, 2770))
    assert loft.hatch.clear_sides_mm == (762, 610)
    assert loft.zones[0].name == "Deck"


def test_an_l_shaped_bungalow_keeps_two_joist_fields_with_their_own_sizes(survey):
    loft = measured(survey, BUNGALOW)
    assert loft.outline == ((0, 0), (11000, 0), (11000, 6000), (6000, 6000), (6000, 9000), (0, 9000))
    main, wing = loft.joist_fields
    assert (main.runs_along, wing.runs_along) == (Axis.Y, Axis.X)
    assert (main.depth_mm, wing.depth_mm) == (97, 122)
    assert [zone.joist_field for zone in loft.zones] == ["main", "wing"]
    assert loft.hatch.lining_depth_mm == 0
    assert loft.insulation.depth_mm == 0


def test_edges_stay_unless_the_surveyor_lets_them_move(survey):
    assert measured(survey, TRUSSED).zones[0].edge_may_move_mm == 0
    allowed = measured(survey, changed(TRUSSED, "plan", **{"zones-0-edge_may_move": "5 cm"}))
    assert allowed.zones[0].edge_may_move_mm == 50


@pytest.mark.parametrize("name", LOFTS)
def test_nothing_is_missing_for_a_price_once_hazards_are_answered_too(survey, name):
    survey.answers = LOFTS[name]
    Finding.objects.bulk_create(
        Finding(survey=survey, hazard=hazard.key, seen="no", severity=hazard.severity) for hazard in HAZARDS
    )
    assert missing_for_price(survey) == []


def test_every_gap_is_told_by_section_and_label_in_the_order_of_the_visit(survey):
    missing = missing_for_price(survey)
    assert missing[0] == ("arrive", "Hatch clear opening, long side")
    assert ("hazards", "Suspected asbestos") in missing
    assert ("roof", "Joist depth") in missing
    assert ("plan", "Deck zone 1: from left gable") in missing
    sections = [section for section, _ in missing]
    assert sections == sorted(sections, key=sections.index)


def test_what_cannot_be_read_is_told_at_its_own_label(survey):
    (told,) = refused(survey, changed(TRUSSED, "roof", span="5.2"))
    place = place_of(told)
    assert (place.section, place.name) == ("roof", "span")
    assert requirement_in_words(told).endswith('"5.2" needs its unit: write 5.2 m, 5.2 cm or 5.2 mm')


@pytest.mark.parametrize(
    ("section", "answers", "label"),
    [
        ("roof", {"pitch_degrees": "95"}, "Pitch, degrees"),
        ("roof", {"span": "0"}, "Span of the roof, wall plate to wall plate"),
        ("roof", {"joist_depth": "0"}, "Joist depth"),
        ("plan", {"zones-0-left": "6 m"}, "Deck zone 1: corners, instead of four lengths"),
        ("plan", {"joists-0-count": "1"}, "Joist field 1: a tape reading at each joist, instead of centres"),
        ("plan", {"joists-0-tops": "0 -4"}, "Joist field 1: joist tops against joist 1, if they differ"),
        ("plan", {"keep_outs-0-length": "0"}, "Keep-out 1: corners, instead of four lengths"),
        ("plan", {"zones-0-joist_field": "attic"}, "Deck zone 1: over which joist field"),
        ("plan", {"zones-0-edge_may_move": "1 m"}, "Deck zone 1: each edge may move by"),
        ("arrive", {"floor_to_ceiling": "0"}, "Floor below to ceiling"),
    ],
)
def test_what_cannot_be_so_leads_back_to_where_it_was_typed(survey, section, answers, label):
    places = [place_of(each) for each in refused(survey, changed(TRUSSED, section, **answers))]
    assert (section, label) in [(place.section, place.label) for place in places]


def test_readings_after_a_first_joist_must_begin_at_its_centre(survey):
    (told,) = refused(survey, changed(CUT_ROOF, "plan", **{"joists-0-readings": "395 802"}))
    assert "begin at 0" in told.requirement


def test_joist_tops_are_read_against_joist_1(survey):
    tops = "0 -4 -6 3 0 0 -2"
    assert measured(survey, CUT_ROOF).joist_fields[0].top_offsets_mm == ()
    loft = measured(survey, changed(CUT_ROOF, "plan", **{"joists-0-tops": tops}))
    assert loft.joist_fields[0].top_offsets_mm == (0, -4, -6, 3, 0, 0, -2)


def test_a_finding_that_could_not_be_seen_is_a_caution_and_never_silence(survey):
    survey.answers = TRUSSED
    Finding.objects.create(
        survey=survey, hazard="asbestos", seen="not seen", severity="stop", words="Boxed in"
    )
    Finding.objects.create(survey=survey, hazard="bats", seen="no", severity="stop")
    (finding,) = survey_as_measured(survey).findings
    assert finding.severity is Severity.CAUTION
    assert finding.words == "Could not be seen. Boxed in"


def test_a_stop_holds_work_in_the_core_until_it_is_cleared(survey, office):
    survey.answers = TRUSSED
    stop = Finding.objects.create(
        survey=survey, hazard="wiring", seen="yes", severity="stop", words="Bare ends"
    )
    assert survey_as_measured(survey).findings[0].holds_work
    Clearance.objects.create(
        finding=stop, cleared_by="A. Sparrowhawk", qualification="registered electrician",
        document="report 12", dated=date(2026, 11, 20), recorded_by=office,
    )  # fmt: skip
    finding = survey_as_measured(survey).findings[0]
    assert not finding.holds_work
    assert "A. Sparrowhawk" in finding.clearance


def test_wishes_become_choices_with_the_firms_habits_for_what_was_not_said(survey, firm):
    survey.answers = TRUSSED
    choices = wishes_as_choices(survey, tax_point=date(2026, 11, 25))
    assert choices.parts == {Part.INSULATION, Part.LADDER, Part.LIGHT, Part.DOWNLIGHT_COVERS}
    assert choices.optional_parts == {Part.LADDER}
    assert (choices.lights, choices.gap_mm) == (2, 51)
    assert choices.target_u_w_m2k == Decimal("0.16")
    survey.answers = CUT_ROOF
    choices = wishes_as_choices(survey, tax_point=date(2026, 11, 25))
    assert choices.raise_with is RaiseWith.BATTENS
    assert choices.gap_mm == firm.gap_mm
    assert choices.conditions == {Condition.LONG_CARRY, Condition.OBSTRUCTED}
    assert Part.INSULATION in choices.parts
