"""One length as people write it."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction

from estimating.lengths.text import Part, parts_of, plain, trimmed
from estimating.lengths.units import (
    ASKED,
    ASKED_OF_A_FRACTION,
    BARE,
    LONGEST_IN_A_LOFT_MM,
    LONGEST_MM,
    MM_PER,
)
from estimating.lengths.words import either
from estimating.refusals import Ambiguous, Refusal

LONGEST_TEXT = 40
_LIKE = "write it like 5200, 5.2 m or 17' 3\""
_INCHES_IN_A_FOOT = 12


def read_length_mm(typed: str, *, field: str = "length", default_unit: str | None = "mm") -> int:
    """Read a length as people write it and return whole millimetres, half up.

    Understands 5200, 5 200, 5.2 m, 520cm, 1 m 20 cm, 17' 3", 17ft 3 and 17 3/4 in. A bare number takes the
    default unit where it is plausible in it (`units.BARE`), and is asked about where it is not: "5.2" under
    millimetres is more likely metres, and a guess would be silent. Thousands may be set apart in millimetres
    only, because 5,200 m is as likely 5.2 m.

    Args:
        typed: What was typed. Text. [any length unit]
        field: The label to name in a refusal. Text. [-]
        default_unit: The unit of a bare number, or None to ask about every one. Text. [-]

    Returns:
        The length. Scalar. [mm]

    Raises:
        Refusal: Nothing was typed, or it is no length; Ambiguous: it could mean two lengths.

    Source:
        International yard and pound agreement 1959 (1 in = 25.4 mm).
    """
    text, shown = plain(typed), trimmed(typed)
    if not text:
        raise Refusal(field, "is missing")
    if len(text) > LONGEST_TEXT:
        raise Refusal(field, f'"{shown[:LONGEST_TEXT]}…" is too much for one length: {_LIKE}')
    parts = parts_of(text)
    if parts is None:
        raise Refusal(field, f'cannot read "{shown}" as a length: {_LIKE}')
    reader = _Reader(shown, field, default_unit)
    exact_mm = reader.one(parts[0]) if len(parts) == 1 else reader.two(parts)
    if exact_mm > LONGEST_MM:
        raise Refusal(field, f'"{shown}" is longer than any building')
    return int(exact_mm + Fraction(1, 2))


class _Reader:
    """What one text means under one default unit; its methods return exact millimetres."""

    def __init__(self, shown: str, field: str, default_unit: str | None) -> None:
        self.shown, self.field, self.default_unit = shown, field, default_unit

    def one(self, part: Part) -> Fraction:
        unit = part.unit
        if part.is_softly_grouped and part.value > LONGEST_IN_A_LOFT_MM:
            raise self._ask([], "can be one length or two")
        if unit is None:
            if not self._may_stand_bare(part):
                raise self._ask(self._with_units(part), "needs its unit")
            unit = self.default_unit or "mm"
        mm = part.value * MM_PER[unit]
        if part.groups_by and unit != "mm":
            raise self._ask(_without_groups(part), "can be read in two ways")
        return mm

    def two(self, parts: list[Part]) -> Fraction:
        first, second, *more = parts
        units = (first.unit, second.unit)
        if units == ("m", None) and _is_whole(first) and second.number.isdecimal() and not more:
            written = f"{first.number} m {second.number}"
            raise self._ask([f"{written} cm", f"{written} mm"], "needs both its units")
        if units == ("ft", None):
            units = ("ft", "in")
        allowed = {("ft", "in"), ("m", "cm"), ("m", "mm")}
        if more or units not in allowed or not _is_whole(first) or second.groups_by:
            raise Refusal(self.field, f'"{self.shown}" is not one length: {_LIKE}')
        rest_mm = second.value * MM_PER[str(units[1])]
        if rest_mm >= MM_PER[str(units[0])]:
            told = f"{_INCHES_IN_A_FOOT} inches or more beside its feet"
            told = told if units[0] == "ft" else "a metre or more beside its metres"
            raise Refusal(self.field, f'"{self.shown}" has {told}')
        return first.value * MM_PER[str(units[0])] + rest_mm

    def _may_stand_bare(self, part: Part) -> bool:
        if part.value == 0:
            return True  # nothing is nothing in every unit
        if self.default_unit is None:
            return False
        rule = BARE[self.default_unit]
        return (
            part.value <= rule.at_most
            and (rule.takes_point or not part.has_point)
            and (rule.takes_fraction or not part.is_fraction)
            and (self.default_unit == "mm" or not part.groups_by)
        )

    def _with_units(self, part: Part) -> list[str]:
        """The ways to write a bare number with its unit."""
        units = ASKED_OF_A_FRACTION if part.is_fraction else ASKED[self.default_unit]
        number = part.number if part.is_fraction else "".join(part.number.replace(",", "").split())
        ways = [f"{number} {unit}" for unit in units]
        feet, _, inches = number.partition(".")
        if self.default_unit == "ft" and inches and int(inches) < _INCHES_IN_A_FOOT:
            ways.insert(1, f"{feet or 0}' {int(inches)}\"")
        if part.groups_by == ",":
            ways.insert(0, f"{part.number.replace(',', '.', 1)} m")
        return ways

    def _ask(self, ways: Iterable[str], why: str) -> Ambiguous:
        readings = tuple(dict.fromkeys(way for way in ways if is_plausible(way)))
        hint = f": write {either(readings)}" if readings else ""
        return Ambiguous(self.field, f'"{self.shown}" {why}{hint}', readings)


def _is_whole(part: Part) -> bool:
    return part.value.denominator == 1 and not part.groups_by and not part.has_point


def _without_groups(part: Part) -> list[str]:
    number = "".join(part.number.replace(",", "").split())
    points = [part.number.replace(",", ".")] if part.number.count(",") == 1 and not part.has_point else []
    return [f"{each} {part.unit}" for each in (*points, number)]


def is_plausible(way: str) -> bool:
    """Tell whether a way to write a length, with its unit, is one that a loft may have.

    Args:
        way: The length. Text. [any length unit]

    Returns:
        Whether it is read, and is neither nothing nor too long. Truth value. [-]

    Source:
        Common practice, no source.
    """
    try:
        return 0 < read_length_mm(way, default_unit=None) <= LONGEST_IN_A_LOFT_MM
    except Refusal:
        return False
