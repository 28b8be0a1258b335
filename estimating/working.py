"""The working: the formula, inputs and source behind one figure.

Nothing the core computes for a reader travels as a bare number. It travels as a Figure, and a Figure
cannot be made without its Working.
"""

from __future__ import annotations

import re
from collections import Counter
from dataclasses import dataclass
from decimal import Decimal
from enum import StrEnum
from typing import Generic, TypeVar

Number = int | float | Decimal
Value_co = TypeVar("Value_co", int, float, Decimal, covariant=True)


class Origin(StrEnum):
    """Where an input came from."""

    MEASURED = "measured"
    PRICE_BOOK = "price book"
    CHOSEN = "chosen"
    PUBLISHED = "published"
    DEFAULT = "default"
    WORKED_OUT = "worked out"


COMMON_PRACTICE = "common practice, no source"
ARITHMETIC = "arithmetic"
_WHICH_ONE = re.compile(
    r",| (?:of|to|for|in|with|per|at|by|between|across|over|under|from|before|after|above|up to)(?: |$)"
)
"""What follows one of these in an input's name only tells it from its like: "cost of chipboard"."""


@dataclass(frozen=True, slots=True)
class Given:
    """One input of a formula: its name in the formula, its value and where it came from."""

    name: str
    value: Number | str
    unit: str
    origin: Origin

    @property
    def shown(self) -> str:
        """The value with its unit, as it is read: 270 mm, £19.80."""
        return shown(self.value, self.unit)

    @property
    def names(self) -> tuple[str, ...]:
        """What a formula may call it: its whole name, or the name without what tells it from its like."""
        ends = [found.start() for found in _WHICH_ONE.finditer(self.name)]
        return (self.name, *(self.name[:end] for end in reversed(ends) if end))


@dataclass(frozen=True, slots=True)
class Working:
    """The formula in words, the inputs that went into it and its source."""

    formula: str
    inputs: tuple[Given, ...]
    source: str

    @property
    def with_numbers(self) -> str:
        """The formula with each input's value before its name: "270 mm insulation − 97 mm joist depth".

        Where the formula names no input, because it tells what is done with all of them, they follow it.
        """
        named = self.named_in_formula
        if not named:
            between = " + " if re.search(r"\b(sum|added up)\b", self.formula) else ", "
            listed = between.join(f"{given.shown} {given.name}" for given in self.inputs)
            return f"{self.formula}: {listed}" if listed else self.formula
        longest_first = "|".join(re.escape(name) for name in sorted(named, key=len, reverse=True))

        def with_value(found: re.Match[str]) -> str:
            given = named[found[1].lower()]
            value = str(given.value) if given.unit == found[1] else given.shown
            return f"({value} {found[1]}){found[2]}" if found[2] else f"{value} {found[1]}"

        return re.sub(_called(longest_first), with_value, self.formula, flags=re.IGNORECASE)

    @property
    def named_in_formula(self) -> dict[str, Given]:
        """The inputs that the formula calls by a name of their own, by that name in small letters."""
        bearers = Counter(name.lower() for given in self.inputs for name in set(given.names))
        named: dict[str, Given] = {}
        for given in self.inputs:
            for name in given.names:
                called = re.search(_called(re.escape(name)), self.formula, re.IGNORECASE)
                if called and bearers[name.lower()] == 1:
                    named[name.lower()] = given
                    break
        return named


@dataclass(frozen=True, slots=True)
class Figure(Generic[Value_co]):
    """A value that can be shown to a reader, because its working can be."""

    name: str
    value: Value_co
    unit: str
    working: Working

    @property
    def shown(self) -> str:
        """The value with its unit, as it is read."""
        return shown(self.value, self.unit)


def _called(names: str) -> str:
    """The names where they stand as whole words, and the power they are raised to, if any."""
    return rf"(?<!\w)({names})([²³⁴]|(?!\w))"


def shown(value: Number | str, unit: str) -> str:
    """Write a value with its unit, money as money is written.

    Args:
        value: The value. Scalar or text. [as unit]
        unit: The unit's symbol, empty for a count. Text. [-]

    Returns:
        The words. Text. [-]

    Source:
        Own definition.
    """
    if unit == "GBP":
        return f"£{value}"
    return f"{value} {unit}".rstrip()


def measured(name: str, value: Number | str, unit: str = "") -> Given:
    """Give an input that the surveyor measured.

    Args:
        name: The input's name in the formula. Text. [-]
        value: What was measured. Scalar. [as unit]
        unit: The unit's symbol, empty for a count. Text. [-]

    Returns:
        The input. Record. [as unit]

    Source:
        Own definition.
    """
    return Given(name, value, unit, Origin.MEASURED)


def from_price_book(name: str, value: Number | str, unit: str = "") -> Given:
    """Give an input that the price book holds.

    Args:
        name: The input's name in the formula. Text. [-]
        value: What the price book says. Scalar. [as unit]
        unit: The unit's symbol, empty for a count. Text. [-]

    Returns:
        The input. Record. [as unit]

    Source:
        Own definition.
    """
    return Given(name, value, unit, Origin.PRICE_BOOK)


def chosen(name: str, value: Number | str, unit: str = "") -> Given:
    """Give an input that the office or the customer chose.

    Args:
        name: The input's name in the formula. Text. [-]
        value: What was chosen. Scalar. [as unit]
        unit: The unit's symbol, empty for a count. Text. [-]

    Returns:
        The input. Record. [as unit]

    Source:
        Own definition.
    """
    return Given(name, value, unit, Origin.CHOSEN)


def published(name: str, value: Number | str, unit: str = "") -> Given:
    """Give an input that a published table holds.

    Args:
        name: The input's name in the formula. Text. [-]
        value: What the table says. Scalar. [as unit]
        unit: The unit's symbol, empty for a count. Text. [-]

    Returns:
        The input. Record. [as unit]

    Source:
        Own definition.
    """
    return Given(name, value, unit, Origin.PUBLISHED)


def default(name: str, value: Number | str, unit: str = "") -> Given:
    """Give an input that was taken because nothing better was known.

    Args:
        name: The input's name in the formula. Text. [-]
        value: What was taken. Scalar. [as unit]
        unit: The unit's symbol, empty for a count. Text. [-]

    Returns:
        The input. Record. [as unit]

    Source:
        Own definition.
    """
    return Given(name, value, unit, Origin.DEFAULT)


def worked_out(figure: Figure[int] | Figure[float] | Figure[Decimal]) -> Given:
    """Give an input that is itself a figure with its own working.

    Args:
        figure: The earlier figure. Record. [as its unit]

    Returns:
        The input. Record. [as its unit]

    Source:
        Own definition.
    """
    return Given(figure.name, figure.value, figure.unit, Origin.WORKED_OUT)
