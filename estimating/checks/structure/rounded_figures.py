"""Numbers of statics written down as figures, rounded to what a reader can use."""

from __future__ import annotations

from decimal import Decimal

from estimating.working import Figure, Given, Origin, Working

Sized = Figure[Decimal]


def sized(name: str, value: float, unit: str, working: Working, *, places: int = 4) -> Sized:
    """Write a number down as a figure.

    Args:
        name: What it is called. Text. [-]
        value: The number. Scalar. [as unit]
        unit: Its unit. Text. [-]
        working: Formula, inputs and source. Record. [-]
        places: Decimal places kept. Scalar. [count]

    Returns:
        The figure. Scalar. [as unit]

    Source:
        Own definition.
    """
    return Figure(name, Decimal(f"{value:.{places}f}"), unit, working)


def worked_number(name: str, value: float, unit: str = "") -> Given:
    """Give an input that was worked out on the way, to four places.

    Args:
        name: Its name in the formula. Text. [-]
        value: The number. Scalar. [as unit]
        unit: Its unit. Text. [-]

    Returns:
        The input. Record. [as unit]

    Source:
        Own definition.
    """
    return Given(name, Decimal(f"{value:.4f}").normalize() + 0, unit, Origin.WORKED_OUT)
