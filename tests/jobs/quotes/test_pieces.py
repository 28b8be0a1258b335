"""Walkways and other items in a quote: the office says how many, and everybody reads what they are."""

from __future__ import annotations

from dataclasses import replace

import pytest
from django.urls import reverse
from django.utils import timezone

from estimating.choices import ChosenPieces, Part
from estimating.json_forms import choices_from_json
from jobs.documents.job_sheet import job_sheet_context
from jobs.documents.quote import quote_context
from jobs.orders.services import make_orders
from jobs.price_books.closing import lacks_of, notes_of
from jobs.price_books.services import close_edition, copy_edition
from jobs.quotes.drafts.copying import copy_quote
from jobs.quotes.drafts.forms import ChoicesForm
from jobs.quotes.drafts.services import change_draft, price_at_current_edition
from jobs.quotes.frozen import frozen_estimate
from jobs.quotes.models import Revision
from jobs.quotes.services import issue_revision
from jobs.works.models import Job
from tests.jobs.offers import make_job

pytestmark = pytest.mark.django_db
HTMX = {"HX-Request": "true"}
WALKWAY, VENTS = "pieces_WALK-1200", "pieces_VENT-LAP"


@pytest.fixture
def typed(draft) -> dict[str, object]:
    form = ChoicesForm(revision=draft)
    sent = {name: form[name].value() for name in form.fields}
    return {name: value for name, value in sent.items() if value is not None and value is not False}


def send(client, draft, sent):
    address = reverse("revision_choices", args=[draft.quote.number, draft.letter])
    answer = client.post(address, sent, headers=HTMX)
    draft.refresh_from_db()
    return answer


def with_walkway(draft: Revision, **changes) -> None:
    choices = choices_from_json(draft.choices)
    pieces = (ChosenPieces(product_code="WALK-1200", count=2),)
    choices = replace(choices, parts=choices.parts | {Part.WALKWAY}, pieces=pieces, **changes)
    change_draft(draft, choices=choices, introduction="")


def test_what_the_office_counts_is_kept_priced_and_shown_again(draft, typed, office, logged_in):
    client = logged_in(office)
    assert (typed["part_walkway"], typed["part_other"]) == ("option", "in")
    answer = send(
        client, draft, {**typed, WALKWAY: "3", "part_walkway": "in", VENTS: "12", "part_other": "option"}
    )
    kept = choices_from_json(draft.choices)
    assert {each.product_code: each.count for each in kept.pieces} == {"WALK-1200": 3, "VENT-LAP": 12}
    assert kept.parts >= {Part.WALKWAY, Part.OTHER}
    assert kept.optional_parts & {Part.WALKWAY, Part.OTHER} == {Part.OTHER}
    lines = {line.part: line for line in answer.context["price"].lines}
    assert lines[Part.WALKWAY].description == "Walkway: 3 × Tread board 1.2 m on its own feet"
    assert not lines[Part.OTHER].counted
    form = ChoicesForm(revision=draft)
    assert (form[WALKWAY].value(), form["part_other"].value()) == (3, "option")
    page = client.get(reverse("quote", args=[draft.quote.number])).content.decode()
    assert "Tread board 1.2 m on its own feet, how many" in page


def test_a_walkway_asked_for_at_the_survey_waits_to_be_counted(draft, typed, office, logged_in):
    """The survey tells that one is wanted, not how many pieces of which: until that is said there is none."""
    client, address = logged_in(office), reverse("quote", args=[draft.quote.number])
    assert Part.WALKWAY not in choices_from_json(draft.choices).parts
    asked, other = ChoicesForm(revision=draft).piece_groups
    assert "The customer asked for it at the survey." in asked.about
    assert (asked.is_open, other.is_open) == (True, False)
    assert "The customer asked for it at the survey." in client.get(address).content.decode()
    send(client, draft, {**typed, WALKWAY: "3", "part_walkway": "taken", VENTS: "1", "part_other": "taken"})
    assert not choices_from_json(draft.choices).pieces  # nobody asked for the other items
    send(client, draft, {**typed, WALKWAY: "3", "part_walkway": "taken"})
    assert Part.WALKWAY in choices_from_json(draft.choices).taken_parts
    asked, _ = ChoicesForm(revision=draft).piece_groups
    assert "The customer asked" not in asked.about


def test_none_of_a_product_offers_nothing_of_it(draft, typed, office, logged_in):
    client = logged_in(office)
    send(client, draft, {**typed, WALKWAY: "3"})
    for nothing in ("0", ""):
        send(client, draft, {**typed, WALKWAY: nothing})
        kept = choices_from_json(draft.choices)
        assert kept.pieces == ()
        assert Part.WALKWAY not in kept.parts


