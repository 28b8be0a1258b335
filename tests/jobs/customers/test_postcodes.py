from __future__ import annotations

from dataclasses import asdict

import pytest

from jobs.customers.postcodes import looks_like_postcode, normal_postcode, parts_of_postcode
from tests.published.trade.cases import Case, cases_in


@pytest.mark.parametrize("case", cases_in("postcodes.csv"), ids=lambda case: case.name)
def test_published_postcode_forms(case: Case):
    typed = case.inputs["value"]
    assert looks_like_postcode(typed) is case.expected["valid"], case.source
    if case.expected["valid"]:
        assert normal_postcode(typed) == case.expected["normalised"]


@pytest.mark.parametrize("typed", ["", "1", "M1", "M1 1AA; DROP", "VA1 1AA", "AI1 1AA", "M1 1AAA", "M1 11A"])
def test_what_is_no_postcode_is_told_apart(typed):
    assert not looks_like_postcode(typed)


@pytest.mark.parametrize("case", cases_in("postcode_parts.csv"), ids=lambda case: case.name)
def test_published_parts_of_postcodes(case: Case):
    parts = parts_of_postcode(case.inputs["value"])
    assert parts is not None
    assert asdict(parts) == case.expected, case.source


def test_what_is_no_postcode_has_no_parts():
    assert parts_of_postcode("M1 1CA") is None
