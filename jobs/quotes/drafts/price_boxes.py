"""The boxes about the price of a draft: discounts, stages, the VAT class of a part, the reverse charge.

Of each kind there is a row for each that is filled and one more. A row in which nothing stands asks for
nothing; while somebody types, one that is half filled waits.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from django import forms

from estimating.choices import Choices
from estimating.price_terms import ReverseChargeAnswers
from estimating.refusals import Refusal, Requirements
from jobs.customers.models import Customer
from jobs.quotes.drafts.box_groups import Boxes, BoxGroup
from jobs.quotes.drafts.price_rows import ROW_KINDS, RowKind
from jobs.quotes.models import Revision

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


class PriceBoxes:
    """The price boxes of one draft, and what they say."""

    def __init__(
        self,
        revision: Revision,
        stored: Choices,
        *,
        may_choose_vat_class: bool,
        sent: Mapping[str, Any] | None = None,
        typing: bool = False,
    ) -> None:
        self.stored, self.sent, self.typing = stored, sent or {}, typing
        self.shows_vat = revision.edition.vat_registered
        self.may_choose_vat_class = may_choose_vat_class and self.shows_vat
        business = revision.quote.property.customer.kind == Customer.Kind.BUSINESS
        self.asks_for_reverse_charge = business and self.shows_vat
        self.kinds = [kind for kind in ROW_KINDS if kind.key != "vat" or self.may_choose_vat_class]
        self.rows: dict[str, list[list[str]]] = {kind.key: [] for kind in ROW_KINDS}
        self.waiting: list[str] = []

    def fields(self) -> Boxes:
        """Return the boxes by name, filled with what is stored."""
        found: Boxes = {}
        for kind in self.kinds:
            held = kind.held(self.stored)
            for number in range(self._rows_shown(kind)):
                row = kind.boxes(number + 1, held[number] if number < len(held) else None)
                names = kind.names(number)
                self.rows[kind.key].append(list(names.values()))
                found |= {names[name]: box for name, box in row.items()}
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

    def _rows_shown(self, kind: RowKind) -> int:
        """Count a row for each that is filled, stored or sent, and one to fill next."""
        filled = [
            number
            for number in range(kind.most)
            if any(self.sent.get(name) for name in kind.names(number).values())
        ]
        return min(kind.most, max(len(kind.held(self.stored)), *(number + 1 for number in filled), 0) + 1)

    def _rows_sent(self, kind: RowKind) -> int:
        """Count the rows that the page has which sent these boxes."""
        return sum(any(name in self.sent for name in kind.names(each).values()) for each in range(kind.most))

    def groups(self, form: forms.BaseForm) -> list[BoxGroup]:
        """Return the boxes of a form as its page shows them."""
        found = []
        for kind in self.kinds:
            rows = [[form[name] for name in row] for row in self.rows[kind.key]]
            wrong = any(box.errors for row in rows for box in row)
            filled = kind.key != "stage" and any(box.value() for row in rows for box in row)
            fresh = rows[self._rows_sent(kind) :] if self.sent else []
            found.append(BoxGroup(kind.title, kind.about, rows, wrong or filled, kind.key, fresh))
        if self.asks_for_reverse_charge:
            boxes = [form[name] for name in _QUESTIONS]
            found.append(BoxGroup(BUSINESS_TITLE, _BUSINESS, [boxes], is_open=True))
        return found

    def read(self, needs: Requirements, asked: dict[str, Any]) -> dict[str, Any]:
        """Return what the boxes say as fields of the core's choices; note refusals by the boxes' names."""
        said = {kind.key: tuple(self._records(needs, asked, kind)) for kind in self.kinds}
        return {
            "discounts": said["discount"],
            "stages": said["stage"],
            "vat_classes": said.get("vat", self.stored.vat_classes),
            "reverse_charge": _answers(asked) if self.asks_for_reverse_charge else self.stored.reverse_charge,
        }

    def _records(self, needs: Requirements, asked: dict[str, Any], kind: RowKind) -> Iterator[Any]:
        for number in range(len(self.rows[kind.key])):
            names = kind.names(number)
            row = {own: asked[name] for own, name in names.items() if name in asked}
            if len(row) < len(names):
                continue  # a box of it cannot be read, and says so
            if not any(value not in (None, "") for value in row.values()):
                continue
            if self.typing and not kind.is_whole(row):
                self.waiting.append(f"{kind.called} {number + 1}")
                continue
            try:
                yield kind.record(row)
            except Refusal as refused:
                for each in refused.each:
                    needs.require(False, names.get(each.field, each.field), each.requirement)


def _answers(asked: dict[str, Any]) -> ReverseChargeAnswers:
    said = {name: {"yes": True, "no": False}.get(asked.get(name) or "") for name in _QUESTIONS}
    return ReverseChargeAnswers(**said)
