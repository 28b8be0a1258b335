"""Tax points and the rate around a change against published cases; the source of each stands in its row."""

from __future__ import annotations

from datetime import date

import pytest

from estimating.nations import Nation
from estimating.price.likely_vat_class import likely_vat_class
from estimating.price.tax_points import (
    balance_tax_point,
    balance_vat_rate,
    deposit_tax_point,
    deposit_vat_rate,
)
from estimating.ways_to_price import SupplyMode
from tests.published.trade.cases import Case, cases_in

CASES = cases_in("tax_points.csv")
FITTED = SupplyMode.SUPPLY_AND_INSTALL_RESIDENTIAL


def _day(text: str | None) -> date | None:
    return date.fromisoformat(text) if text else None


@pytest.mark.parametrize("case", [c for c in CASES if c.kind == "tax_points"], ids=lambda case: case.name)
def test_published_tax_points(case: Case) -> None:
    given = case.inputs
    completed = date.fromisoformat(given["completed"])
    balance = balance_tax_point(
        completed=completed, invoiced=_day(given["balance_invoice"]), paid=_day(given.get("balance_paid"))
    )
    found = {"balance": balance.on.isoformat()}
    if given["deposit"]:
        found["deposit"] = deposit_tax_point(received=date.fromisoformat(given["deposit"][0])).on.isoformat()
    assert found == case.expected, case.source


@pytest.mark.parametrize("case", [c for c in CASES if c.kind == "rate_change"], ids=lambda case: case.name)
def test_published_rate_around_the_change(case: Case) -> None:
    given = case.inputs
    work = {
        "vat_class": likely_vat_class(given["item"]),
        "nation": Nation(given["nation"]),
        "mode": FITTED,
        "completed": date.fromisoformat(given["completed"]),
        "rate_of_completion": given["elect_s88"],
    }
    balance = balance_vat_rate(**work, invoiced=_day(given["invoice"]))
    found = {"balance_rate": str(balance.percent)}
    if given["deposit"]:
        deposit = deposit_vat_rate(**work, received=date.fromisoformat(given["deposit"]))
        found["deposit_rate"] = str(deposit.percent)
    assert found == case.expected, case.source
