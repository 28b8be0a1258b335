"""The working: the formula, inputs and source behind one figure.

Nothing the core computes for a reader travels as a bare number. It travels as a Figure, and a Figure
cannot be made without its Working.
"""

from __future__ import annotations

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


@dataclass(frozen=True, slots=True)
class Given:
    """One input of a formula: its name in the formula, its value and where it came from."""

    name: str
    value: Number | str
    unit: str
    origin: Origin


@dataclass(frozen=True, slots=True)
class Working:
    """The formula in words, the inputs that went into it and its source."""

    formula: str
    inputs: tuple[Given, ...]
    source: str


@dataclass(frozen=True, slots=True)
class Figure(Generic[Value_co]):
    """A value that can be shown to a reader, because its working can be."""

    name: str
    value: Value_co
    unit: str
    working: Working


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
