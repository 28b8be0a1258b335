"""A quote is copied to another survey with what it offers; what cannot be the same there is told."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from decimal import Decimal

import pytest
from django.contrib.messages import get_messages
from django.urls import reverse
from django.utils import timezone

from estimating.choices import Choices, ChosenVatClass, Part, RaiseWith
from estimating.json_forms import choices_as_json, choices_from_json
from estimating.price_terms import Discount
from estimating.ways_to_price import VatClass
from jobs.customers.finding import keep_words_of_customers
from jobs.customers.models import Customer, Property
from jobs.price_books.services import close_edition, copy_edition
from jobs.quotes.drafts.copying import CHOSEN_HERE, copy_quote
from jobs.quotes.drafts.services import estimate_draft
from jobs.quotes.listing.standing import KEPT, standing_of
from jobs.quotes.models import Quote, Revision
from jobs.surveys.models import Survey
from jobs.surveys.services import open_survey

pytestmark = pytest.mark.django_db


@pytest.fixture
def elsewhere(surveyor) -> Survey:
    """Return a survey of somebody else's house."""
    customer = Customer.objects.create(name="Wilf Tarrant", phone="020 7946 0418")
    place = Property.objects.create(
        customer=customer, address="27 Harbour Lane", town="Wexcombe", postcode="WX1 2HL"
    )
    keep_words_of_customers([customer])
    return open_survey(place, by=surveyor, visited_on=date(2026, 11, 20))


def change(draft: Revision, **changes) -> Choices:
    choices = replace(choices_from_json(draft.choices), **changes)
    draft.choices = choices_as_json(choices)
    draft.save()
    return choices


def test_the_copy_offers_the_same_to_another_house(draft, elsewhere, office):
    asked = change(
        draft, raise_with=RaiseWith.BATTENS, gap_mm=70, lights=3, target_u_w_m2k=Decimal("0.13"),
        target_source=CHOSEN_HERE,
        parts=frozenset({Part.INSULATION, Part.LADDER, Part.LIGHT}), optional_parts=frozenset({Part.LADDER}),
        taken_parts=frozenset({Part.LADDER}),
    )  # fmt: skip
    copied = copy_quote(draft, elsewhere, by=office)
    revision = Revision.objects.select_related("quote").get(pk=copied.revision.pk)
    new = choices_from_json(revision.choices)
    same = (
        "raise_with",
        "gap_mm",
        "lights",
        "target_u_w_m2k",
        "parts",
        "optional_parts",
        "taken_parts",
        "stages",
    )
    assert {name: getattr(new, name) for name in same} == {name: getattr(asked, name) for name in same}
    assert (revision.letter, revision.state) == ("A", Revision.State.DRAFT)
    assert (revision.quote.survey, revision.quote.property) == (elsewhere, elsewhere.property)
    assert revision.quote.number != draft.quote.number
    assert {name: getattr(revision.quote, name) for name in KEPT} == standing_of(revision.quote)
    assert revision.quote.words.filter(word="tarrant").exists()


def test_what_belongs_to_the_house_or_the_customer_is_left_out_and_told(draft, elsewhere, office):
    change(
        draft,
        miles=Decimal(12),
        hatch_cut_with_insulation=True,
        hatch_reason="Cut on the same day",
        vat_classes=(ChosenVatClass(part=Part.LADDER, vat_class=next(iter(VatClass)), note="As agreed"),),
        discounts=(Discount(reason="A neighbour", percent=Decimal(5)),),
    )
    Revision.objects.filter(pk=draft.pk).update(introduction="Dear Odile,")
    copied = copy_quote(Revision.objects.get(pk=draft.pk), elsewhere, by=office)
    new = choices_from_json(copied.revision.choices)
    assert (new.miles, new.hatch_cut_with_insulation, new.hatch_reason) == (0, False, "")
    assert (new.vat_classes, new.discounts, copied.revision.introduction) == ((), (), "")
    told = " ".join(copied.told)
    for words in ("12 to the other house", "hatch is cut", "VAT classes", "A neighbour", "opening words"):
        assert words in told


