"""What an edition lacks before it can be closed, each lack with the page that mends it."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from urllib.parse import urlencode

from django.urls import reverse

from estimating.missing import requirements_of_an_edition
from estimating.price_book import Condition, Role, Task
from estimating.refusals import Refusal, Requirements
from estimating.ways_to_price import VatRounding
from jobs.price_books.as_price_book import as_price_book, requirement_in_words
from jobs.price_books.models import Edition

_ROW_KINDS = {"labour_rates": "labour", "condition_rates": "condition", "charges": "charge"}
OFFERED_ONLY_WITH = (
    Role.HATCH, Role.LADDER, Role.LIGHT, Role.EDGE_TRIM, Role.DRAUGHT_STRIP, Role.DOWNLIGHT_COVER,
    Role.TRUSS_SHELF, Role.WALKWAY,
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Lack:
    """One thing to mend, in words, and the address of the page that mends it."""

    words: str
    address: str


def refusals_of(edition: Edition) -> tuple[Refusal, ...]:
    """Return everything that keeps an edition from being closed: what is missing, and what costs nothing."""
    needs = requirements_of_an_edition(
        {Role(row.role) for row in edition.products.all()},
        {row.dimensions.get("fixes") for row in edition.products.filter(role=Role.SCREW)},
        {Task(row.task) for row in edition.labour_rates.all()},
        {Condition(row.condition) for row in edition.condition_rates.all()},
    )
    try:
        as_price_book(edition)
    except Refusal as refused:
        needs.note(refused)
    # The core looks at the whole book only once every row of it can be read; this must not wait for that.
    heard = any(refusal.field == "hourly_cost" for refusal in _settled(needs))
    needs.require(heard or edition.hourly_cost > 0, "hourly_cost", "must be more than 0 pounds")
    for place, charge in enumerate(edition.charges.all()):
        needs.require(charge.amount != 0, f"charges[{place}].amount", "must be more than 0 pounds")
    return _settled(needs)


def _settled(needs: Requirements) -> tuple[Refusal, ...]:
    try:
        needs.settle()
    except Refusal as refused:
        return refused.each
    return ()


def lacks_of(edition: Edition) -> list[Lack]:
    """Return the same in words, each with the address where it is mended."""
    return [
        Lack(requirement_in_words(edition, each), _mended_at(edition, each)) for each in refusals_of(edition)
    ]


def _mended_at(edition: Edition, refusal: Refusal) -> str:
    place = re.fullmatch(r"(\w+)\[(\d+)\]\.?(\w*)", refusal.field)
    if place is not None:
        row = list(getattr(edition, place[1]).all())[int(place[2])]
        box = f"#id_{place[3]}" if place[3] else ""
        if place[1] == "products":
            return reverse("product", args=[edition.pk, row.pk]) + box
        return reverse("edition_row", args=[edition.pk, _ROW_KINDS[place[1]], row.pk]) + box
    if refusal.field == "products":
        return _new_product(edition, refusal.requirement)
    if refusal.field in _ROW_KINDS:
        kind = _ROW_KINDS[refusal.field]
        column = {"labour": "task", "condition": "condition"}.get(kind, "")
        named = re.search(r'"(.+)"', refusal.requirement)
        wanted = f"?{urlencode({column: named[1]})}" if named and column else ""
        return reverse("edition_row_new", args=[edition.pk, kind]) + wanted
    return reverse("edition_pricing", args=[edition.pk]) + f"#id_{refusal.field.removeprefix('pricing.')}"


def _new_product(edition: Edition, requirement: str) -> str:
    """A screw is asked for by what it fixes; anything else by its role, the first that is named."""
    role = Role.SCREW if "a screw" in requirement else next(
        (role for role in Role if f" for {role}" in requirement), Role.OTHER
    )  # fmt: skip
    fixes = requirement.rpartition(" ")[2] if role is Role.SCREW else ""
    asked = {"role": role.value, **({"fixes": fixes} if fixes else {})}
    return reverse("product_new", args=[edition.pk]) + f"?{urlencode(asked)}"


def notes_of(edition: Edition) -> Iterator[Lack]:
    """Yield what an edition may be closed without, so that nobody is surprised by it later."""
    here = reverse("price_book", args=[edition.pk])
    held = set(edition.products.values_list("role", flat=True))
    for role in OFFERED_ONLY_WITH:
        if role not in held:
            yield Lack(
                f"No product for {role}: quotes cannot offer one.", _new_product(edition, f" for {role}")
            )
    supports = {
        Role.PEDESTAL: "Decks are raised on battens only",
        Role.BATTEN: "Decks stand on pedestals only",
    }
    for role, words in supports.items():
        if role not in held:
            yield Lack(f"{words}: there is no {role}.", _new_product(edition, f" for {role}"))
    for row in edition.products.filter(weight_kg=0):
        address = reverse("product", args=[edition.pk, row.pk]) + "#id_weight_kg"
        yield Lack(f"{row.description}: no weight; loads and orders count the usual one or none.", address)
    if not edition.vat_registered:
        address = reverse("edition_pricing", args=[edition.pk]) + "#id_vat_registered"
        yield Lack(
            "Not registered for VAT: quotes show none, so every cost here must have the VAT in it.",
            address,
        )
    if edition.vat_registered and VatRounding(edition.vat_rounding).business_customers_only:
        address = reverse("edition_pricing", args=[edition.pk]) + "#id_vat_rounding"
        yield Lack("“How VAT is rounded” is for business customers only: no household is quoted.", address)
    if not edition.charges.exists():
        yield Lack("No charges: travel, parking and waste cost a job nothing.", here)
