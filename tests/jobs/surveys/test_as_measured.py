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
from jobs.surveys.progress import unmeasured
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
        ("arrive", {"clear_floor": "0"}, "Clear floor below the hatch"),
        ("arrive", {"headroom_above": "0"}, "Headroom above the hatch"),
        ("roof", {"joist_span": "0, 2.5 m"}, "Joist span between supports"),
        ("roof", {"joist_span": "5 m, 5 m"}, "Joist span between supports"),
        ("roof", {"binder_supports": "1"}, "How many of the supports between are binders"),
        ("roof", {"joist_bearing": "0"}, "Bearing of a joist on its support"),
        ("plan", {"joists-0-cuts": "15 notch 20, 600"}, "Joist field 1: notches, holes and cuts found"),
        ("plan", {"joists-0-cuts": "3 hole 0, 600"}, "Joist field 1: notches, holes and cuts found"),
        ("plan", {"keep_outs-0-litres": "0"}, "Keep-out 1: litres it holds"),
        ("plan", {"keep_outs-0-carried_by": "0"}, "Keep-out 1: how many trusses carry it"),
        ("insulation", {"areas": "12 8"}, "Areas that these depths stand for"),
        ("insulation", {"hidden_percent": "101"}, "Share hidden by boards or goods, per cent"),
        ("services", {"heating_fuel": "mains gas", "heating_efficiency": "5"}, "Efficiency, per cent"),
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


def test_what_the_checks_ask_for_is_read_when_it_is_there(survey):
    answers = changed(CUT_ROOF, "arrive", clear_floor="2 m", headroom_above="1.9 m")
    answers = changed(
        answers, "roof", eaves_opening="10 mm", ridge_opening="5 mm", joist_span="2.7 m 2.5 m",
        binder_supports="1", joist_bearing="4 in", joist_grade="C14",
    )  # fmt: skip
    cuts = "3 notch 20, 600\n4 cut through 1.2 m"
    tank = {"keep_outs-0-litres": "230", "keep_outs-0-carried_by": "3"}
    answers = changed(answers, "plan", **{"joists-0-cuts": cuts, **tank})
    answers = changed(answers, "insulation", areas="4 8 4", hidden_percent="20")
    answers = changed(answers, "services", heating_fuel="electricity", heating_efficiency="280")
    loft = measured(survey, answers)
    assert (loft.hatch.clear_floor_mm, loft.hatch.headroom_above_mm) == (2000, 1900)
    assert (loft.roof.eaves_opening_mm2_m, loft.roof.ridge_opening_mm2_m) == (10_000, 5_000)
    (field,) = loft.joist_fields
    assert (field.span_mm, field.spans_mm, field.binders) == (None, (2700, 2500), 1)
    assert (field.bearing_mm, field.grade) == (102, "C14")
    notch, cut = field.cuts
    assert (notch.joist, notch.kind, notch.depth_mm, notch.from_support_mm) == (3, "notch", 20, 600)
    assert (cut.kind, cut.depth_mm) == ("cut through", field.depth_mm)
    assert (loft.keep_outs[0].litres, loft.keep_outs[0].carried_by_trusses) == (230, 3)
    assert loft.insulation.areas_m2 == (4, 8, 4)
    assert loft.insulation.hidden_percent == 20
    assert (loft.heat_source.fuel, loft.heat_source.efficiency_percent) == ("electricity", 280)


def test_joists_of_another_span_here_bring_their_own_binders(survey):
    answers = changed(BUNGALOW, "roof", joist_span="2.7 m, 2.5 m", binder_supports="1")
    answers = changed(answers, "plan", **{"joists-1-joist_span": "2.2 m"})
    main, wing = measured(survey, answers).joist_fields
    assert (main.clear_spans_mm, main.binders) == ((2700, 2500), 1)
    assert (wing.clear_spans_mm, wing.binders) == ((2200,), 0)


def test_timber_without_a_stamp_has_no_class(survey):
    assert measured(survey, changed(TRUSSED, "roof", joist_grade="unmeasured")).joist_fields[0].grade is None


def test_heat_that_nobody_measured_takes_the_usual_efficiency_and_no_fuel_takes_none(survey):
    assert measured(survey, TRUSSED).heat_source is None
    oil = measured(survey, changed(TRUSSED, "services", heating_fuel="heating oil")).heat_source
    assert oil.efficiency_percent == 85


@pytest.mark.parametrize(
    ("postcode", "picked", "region"),
    [("S10 2AB", "", 11), ("s1 1aa", "", 11), ("SW1A 1AA", "", 1), ("WX4 7LR", "", None), ("", "", None),
     ("S10 2AB", "6", 6), ("WX4 7LR", "0", 0)],
)  # fmt: skip
def test_the_climate_follows_the_postcode_unless_the_surveyor_picks_another(survey, postcode, picked, region):
    survey.property.postcode = postcode
    assert measured(survey, changed(TRUSSED, "services", climate_region=picked)).climate_region == region


def test_what_the_checks_take_as_usual_is_told_and_a_price_does_not_wait_for_it(survey):
    survey.answers = TRUSSED
    told = {section.key: labels for section, labels in unmeasured(survey)}
    assert "Clear floor below the hatch" in told["arrive"]
    assert told["roof"] == ["Free opening at each eaves", "Free opening at the ridge"]
    assert told["insulation"] == ["Depths at five points"]
    survey.answers = changed(CUT_ROOF, "roof", joist_span="")
    told = {section.key: labels for section, labels in unmeasured(survey)}
    assert "Joist span between supports" in told["roof"]
    assert "Bearing of a joist on its support" in told["roof"]
    assert "Joist span between supports" not in [label for _, label in missing_for_price(survey)]


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
