"""The form of VAT numbers against published cases; the source of each stands in its row."""

from __future__ import annotations

from typing import Any

import pytest

from estimating.price.vat_numbers import check_digits, read_vat_number
from estimating.refusals import Refusal
from tests.published.trade.cases import Case, cases_in


def _answer(typed: str) -> dict[str, Any]:
    try:
        number = read_vat_number(typed)
    except Refusal:
        return {"valid": False}
    check = check_digits(number.digits[:7])
    return {
        "valid": True,
        "weighted_sum_7": check.weighted_sum,
        "check97": check.modulus_97,
        "check9755": check.modulus_9755,
        "compact": number.digits + number.branch,
        "formatted": number.formatted,
        "series": number.series.value,
    }


@pytest.mark.parametrize("case", cases_in("vat_numbers.csv"), ids=lambda case: case.name)
def test_published_vat_number(case: Case) -> None:
    answer = _answer(case.inputs["value"])
    assert {key: answer.get(key) for key in case.expected} == case.expected, case.source
