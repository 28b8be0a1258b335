"""Amounts as people write them: lengths, and money to the penny.

pint does the conversions, at the edge only: inside the core a length is a whole number of
millimetres and money is a Decimal number of pounds.
"""

from __future__ import annotations

import re
from decimal import ROUND_HALF_UP, Decimal
from fractions import Fraction
from functools import cache
from typing import Any

from pint import UnitRegistry

from estimating.refusals import Refusal

PENNY = Decimal("0.01")

_UNITS = {
    "mm": "mm", "millimetre": "mm", "millimetres": "mm",
    "cm": "cm", "centimetre": "cm", "centimetres": "cm",
    "m": "m", "metre": "m", "metres": "m",
    "ft": "ft", "foot": "ft", "feet": "ft", "'": "ft",
    "in": "inch", "inch": "inch", "inches": "inch", '"': "inch", "''": "inch",
}  # fmt: skip
_NUMBER = r"\d+\s+\d+/\d+|\d+/\d+|\d*\.\d+|\d+"
_PART = re.compile(rf"\s*({_NUMBER})\s*([a-z]+|''|'|\")?\s*")
_QUOTES = str.maketrans(
    {"’": "'", "′": "'", "“": '"', "”": '"', "″": '"', "½": " 1/2", "¼": " 1/4", "¾": " 3/4"}
)


@cache
def registry() -> UnitRegistry[Any]:
    """Return the one pint registry, made on first use because making it takes a tenth of a second.

    Returns:
        The registry whose quantities every public physics function takes. Registry. [-]

    Source:
        Own definition.
    """
    return UnitRegistry()


@cache
def _millimetres_per(unit: str) -> Fraction:
    return Fraction(registry().Quantity(Decimal(1), unit).to("mm").magnitude).limit_denominator(100_000)


def read_length_mm(typed: str, *, field: str = "length", default_unit: str | None = "mm") -> int:
    """Read a length as people write it and return whole millimetres, half up.

    Understands 5200, 5.2 m, 520cm, 17' 3", 17ft 3 and 17 3/4 in. A bare whole number takes the default
    unit; a bare number with a decimal point is refused under millimetres, because "5.2" is more likely
    metres and a guess would be silent.

    Args:
        typed: What was typed. Text. [any length unit]
        field: The label to name in a refusal. Text. [-]
        default_unit: The unit of a bare number, or None to refuse bare numbers. Text. [-]

    Returns:
        The length. Scalar. [mm]

    Raises:
        Refusal: Nothing was typed, it is no length, or it could mean two lengths.

    Source:
        International yard and pound agreement 1959 (1 in = 25.4 mm), as kept by pint.
    """
    text = typed.strip().lower().translate(_QUOTES)
    if not text:
        raise Refusal(field, "is missing")
    parts = _split(text, field)
    units = [unit for _, unit in parts]
    if len(parts) == 1 and units[0] is None:
        if default_unit is None or (default_unit == "mm" and "." in text):
            raise Refusal(field, f'"{typed.strip()}" needs its unit: write {parts_hint(text)}')
        units[0] = default_unit
    if len(parts) == 2 and units == ["ft", None]:
        units[1] = "inch"
    if len(parts) > 2 or (len(parts) == 2 and units not in (["ft", "inch"], ["m", "cm"], ["m", "mm"])):
        raise Refusal(field, f'"{typed.strip()}" is not one length: write it like 5200, 5.2 m or 17\' 3"')
    if units == ["ft", "inch"] and parts[1][0] >= 12:
        raise Refusal(field, f'"{typed.strip()}" has 12 inches or more beside its feet')
    total = sum(
        (number * _millimetres_per(str(unit)) for (number, _), unit in zip(parts, units, strict=True)),
        Fraction(0),
    )
    return int(total + Fraction(1, 2))


def parts_hint(text: str) -> str:
    """Say how a bare number may be written so that it has one meaning.

    Args:
        text: The bare number. Text. [-]

    Returns:
        The ways to write it. Text. [-]

    Source:
        Own definition.
    """
    return f"{text} m, {text} cm or {text} mm"


def _split(text: str, field: str) -> list[tuple[Fraction, str | None]]:
    text = re.sub(r"(?<=\d),(?=\d{3}(?!\d))", "", text)
    parts: list[tuple[Fraction, str | None]] = []
    at = 0
    while at < len(text):
        match = _PART.match(text, at)
        if not match or match.end() == at or (match[2] and match[2] not in _UNITS):
            raise Refusal(field, f'cannot read "{text}" as a length: write it like 5200, 5.2 m or 17\' 3"')
        try:
            number = sum((Fraction(piece) for piece in match[1].split()), Fraction(0))
        except ZeroDivisionError:
            raise Refusal(field, f'cannot read "{text}": a fraction over 0') from None
        parts.append((number, _UNITS[match[2]] if match[2] else None))
        at = match.end()
    return parts


def to_penny(amount: Decimal) -> Decimal:
    """Round pounds to the penny, half up.

    Args:
        amount: The exact amount. Scalar. [GBP]

    Returns:
        The amount to the penny. Scalar. [GBP]

    Source:
        HMRC internal manual VATREC12030: under half a penny down, half a penny and over up.
    """
    return amount.quantize(PENNY, rounding=ROUND_HALF_UP)
