"""Rows of an edition to the core's price book, and back.

The core says which dimensions a role needs and what they must be; this module only moves them.
"""

from __future__ import annotations

import re
from dataclasses import fields
from decimal import Decimal
from typing import Any

from django.db import transaction

from estimating.json_forms import price_book_as_json, price_book_from_json
from estimating.price_book import PriceBook, Product
from estimating.refusals import Refusal
from jobs.firm.models import Firm
from jobs.price_books.dimensions import label_of
from jobs.price_books.models import (
    Edition,
    EditionCharge,
    EditionConditionRate,
    EditionLabourRate,
    EditionProduct,
)

_OWN_PERCENT = ("materials_percent", "hours_percent", "charges_percent")
_COMMON = frozenset(field.name for field in fields(Product)) | {"role"}


def as_price_book(edition: Edition) -> PriceBook:
    """Return an edition as the core's frozen price book; raises the core's Refusals."""
    return price_book_from_json(
        {
            "format": "eavesbook-price-book/1",
            "firm": Firm.ours().name,
            "edition": edition.name,
            "dated": edition.dated.isoformat(),
            "hourly_cost": str(edition.hourly_cost),
            "products": [_product(row) for row in edition.products.all()],
            "labour_rates": [
                {"task": row.task, "hours": str(row.hours), "unit": row.unit}
                for row in edition.labour_rates.all()
            ],
            "condition_rates": [
                {"condition": row.condition, "percent_longer": str(row.percent_longer)}
                for row in edition.condition_rates.all()
            ],
            "charges": [
                {
                    "code": row.code,
                    "description": row.description,
                    "amount": str(row.amount),
                    "per": row.per,
                    "always": row.always,
                }
                for row in edition.charges.all()
            ],
            "pricing": {
                "margin_kind": edition.margin_kind,
                "percent": str(edition.percent),
                "minimum_net": str(edition.minimum_net),
                "round_to": str(edition.round_to),
                "vat_registered": edition.vat_registered,
                "vat_rounding": edition.vat_rounding,
                "least_margin_percent": str(edition.least_margin_percent),
                **{name: _percent_or_none(getattr(edition, name)) for name in _OWN_PERCENT},
            },
        }
    )


def _percent_or_none(percent: Decimal | None) -> str | None:
    return None if percent is None else str(percent)


def _product(row: EditionProduct) -> dict[str, Any]:
    return {
        "role": row.role,
        "code": row.code,
        "description": row.description,
        "supplier": row.supplier,
        "supplier_code": row.supplier_code,
        "pack_cost": str(row.pack_cost),
        "pack_size": row.pack_size,
        "weight_kg": str(row.weight_kg),
        "vat_class": row.vat_class,
        "checked_on": row.checked_on.isoformat() if row.checked_on else None,
        **row.dimensions,
    }


_ROW_NAMES = {
    "products": "description",
    "labour_rates": "task",
    "condition_rates": "condition",
    "charges": "description",
}


def requirement_in_words(edition: Edition, refusal: Refusal) -> str:
    """Say one refusal by the row's own name: "Glass wool roll: thickness, mm must be ..."."""
    place = re.fullmatch(r"(\w+)\[(\d+)\]\.?(\w*)", refusal.field)
    if place is None or place[1] not in _ROW_NAMES:
        return f"{label_of(refusal.field.removeprefix('pricing.'))} {refusal.requirement}"
    row = list(getattr(edition, place[1]).all())[int(place[2])]
    return f"{getattr(row, _ROW_NAMES[place[1]])}: {label_of(place[3]).lower()} {refusal.requirement}"


@transaction.atomic
def fill_edition(edition: Edition, book: PriceBook) -> None:
    """Write a core price book into an open, empty edition."""
    form = price_book_as_json(book)
    pricing = form["pricing"]
    for name, value in pricing.items():
        setattr(edition, name, value)
    edition.hourly_cost = book.hourly_cost
    edition.save()
    EditionProduct.objects.bulk_create(
        EditionProduct(
            edition=edition,
            dimensions={name: value for name, value in product.items() if name not in _COMMON},
            **{name: value for name, value in product.items() if name in _COMMON},
        )
        for product in form["products"]
    )
    EditionLabourRate.objects.bulk_create(
        EditionLabourRate(edition=edition, **rate) for rate in form["labour_rates"]
    )
    EditionConditionRate.objects.bulk_create(
        EditionConditionRate(edition=edition, **rate) for rate in form["condition_rates"]
    )
    EditionCharge.objects.bulk_create(EditionCharge(edition=edition, **charge) for charge in form["charges"])
