"""The boxes about the price of a draft: discounts, stages, the VAT class of a part, the reverse charge.

Each kind has a few rows of boxes; a row in which nothing stands asks for nothing.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from decimal import Decimal
from typing import Any

from django import forms

from estimating.choices import Choices, ChosenVatClass, Part
from estimating.price_terms import Discount, ReverseChargeAnswers, Stage, StageDue
from estimating.refusals import Refusal, Requirements
from estimating.ways_to_price import VatClass
from jobs.customers.models import Customer
from jobs.quotes.drafts.box_groups import Boxes, BoxGroup
from jobs.quotes.models import Revision

ROWS = {"discount": 2, "stage": 3, "vat": 2}
_NOTHING = ("", "Nothing")
_WHENS = {
    StageDue.ACCEPTANCE: "When the quote is accepted",
    StageDue.START: "When the work starts",
    StageDue.COMPLETION: "When the work is complete",
}
BUSINESS_TITLE = "What a business customer is asked"
_BUSINESS = (
    "Where the answers are yes, yes and no the domestic reverse charge applies: the customer accounts for "
    "the VAT, and none is paid to you. Confirm with your accountant."
)
_ANSWERS = [("", "Not asked yet"), ("yes", "Yes"), ("no", "No")]
_QUESTIONS = {
    "customer_registered": "The customer is registered for VAT",
    "reported_in_cis": "The customer reports the payment under the construction industry scheme",
    "end_user_notice": "The customer wrote that it is an end user or an intermediary",
}
_TITLES = {"discount": "Discounts", "stage": "When it is paid", "vat": "VAT class of a part"}
_ABOUT = {
    "discount": "Off the lines that count, before minimum job and rounding. The customer reads the reason.",
    "stage": "What is paid before the rest, which is always last, when the work is complete.",
    "vat": "Instead of what the products say. The note stands beside the line. Confirm with your accountant.",
}


class PriceBoxes:
    """The price boxes of one draft, and what they say."""

    def __init__(self, revision: Revision, stored: Choices, *, may_choose_vat_class: bool) -> None:
        self.stored = stored
        self.shows_vat = revision.edition.vat_registered
        self.may_choose_vat_class = may_choose_vat_class and self.shows_vat
        business = revision.quote.property.customer.kind == Customer.Kind.BUSINESS
        self.asks_for_reverse_charge = business and self.shows_vat
        self.rows: dict[str, list[list[str]]] = {kind: [] for kind in ROWS}

    def fields(self) -> Boxes:
        """Return the boxes by name, filled with what is stored."""
        found: Boxes = {}
        for kind, rows in self._filled().items():
            for number, row in enumerate(rows):
                boxes = {f"{kind}_{number}_{name}": box for name, box in row.items()}
                self.rows[kind].append(list(boxes))
                found |= boxes
        if self.asks_for_reverse_charge:
            said = self.stored.reverse_charge or ReverseChargeAnswers()
            for name, question in _QUESTIONS.items():
                answer = {None: "", True: "yes", False: "no"}[getattr(said, name)]
                found[name] = forms.ChoiceField(
                    label=question, choices=_ANSWERS, required=False, initial=answer
                )
        for box in found.values():
            box.is_one_of_many = True
            if not self.shows_vat:
                box.label = str(box.label).removesuffix(" without VAT").removesuffix(" with VAT")
        return found

    def groups(self, form: forms.BaseForm) -> list[BoxGroup]:
        """Return the boxes of a form as its page shows them."""
        found = []
        for kind, names in self.rows.items():
            rows = [[form[name] for name in row] for row in names]
            wrong = any(box.errors for row in rows for box in row)
            filled = kind != "stage" and any(box.value() for row in rows for box in row)
            if rows:
                found.append(BoxGroup(_TITLES[kind], _ABOUT[kind], rows, wrong or filled))
        if self.asks_for_reverse_charge:
            boxes = [form[name] for name in _QUESTIONS]
            found.append(BoxGroup(BUSINESS_TITLE, _BUSINESS, [boxes], is_open=True))
        return found

    def _filled(self) -> dict[str, list[Boxes]]:
        kinds: dict[str, tuple[Any, tuple[Any, ...]]] = {
            "discount": (_discount_boxes, self.stored.discounts),
            "stage": (_stage_boxes, self.stored.stages),
            "vat": (_vat_boxes, self.stored.vat_classes),
        }
        if not self.may_choose_vat_class:
            del kinds["vat"]
        return {
            kind: [
                boxes(number + 1, held[number] if number < len(held) else None)
                for number in range(max(ROWS[kind], len(held)))
            ]
            for kind, (boxes, held) in kinds.items()
        }

    def read(self, needs: Requirements, asked: dict[str, Any]) -> dict[str, Any]:
        """Return what the boxes say as fields of the core's choices; note refusals by the boxes' names."""
        return {
            "discounts": tuple(self._rows(needs, asked, "discount", _discount)),
            "stages": tuple(self._rows(needs, asked, "stage", _stage)),
            "vat_classes": tuple(self._rows(needs, asked, "vat", _vat_class))
            if self.may_choose_vat_class
            else self.stored.vat_classes,
            "reverse_charge": _answers(asked) if self.asks_for_reverse_charge else self.stored.reverse_charge,
        }

    def _rows(self, needs: Requirements, asked: dict[str, Any], kind: str, record: Any) -> Iterator[Any]:
        for number, names in enumerate(self.rows[kind]):
            row = {name.rpartition("_")[2]: asked.get(name) for name in names}
            if not any(value not in (None, "") for value in row.values()):
                continue
            try:
                yield record(row)
            except Refusal as refused:
                for each in refused.each:
                    needs.require(False, f"{kind}_{number}_{each.field}", each.requirement)


def _discount_boxes(number: int, held: Discount | None) -> Boxes:
    name = f"Discount {number}"
    return {
        "reason": _text(f"{name}, reason", held and held.reason),
        "percent": _number(f"{name}, per cent", held and held.percent),
        "amount": _number(f"{name}, or £ without VAT", held and held.amount),
    }


def _discount(row: dict[str, Any]) -> Discount:
    return Discount(reason=row["reason"] or "", percent=row["percent"], amount=row["amount"])


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


def _stage(row: dict[str, Any]) -> Stage:
    due = StageDue(row["due"]) if row["due"] else None
    on: date | None = row["on"]
    return Stage(due=due, on=on, percent=row["percent"], amount=row["amount"])


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


def _vat_class(row: dict[str, Any]) -> ChosenVatClass:
    needs = Requirements()
    needs.require(bool(row["part"]), "part", "must name a part")
    needs.require(bool(row["class"]), "class", "must be chosen")
    needs.settle()
    return ChosenVatClass(part=Part(row["part"]), vat_class=VatClass(row["class"]), note=row["note"] or "")


def _answers(asked: dict[str, Any]) -> ReverseChargeAnswers:
    said = {name: {"yes": True, "no": False}.get(asked.get(name) or "") for name in _QUESTIONS}
    return ReverseChargeAnswers(**said)


def _text(label: str, initial: str | None) -> forms.CharField:
    return forms.CharField(label=label, required=False, max_length=200, initial=initial)


def _number(label: str, initial: Decimal | None) -> forms.DecimalField:
    shown = None if initial is None else f"{initial.normalize():f}"
    return forms.DecimalField(label=label, required=False, decimal_places=2, initial=shown)
