"""Postcodes as they are written today. A strange one is a warning, never a refusal: new ones are made."""

from __future__ import annotations

import re
from dataclasses import dataclass

_OUTWARD = re.compile(
    r"[A-PR-UWYZ]([0-9]{1,2}|[A-HK-Y][0-9]{1,2}|[0-9][ABCDEFGHJKPSTUW]|[A-HK-Y][0-9][ABEHMNPRVWXY])"
)
_INWARD = re.compile(r"[0-9][ABD-HJLNP-UW-Z]{2}")
_THE_ODD_ONE = "GIR0AA"
INWARD_LENGTH = 3


@dataclass(frozen=True, slots=True)
class PostcodeParts:
    """A postcode taken apart, from the whole area down to the last three signs."""

    area: str
    district: str
    sector: str
    outward: str
    inward: str


def normal_postcode(typed: str) -> str:
    """Write a postcode in capitals with one space before its last three signs."""
    joined = "".join(typed.split()).upper()
    if len(joined) <= INWARD_LENGTH:
        return joined
    return f"{joined[:-INWARD_LENGTH]} {joined[-INWARD_LENGTH:]}"


def area_of_postcode(typed: str) -> str:
    """Return the letters that a postcode begins with."""
    letters = re.match(r"[A-Z]+", typed.strip().upper())
    return letters[0] if letters else ""


def looks_like_postcode(typed: str) -> bool:
    """Tell whether a postcode has one of the forms in use.

    The forms are A9, A99, AA9, AA99, A9A and AA9A, then a digit and two letters: Royal Mail's note on
    postcode format, second hand.
    """
    joined = "".join(typed.split()).upper()
    if joined == _THE_ODD_ONE:
        return True
    outward, inward = joined[:-INWARD_LENGTH], joined[-INWARD_LENGTH:]
    return bool(_OUTWARD.fullmatch(outward) and _INWARD.fullmatch(inward))


def parts_of_postcode(typed: str) -> PostcodeParts | None:
    """Take a postcode apart: M60 1NW lies in area M, district M60 and sector M60 1; None if it is none."""
    if not looks_like_postcode(typed):
        return None
    outward, inward = normal_postcode(typed).split()
    return PostcodeParts(area_of_postcode(outward), outward, f"{outward} {inward[0]}", outward, inward)
