"""The JSON forms: what is written can be read back, and all that is wrong is said at once."""

from __future__ import annotations

import json
import re
from dataclasses import replace
from datetime import date
from decimal import Decimal
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import estimating
from estimating.choices import Choices, Part, RaiseWith
from estimating.estimate import estimate
from estimating.json_forms import (
    choices_as_json,
    choices_from_json,
    estimate_as_json,
    estimate_from_json,
    price_book_as_json,
    price_book_from_json,
    price_from_json,
    survey_as_json,
    survey_from_json,
)
from estimating.json_schemas import form_schemas
from estimating.price_book import Condition
from estimating.refusals import Refusal
from estimating.survey import (
    ExistingInsulation,
    Finding,
    InsulationMaterial,
    KeepOut,
    KeepOutKind,
    Severity,
    Survey,
)
from tests.estimating.lofts import LOFTS, choices, price_book, rectangle, trussed_loft


def through_text(form: dict[str, Any]) -> Any:
    return json.loads(json.dumps(form))


def refusals(read: Any, form: object) -> dict[str, str]:
    with pytest.raises(Refusal) as refused:
        read(form)
    return {each.field: each.requirement for each in refused.value.each}


words = st.text(min_size=1, max_size=12).filter(lambda text: bool(text.strip()))
money = st.decimals(min_value="0.01", max_value="9999", places=2)
surveys = st.builds(
    trussed_loft,
    reference=words,
    visited_on=st.dates(min_value=date(2000, 1, 1), max_value=date(2100, 1, 1)),
    built_year=st.none() | st.integers(1600, 2026),
    residential=st.booleans(),
    plasterboard_mm=st.decimals(min_value="6", max_value="30", places=1),
    downlights=st.integers(0, 30),
    insulation=st.builds(
        ExistingInsulation,
        material=st.just(InsulationMaterial.MINERAL_WOOL),
        depth_readings_mm=st.lists(st.integers(0, 400), min_size=1, max_size=5).map(tuple),
        conductivity_w_mk=st.decimals(min_value="0.02", max_value="0.2", places=3),
        stays=st.booleans(),
    ),
    keep_outs=st.lists(
        st.builds(
            KeepOut,
            name=words,
            kind=st.sampled_from(KeepOutKind),
            outline=st.integers(0, 4000).map(lambda left: rectangle(left, 0, left + 500, 600)),
        ),
        max_size=3,
    ).map(tuple),
    findings=st.lists(
        st.builds(
            Finding,
            hazard=words,
            severity=st.sampled_from(Severity),
            words=words,
            clearance=st.none() | words,
        ),
        max_size=3,
    ).map(tuple),
)
parts = st.frozensets(st.sampled_from([part for part in Part if part not in (Part.VISIT, Part.DECK)]))
any_choices = parts.flatmap(
    lambda offered: st.builds(
        Choices,
        tax_point=st.dates(min_value=date(2020, 1, 1), max_value=date(2100, 1, 1)),
        raise_with=st.sampled_from(RaiseWith),
        board_code=st.none() | words,
        parts=st.just(offered),
        optional_parts=st.just(offered),
        target_u_w_m2k=st.decimals(min_value="0.05", max_value="1", places=2),
        gap_mm=st.integers(0, 300),
        conditions=st.frozensets(st.sampled_from(Condition)),
        miles=st.decimals(min_value=0, max_value=500, places=1),
        charge_codes=st.frozensets(words, max_size=3),
    )
)


@settings(max_examples=20, deadline=None)
@given(surveys)
def test_a_survey_comes_back_as_it_was_written(survey: Survey) -> None:
    assert survey_from_json(through_text(survey_as_json(survey))) == survey


@settings(max_examples=20, deadline=None)
@given(any_choices)
def test_choices_come_back_as_they_were_written(chosen: Choices) -> None:
    assert choices_from_json(through_text(choices_as_json(chosen))) == chosen


@settings(max_examples=20, deadline=None)
@given(st.lists(money, min_size=26, max_size=26), money)
def test_a_price_book_comes_back_as_it_was_written(costs: list[Decimal], hour: Decimal) -> None:
    usual = price_book()
    products = tuple(
        replace(product, pack_cost=cost) for product, cost in zip(usual.products, costs, strict=False)
    )
    book = replace(usual, products=products, hourly_cost=hour)
    assert price_book_from_json(through_text(price_book_as_json(book))) == book


