"""The whole ceiling by area, what a year may spare, and what an energy assessor will see."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from estimating.amounts import registry
from estimating.checks.heat import CeilingChange, Heating, annual_saving, degree_days
from estimating.checks.heat.plain import degree_days_k
from estimating.checks.verdicts import Verdict
from estimating.checks.warmth.energy_rating import Seen, as_assessor_sees
from estimating.choices import Part
from estimating.estimate import Estimate, estimate
from estimating.published.postcode_regions import REGION_OF_AREA, lies_in_two_regions, region_of_area
from estimating.published.sap_climate import CLIMATE_REGIONS
from estimating.published.surface_resistances import VENTILATED_LOFT, RoofSpace
from estimating.refusals import Refusal
from estimating.survey import ExistingInsulation, HeatSource, InsulationMaterial, Survey
from tests.estimating.lofts import choices, cut_roof_loft, price_book, trussed_loft

GAS = HeatSource(fuel="mains gas", efficiency_percent=Decimal(90))


def worked(survey: Survey, **chosen: object) -> Estimate:
    return estimate(survey, price_book(), choices(**chosen))


def said(of: Estimate, subject: str) -> list[Verdict]:
    return [each for each in of.checks.verdicts if each.subject == subject]


def test_the_whole_ceiling_is_its_parts_weighed_by_their_areas() -> None:
    ceiling = worked(trussed_loft()).checks.heat.whole_ceiling
    assert ceiling is not None
    given_ = {each.name: each.value for each in ceiling.after.working.inputs}
    areas = {name: value for name, value in given_.items() if not name.startswith("U-value of ")}
    lost = sum(area * given_[f"U-value of {name}"] for name, area in areas.items())
    assert ceiling.after.value == pytest.approx(lost / sum(areas.values()), abs=Decimal("0.0001"))
    assert ceiling.area_m2.value == sum(areas.values())


def test_an_open_loft_left_alone_stays_as_it_was_found() -> None:
    with_open_loft = worked(trussed_loft()).checks.heat.whole_ceiling
    without = worked(trussed_loft(), insulate_open_loft=False).checks.heat.whole_ceiling
    assert with_open_loft is not None
    assert without is not None
    assert with_open_loft.after.value < without.after.value < without.before.value


def test_an_insulated_hatch_lets_less_heat_through_the_whole() -> None:
    parts = frozenset({Part.INSULATION, Part.DRAUGHT_STRIP})
    as_it_is = worked(trussed_loft(), parts=frozenset({Part.INSULATION})).checks.heat.whole_ceiling
    insulated = worked(trussed_loft(), parts=parts).checks.heat.whole_ceiling
    assert as_it_is is not None
    assert insulated is not None
    assert insulated.after.value < as_it_is.after.value


def test_a_top_up_saves_half_to_all_of_the_simple_figure() -> None:
    """Own definition of the shares; by hand: heat / efficiency, 6.5 pence, 0.210 kg/kWh of SAP 10.2."""
    saving = worked(trussed_loft(heat_source=GAS), energy_price_pence_kwh=Decimal("6.5")).checks.heat.saving
    assert saving is not None
    least, most = saving.fuel_kwh
    assert most.value == pytest.approx(float(saving.simple_heat_kwh.value) / 0.9, abs=5)
    assert least.value == pytest.approx(most.value / 2, abs=5)
    assert saving.carbon_kg is not None
    assert saving.carbon_kg[1].value == pytest.approx(most.value * 0.210, abs=1)
    assert saving.pounds is not None
    assert saving.pounds[1].value == pytest.approx(most.value * 0.065, abs=1)


def test_a_bare_loft_is_promised_less_of_the_simple_figure() -> None:
    saving = worked(cut_roof_loft(heat_source=GAS)).checks.heat.saving
    assert saving is not None
    assert saving.bare_before
    assert saving.fuel_kwh[1].value == pytest.approx(float(saving.simple_heat_kwh.value) * 0.7 / 0.9, abs=5)


def test_without_a_price_no_pounds_are_named_and_without_a_heat_source_no_carbon() -> None:
    saving = worked(trussed_loft()).checks.heat.saving
    assert saving is not None
    assert (saving.carbon_kg, saving.pounds, saving.fuel) == (None, None, "")
    [told] = said(worked(trussed_loft(heat_source=GAS)), "saving")
    assert "£" not in told.words
    assert "no promise" in told.words


def test_a_job_that_changes_no_insulation_says_that_it_saves_nothing() -> None:
    [told] = said(worked(trussed_loft(), parts=frozenset()), "saving")
    assert told.words == "This work changes no insulation and saves no heating."


def test_a_saving_of_insulation_that_may_be_left_says_so() -> None:
    optional = frozenset({Part.INSULATION})
    [told] = said(worked(trussed_loft(), parts=optional, optional_parts=optional), "saving")
    assert told.words.startswith("If the insulation is taken, a year may spare ")


def test_the_simple_figure_is_that_of_the_published_cases() -> None:
    """(U before − U after) × area × degree days × 24 / 1000: definition of the kind annual_saving."""
    heat = worked(trussed_loft()).checks.heat
    assert heat.saving is not None
    assert heat.whole_ceiling is not None
    ceiling, quantity = heat.whole_ceiling, registry().Quantity
    change = CeilingChange(
        area=quantity(float(ceiling.area_m2.value), "m**2"),
        u_before=quantity(float(ceiling.before.value), "W/m**2/K"),
        u_after=quantity(float(ceiling.after.value), "W/m**2/K"),
    )
    means = [quantity(mean, "degC") for mean in CLIMATE_REGIONS[0].monthly_means_c]
    heating = Heating(efficiency=1, co2_kg_kwh=Decimal(0), price_pence_kwh=Decimal(0))
    simple = annual_saving(change, degree_days(means, quantity(15.5, "degC")), heating)
    assert float(heat.saving.simple_heat_kwh.value) == pytest.approx(simple.fuel.m_as("kW*hour"), abs=0.6)


def test_each_u_value_is_reckoned_with_the_convention_that_its_verdict_names() -> None:
    """BS EN ISO 6946; BR 443 (2019) 4.7.3."""
    counted, left_out = (worked(trussed_loft(), roof_space=each) for each in RoofSpace)
    assert "Reckoned with roof space 0.20 and outside surface 0.04 m²K/W." in said(counted, "heat")[0].words
    assert left_out.checks.heat.convention == VENTILATED_LOFT.name
    assert left_out.checks.heat.as_found.value > counted.checks.heat.as_found.value
    assert left_out.checks.heat.squashed.value > counted.checks.heat.squashed.value


def test_a_region_with_more_degree_days_never_saves_less() -> None:
    spared = []
    for region, climate in CLIMATE_REGIONS.items():
        saving = worked(trussed_loft(climate_region=region)).checks.heat.saving
        assert saving is not None
        spared.append((degree_days_k(climate.monthly_means_c, 15.5), saving.simple_heat_kwh.value))
    heats = [heat for _, heat in sorted(spared)]
    assert heats == sorted(heats)


@given(st.floats(0, 100))
@settings(max_examples=40)
def test_an_assessor_sees_no_more_of_what_is_hidden_more(hidden: float) -> None:
    order = list(Seen)
    assert order.index(as_assessor_sees(hidden)) <= order.index(as_assessor_sees(min(100, hidden + 20)))


def test_an_assessor_takes_a_quarter_as_clear_and_three_quarters_as_split() -> None:
    """RdSAP convention 3.04, second hand."""
    seen = [as_assessor_sees(share) for share in (0, 25, 25.1, 75, 75.1, 100)]
    assert seen == [Seen.CLEAR, Seen.CLEAR, Seen.SPLIT, Seen.SPLIT, Seen.HIDDEN, Seen.HIDDEN]
    with pytest.raises(Refusal, match="hidden_percent: must be from 0 to 100 per cent"):
        as_assessor_sees(101)


def test_fewer_than_five_depths_are_a_caution() -> None:
    """Common practice, no source."""
    few = ExistingInsulation(material=InsulationMaterial.MINERAL_WOOL, depth_readings_mm=(100, 90))
    [told] = said(worked(replace(trussed_loft(), insulation=few)), "insulation")
    assert told.words.startswith("Only 2 depths of the insulation were read")
    assert said(worked(trussed_loft()), "insulation") == []


def test_every_postcode_area_lies_in_a_region_of_the_table() -> None:
    """SAP 10.2 Table U6, from memory."""
    assert set(REGION_OF_AREA.values()) <= set(CLIMATE_REGIONS)
    assert (region_of_area("ab"), region_of_area(" M "), region_of_area("ZZ")) == (16, 7, None)
    assert lies_in_two_regions("BA")
    assert not lies_in_two_regions("AB")
