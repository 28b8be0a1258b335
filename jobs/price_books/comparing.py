"""Two editions line by line: what was added, what is gone, and what changed by how much."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from decimal import Decimal

from django.db.models import Model

from estimating.price_book import Role
from jobs.price_books.models import Edition, EditionProduct
from jobs.price_books.row_values import (
    Value,
    product_values,
    row_values,
    value_in_words,
    value_label,
)

A_PIECE = "Cost of one piece, £"
_PER_CENTS = (
    "percent", "materials_percent", "hours_percent", "charges_percent", "percent_longer",
    "least_margin_percent",
)  # fmt: skip
"""From 30 to 33 per cent is three more, and no tenth: nobody is told per cent of per cent."""


@dataclass(frozen=True, slots=True)
class Change:
    """One value before and after, in words; `per_cent` where both are numbers and there was one before."""

    label: str
    before: str
    after: str
    per_cent: Decimal | None = None

    @property
    def per_cent_in_words(self) -> str:
        """Say by how much, with its sign: "+8.5 %", "−4 %"."""
        if self.per_cent is None:
            return ""
        sign = "−" if self.per_cent < 0 else "+"
        return f"{sign}{abs(self.per_cent).normalize():f} %"


@dataclass(frozen=True, slots=True)
class Line:
    """One row of either edition: added, gone or changed."""

    name: str
    code: str
    outcome: str
    changes: tuple[Change, ...] = ()


@dataclass(frozen=True, slots=True)
class Compared:
    """The lines of one kind that differ."""

    title: str
    lines: tuple[Line, ...]


def compare_editions(before: Edition, after: Edition) -> list[Compared]:
    """Return all that differs between two editions, kind by kind; nothing for what is the same."""
    products = _pair_products(list(before.products.all()), list(after.products.all()))
    parts = [
        Compared("Pricing", _lines([(before, after)], row_values, lambda _row: ("How it prices", ""))),
        *(
            Compared(role.capitalize(), _lines(_of_role(products, role), product_values, _product_name))
            for role in Role
        ),
        Compared("Labour", _others(before.labour_rates, after.labour_rates, "task")),
        Compared(
            "What makes work slower", _others(before.condition_rates, after.condition_rates, "condition")
        ),
        Compared("Charges", _others(before.charges, after.charges, "code")),
    ]
    return [part for part in parts if part.lines]


_Pair = tuple[Model | None, Model | None]


def _pair_products(before: list[EditionProduct], after: list[EditionProduct]) -> list[_Pair]:
    """Pair products by code; what is left, by role and description, since suppliers' codes change."""
    by_code = {row.code: row for row in after}
    pairs: list[_Pair] = [(row, by_code.pop(row.code)) for row in before if row.code in by_code]
    paired = {id(row) for row, _ in pairs}
    by_name = {(row.role, row.description): row for row in by_code.values()}
    for row in before:
        if id(row) not in paired:
            renamed = by_name.pop((row.role, row.description), None)
            pairs.append((row, renamed))
            if renamed is not None:
                by_code.pop(renamed.code)
    return pairs + [(None, row) for row in by_code.values()]


def _of_role(pairs: Iterable[_Pair], role: Role) -> list[_Pair]:
    return [(old, new) for old, new in pairs if (old if new is None else new).role == role.value]


def _others(before: object, after: object, key: str) -> tuple[Line, ...]:
    old = {getattr(row, key): row for row in before.all()}
    new = {getattr(row, key): row for row in after.all()}
    pairs = [(old.get(each), new.get(each)) for each in dict.fromkeys((*old, *new))]
    return _lines(pairs, row_values, lambda row: (str(row), getattr(row, "code", "")))


def _product_name(row: EditionProduct) -> tuple[str, str]:
    return row.description, row.code


def _lines(
    pairs: Iterable[_Pair],
    values: Callable[[Model], dict[str, Value]],
    name: Callable[[Model], tuple[str, str]],
) -> tuple[Line, ...]:
    lines = []
    for old, new in pairs:
        if old is None or new is None:
            lines.append(Line(*name(new if old is None else old), "added" if old is None else "gone"))
            continue
        changes = changes_between(values(old), values(new), type(new))
        if changes:
            lines.append(Line(*name(new), "changed", changes))
    return tuple(lines)


def changes_between(
    before: dict[str, Value], after: dict[str, Value], model: type[Model]
) -> tuple[Change, ...]:
    """Return what differs between the values of two rows, in the order of their boxes."""
    found = [
        Change(
            value_label(name, model),
            value_in_words(name, before.get(name)),
            value_in_words(name, after.get(name)),
            None if name in _PER_CENTS else _per_cent(before.get(name), after.get(name)),
        )
        for name in dict.fromkeys((*before, *after))
        if before.get(name) != after.get(name)
    ]
    if before.get("pack_size") != after.get("pack_size"):
        old, new = (values["pack_cost"] / values["pack_size"] for values in (before, after))
        found.append(Change(A_PIECE, f"{old:.4f}", f"{new:.4f}", _per_cent(old, new)))
    return tuple(found)


def _per_cent(before: Value, after: Value) -> Decimal | None:
    numbers = all(
        isinstance(value, int | Decimal) and not isinstance(value, bool) for value in (before, after)
    )
    if not numbers or not before:
        return None
    return ((Decimal(after) - Decimal(before)) / Decimal(before) * 100).quantize(Decimal("0.1"))
