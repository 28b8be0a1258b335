from __future__ import annotations

import pytest

from jobs.customers.postcodes import looks_like_postcode, normal_postcode
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
