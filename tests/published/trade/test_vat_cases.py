"""VAT rates and rounding against published cases; the source of each stands in its row."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from decimal import Decimal
from typing import Any

import pytest

from estimating.amounts import to_penny
from estimating.nations import Nation
from estimating.price.likely_vat_class import likely_vat_class
from estimating.price.rounding import (
    LineRounding,
    UnitRounding,
    round_line_vat,
    round_unit_vat,
    vat_from_gross,
    vat_of_lines,
)
from estimating.price.totals import PricedAmount, totals
from estimating.price.vat import vat_rate
from estimating.ways_to_price import SupplyMode, VatRounding
from tests.published.trade.cases import Case, cases_in

METHODS = {
    "per_line_nearest_1p": VatRounding.LINE_TO_THE_PENNY,
    "per_line_down_0.1p_then_total_down": VatRounding.LINE_DOWN_TO_TENTH_PENNY,
    "rate_subtotal_half_up": VatRounding.RATE_SUBTOTAL_HALF_UP,
    "half_up": VatRounding.RATE_SUBTOTAL_HALF_UP,
    "invoice_round_down": VatRounding.INVOICE_ROUNDED_DOWN,
}

Answer = dict[str, Any]


def _line_vat(given: Answer) -> Answer:
    return {"pence": 100 * round_line_vat(Decimal(given["vat_pence"]) / 100, LineRounding(given["method"]))}


def _penny(given: Answer) -> Answer:
    return {"pence": 100 * to_penny(Decimal(given["vat_pence"]) / 100)}


def _unit_vat(given: Answer) -> Answer:
    return {"gbp": round_unit_vat(Decimal(given["vat_gbp"]), UnitRounding(given["method"]))}


def _lines(given: Answer) -> Answer:
    nets = [Decimal(net) for net in given["nets"]]
    return {"vat": vat_of_lines(nets, Decimal(given["rate"]), METHODS[given["method"]])}


def _invoice_total(given: Answer) -> Answer:
    amount = PricedAmount(Decimal(given["net"]), Decimal(given["rate"]))
    found = totals([amount], METHODS[given["method"]])
    return {"vat": found.vat, "gross": found.gross}


def _mixed_rates(given: Answer) -> Answer:
    amounts = [PricedAmount(Decimal(net), Decimal(rate)) for net, rate in given["lines"]]
    found = totals(amounts, METHODS[given["method"]])
    by_rate = {str(subtotal.rate_percent): subtotal.vat for subtotal in found.vat_by_rate}
    return {"net": found.net, "vat_by_rate": by_rate, "vat": found.vat, "gross": found.gross}


def _from_gross(given: Answer) -> Answer:
    found = vat_from_gross(Decimal(given["gross"]), Decimal(given["rate"]))
    return {"vat": found.vat, "net": found.net}


def _rate(given: Answer) -> Answer:
    found = vat_rate(
        likely_vat_class(given["item"]),
        nation=Nation(given["nation"]),
        tax_point=date.fromisoformat(given["tax_point"]),
        mode=SupplyMode(given["mode"]),
    )
    return {"rate": found.percent}


ANSWER: dict[str, Callable[[Answer], Answer]] = {
    "vat_line_round": _line_vat,
    "vat_penny_round": _penny,
    "vat_unit_round": _unit_vat,
    "vat_lines": _lines,
    "vat_invoice_total": _invoice_total,
    "mixed_rate_quote": _mixed_rates,
    "vat_from_gross": _from_gross,
    "vat_rate": _rate,
}


def _numbers(answer: Answer) -> Answer:
    return {
        key: _numbers(value) if isinstance(value, dict) else Decimal(value) for key, value in answer.items()
    }


@pytest.mark.parametrize(
    "case", cases_in("vat_rounding.csv") + cases_in("vat_rates.csv"), ids=lambda case: case.name
)
def test_published_vat_case(case: Case) -> None:
    assert case.tolerance == 0
    assert _numbers(ANSWER[case.kind](case.inputs)) == _numbers(case.expected), case.source


def test_every_kind_of_vat_case_is_tried() -> None:
    tried = {case.kind for case in cases_in("vat_rounding.csv") + cases_in("vat_rates.csv")}
    assert tried == set(ANSWER)
