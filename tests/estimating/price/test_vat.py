from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from decimal import Decimal
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from estimating.nations import Nation
from estimating.price.vat import (
    ANCILLARY_HATCH_CAUTION,
    CONFIRM,
    SINGLE_SUPPLY_CAUTION,
    VatRate,
    rate_changes_between,
    vat_rate,
)
from estimating.published.vat_rates import VAT_RATES, DatedRate, VatRates
from estimating.refusals import Refusal
from estimating.ways_to_price import SupplyMode, VatClass

FITTED = SupplyMode.SUPPLY_AND_INSTALL_RESIDENTIAL
LAST_DAY_AT_NIL = date(2027, 3, 31)


def insulation_on(day: date, nation: Nation = Nation.ENGLAND, mode: SupplyMode = FITTED) -> VatRate:
    return vat_rate(VatClass.ENERGY_SAVING, nation=nation, tax_point=day, mode=mode)


@pytest.mark.parametrize("nation", list(Nation))
def test_fitted_insulation_goes_from_nil_to_five_per_cent_overnight(nation: Nation) -> None:
    assert insulation_on(LAST_DAY_AT_NIL, nation).percent == 0
    assert insulation_on(LAST_DAY_AT_NIL + timedelta(1), nation).percent == 5


def test_relief_came_to_northern_ireland_a_year_after_great_britain() -> None:
    assert insulation_on(date(2022, 4, 1), Nation.WALES).percent == 0
    assert insulation_on(date(2022, 4, 1), Nation.NORTHERN_IRELAND).percent == 5
    assert insulation_on(date(2023, 4, 30), Nation.NORTHERN_IRELAND).percent == 5
    assert insulation_on(date(2023, 5, 1), Nation.NORTHERN_IRELAND).percent == 0


def test_rate_says_how_long_it_holds() -> None:
    rate = insulation_on(date(2026, 11, 25))
    assert rate.valid_to == LAST_DAY_AT_NIL
    assert rate.source.endswith("checked on 25 November 2026")
    assert "until 31 March 2027" in rate.reason
    assert insulation_on(date(2027, 4, 1)).valid_to is None


@pytest.mark.parametrize(
    ("mode", "percent"),
    [
        (SupplyMode.SUPPLY_AND_INSTALL_RESIDENTIAL, 0),
        (SupplyMode.INSTALL_ONLY_CUSTOMER_MATERIALS_RESIDENTIAL, 0),
        (SupplyMode.SUPPLY_ONLY, 20),
        (SupplyMode.NOT_RESIDENTIAL, 20),
    ],
)
def test_relief_is_for_fitting_in_homes_only(mode: SupplyMode, percent: int) -> None:
    assert insulation_on(date(2026, 11, 25), mode=mode).percent == percent


def test_former_reduced_rate_names_its_condition() -> None:
    assert "60 % test" in insulation_on(date(2020, 6, 1)).reason
    assert "60 % test" not in insulation_on(date(2027, 6, 1)).reason


@pytest.mark.parametrize("mode", list(SupplyMode))
@pytest.mark.parametrize("nation", list(Nation))
def test_deck_takes_the_standard_rate_everywhere(nation: Nation, mode: SupplyMode) -> None:
    rate = vat_rate(VatClass.STANDARD, nation=nation, tax_point=date(2026, 11, 25), mode=mode)
    assert rate.percent == 20


def test_unregistered_firm_charges_none() -> None:
    rate = vat_rate(
        VatClass.STANDARD,
        nation=Nation.ENGLAND,
        tax_point=date(2026, 11, 25),
        mode=FITTED,
        registered=False,
    )
    assert rate.percent == 0
    assert "not registered" in rate.reason


@given(
    vat_class=st.sampled_from(VatClass),
    nation=st.sampled_from(Nation),
    mode=st.sampled_from(SupplyMode),
    day=st.dates(date(2019, 10, 1), date(2060, 1, 1)),
    registered=st.booleans(),
)
def test_every_rate_says_why_whence_and_to_ask_the_accountant(
    vat_class: VatClass, nation: Nation, mode: SupplyMode, day: date, registered: bool
) -> None:
    rate = vat_rate(vat_class, nation=nation, tax_point=day, mode=mode, registered=registered)
    assert rate.reason.endswith(CONFIRM)
    assert len(rate.reason) > len(CONFIRM) + 20
    assert rate.source
    assert rate.valid_to is None or rate.valid_to >= day


