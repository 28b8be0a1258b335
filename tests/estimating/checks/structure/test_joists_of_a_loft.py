"""What a survey's ceiling joists are said to carry, and what is said aloud because nobody measured it."""

from __future__ import annotations

import re
from dataclasses import replace
from decimal import Decimal
from typing import Any

import pytest

from estimating.checks.structure.joist_record import JoistCheck
from estimating.checks.verdicts import Checks, Verdict
from estimating.choices import RaiseWith
from estimating.estimate import Estimate, estimate
from estimating.json_forms import estimate_as_json, estimate_from_json
from estimating.price_book import Board, InsulationRoll, Pedestal, PriceBook
from estimating.refusals import Refusal
from estimating.survey import (
    DeckZone,
    ExistingInsulation,
    InsulationMaterial,
    JoistField,
    KeepOut,
    KeepOutKind,
    RoofKind,
    Severity,
    Survey,
    evenly_spaced,
)
from tests.estimating.lofts import choices, cut_roof_loft, price_book, rectangle, trussed_loft


def joists(**changes: Any) -> JoistField:
    """Joists of 50 × 100 mm at 400 mm that run 3.4 m, all measured."""
    field = JoistField(
        name="ceiling",
        outline=rectangle(0, 0, 7000, 3600),
        runs_along=cut_roof_loft().joist_fields[0].runs_along,
        centre_lines_mm=evenly_spaced(first_mm=200, centres_mm=400, count=9),
        depth_mm=170,
        width_mm=47,
        span_mm=3400,
        grade="C16",
        bearing_mm=50,
    )
    return replace(field, **changes)


def loft(**changes: Any) -> Survey:
    survey = cut_roof_loft(
        outline=rectangle(0, 0, 7000, 3600),
        joist_fields=(joists(**changes),),
        zones=(DeckZone(name="A", outline=rectangle(500, 200, 3500, 3400), joist_field="ceiling"),),
        hatch=replace(cut_roof_loft().hatch, outline=rectangle(4000, 1300, 4600, 2000)),
        keep_outs=(),
        built_year=1985,
    )
    return survey


def worked(survey: Survey, book: PriceBook | None = None, **chosen: Any) -> Estimate:
    return estimate(survey, book or price_book(), choices(**chosen))


def checked(survey: Survey, **chosen: Any) -> JoistCheck:
    (check,) = worked(survey, **chosen).checks.joists
    return check


def said(checks: Checks) -> list[Verdict]:
    return [verdict for verdict in checks.verdicts if verdict.subject == "ceiling joists"]


def words(survey: Survey, **chosen: Any) -> str:
    return said(worked(survey, **chosen).checks)[0].words


def number(check: JoistCheck, name: str) -> Decimal:
    return next(figure.value for figure in check.leading_up if figure.name == name)


def test_joists_that_carry_it_all_are_a_note_that_says_what_they_carry() -> None:
    (verdict,) = said(worked(loft()).checks)
    assert verdict.severity is Severity.NOTE
    assert "within the limits of Eurocode 5" in verdict.words
    assert "the deck, a person and 25 kg of light storage on each square metre" in verdict.words
    assert "Deflection, how far they sag in time, governs" in verdict.words
    assert "as measured and no survey of their condition" in verdict.words


def test_never_more_than_light_storage_is_claimed_without_asking() -> None:
    """25 kg/m²: BS 6399-3:1988, secondary."""
    survey = loft(depth_mm=220, grade="C24")
    found = words(survey)
    left = checked(survey).storage_kg_m2
    assert left is not None
    assert left.value > 25
    assert "a person and 25 kg of light storage" in found
    assert f"{left.value} kg would be carried; ask a structural engineer before more than 25 kg" in found


def test_joists_that_carry_less_are_a_caution_that_says_how_little() -> None:
    survey = loft(depth_mm=154)
    (verdict,) = said(worked(survey).checks)
    left = checked(survey).storage_kg_m2
    assert left is not None
    assert 0 < left.value < 25
    assert left.value % 5 == 0
    assert verdict.severity is Severity.CAUTION
    assert f"a person and only {left.value} kg" in verdict.words
    assert "Ask a structural engineer before more is stored" in verdict.words


def test_joists_that_carry_a_person_and_nothing_stored_say_so() -> None:
    (verdict,) = said(worked(loft(depth_mm=147)).checks)
    assert verdict.severity is Severity.CAUTION
    assert "they carry the deck and a person, but nothing stored" in verdict.words


