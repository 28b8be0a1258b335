"""Whether a firm's turnover makes it register for VAT, by when, and from which day it then charges it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from decimal import Decimal

from estimating.days import day_in_words, months_later
from estimating.price.vat import CONFIRM
from estimating.published.vat_registration import (
    REGISTRATION_THRESHOLDS,
    WARN_ABOVE_SHARE,
    RegistrationThreshold,
)
from estimating.refusals import Refusal, Requirements

_ONE_DAY = timedelta(days=1)


@dataclass(frozen=True, slots=True)
class RegistrationDuty:
    """What the turnover of twelve months asks of a firm that is not registered."""

    must_register: bool
    near_the_threshold: bool
    notify_by: date | None
    effective: date | None
    words: str
    source: str


def registration_duty(
    turnover_of_twelve_months: Decimal,
    month_end: date,
    *,
    thresholds: Sequence[RegistrationThreshold] = REGISTRATION_THRESHOLDS,
) -> RegistrationDuty:
    """Tell whether the turnover of the twelve months that end with a month makes a firm register.

    Args:
        turnover_of_twelve_months: Taxable turnover without VAT, work at 0 % included. Scalar. [GBP]
        month_end: The last day of the month. Date. [-]
        thresholds: The dated thresholds to read. Sequence. [GBP]

    Returns:
        The duty with its days, none where there is no duty. Record. [-]

    Raises:
        Refusal: The turnover is below zero, the day ends no month, or no threshold is held for it.

    Source:
        VATA 1994 Schedule 1; HMRC Notice 700/1: more than the threshold in any twelve months, told within 30
        days of the month's end, in force from the first day of the second month after it.
    """
    needs = Requirements()
    needs.require(turnover_of_twelve_months >= 0, "turnover_of_twelve_months", "must not be less than 0")
    needs.require((month_end + _ONE_DAY).day == 1, "month_end", "must be the last day of a month")
    needs.settle()
    threshold = _threshold_on(month_end, thresholds, "month_end")
    limit = threshold.register_above
    if turnover_of_twelve_months <= limit:
        near = turnover_of_twelve_months >= limit * WARN_ABOVE_SHARE
        words = f"Not more than £{limit:,} in twelve months: no duty to register yet. {CONFIRM}"
        return RegistrationDuty(False, near, None, None, words, threshold.source)
    notify_by = month_end + timedelta(days=threshold.notify_within_days)
    effective = months_later(month_end + _ONE_DAY, 1)
    words = (
        f"More than £{limit:,} in twelve months: tell HMRC by {day_in_words(notify_by)} and charge VAT from "
        f"{day_in_words(effective)}. {CONFIRM}"
    )
    return RegistrationDuty(True, True, notify_by, effective, words, threshold.source)


def duty_by_expectation(
    turnover_expected_in_thirty_days: Decimal,
    expected_on: date,
    *,
    thresholds: Sequence[RegistrationThreshold] = REGISTRATION_THRESHOLDS,
) -> RegistrationDuty:
    """Tell whether what a firm expects of the next thirty days alone makes it register.

    Args:
        turnover_expected_in_thirty_days: Taxable turnover without VAT, work at 0 % included. Scalar. [GBP]
        expected_on: The day on which there is ground to expect it. Date. [-]
        thresholds: The dated thresholds to read. Sequence. [GBP]

    Returns:
        The duty: told before the thirty days are over, in force from the day of the expectation. Record. [-]

    Raises:
        Refusal: The turnover is below zero, or no threshold is held for the day.

    Source:
        VATA 1994 Schedule 1; HMRC internal manual VATREG18300, VATREG25100, second hand.
    """
    expected = turnover_expected_in_thirty_days
    if expected < 0:
        raise Refusal("turnover_expected_in_thirty_days", "must not be less than 0")
    threshold = _threshold_on(expected_on, thresholds, "expected_on")
    limit = threshold.register_above
    if expected <= limit:
        near = expected >= limit * WARN_ABOVE_SHARE
        words = f"Not more than £{limit:,} expected in thirty days: no duty to register by that. {CONFIRM}"
        return RegistrationDuty(False, near, None, None, words, threshold.source)
    notify_by = expected_on + timedelta(days=threshold.notify_within_days)
    words = (
        f"More than £{limit:,} expected in thirty days: tell HMRC by {day_in_words(notify_by)} and charge "
        f"VAT from {day_in_words(expected_on)}. {CONFIRM}"
    )
    return RegistrationDuty(True, True, notify_by, expected_on, words, threshold.source)


def may_leave(
    turnover_expected_in_a_year: Decimal,
    on: date,
    *,
    thresholds: Sequence[RegistrationThreshold] = REGISTRATION_THRESHOLDS,
) -> bool:
    """Tell whether a registered firm may ask to leave, by what it expects of the next twelve months.

    Args:
        turnover_expected_in_a_year: Taxable turnover without VAT. Scalar. [GBP]
        on: The day it asks. Date. [-]
        thresholds: The dated thresholds to read. Sequence. [GBP]

    Returns:
        Whether it is under the limit for leaving. Flag. [-]

    Raises:
        Refusal: The turnover is below zero, or no threshold is held for the day.

    Source:
        VATA 1994 Schedule 1; HMRC Notice 700/1 supplement: under 88 000 since 1 April 2024.
    """
    if turnover_expected_in_a_year < 0:
        raise Refusal("turnover_expected_in_a_year", "must not be less than 0")
    return turnover_expected_in_a_year < _threshold_on(on, thresholds, "on").leave_below


def _threshold_on(
    day: date, thresholds: Sequence[RegistrationThreshold], field: str
) -> RegistrationThreshold:
    held = [row for row in thresholds if row.valid_from <= day]
    if not held:
        raise Refusal(field, "must be a day for which a threshold is held")
    return max(held, key=lambda row: row.valid_from)
