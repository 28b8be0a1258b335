"""Telephone numbers: kept in the international form, shown as people here dial them."""

from __future__ import annotations

import phonenumbers

REGION = "GB"


def kept_phone(typed: str) -> str:
    """Return a number in the form it is kept in; one that cannot be read is kept as typed."""
    number = _parsed(typed)
    if number is None or not phonenumbers.is_possible_number(number):
        return typed.strip()
    return phonenumbers.format_number(number, phonenumbers.PhoneNumberFormat.E164)


def looks_like_phone(typed: str) -> bool:
    """Tell whether a number can be rung as far as the numbering plan says."""
    number = _parsed(typed)
    return number is not None and phonenumbers.is_valid_number(number)


def shown_phone(kept: str) -> str:
    """Return a number as it is dialled from here."""
    number = _parsed(kept)
    if number is None:
        return kept
    ours = number.country_code == phonenumbers.country_code_for_region(REGION)
    wanted = phonenumbers.PhoneNumberFormat
    return phonenumbers.format_number(number, wanted.NATIONAL if ours else wanted.INTERNATIONAL)


def _parsed(typed: str) -> phonenumbers.PhoneNumber | None:
    try:
        return phonenumbers.parse(typed, REGION)
    except phonenumbers.NumberParseException:
        return None