def test_every_caution_sends_the_firm_to_its_accountant() -> None:
    assert SINGLE_SUPPLY_CAUTION.endswith(CONFIRM)
    assert ANCILLARY_HATCH_CAUTION.endswith(CONFIRM)


def test_day_before_the_first_row_is_refused_not_guessed() -> None:
    with pytest.raises(Refusal, match="1 October 2019 or later") as refused:
        insulation_on(date(2019, 9, 30))
    assert refused.value.field == "tax_point"


def test_day_in_a_gap_of_the_firms_own_rates_is_refused() -> None:
    ended = DatedRate(
        nations=frozenset({Nation.WALES}),
        valid_from=date(2020, 1, 1),
        valid_to=date(2020, 12, 31),
        percent=Decimal(20),
        source="invented",
    )
    rates = VatRates(checked_on=date(2020, 1, 1), standard=(ended,), energy_saving_fitted_in_homes=())
    for nation, day in ((Nation.WALES, date(2021, 1, 1)), (Nation.SCOTLAND, date(2020, 6, 1))):
        with pytest.raises(Refusal):
            vat_rate(VatClass.STANDARD, nation=nation, tax_point=day, mode=FITTED, rates=rates)


@pytest.mark.parametrize("nation", list(Nation))
def test_published_rows_leave_no_gap_and_never_overlap(nation: Nation) -> None:
    for table in (VAT_RATES.standard, VAT_RATES.energy_saving_fitted_in_homes):
        held = sorted((row for row in table if nation in row.nations), key=lambda row: row.valid_from)
        assert held[-1].valid_to is None
        for before, after in pairwise(held):
            assert before.valid_to is not None
            assert after.valid_from - before.valid_to == timedelta(1)


def test_quote_open_past_the_change_is_told_of_it() -> None:
    changes = rate_changes_between(date(2027, 3, 20), date(2027, 4, 19), Nation.SCOTLAND)
    assert [(c.vat_class, c.on, c.before_percent, c.after_percent) for c in changes] == [
        (VatClass.ENERGY_SAVING, date(2027, 4, 1), Decimal(0), Decimal(5))
    ]


@pytest.mark.parametrize(
    ("first", "last"),
    [
        (date(2027, 3, 1), date(2027, 3, 31)),  # ends on the last day of the old rate
        (date(2027, 4, 1), date(2027, 4, 30)),  # was quoted at the new rate
    ],
)
def test_quote_wholly_under_one_rate_is_told_of_none(first: date, last: date) -> None:
    assert rate_changes_between(first, last, Nation.ENGLAND) == ()


def test_change_is_told_on_its_very_day() -> None:
    assert len(rate_changes_between(date(2027, 3, 31), date(2027, 4, 1), Nation.ENGLAND)) == 1


def test_rate_that_is_renewed_unchanged_is_no_change() -> None:
    renewed = tuple(
        replace(VAT_RATES.standard[0], valid_from=date(year, 1, 1), valid_to=date(year, 12, 31))
        for year in (2026, 2027)
    )
    rates = replace(VAT_RATES, standard=renewed, energy_saving_fitted_in_homes=())
    assert rate_changes_between(date(2026, 6, 1), date(2027, 6, 1), Nation.ENGLAND, rates=rates) == ()


def test_span_that_ends_before_it_begins_is_refused() -> None:
    with pytest.raises(Refusal, match="must not be before 2 January 2027"):
        rate_changes_between(date(2027, 1, 2), date(2027, 1, 1), Nation.ENGLAND)


@given(
    nation=st.sampled_from(Nation), days=st.lists(st.dates(date(2019, 10, 1), date(2030, 1, 1)), min_size=2)
)
def test_no_change_between_two_days_means_the_same_rate_on_both(nation: Nation, days: list[date]) -> None:
    first, last = min(days), max(days)
    if not rate_changes_between(first, last, nation):
        assert insulation_on(first, nation).percent == insulation_on(last, nation).percent
