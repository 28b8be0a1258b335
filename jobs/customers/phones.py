"""Telephone numbers: kept in the international form, shown as people here dial them."""

from __future__ import annotations

from dataclasses import dataclass

import phonenumbers

REGION = "GB"


@dataclass(frozen=True, slots=True)
class PhoneReading:
    """What the numbering plan says of a number; `e164` is empty for what nobody could ring."""

    possible: bool
    valid: bool
    e164: str


def read_phone(typed: str) -> PhoneReading:
    """Read a number as it is dialled from here: long enough to be one, given to somebody, and in full."""
    number = _parsed(typed)
    if number is None:
        return PhoneReading(possible=False, valid=False, e164="")
    possible = phonenumbers.is_possible_number(number)
    e164 = phonenumbers.format_number(number, phonenumbers.PhoneNumberFormat.E164) if possible else ""
    return PhoneReading(possible=possible, valid=phonenumbers.is_valid_number(number), e164=e164)


def kept_phone(typed: str) -> str:
    """Return a number in the form it is kept in; one that cannot be read is kept as typed."""
    reading = read_phone(typed)
    return reading.e164 if reading.possible else typed.strip()


def looks_like_phone(typed: str) -> bool:
    """Tell whether a number can be rung as far as the numbering plan says."""
    return read_phone(typed).valid


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