def test_shallow_joists_that_do_not_carry_the_deck_are_a_caution_to_ask_first() -> None:
    survey = loft(depth_mm=75)
    (verdict,) = said(worked(survey).checks)
    assert checked(survey).storage_kg_m2 is None
    assert verdict.severity is Severity.CAUTION
    assert "outside the limits of Eurocode 5 with the deck and a person on them" in verdict.words
    assert "Ask a structural engineer before any deck is laid" in verdict.words


def test_nothing_is_computed_as_if_a_tie_were_a_joist() -> None:
    checks = worked(trussed_loft()).checks
    assert checks.joists == ()
    assert said(checks) == []


@pytest.mark.parametrize(("built", "grade"), [(1969, "C14"), (1970, "C16"), (None, "C16")])
def test_an_unmeasured_grade_is_taken_by_the_year_and_said_aloud(built: int | None, grade: str) -> None:
    """Common practice, no source: C16, or C14 before 1970."""
    survey = replace(loft(grade=None), built_year=built)
    assert f"timber as class {grade}" in words(survey)
    assert (
        checked(survey).bending.value == checked(replace(loft(grade=grade), built_year=built)).bending.value
    )


def test_an_unmeasured_span_is_the_whole_length_of_the_joists_and_said_aloud() -> None:
    survey = loft(span_mm=None)
    assert "the span as 7000 mm, the whole length of the joists" in words(survey)
    assert number(checked(survey), "span") == 7050


def test_an_unmeasured_bearing_is_50_mm_and_said_aloud() -> None:
    """Common practice, no source: half of a wall plate."""
    assert "50 mm of bearing at each support" in words(loft(bearing_mm=None))
    assert number(checked(loft(bearing_mm=75)), "span") == 3475


def test_what_was_measured_is_not_said_to_be_taken() -> None:
    assert "Not measured" not in words(loft())


def test_a_binder_is_looked_at_and_not_computed() -> None:
    found = said(worked(loft(span_mm=None, spans_mm=(3200, 3400), binders=1)).checks)
    assert [verdict.severity for verdict in found] == [Severity.CAUTION, Severity.NOTE]
    assert "rely on a binder between their walls. Look at every hanger" in found[0].words


def test_joists_over_a_wall_sag_less_than_the_longer_span_alone() -> None:
    through = checked(loft(span_mm=None, spans_mm=(3200, 3400)))
    assert through.final_mm.value < checked(loft(span_mm=3400)).final_mm.value
    moment = next(figure for figure in through.leading_up if figure.name == "bending moment")
    assert "along a joist over 3 supports by the three-moment equation" in moment.working.formula
    assert "every joist as one length that runs on over the supports" in " ".join(through.taken)


def test_the_widest_strip_governs_where_joists_lie_unevenly() -> None:
    """Statics: half of the bay at either side. 400 and 550 mm make 475."""
    uneven = loft(centre_lines_mm=(200, 600, 1000, 1400, 1950, 2400, 2800, 3200))
    assert number(checked(uneven), "storage along the joist") == Decimal("0.1250")  # 0.25 × (450 + 550) / 2
    assert checked(uneven).deflection.value > checked(loft()).deflection.value


def test_joists_that_carry_for_others_carry_more() -> None:
    """Statics: with every second joist left out each of the others carries twice the deck and storage."""
    close = evenly_spaced(first_mm=150, centres_mm=300, count=12)
    every = checked(loft(centre_lines_mm=close))
    fewer = checked(loft(centre_lines_mm=close), fewer_joists=True)
    storage = "storage along the joist"
    assert number(fewer, storage) >= Decimal("1.5") * number(every, storage)
    assert fewer.deflection.value > every.deflection.value


def test_few_joists_share_nothing() -> None:
    """EN 1995-1-1 6.6: ksys 1.1 asks for four members at least."""
    zone = DeckZone(name="A", outline=rectangle(500, 500, 3500, 1500), joist_field="ceiling")
    few, many = checked(replace(loft(), zones=(zone,))), checked(loft())
    assert _given(few, "moment that the joist takes", "ksys") == 1
    assert _given(many, "moment that the joist takes", "ksys") == 1.1


def _given(check: JoistCheck, figure: str, name: str) -> object:
    found = next(each for each in check.leading_up if each.name == figure)
    return next(given.value for given in found.working.inputs if given.name == name)


