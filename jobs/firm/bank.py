"""Where customers pay, checked in form only: nobody here can know whether an account is there."""

from __future__ import annotations

import re

SORT_CODE = re.compile(r"(\d{2})[ \-–.]?(\d{2})[ \-–.]?(\d{2})")
ACCOUNT_DIGITS = 8
"""Digits of an account number as United Kingdom banks print it: common practice, no source."""


class WrongForm(ValueError):
    """What was typed cannot be a sort code or an account number."""


def as_sort_code(typed: str) -> str:
    """Return a sort code as 12-34-56; raises WrongForm."""
    found = SORT_CODE.fullmatch(typed.strip())
    if not found:
        raise WrongForm(typed)
    return "-".join(found.groups())


def as_account_number(typed: str) -> str:
    """Return an account number without blanks; raises WrongForm."""
    digits = re.sub(r"[\s\-]", "", typed)
    if not (digits.isascii() and digits.isdigit() and len(digits) == ACCOUNT_DIGITS):
        raise WrongForm(typed)
    return digits
