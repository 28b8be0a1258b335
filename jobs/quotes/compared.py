"""The alternatives of an issued revision side by side: what each comes to, and in what they differ.

Everything is read from the frozen copy as it lies there, without building whole estimates.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from decimal import Decimal
from typing import Any

from jobs.quotes.frozen import frozen_alternatives
from jobs.quotes.models import Revision
from jobs.quotes.picking import Picked

Frozen = Mapping[str, Any]


@dataclass(frozen=True, slots=True, kw_only=True)
class Compared:
    """One alternative beside the others; `differs` names what is not the same in all of them."""

    picked: Picked
    deck_area_m2: Decimal
    boards: int
    u_value: Decimal
    differs: tuple[tuple[str, str], ...]


def compared(revision: Revision, each_picked: Iterable[Picked]) -> list[Compared]:
    """Return the alternatives with their figures, each with the options that count for it."""
    frozen = frozen_alternatives(revision)
    told = {name: [tell(each) for each in frozen] for name, tell in _TOLD.items()}
    differing = {name: words for name, words in told.items() if len(set(words)) > 1}
    return [
        Compared(
            picked=picked,
            deck_area_m2=Decimal(form["estimate"]["design"]["deck_area_m2"]["value"]),
            boards=len(form["estimate"]["design"]["cuts"]),
            u_value=Decimal(str(form["estimate"]["checks"]["heat"]["as_proposed"]["value"])),
            differs=tuple((name, words[number]) for name, words in differing.items()),
        )
        for number, (form, picked) in enumerate(zip(frozen, each_picked, strict=True))
    ]


def _zones(form: Frozen) -> str:
    return _list(zone["zone"] for zone in form["estimate"]["design"]["zones"])


def _raised(form: Frozen) -> str:
    return str(form["choices"]["raise_with"])


def _insulation(form: Frozen) -> str:
    return f"{form['estimate']['design']['insulation']['finished_depth_mm']['value']} mm"


def _board(form: Frozen) -> str:
    products = form["estimate"]["price_book"]["products"]
    held = {product["code"]: product["description"] for product in products}
    codes = dict.fromkeys(cut["code"] for cut in form["estimate"]["design"]["cuts"])
    return _list(held.get(code, code) for code in codes)


def _in_the_price(form: Frozen) -> str:
    return _list(line["part"] for line in form["estimate"]["price"]["lines"] if not line["optional"])


def _options(form: Frozen) -> str:
    return _list(line["part"] for line in form["estimate"]["price"]["lines"] if line["optional"])


def _list(words: Iterable[str]) -> str:
    return ", ".join(words) or "none"


_TOLD: Mapping[str, Callable[[Frozen], str]] = {
    "Decked": _zones,
    "Raised on": _raised,
    "Insulation in all": _insulation,
    "Board": _board,
    "In the price": _in_the_price,
    "Options": _options,
}
