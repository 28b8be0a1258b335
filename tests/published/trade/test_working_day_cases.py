"""Working days of the nations against published cases; the source of each stands in its row."""

from __future__ import annotations

from datetime import date

import pytest

from estimating.nations import Nation
from estimating.working_days import is_working_day
from tests.published.trade.cases import Case, cases_in


@pytest.mark.parametrize("case", cases_in("working_days.csv"), ids=lambda case: case.name)
def test_published_working_day(case: Case) -> None:
    found = is_working_day(date.fromisoformat(case.inputs["date"]), Nation(case.inputs["nation"]))
    assert {"working_day": found} == case.expected, case.source
