"""Apportionment against published cases; the source of each stands in its row."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

import pytest

from estimating.price.apportionment import (
    by_cost_plus_uplift,
    by_percentage,
    by_selling_prices,
    zero_rated_percent_of,
)
from tests.published.trade.cases import Case, cases_in

CASES = {case.name: case for case in cases_in("apportionment.csv")}


def of_kind(kind: str) -> list[Case]:
    return [case for case in CASES.values() if case.kind == kind]


def pounds(value: Any) -> Any:
    return [Decimal(each) for each in value] if isinstance(value, list) else Decimal(value)


def expected(case: Case) -> dict[str, Any]:
    return {key: pounds(value) for key, value in case.expected.items()}


@pytest.mark.parametrize("case", of_kind("apportion_cost_uplift"), ids=lambda case: case.name)
def test_published_cost_and_uplift(case: Case) -> None:
    given = {key: Decimal(value) for key, value in case.inputs.items() if key != "kind"}
    found = by_cost_plus_uplift(
        given["income"],
        zero_rated_cost=given["zero_rated_cost"],
        uplift_percent=given["uplift_pct"],
        standard_percent=given["std_rate"],
    )
    assert {
        "zero_rated_value": found.zero_rated,
        "std_rated_consideration": found.standard_rated,
        "output_tax": found.output_tax,
    } == expected(case), case.source


@pytest.mark.parametrize("case", of_kind("apportion_percentage"), ids=lambda case: case.name)
def test_published_percentage(case: Case) -> None:
    given = {key: Decimal(value) for key, value in case.inputs.items() if key != "kind"}
    found = by_percentage(
        given["income"],
        zero_rated_of_sample=given["zero_rated"],
        sample_income=given["sample_income"],
        standard_percent=Decimal(20),
    )
    assert {
        "zr_pct": zero_rated_percent_of(given["zero_rated"], given["sample_income"]),
        "zr_value": found.zero_rated,
        "sr_consideration": found.standard_rated,
        "output_tax": found.output_tax,
    } == expected(case), case.source


@pytest.mark.parametrize("case", of_kind("apportion_selling_price"), ids=lambda case: case.name)
def test_published_selling_prices(case: Case) -> None:
    found = by_selling_prices(pounds(case.inputs["prices"]), Decimal(case.inputs["deal"]))
    assert {"shares": list(found)} == expected(case), case.source
