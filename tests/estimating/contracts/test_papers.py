"""Legal texts and periods kept as data: whole, in order, and with the blanks that papers fill."""

from __future__ import annotations

import string
from datetime import date

from estimating.contracts.keeping import keep_until
from estimating.published import cancellation_form as form
from estimating.published.contract_information import INFORMATION
from estimating.published.retention_periods import RETENTION_PERIODS, KeptRecord


def _blanks(lines: tuple[str, ...]) -> set[str]:
    return {name for line in lines for _, name, _, _ in string.Formatter().parse(line) if name}


def test_information_list_runs_from_a_to_x_without_a_gap() -> None:
    # SI 2013/3134, Schedule 2
    assert [each.item for each in INFORMATION] == list("abcdefghijklmnopqrstuvwx")
    assert [each.item for each in INFORMATION if not each.from_memory] == list("abcdefghi")


def test_costs_that_are_lost_when_left_out_are_g_h_and_m() -> None:
    # SI 2013/3134 reg 10(4)
    assert [each.item for each in INFORMATION if "10(4)" in each.if_left_out] == ["g", "h", "m"]


def test_statutory_texts_have_only_the_firms_blanks_and_their_acknowledgement() -> None:
    assert _blanks(form.FORM_LINES) == {"trader"}
    assert _blanks(form.RIGHT_TO_CANCEL) == {"trader", "from_which_day"}
    assert _blanks((*form.EFFECTS_OF_CANCELLATION, form.STARTED_AT_YOUR_REQUEST)) == set()
    assert "Open Government Licence" in form.ACKNOWLEDGEMENT
    assert "Crown copyright" in form.ACKNOWLEDGEMENT


def test_every_kind_of_record_has_its_years() -> None:
    assert {period.record for period in RETENTION_PERIODS} == set(KeptRecord)


def test_six_years_from_a_leap_day_end_with_february() -> None:
    assert keep_until(KeptRecord.VAT, date(2028, 2, 29)) == date(2034, 2, 28)
