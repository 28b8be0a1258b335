"""Consumer contracts against published cases; the source of each stands in its row."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from decimal import Decimal
from typing import Any

import pytest

from estimating.contracts.cancelling import CountedFrom, last_day_to_cancel, refund_due_by
from estimating.contracts.keeping import keep_until
from estimating.contracts.kind import HowAgreed, contract_rights, off_premises_rules_apply
from estimating.contracts.owed import payable_for_part
from estimating.published.retention_periods import KeptRecord
from tests.published.trade.cases import Case, cases_in

Answer = dict[str, Any]

# The cases tell in a sentence what the office answers with one of a few choices.
ACCEPTED = (
    ("during the visit", HowAgreed.DURING_VISIT),
    ("straight after", HowAgreed.DURING_VISIT),
    ("left after a home survey", HowAgreed.AFTER_VISIT),
    ("after a visit", HowAgreed.AFTER_VISIT),
    ("no meeting", HowAgreed.WITHOUT_MEETING),
    ("without any meeting", HowAgreed.WITHOUT_MEETING),
    ("premises", HowAgreed.AT_THE_FIRM),
)
RECORDS = (
    ("VAT", KeptRecord.VAT),
    ("dwelling", KeptRecord.DWELLING_WORK),
    ("contract", KeptRecord.CONTRACT),
    ("waste", KeptRecord.WASTE_NOTE),
)


def _day(text: str | None) -> date | None:
    return date.fromisoformat(text) if text else None


def _cancel_end(given: Answer) -> Answer:
    counted_from, base = {
        "service": (CountedFrom.CONTRACT, "contract_made"),
        "mixed_goods": (CountedFrom.LAST_GOODS, "last_goods_delivered"),
        "goods": (CountedFrom.LAST_GOODS, "last_goods_delivered"),
    }[given["basis"]]
    last = last_day_to_cancel(
        counted_from, date.fromisoformat(given[base]), information_given=_day(given["info_given"])
    )
    return {"last_day": last.on.isoformat()}


def _refund_due(given: Answer) -> Answer:
    return {"by": refund_due_by(date.fromisoformat(given["cancel_notice_received"])).isoformat()}


def _part_performance(given: Answer) -> Answer:
    payable = payable_for_part(
        Decimal(given["price_incl_vat"]),
        Decimal(given["fraction_supplied"]),
        information_given=given["info_given"],
        early_start_requested=given["express_request_durable"],
    )
    return {"payable": str(payable.value)}


def _contract_type(given: Answer) -> Answer:
    how = next(how for words, how in ACCEPTED if words in given["accepted"])
    rights = contract_rights(how, price=Decimal(1200))
    answer: Answer = {"type": rights.kind.value, "cancellation_right": rights.cancellable_by_law}
    if rights.given_anyway:
        answer["app_default"] = "give cancellation rights anyway"
    return answer


def _off_premises_scope(given: Answer) -> Answer:
    return {"regs_apply": off_premises_rules_apply(Decimal(given["price"]))}


def _retention(given: Answer) -> Answer:
    record = next(record for words, record in RECORDS if words in given["record"])
    return {"keep_until": keep_until(record, date.fromisoformat(given["date"])).isoformat()}


ANSWER: dict[str, Callable[[Answer], Answer]] = {
    "cancel_end": _cancel_end,
    "refund_due": _refund_due,
    "part_performance": _part_performance,
    "contract_type": _contract_type,
    "off_premises_scope": _off_premises_scope,
    "retention": _retention,
}


@pytest.mark.parametrize("case", cases_in("contracts.csv"), ids=lambda case: case.name)
def test_published_contract_case(case: Case) -> None:
    assert ANSWER[case.kind](case.inputs) == case.expected, case.source


def test_every_kind_of_contract_case_is_tried() -> None:
    assert {case.kind for case in cases_in("contracts.csv")} == set(ANSWER)
