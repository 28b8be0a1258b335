from __future__ import annotations

import pytest

from jobs.customers.phones import PhoneReading, kept_phone, looks_like_phone, read_phone, shown_phone
from tests.published.trade.cases import Case, cases_in


@pytest.mark.parametrize("case", cases_in("phones.csv"), ids=lambda case: case.name)
def test_published_telephone_numbers(case: Case):
    typed = case.inputs["value"]
    possible, valid, e164 = (case.expected[key] for key in ("possible", "valid", "e164"))
    assert read_phone(typed) == PhoneReading(possible=possible, valid=valid, e164=e164 or "")
    assert looks_like_phone(typed) is case.expected["valid"], case.source
    assert kept_phone(typed) == (e164 or typed)


def test_a_number_is_shown_as_it_is_dialled_from_here():
    assert shown_phone("+441614960555") == "0161 496 0555"
    assert shown_phone("+33142685300") == "+33 1 42 68 53 00"


def test_what_cannot_be_read_is_kept_and_shown_as_typed():
    assert kept_phone(" ask at the shop ") == "ask at the shop"
    assert shown_phone("ask at the shop") == "ask at the shop"
    assert shown_phone("") == ""


def test_a_number_too_long_to_ring_is_not_possible_and_kept_as_typed():
    assert read_phone("020 7946 0018 99999") == PhoneReading(possible=False, valid=False, e164="")
    assert kept_phone("020 7946 0018 99999") == "020 7946 0018 99999"
    assert read_phone("ask at the shop") == PhoneReading(possible=False, valid=False, e164="")
