"""Tax points and the rate around a change against published cases; the source of each stands in its row."""

from __future__ import annotations

from datetime import date

import pytest

from estimating.nations import Nation
from estimating.price.tax_points import balance_tax_point, balance_vat_rate, deposit_tax_point
from estimating.price.vat import vat_rate
from estimating.ways_to_price import SupplyMode, VatClass
from tests.published.trade.cases import Case, cases_in

CASES = cases_in("tax_points.csv")
FITTED = SupplyMode.SUPPLY_AND_INSTALL_RESIDENTIAL


def _day(text: str | None) -> date | None:
    return date.fromisoformat(text) if text else None


@pytest.mark.parametrize("case", [c for c in CASES if c.kind == "tax_points"], ids=lambda case: case.name)
def test_published_tax_points(case: Case) -> None:
    given = case.inputs
    completed = date.fromisoformat(given["completed"])
    balance = balance_tax_point(completed=completed, invoiced=_day(given["balance_invoice"]))
    found = {"balance": balance.on.isoformat()}
    if given["deposit"]:
        found["deposit"] = deposit_tax_point(received=date.fromisoformat(given["deposit"][0])).on.isoformat()
    assert found == case.expected, case.source


@pytest.mark.parametrize("case", [c for c in CASES if c.kind == "rate_change"], ids=lambda case: case.name)
def test_published_rate_around_the_change(case: Case) -> None:
    given = case.inputs
    nation = Nation(given["nation"])
    balance = balance_vat_rate(
        VatClass.ENERGY_SAVING,
        nation=nation,
        mode=FITTED,
        completed=date.fromisoformat(given["completed"]),
        invoiced=_day(given["invoice"]),
        rate_of_completion=given["elect_s88"],
    )
    found = {"balance_rate": str(balance.percent)}
    if given["deposit"]:
        received = deposit_tax_point(received=date.fromisoformat(given["deposit"])).on
        deposit = vat_rate(VatClass.ENERGY_SAVING, nation=nation, tax_point=received, mode=FITTED)
        found["deposit_rate"] = str(deposit.percent)
    assert found == case.expected, case.source
