"""Amounts as the page shows them."""

from __future__ import annotations

import re
from decimal import Decimal
from typing import Any

from django import template

from estimating.checks.heat.u_values import to_two_figures
from estimating.price_book import Role
from estimating.quantities.quantities import Purchase

register = template.Library()
LONG_WORDS, LEADING = 240, 2
THIN = "\u202f"  # keeps 3 730 on one line, as drawings write it


@register.filter
def pounds(amount: Any) -> str:
    """Show money: £2,486.40, and −£12.00 below nothing."""
    if amount in (None, ""):
        return ""
    value = Decimal(str(amount)).quantize(Decimal("0.01"))
    sign = "−" if value < 0 else ""
    return f"{sign}£{abs(value):,.2f}"


@register.filter
def millimetres(length: Any) -> str:
    """Show a length as drawings do: 3 730 mm."""
    return "" if length in (None, "") else f"{int(length):,}".replace(",", THIN) + " mm"


@register.filter
def places(value: Any, count: int = 1) -> str:
    """Show a number with so many places."""
    return "" if value in (None, "") else f"{Decimal(str(value)):,.{count}f}"


@register.filter
def two_figures(u_value: Any) -> str:
    """Show a U-value as it is reported: 0.16, and 2.3 of a bare ceiling."""
    return "" if u_value in (None, "") else f"{to_two_figures(Decimal(str(u_value))):f}"


@register.filter
def amount(figure: Any) -> str:
    """Show a figure that is money or a count, by its own unit."""
    if figure is None:
        return ""
    return pounds(figure.value) if figure.unit == "GBP" else f"{figure.value} {figure.unit}".strip()


@register.filter
def per_cent(value: Any) -> str:
    """Show a rate without idle noughts: 20 %, 12.5 %."""
    return "" if value in (None, "") else f"{Decimal(str(value)).normalize():f} %"


@register.filter
def naming(error: str, label: str) -> str:
    """Lead an error with its field's label, unless it names the label itself."""
    return error if str(error).startswith(label) else f"{label}: {error}"


@register.filter
def led(words: str) -> tuple[str, str]:
    """Part what is said first from what explains it, where much is said: two sentences lead."""
    sentences = re.split(r"(?<=[.!?]) (?=[A-Z])", words)
    if len(words) <= LONG_WORDS or len(sentences) <= LEADING:
        return words, ""
    return " ".join(sentences[:LEADING]), " ".join(sentences[LEADING:])


_PACKED_IN = {
    Role.INSULATION_ROLL: ("roll", "rolls"),
    Role.PEDESTAL: ("box", "boxes"),
    Role.SCREW: ("box", "boxes"),
}


@register.filter
def bought(purchase: Purchase) -> str:
    """Show what is needed beside what is bought: 163 · 14 boxes, or 23 of what comes singly."""
    packs, needed = purchase.packs.value, purchase.needed.value
    if packs == needed:
        return f"{packs}"
    one, many = _PACKED_IN.get(
        purchase.role, ("length", "lengths") if purchase.needed.unit == "m" else ("pack", "packs")
    )
    amount = f"{needed:,.1f} {purchase.needed.unit}" if purchase.needed.unit else f"{needed:,}"
    return f"{amount} · {packs} {one if packs == 1 else many}"