def test_the_joists_of_each_field_are_checked_under_the_zone_where_they_do_worst() -> None:
    """Under zone B the joists lie wider apart."""
    lines = (200, 600, 1000, 1400, 1800, 2400, 3000, 3500)
    zones = (
        DeckZone(name="A", outline=rectangle(500, 0, 3000, 1700), joist_field="ceiling"),
        DeckZone(name="B", outline=rectangle(500, 1700, 3000, 3600), joist_field="ceiling"),
    )
    check = checked(replace(loft(centre_lines_mm=lines), zones=zones))
    assert check.zone == "B"


def test_a_tank_over_the_joists_is_said_not_to_be_counted() -> None:
    tank = KeepOut(name="tank", kind=KeepOutKind.TANK, outline=rectangle(5500, 1000, 6200, 1700))
    assert "The tank over them is not counted" in words(replace(loft(), keep_outs=(tank,)))
    assert "tank" not in words(loft())


def test_old_ceilings_may_be_of_lath_and_plaster() -> None:
    assert "lath and plaster" in words(replace(loft(), built_year=1908))
    assert "lath and plaster" not in words(loft())


def test_a_price_book_without_weights_is_filled_with_densities() -> None:
    """TRADA Table A2.1: chipboard 750, mineral wool 20 kg/m³; a pedestal 0.5 kg, common practice."""
    book = price_book()
    bare = tuple(
        replace(each, weight_kg=Decimal(0)) if isinstance(each, Board | InsulationRoll | Pedestal) else each
        for each in book.products
    )
    check = worked(loft(), replace(book, products=bare), board_code="B22").checks.joists[0]
    assert number(check, "boards") == Decimal("0.1619")  # 22 mm × 750 kg/m³ × 9.81 / 10⁶
    assert 0 < number(check, "insulation added") < Decimal("0.1")
    assert number(check, "pedestals") > 0


def test_boards_weigh_what_the_price_book_says() -> None:
    check = checked(loft(), board_code="B22")
    assert number(check, "boards") == Decimal("0.1458")  # 21.4 kg on 2.4 m × 0.6 m


def test_insulation_found_is_weighed_where_it_stays() -> None:
    wool = ExistingInsulation(material=InsulationMaterial.MINERAL_WOOL, depth_readings_mm=(100,))
    there = checked(replace(loft(), insulation=wool))
    assert number(there, "insulation found") == Decimal("0.0196")  # 0.1 m × 20 kg/m³ × 9.81
    gone = checked(replace(loft(), insulation=replace(wool, stays=False)))
    assert number(gone, "insulation found") == 0


def test_a_deck_on_battens_is_checked_as_well() -> None:
    check = checked(loft(), raise_with=RaiseWith.BATTENS)
    assert number(check, "battens") > 0
    assert check.storage_kg_m2 is not None


def test_a_frozen_check_reads_back_as_it_was() -> None:
    made = worked(loft(span_mm=None, spans_mm=(3200, 3400), binders=1, grade=None))
    assert estimate_from_json(estimate_as_json(made)).checks.joists == made.checks.joists


def test_nothing_is_ever_called_safe() -> None:
    for survey in (loft(), loft(depth_mm=147), loft(depth_mm=75)):
        assert not re.search(r"\bsafe", " ".join(verdict.words for verdict in said(worked(survey).checks)))


def test_deeper_joists_never_carry_less() -> None:
    left = [checked(loft(depth_mm=depth)).storage_kg_m2 for depth in (97, 122, 147, 170, 195, 220)]
    kilograms = [-1 if each is None else each.value for each in left]
    assert kilograms == sorted(kilograms)


def test_a_span_longer_than_the_loft_is_refused_by_name() -> None:
    with pytest.raises(Refusal, match=r"joist_fields\[0\].span_mm: must not be more than the loft, 7000 mm"):
        loft(span_mm=7001)


def test_a_trussed_roof_over_the_same_joists_is_left_to_the_truss_designer() -> None:
    survey = loft()
    trussed = replace(survey, roof=replace(survey.roof, kind=RoofKind.TRUSSED))
    assert worked(trussed).checks.joists == ()


def test_a_narrow_joist_whose_top_nothing_holds_may_roll() -> None:
    """EN 1995-1-1 6.3.3: held at every pedestal it does not, free from the deck's edge to the wall it may."""
    whole = DeckZone(name="A", outline=rectangle(0, 200, 7000, 3400), joist_field="ceiling")
    held = checked(replace(loft(depth_mm=195), zones=(whole,)))
    free = checked(loft(depth_mm=195))
    assert number(held, "kcrit") == 1
    assert number(free, "kcrit") < 1