def test_another_survey_of_the_same_house_keeps_all_that(draft, surveyor, office):
    change(draft, miles=Decimal(12), discounts=(Discount(reason="A neighbour", percent=Decimal(5)),))
    Revision.objects.filter(pk=draft.pk).update(introduction="Dear Odile,")
    again = open_survey(draft.quote.property, by=surveyor, visited_on=timezone.localdate())
    copied = copy_quote(Revision.objects.get(pk=draft.pk), again, by=office)
    new = choices_from_json(copied.revision.choices)
    assert (new.miles, len(new.discounts), copied.revision.introduction) == (12, 1, "Dear Odile,")


def test_what_the_price_book_no_longer_has_is_told(draft, elsewhere, office, owner, edition):
    board = edition.products.filter(role="board").first()
    charge = edition.charges.filter(always=False).first()
    change(draft, board_code=board.code, charge_codes=frozenset({charge.code}))
    following = copy_edition(edition, name="Winter", dated=timezone.localdate())
    following.products.filter(code=board.code).delete()
    following.charges.filter(code=charge.code).delete()
    close_edition(following, by=owner)
    copied = copy_quote(draft, elsewhere, by=office)
    new = choices_from_json(copied.revision.choices)
    assert copied.revision.edition == following
    assert (new.board_code, new.charge_codes) == (None, frozenset())
    told = " ".join(copied.told)
    assert board.code in told
    assert charge.code in told


def test_what_the_survey_asks_for_and_the_copy_lacks_is_told(draft, office):
    change(draft, parts=frozenset(), optional_parts=frozenset(), taken_parts=frozenset())
    copied = copy_quote(draft, draft.quote.survey, by=office)
    assert any("insulation" in words for words in copied.told)
    assert estimate_draft(copied.revision).price.totals.gross > 0


def test_zones_left_out_are_decked_again_in_another_house(draft, elsewhere, office):
    change(draft, left_out_zones=frozenset({"Middle"}))
    copied = copy_quote(draft, elsewhere, by=office)
    assert choices_from_json(copied.revision.choices).left_out_zones == frozenset()
    assert any("Middle" in words for words in copied.told)


def test_an_issued_quote_is_copied_and_stays_as_it_was(offer, edition, elsewhere, office):
    before = Revision.objects.values().get(pk=offer.pk)
    copied = copy_quote(offer, elsewhere, by=office)
    assert copied.revision.is_draft
    assert Revision.objects.values().get(pk=offer.pk) == before


def test_the_survey_is_found_as_one_types_and_a_press_makes_the_draft(
    offer, edition, elsewhere, office, logged_in
):
    client = logged_in(office)
    address = reverse("revision_copy", args=[offer.quote.number, "A"])
    for typed in ("tarr wx1", "harb", elsewhere.number.lower()):
        page = client.get(address, {"q": typed}).content.decode()
        assert f'value="{elsewhere.number}"' in page
        assert f'value="{offer.quote.survey.number}"' not in page
    part = client.get(address, {"q": "tarr"}, headers={"HX-Request": "true"}).content.decode()
    assert part.lstrip().startswith('<div id="surveys"')
    answer = client.post(address, {"survey": elsewhere.number})
    made = Quote.objects.get(survey=elsewhere)
    assert answer.url == reverse("quote", args=[made.number])
    assert any("copied from" in str(each) for each in get_messages(answer.wsgi_request))


def test_a_surveyor_copies_no_quote(offer, edition, surveyor, logged_in):
    client = logged_in(surveyor)
    address = reverse("revision_copy", args=[offer.quote.number, "A"])
    assert client.get(address).status_code == 403
    assert client.post(address, {"survey": offer.quote.survey.number}).status_code == 403