@pytest.mark.parametrize(
    ("typed_count", "words"),
    [
        ("-1", "Tread board 1.2 m on its own feet, how many must be from 1 to 9,999."),
        ("10000", "Tread board 1.2 m on its own feet, how many must be from 1 to 9,999."),
        ("two", "Tread board 1.2 m on its own feet, how many must be a number."),
    ],
)
def test_a_count_that_cannot_be_is_told_in_the_boxes_words(  # noqa: PLR0913, PLR0917 - fixtures
    draft, typed, office, logged_in, typed_count, words
):
    before = draft.choices
    answer = send(logged_in(office), draft, {**typed, WALKWAY: typed_count})
    assert answer.status_code == 422
    assert words in answer.content.decode()
    assert draft.choices == before


def test_an_edition_without_such_products_asks_nothing(draft, office, logged_in):
    draft.edition.products.filter(role__in=("walkway", "other")).delete()
    page = logged_in(office).get(reverse("quote", args=[draft.quote.number])).content.decode()
    assert "Walkway" not in page
    form = ChoicesForm(revision=draft)
    assert not form.piece_groups
    assert "part_other" not in form.fields


def test_what_another_edition_lacks_is_refused_and_can_be_taken_away(  # noqa: PLR0913, PLR0917 - fixtures
    draft, typed, office, owner, edition, logged_in
):
    with_walkway(draft)
    following = copy_edition(edition, name="Winter", dated=timezone.localdate())
    following.products.filter(code="WALK-1200").delete()
    close_edition(following, by=owner)
    price_at_current_edition(draft)
    client = logged_in(office)
    page = client.get(reverse("quote", args=[draft.quote.number])).content.decode()
    assert "Pieces must be in the price book: WALK-1200" in page
    assert "WALK-1200, which Winter lacks, how many" in page
    answer = send(client, draft, {**typed, WALKWAY: ""})
    assert answer.context["price"].totals.gross > 0
    assert choices_from_json(draft.choices).pieces == ()


def test_a_copy_leaves_out_what_its_edition_lacks_and_tells(draft, owner, office, edition):
    with_walkway(draft, optional_parts=frozenset({Part.WALKWAY}))
    assert choices_from_json(copy_quote(draft, draft.quote.survey, by=office).revision.choices).pieces
    following = copy_edition(edition, name="Winter", dated=timezone.localdate())
    following.products.filter(code="WALK-1200").delete()
    close_edition(following, by=owner)
    copied = copy_quote(draft, draft.quote.survey, by=office)
    new = choices_from_json(copied.revision.choices)
    assert (new.pieces, Part.WALKWAY in new.parts | new.optional_parts) == ((), False)
    assert "Winter has no walkway or other item WALK-1200: left out." in copied.told


def test_customer_crew_and_supplier_read_of_it(draft, office):
    with_walkway(draft)
    issue_revision(draft, by=office)
    draft.refresh_from_db()
    words = "2 × Tread board 1.2 m on its own feet"
    assert any(words in each for each in quote_context(draft)["what_we_do"])
    job: Job = make_job(draft)
    sheet = job_sheet_context(job)
    assert any("Lay the walkway" in each for each in sheet["steps"])
    assert any(each.code == "WALK-1200" for each in sheet["materials"])
    ordered = [line for order in make_orders(job, by=office) for line in order.lines.all()]
    assert [line.packs for line in ordered if line.description.startswith("Tread board")] == [2]


def test_a_quote_frozen_before_there_were_pieces_is_read_as_it_was(draft, office):
    issue_revision(draft, by=office)
    draft.refresh_from_db()
    price = frozen_estimate(draft).price
    for copy in (draft.issued["choices"], draft.issued["estimate"]["choices"]):
        del copy["pieces"]
    draft.save(update_fields=["issued"])
    old = frozen_estimate(Revision.objects.get(pk=draft.pk))
    assert (old.price, old.choices.pieces) == (price, ())


def test_closing_asks_for_the_rate_of_such_a_product_and_notes_that_there_is_none(edition, owner):
    following = copy_edition(edition, name="Winter", dated=timezone.localdate())
    following.labour_rates.filter(task__in=("lay a walkway", "fit other items")).delete()
    asked = {each.words: each.address for each in lacks_of(following)}
    assert 'Labour rates needs a rate for "lay a walkway"' in asked
    assert asked['Labour rates needs a rate for "fit other items"'].endswith("?task=fit+other+items")
    following.products.filter(role__in=("walkway", "other")).delete()
    assert lacks_of(following) == []
    noted = [each.words for each in notes_of(following)]
    assert "No product for walkway: quotes cannot offer one." in noted
