"""The rows of boxes about the price: one discount, one payment or one part's VAT class in each."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from typing import Any

from django import forms

from estimating.choices import Choices, ChosenVatClass, Part
from estimating.price_terms import MOST_STAGES, Discount, Stage, StageDue
from estimating.refusals import Requirements
from estimating.ways_to_price import VatClass
from jobs.quotes.drafts.box_groups import Boxes

Row = dict[str, Any]
_NOTHING = ("", "Nothing")
_WHENS = {
    StageDue.ACCEPTANCE: "When the quote is accepted",
    StageDue.START: "When the work starts",
    StageDue.COMPLETION: "When the work is complete",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class RowKind:
    """One kind of row: its boxes, what they say together, and how many there may be.

    `is_whole` tells whether a row says enough to be read; one that is not whole is still being filled.
    """

    key: str
    title: str
    about: str
    most: int
    held: Callable[[Choices], tuple[Any, ...]]
    own_names: tuple[str, ...]
    boxes: Callable[[int, Any], Boxes]
    record: Callable[[Row], Any]
    is_whole: Callable[[Row], bool]
    called: str

    def names(self, number: int) -> dict[str, str]:
        """Return the full names of a row's boxes by their own."""
        return {name: f"{self.key}_{number}_{name}" for name in self.own_names}


def _discount_boxes(number: int, held: Discount | None) -> Boxes:
    name = f"Discount {number}"
    return {
        "reason": _text(f"{name}, reason", held and held.reason),
        "percent": _number(f"{name}, per cent", held and held.percent),
        "amount": _number(f"{name}, or £ without VAT", held and held.amount),
    }


def _discount(row: Row) -> Discount:
    return Discount(reason=row["reason"] or "", percent=row["percent"], amount=row["amount"])


def _discount_is_whole(row: Row) -> bool:
    return bool(row["reason"]) and _is_given(row, "percent", "amount")


def _stage_boxes(number: int, held: Stage | None) -> Boxes:
    name = f"Payment {number}"
    events = [(due.value, words) for due, words in _WHENS.items()]
    return {
        "due": forms.ChoiceField(
            label=f"{name}, when", choices=[_NOTHING, *events], required=False,
            initial=held.due.value if held and held.due else "",
        ),
        "on": forms.DateField(label=f"{name}, or on", required=False, initial=held and held.on),
        "percent": _number(f"{name}, per cent", held and held.percent),
        "amount": _number(f"{name}, or £ with VAT", held and held.amount),
    }  # fmt: skip


def _stage(row: Row) -> Stage:
    due = StageDue(row["due"]) if row["due"] else None
    on: date | None = row["on"]
    return Stage(due=due, on=on, percent=row["percent"], amount=row["amount"])


def _stage_is_whole(row: Row) -> bool:
    return _is_given(row, "due", "on") and _is_given(row, "percent", "amount")


def _vat_boxes(number: int, held: ChosenVatClass | None) -> Boxes:
    name = f"VAT class {number}"
    parts = [(part.value, part.value.capitalize()) for part in Part]
    classes = [(each.value, each.value.capitalize()) for each in VatClass]
    return {
        "part": forms.ChoiceField(
            label=f"{name}, of", choices=[("", "No part"), *parts], required=False,
            initial=held.part.value if held else "",
        ),
        "class": forms.ChoiceField(
            label=f"{name}, is", choices=[("", "As the products say"), *classes], required=False,
            initial=held.vat_class.value if held else "",
        ),
        "note": _text(f"{name}, note why", held and held.note),
    }  # fmt: skip


def _vat_class(row: Row) -> ChosenVatClass:
    needs = Requirements()
    needs.require(bool(row["part"]), "part", "must name a part")
    needs.require(bool(row["class"]), "class", "must be chosen")
    needs.settle()
    return ChosenVatClass(part=Part(row["part"]), vat_class=VatClass(row["class"]), note=row["note"] or "")


def _vat_is_whole(row: Row) -> bool:
    return bool(row["part"] and row["class"] and row["note"])


def _is_given(row: Row, *either: str) -> bool:
    return any(row[name] not in (None, "") for name in either)


def _text(label: str, initial: str | None) -> forms.CharField:
    return forms.CharField(label=label, required=False, max_length=200, initial=initial)


def _number(label: str, initial: Decimal | None) -> forms.DecimalField:
    shown = None if initial is None else f"{initial.normalize():f}"
    return forms.DecimalField(label=label, required=False, decimal_places=2, initial=shown)


ROW_KINDS = (
    RowKind(
        key="discount", called="Discount", title="Discounts", most=12,
        about="Off the lines that count, before minimum job and rounding. The customer reads the reason.",
        held=lambda choices: choices.discounts, own_names=("reason", "percent", "amount"),
        boxes=_discount_boxes, record=_discount, is_whole=_discount_is_whole,
    ),
    RowKind(
        key="stage", called="Payment", title="When it is paid", most=MOST_STAGES,
        about="What is paid before the rest, which is always last, when the work is complete.",
        held=lambda choices: choices.stages, own_names=("due", "on", "percent", "amount"),
        boxes=_stage_boxes, record=_stage, is_whole=_stage_is_whole,
    ),
    RowKind(
        key="vat", called="VAT class", title="VAT class of a part", most=len(Part),
        about="Instead of what the products say. The note stands beside the line. Confirm with your "
        "accountant.",
        held=lambda choices: choices.vat_classes, own_names=("part", "class", "note"),
        boxes=_vat_boxes, record=_vat_class, is_whole=_vat_is_whole,
    ),
)  # fmt: skip
