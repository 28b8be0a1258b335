"""The boxes for walkways and other items: how many of each such product of the edition, and how offered.

A part is offered as soon as there is a piece of it, so that nobody has to say it twice.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any
from urllib.parse import quote

from django import forms

from estimating.choices import PART_OF_PIECES, Choices, ChosenPieces, Part
from estimating.price_book import Role
from estimating.refusals import Refusal, Requirements
from jobs.quotes.drafts.box_groups import Boxes, BoxGroup
from jobs.quotes.drafts.part_boxes import part_box, part_field
from jobs.quotes.models import Revision

_IN_A_ROW = 3
_ABOUT = "How many pieces of each; leave a box empty for none."
_TITLES = {Part.WALKWAY: "Walkway", Part.OTHER: "Other items"}


class PieceBoxes:
    """The piece boxes of one draft, and what they say."""

    def __init__(self, revision: Revision, stored: Choices, *, wished: Mapping[Part, str]) -> None:
        self.stored, self.wished = stored, wished
        self.products: dict[Part, dict[str, str]] = {}
        counted = {each.product_code: each.count for each in stored.pieces}
        for row in revision.edition.products.filter(role__in=list(PART_OF_PIECES)):
            part = PART_OF_PIECES[Role(row.role)]
            self.products.setdefault(part, {})[row.code] = f"{row.description}, how many"
        known = {code for products in self.products.values() for code in products}
        for code in counted.keys() - known:  # chosen at another edition: shown, so that it can be taken away
            part = next((each for each in _TITLES if each in stored.parts), Part.OTHER)
            self.products.setdefault(part, {})[code] = f"{code}, which {revision.edition} lacks, how many"
        self.counted = counted

    def fields(self) -> Boxes:
        """Return the boxes by name, filled with what is stored."""
        found: Boxes = {}
        for part in (part for part in _TITLES if part in self.products):
            found[part_field(part)] = box = part_box(self.stored, part, wished=part in self.wished)
            box.choices = [each for each in box.choices if each[0] != "no"]
            box.label = "How it is offered"
            box.initial = box.initial if part in self.stored.parts else self.wished.get(part, "in")
            for code, label in self.products[part].items():
                found[_box_of(code)] = forms.IntegerField(
                    label=label, required=False, initial=self.counted.get(code)
                )
        for box in found.values():
            box.is_one_of_many = True
        return found

    def groups(self, form: forms.BaseForm) -> list[BoxGroup]:
        """Return the boxes of a form as its page shows them, each part under its own name."""
        found = []
        for part, title in _TITLES.items():
            counts = [form[_box_of(code)] for code in self.products.get(part, ())]
            if counts:
                boxes = [*counts, form[part_field(part)]]
                rows = [boxes[at : at + _IN_A_ROW] for at in range(0, len(boxes), _IN_A_ROW)]
                is_filled = any(box.value() for box in counts)
                is_asked_for = part in self.wished and not is_filled
                about = f"The customer asked for it at the survey. {_ABOUT}" if is_asked_for else _ABOUT
                is_open = is_filled or is_asked_for or any(box.errors for box in counts)
                found.append(BoxGroup(title, about, rows, is_open))
        return found

    def read(
        self, needs: Requirements, asked: dict[str, Any]
    ) -> tuple[dict[Part, str], tuple[ChosenPieces, ...]]:
        """Return how the parts made of pieces are offered, and the pieces; note what cannot be so."""
        how: dict[Part, str] = {}
        pieces = []
        for part, products in self.products.items():
            for code in products:
                name = _box_of(code)
                if not asked.get(name):
                    continue
                how[part] = asked[part_field(part)]
                try:
                    pieces.append(ChosenPieces(product_code=code, count=asked[name]))
                except Refusal as refused:
                    for each in refused.each:
                        needs.require(False, name, each.requirement)
        return how, tuple(pieces)


def _box_of(code: str) -> str:
    """Return the name of a product's box; by its code, which stands through editions."""
    return f"pieces_{quote(code, safe='')}"
