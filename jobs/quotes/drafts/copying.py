"""Copy an earlier quote to another survey: the same choices, and every one told that cannot be the same."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from decimal import Decimal

from django.contrib.auth.models import User
from django.db import transaction
from django.utils import timezone

from estimating.choices import PART_OF_PIECES, Choices
from estimating.json_forms import choices_as_json
from estimating.price_book import Role
from jobs.firm.numbers import next_number
from jobs.price_books.models import Edition
from jobs.price_books.services import current_edition
from jobs.quotes.alternatives import alternatives_of, keep_alternatives
from jobs.quotes.drafts.terms import for_customer
from jobs.quotes.listing.finding import keep_words
from jobs.quotes.listing.standing import keep_standing
from jobs.quotes.models import Quote, Revision
from jobs.surveys.as_measured import deck_zones_of, wishes_as_choices
from jobs.surveys.models import Survey

CHOSEN_HERE = "chosen for this quote"


@dataclass(frozen=True, slots=True)
class Copied:
    """The new draft, and in sentences what of the earlier quote is not in it, or wants a look."""

    revision: Revision
    told: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class _Place:
    """Where a quote is copied to, beside where it comes from."""

    survey: Survey
    edition: Edition
    asked: Choices
    same_property: bool
    same_customer: bool


@transaction.atomic
def copy_quote(revision: Revision, survey: Survey, *, by: User) -> Copied:
    """Draft a new quote for a survey with what a revision of an earlier one offers, at the current edition.

    What a survey measures and what belongs to a house or a customer comes from the new survey; what only
    the other job gave reason for is left out.
    """
    old = revision.quote.property
    place = _Place(
        survey=survey,
        edition=current_edition(),
        asked=wishes_as_choices(survey, tax_point=timezone.localdate()),
        same_property=old == survey.property,
        same_customer=old.customer_id == survey.property.customer_id,
    )
    told: list[str] = []
    copies = []
    for each in alternatives_of(revision):
        choices, notes = _carried(each.choices, place)
        copies.append(replace(each, form=choices_as_json(choices)))
        told += [note for note in notes if note not in told]
    quote = Quote.objects.create(number=next_number("Q"), property=survey.property, survey=survey, made_by=by)
    draft = Revision(
        quote=quote, letter="A", edition=place.edition, made_by=by, use_store=revision.use_store,
        introduction=revision.introduction if place.same_customer else "",
    )  # fmt: skip
    if revision.introduction and not place.same_customer:
        told.append("The opening words were written for another customer, and are left out.")
    draft.save()
    keep_alternatives(draft, copies)
    keep_standing(quote)
    keep_words([quote])
    return Copied(draft, tuple(told))


def _carried(old: Choices, place: _Place) -> tuple[Choices, list[str]]:
    """Return one alternative's choices as they can be for another survey, with what is to be told."""
    asked = place.asked
    new = replace(
        old,
        tax_point=asked.tax_point,
        least_headroom_mm=asked.least_headroom_mm,
        roof_space=asked.roof_space,
        energy_price_pence_kwh=asked.energy_price_pence_kwh,
        conditions=asked.conditions,
    )
    told = []
    if old.conditions != asked.conditions:
        told.append(f"What makes the work slower follows the survey: {_listed(asked.conditions)}.")
    for narrowed in (_target, _products, _pieces, _zones, _of_the_house, _of_the_customer):
        new, notes = narrowed(new, place)
        told += notes
    wished = asked.parts - new.parts
    if wished:
        told.append(f"Asked for at the survey, and not in the quote copied: {_listed(wished)}.")
    return new, told


def _target(old: Choices, place: _Place) -> tuple[Choices, list[str]]:
    """Keep a target that the office chose; one that was the nation's is that of the new house's nation."""
    if old.target_source == CHOSEN_HERE:
        return old, []
    asked = place.asked
    new = replace(old, target_u_w_m2k=asked.target_u_w_m2k, target_source=asked.target_source)
    differs = new.target_u_w_m2k != old.target_u_w_m2k
    return new, [f"The target is now {new.target_u_w_m2k} W/m²K: {new.target_source}."] if differs else []


def _products(old: Choices, place: _Place) -> tuple[Choices, list[str]]:
    told = []
    boards = set(place.edition.products.filter(role="board").values_list("code", flat=True))
    board_code = old.board_code if old.board_code in boards else None
    if old.board_code and not board_code:
        told.append(f"{place.edition} has no board {old.board_code}: the cheapest that suits is taken.")
    charges = set(place.edition.charges.filter(always=False).values_list("code", flat=True))
    gone = old.charge_codes - charges
    if gone:
        told.append(f"{place.edition} has no charge {_listed(gone)}: left out.")
    return replace(old, board_code=board_code, charge_codes=old.charge_codes & charges), told


def _pieces(old: Choices, place: _Place) -> tuple[Choices, list[str]]:
    """Keep the walkways and other items that the edition still has; a part without any is not offered."""
    rows = place.edition.products.filter(role__in=list(PART_OF_PIECES)).values_list("code", "role")
    part_of = {code: PART_OF_PIECES[Role(role)] for code, role in rows}
    kept = tuple(each for each in old.pieces if each.product_code in part_of)
    gone = {each.product_code for each in old.pieces} - part_of.keys()
    if not gone:
        return old, []
    without = set(PART_OF_PIECES.values()) - {part_of[each.product_code] for each in kept}
    new = replace(
        old,
        pieces=kept,
        parts=old.parts - without,
        optional_parts=old.optional_parts - without,
        taken_parts=old.taken_parts - without,
    )
    return new, [f"{place.edition} has no walkway or other item {_listed(gone)}: left out."]


def _zones(old: Choices, place: _Place) -> tuple[Choices, list[str]]:
    """Leave zones out only where they are the very zones that were left out before."""
    if not old.left_out_zones or (
        place.same_property and old.left_out_zones < set(deck_zones_of(place.survey))
    ):
        return old, []
    words = f"Zones were left out of the deck ({_listed(old.left_out_zones)}): here every zone is decked."
    return replace(old, left_out_zones=frozenset()), [words]


def _of_the_house(old: Choices, place: _Place) -> tuple[Choices, list[str]]:
    """Leave out what only the other house gave reason for."""
    if place.same_property:
        return old, []
    told = []
    if old.miles:
        told.append(f"Miles to drive were {old.miles.normalize():f} to the other house: fill them in anew.")
    if old.hatch_cut_with_insulation:
        told.append("That the hatch is cut together with the insulation is to be said anew, with its reason.")
    if old.vat_classes:
        told.append(
            f"VAT classes chosen by hand are left out: {_listed(each.part for each in old.vat_classes)}."
        )
    return replace(
        old, miles=Decimal(0), hatch_cut_with_insulation=False, hatch_reason="", vat_classes=()
    ), told


def _of_the_customer(old: Choices, place: _Place) -> tuple[Choices, list[str]]:
    if place.same_customer:
        return old, []
    told = []
    if old.discounts:
        reasons = _listed(each.reason for each in old.discounts)
        told.append(f"Discounts were the other customer's, and are left out: {reasons}.")
    new = replace(old, discounts=(), reverse_charge=None)
    return for_customer(new, place.survey.property.customer), told


def _listed(things: Iterable[object]) -> str:
    return ", ".join(sorted(map(str, things))) or "nothing"
