"""Amounts: quantities with their units, and money to the penny.

pint does the conversions, at the edge only: inside the core a length is a whole number of
millimetres (read from what people write in `lengths`) and money is a Decimal number of pounds.
"""

from __future__ import annotations

from decimal import ROUND_HALF_UP, Decimal
from functools import cache
from typing import Any

from pint import UnitRegistry

from estimating.lengths import read_length_mm

__all__ = ["PENNY", "read_length_mm", "registry", "to_penny"]

PENNY = Decimal("0.01")


@cache
def registry() -> UnitRegistry[Any]:
    """Return the one pint registry, made on first use because making it takes a tenth of a second.

    Returns:
        The registry whose quantities every public physics function takes. Registry. [-]

    Source:
        Own definition.
    """
    return UnitRegistry()


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
