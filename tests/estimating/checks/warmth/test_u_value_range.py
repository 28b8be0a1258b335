"""The range about a U-value: it holds the figure, and what makes wool less certain makes it wider."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from estimating.checks.verdicts import Heat
from estimating.checks.warmth.heat_records import UValueRange
from estimating.choices import Part, RaiseWith
from estimating.estimate import estimate
from estimating.price_book import InsulationRoll
from estimating.survey import ExistingInsulation, InsulationMaterial, Survey
from tests.estimating.lofts import choices, cut_roof_loft, price_book, trussed_loft


def heat(survey: Survey, **chosen: object) -> Heat:
    return estimate(survey, price_book(), choices(**chosen)).checks.heat


def with_readings(*depths_mm: int, conductivity: str = "0.044") -> Survey:
    wool = ExistingInsulation(
        material=InsulationMaterial.MINERAL_WOOL,
        depth_readings_mm=depths_mm,
        conductivity_w_mk=Decimal(conductivity),
    )
    return trussed_loft(insulation=wool)


def ends(within: UValueRange) -> tuple[Decimal, Decimal]:
    return within.least.value, within.most.value


@given(
    depths=st.lists(st.integers(0, 400), min_size=1, max_size=6),
    conductivity=st.sampled_from(("0.032", "0.044", "0.065")),
    parts=st.sampled_from((frozenset(), frozenset({Part.INSULATION}))),
    raise_with=st.sampled_from(RaiseWith),
)
def test_every_range_holds_its_figure(depths, conductivity, parts, raise_with):
    found = heat(with_readings(*depths, conductivity=conductivity), parts=parts, raise_with=raise_with)
    assert found.ranges
    for name in ("as_found", "as_proposed", "squashed"):
        least, most = ends(getattr(found.ranges, name))
        assert least <= getattr(found, name).value <= most


def test_readings_further_apart_widen_the_ranges():
    near, far = heat(with_readings(95, 105)).ranges, heat(with_readings(60, 140)).ranges
    for name in ("as_found", "as_proposed", "squashed"):
        (least, most), (wide_least, wide_most) = ends(getattr(near, name)), ends(getattr(far, name))
        assert wide_least < least
        if name != "squashed":  # pressed without gain, wool is the same however deep it lay
            assert wide_most > most


def test_a_bare_ceiling_is_as_certain_as_its_boards():
    assert len(set(ends(heat(cut_roof_loft()).ranges.as_found))) == 1


def test_gaps_add_what_the_standard_says_of_their_level():
    """ISO 6946 Annex F as BR 443 (2019) 4.8.1 has it: level 1 adds 0.01 × (insulation / ceiling)²."""
    worked = estimate(cut_roof_loft(), price_book(), choices())
    rolls = {roll.code: roll for roll in price_book().of_kind(InsulationRoll)}
    laid = [rolls[layer.roll_code] for layer in worked.design.insulation.layers]
    insulation = sum(roll.thickness_mm / roll.conductivity_w_mk / 1000 for roll in laid)
    given = {each.name: each.value for each in worked.checks.heat.as_proposed.working.inputs}
    plasterboard = given["plasterboard"] / 1000 / Decimal(str(given["plasterboard conductivity"]))
    surfaces = sum(Decimal(str(given[f"{side} surface"])) for side in ("inside", "outside"))
    ceiling = insulation + plasterboard + surfaces + Decimal(str(given["roof space"]))
    added = worked.checks.heat.ranges.as_proposed.most.value - worked.checks.heat.as_proposed.value
    assert added == pytest.approx(Decimal("0.01") * (insulation / ceiling) ** 2, abs=Decimal("0.000002"))


def test_wool_that_gains_nothing_by_pressing_keeps_only_its_share_of_thickness():
    """Conductivity unchanged: by definition, resistance = thickness / conductivity."""
    survey = with_readings(270)
    squashed = heat(survey, parts=frozenset())
    joist_mm = survey.joist_fields[0].depth_mm
    as_thin = replace(survey.insulation, depth_readings_mm=(joist_mm,))
    pressed = squashed.ranges.squashed.most.value
    between_joists = heat(replace(survey, insulation=as_thin), parts=frozenset()).ranges.as_found.least.value
    assert abs(pressed - between_joists) < Decimal("0.0001")


def test_squashed_wool_is_never_told_better_than_it_was_tested():
    found = heat(cut_roof_loft())
    assert ends(found.ranges.squashed)[0] == found.squashed.value
