"""Numbers and units in a text: what stands there, before anybody asks what it means."""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction

from estimating.lengths.units import UNIT_OF_NAME

HARD_SPACE = "\N{NO-BREAK SPACE}"
"""The space that drawings put between thousands. It never stands between two lengths."""

_HARD_SPACES = "\N{NO-BREAK SPACE}\N{NARROW NO-BREAK SPACE}\N{THIN SPACE}\N{FIGURE SPACE}"
_MEANT = str.maketrans(
    {
        **dict.fromkeys(_HARD_SPACES, HARD_SPACE), "\t": " ", "\r": " ",
        "’": "'", "‘": "'", "′": "'", "“": '"', "”": '"', "″": '"', "\N{FRACTION SLASH}": "/",
        "½": " 1/2", "¼": " 1/4", "¾": " 3/4", "⅛": " 1/8", "⅜": " 3/8", "⅝": " 5/8", "⅞": " 7/8",
    }
)  # fmt: skip
ENDS = f" \n\t\r{_HARD_SPACES}"

_SPACE = f"[ {HARD_SPACE}]"
_MIXED = rf"(?P<whole>[0-9]+){_SPACE}+(?P<over>[0-9]+)/(?P<under>[0-9]+)"
_FRACTION = r"(?P<over_alone>[0-9]+)/(?P<under_alone>[0-9]+)"
HARD_GROUPS = rf"[1-9][0-9]{{0,2}}(?:{HARD_SPACE}[0-9]{{3}})+(?![0-9])(?:\.[0-9]+)?"
_SOFT_GROUPS = r"[1-9][0-9]{0,2}(?:(?:,[0-9]{3})+|(?: [0-9]{3})+)(?![0-9])(?:\.[0-9]+)?"
_PLAIN = r"[0-9]*\.[0-9]+|[0-9]+"
_NUMBER = rf"{_MIXED}|{_FRACTION}|(?P<hard>{HARD_GROUPS})|(?P<soft>{_SOFT_GROUPS})|(?P<plain>{_PLAIN})"
_PART = re.compile(rf"{_SPACE}*(?P<number>{_NUMBER}){_SPACE}*(?P<unit>[a-z]+|''|'|\")?{_SPACE}*")


@dataclass(frozen=True, slots=True)
class Part:
    """One number with its unit, or without; `number` and `written` are the text itself."""

    value: Fraction
    unit: str | None
    number: str
    written: str
    is_fraction: bool
    groups_by: str
    """What sets its thousands apart: nothing, a hard space, or a comma or space that may be a list's."""

    @property
    def has_point(self) -> bool:
        return "." in self.number

    @property
    def is_softly_grouped(self) -> bool:
        return self.groups_by in {",", " "}


def plain(typed: str) -> str:
    """Return a text in small letters, with one kind of quote, of hard space and of fraction.

    Args:
        typed: What was typed. Text. [-]

    Returns:
        The text, without spaces at its ends. Text. [-]

    Source:
        Own definition.
    """
    return trimmed(typed.translate(_MEANT)).lower()


def trimmed(typed: str) -> str:
    """Return a text as it was typed, without the spaces at its ends.

    Args:
        typed: What was typed. Text. [-]

    Returns:
        The text. Text. [-]

    Source:
        Own definition.
    """
    return typed.strip(ENDS)


def parts_of(text: str) -> list[Part] | None:
    """Return the numbers of a plain text with their units, or None where something else stands in it.

    Args:
        text: The text, made plain. Text. [-]

    Returns:
        Each number, or None. Records. [-]

    Source:
        Own definition.
    """
    parts: list[Part] = []
    at = 0
    while at < len(text):
        match = _PART.match(text, at)
        part = _part(match) if match else None
        if match is None or part is None:
            return None
        parts.append(part)
        at = match.end()
    return parts


def _part(match: re.Match[str]) -> Part | None:
    unit = match["unit"]
    if unit and unit not in UNIT_OF_NAME:
        return None
    number = match["number"]
    value = _value(match)
    if value is None:
        return None
    soft = "," if "," in number else " "
    groups_by = soft if match["soft"] else HARD_SPACE if match["hard"] else ""
    return Part(
        value=value,
        unit=UNIT_OF_NAME[unit] if unit else None,
        number=number,
        written=match[0].strip(ENDS),
        is_fraction="/" in number,
        groups_by=groups_by,
    )


def _value(match: re.Match[str]) -> Fraction | None:
    over, under = match["over"] or match["over_alone"], match["under"] or match["under_alone"]
    if over is None:
        return Fraction(re.sub(rf"[, {HARD_SPACE}]", "", match["number"]))
    # 11/4 is more often a lost space, 1 1/4, than eleven quarters.
    if int(over) >= int(under):
        return None
    return int(match["whole"] or 0) + Fraction(int(over), int(under))
