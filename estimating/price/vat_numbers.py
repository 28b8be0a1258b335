"""VAT numbers of the United Kingdom: their form, which says nothing about whether such a firm exists."""

from __future__ import annotations

import re
from dataclasses import dataclass
from enum import StrEnum

from estimating.refusals import Refusal

_WEIGHTS = (8, 7, 6, 5, 4, 3, 2)
_FORM = re.compile(r"(?:GB|XI)?([0-9]{9})([0-9]{3})?")
_BODY = re.compile(r"(?:GB|XI)?((GD)[0-4][0-9]{2}|(HA)[5-9][0-9]{2})")
_BETWEEN = re.compile(r"[\s.-]")
_FIRST_OF_9755 = "1000000"


class VatNumberSeries(StrEnum):
    """Which check rule a number obeys, the second from November 2009 on; public bodies' numbers have none."""

    MODULUS_97 = "97"
    MODULUS_9755 = "9755"
    GOVERNMENT_DEPARTMENT = "GD"
    HEALTH_AUTHORITY = "HA"


@dataclass(frozen=True, slots=True)
class CheckDigits:
    """What the first seven digits demand of the eighth and ninth, under either rule."""

    weighted_sum: int
    modulus_97: str
    modulus_9755: str


@dataclass(frozen=True, slots=True)
class VatNumber:
    """A VAT number of the right form: nine digits, and three more for a branch; a public body's is short."""

    digits: str
    branch: str
    series: VatNumberSeries

    @property
    def formatted(self) -> str:
        """The number as an invoice prints it."""
        if self.digits[:2] in (VatNumberSeries.GOVERNMENT_DEPARTMENT, VatNumberSeries.HEALTH_AUTHORITY):
            return self.digits
        groups = (self.digits[:3], self.digits[3:7], self.digits[7:], self.branch)
        return " ".join(group for group in groups if group)


def check_digits(first_seven: str) -> CheckDigits:
    """Work out the two check digits that may follow seven digits.

    Args:
        first_seven: The seven digits. Text. [-]

    Returns:
        The weighted sum and the check digits of both rules. Record. [-]

    Raises:
        Refusal: It is not seven digits.

    Source:
        HMRC's modulus 97 and 9755 rules, second hand.
    """
    if not re.fullmatch(r"[0-9]{7}", first_seven):
        raise Refusal("first_seven", "must be seven digits")
    weighted_sum = sum(weight * int(digit) for weight, digit in zip(_WEIGHTS, first_seven, strict=True))
    check = -weighted_sum % 97
    return CheckDigits(weighted_sum, f"{check:02}", f"{(check - 55) % 97:02}")


def read_vat_number(typed: str, *, field: str = "vat_number") -> VatNumber:
    """Read a VAT number as people write it, with or without GB (XI for trade in goods) and marks between.

    Args:
        typed: What was typed. Text. [-]
        field: The label to name in a refusal. Text. [-]

    Returns:
        The number, its branch and its check rule. Record. [-]

    Raises:
        Refusal: It has not 9 or 12 digits, or its check digits do not fit.

    Source:
        HMRC's modulus 97 and 9755 rules, second hand: the latter for numbers from 100 0000 on; GD 000 to 499
        for government departments, HA 500 to 999 for health authorities.
    """
    plain = _BETWEEN.sub("", typed).upper()
    if body := _BODY.fullmatch(plain):
        return VatNumber(body[1], "", VatNumberSeries(body[2] or body[3]))
    match = _FORM.fullmatch(plain)
    if not match:
        raise Refusal(field, "must be 9 digits, or 12 with a branch, after GB")
    digits, branch = match[1], match[2] or ""
    expected = check_digits(digits[:7])
    if digits[7:] == expected.modulus_97:
        return VatNumber(digits, branch, VatNumberSeries.MODULUS_97)
    if digits[7:] == expected.modulus_9755 and digits[:7] >= _FIRST_OF_9755:
        return VatNumber(digits, branch, VatNumberSeries.MODULUS_9755)
    raise Refusal(field, f'"{typed.strip()}" is no VAT number: a digit is wrong or two are swapped')