@pytest.mark.parametrize("name", LOFTS)
def test_an_estimate_comes_back_with_every_working(name: str) -> None:
    worked = estimate(LOFTS[name](), price_book(), choices())
    form = through_text(estimate_as_json(worked))
    assert estimate_from_json(form) == worked
    assert price_from_json(form["price"]) == worked.price


def test_everything_wrong_is_said_at_once_by_path() -> None:
    form = survey_as_json(trussed_loft())
    form["joist_fields"][0]["depth_mm"] = "97"
    form["roof"]["pitch_degrees"] = "95"
    form["roof"]["kind"] = "mansard"
    form["zones"][0]["outline"][2] = [100]
    form["insulation"]["conductivity_w_mk"] = 0
    form["visited_on"] = "25/11/2026"
    form["keepouts"] = []
    del form["hatch"]
    assert refusals(survey_from_json, form) == {
        "joist_fields[0].depth_mm": "must be a whole number",
        "roof.kind": "must be one of: cut roof, trussed rafters",
        "zones[0].outline[2]": "must hold 2 values",
        "insulation.conductivity_w_mk": "must be more than 0 W/mK",
        "visited_on": "must be a date like 2026-11-25",
        "keepouts": "is not known here: did you mean keep_outs?",
        "hatch": "is missing",
    }


def test_what_cannot_be_so_is_refused_by_its_path() -> None:
    form = survey_as_json(trussed_loft())
    form["joist_fields"][0]["centre_lines_mm"] = [900, 300]
    assert refusals(survey_from_json, form) == {
        "joist_fields[0].centre_lines_mm": "must rise from one joist to the next"
    }


def test_a_product_is_read_by_its_role() -> None:
    form = price_book_as_json(price_book())
    form["products"][0]["role"] = "carpet"
    del form["products"][1]["role"]
    form["products"][2]["height_mm"] = 100
    found = refusals(price_book_from_json, form)
    assert found["products[0].role"].startswith("must be one of: board, pedestal, batten")
    assert found["products[1].role"] == "is missing"
    assert found["products[2].height_mm"].startswith("is not known here")


@pytest.mark.parametrize("value", [True, "seven", None, [], "1e3", float("nan")])
def test_money_is_a_plain_number_and_nothing_else(value: object) -> None:
    form = {**price_book_as_json(price_book()), "hourly_cost": value}
    assert refusals(price_book_from_json, form) == {"hourly_cost": "must be a number"}


@pytest.mark.parametrize("value", [24, 24.0, "24", "24.00"])
def test_money_may_be_written_as_number_or_text(value: object) -> None:
    form = {**price_book_as_json(price_book()), "hourly_cost": value}
    assert price_book_from_json(form).hourly_cost == 24


@pytest.mark.parametrize("stated", [None, "eavesbook-survey/2", "eavesbook-choices/1"])
def test_another_form_or_version_is_refused(stated: str | None) -> None:
    form = {**survey_as_json(trussed_loft()), "format": stated}
    assert refusals(survey_from_json, form) == {"format": 'must be "eavesbook-survey/1"'}


def test_the_schemas_name_every_field_and_need_the_format() -> None:
    schemas = form_schemas()
    survey = schemas["eavesbook-survey/1"]
    assert set(survey["properties"]) == set(survey_as_json(trussed_loft()))
    assert "format" in survey["required"]
    assert "keep_outs" not in survey["required"]
    assert set(schemas) == {
        "eavesbook-survey/1", "eavesbook-price-book/1", "eavesbook-choices/1", "eavesbook-estimate/2",
    }  # fmt: skip


def test_the_examples_in_the_documentation_make_an_estimate() -> None:
    text = (Path(estimating.__file__).parent / "FORMS.md").read_text(encoding="utf-8")
    survey, book, chosen = (json.loads(block) for block in re.findall(r"```json\n(.*?)```", text, re.DOTALL))
    worked = estimate(survey_from_json(survey), price_book_from_json(book), choices_from_json(chosen))
    assert worked.price.totals.gross > 0
    assert not worked.checks.stops
