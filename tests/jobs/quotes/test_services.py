"""Issuing freezes, stops block, revisions follow each other, and one of them stands."""

from __future__ import annotations

import copy
from datetime import date, timedelta

import pytest
from django.db import IntegrityError, transaction
from django.urls import reverse
from django.utils import timezone

from estimating.json_forms import choices_from_json
from jobs.documents.papers import read_paper
from jobs.firm.models import Firm
from jobs.price_books.services import close_edition, copy_edition
from jobs.quotes.customer.decisions import Evidence, accept_revision
from jobs.quotes.customer.links import open_link
from jobs.quotes.drafts.services import (
    CannotRevise,
    NotADraft,
    _letter_after,
    change_draft,
    discard_draft,
    draft_quote,
    estimate_draft,
    next_revision,
    price_at_current_edition,
)
from jobs.quotes.models import Quote, Revision
from jobs.quotes.services import (
    CannotIssue,
    NotOnOffer,
    issue_revision,
    lapse_offers,
    resend_link,
    withdraw_revision,
)
from jobs.surveys.models import Clearance, Finding
from jobs.surveys.services import clear_finding, complete_survey
from tests.jobs.quotes.conftest import answer_every_hazard

pytestmark = pytest.mark.django_db
NOBODY = Evidence(link=None, address=None, browser="")


def accept(revision: Revision) -> None:
    accept_revision(
        revision, name_typed="O. P.", statements=["I accept."], taken_parts=frozenset(), evidence=NOBODY
    )


def shown(client, revision) -> str:
    """Return the customer's page without the token that is new on every answer."""
    page = client.get(reverse("customer_quote", args=[revision.quote.number]))
    token = str(page.context["csrf_token"])
    return page.content.decode().replace(token, "")


def double_every_cost(edition, owner) -> None:
    following = copy_edition(edition, name="Dearer", dated=timezone.localdate())
    for product in following.products.all():
        product.pack_cost *= 2
        product.save()
    close_edition(following, by=owner)


def test_an_issued_revision_stays_as_it_was_whatever_changes_after(draft, customer, edition, owner, office):
    before = copy.deepcopy(draft.issued), draft.total, draft.paper_sha256, shown(customer, draft)
    paper = read_paper(draft.paper_sha256)
    next_draft = next_revision(draft.quote, by=office)
    drafted = estimate_draft(next_draft)

    double_every_cost(edition, owner)
    Firm.objects.update(name="Renamed Lofts", terms="Other terms.", quote_valid_days=3, gap_mm=75)
    draft.quote.survey.findings.filter(hazard="bats").update(seen=Finding.Seen.YES, words="Droppings.")

    draft.refresh_from_db()
    assert (draft.issued, draft.total, draft.paper_sha256, shown(customer, draft)) == before
    assert read_paper(draft.paper_sha256) == paper
    price_at_current_edition(next_draft)
    again = estimate_draft(next_draft)
    assert again.price.totals.gross > drafted.price.totals.gross
    assert len(again.survey.findings) == len(drafted.survey.findings) + 1


def test_nothing_changes_an_issued_revision(draft, token):
    choices = choices_from_json(draft.choices)
    for change in (
        lambda: change_draft(draft, choices=choices, introduction="Cheaper!"),
        lambda: price_at_current_edition(draft),
        lambda: discard_draft(draft),
    ):
        with pytest.raises(NotADraft, match="issued"):
            change()
    draft.refresh_from_db()
    assert draft.introduction == ""


def test_no_view_changes_an_issued_revision(draft, token, office, logged_in):
    client, before = logged_in(office), Revision.objects.values().get(pk=draft.pk)
    for act in ("revision_choices", "revision_issue", "revision_reprice", "revision_discard"):
        client.post(reverse(act, args=[draft.quote.number, "A"]), {"introduction": "Cheaper!"})
    assert Revision.objects.values().get(pk=draft.pk) == before


def test_a_stop_holds_the_quote_until_somebody_clears_it(measured, office, survey):
    answer_every_hazard(survey, asbestos="Grey board round the flue.")
    complete_survey(survey)
    survey.refresh_from_db()
    revision = draft_quote(survey, by=office)
    with pytest.raises(CannotIssue) as refused:
        issue_revision(revision, by=office)
    assert refused.value.reasons == ["Suspected asbestos: Grey board round the flue."]
    revision.refresh_from_db()
    assert revision.is_draft
    clear_finding(
        survey.findings.get(hazard="asbestos"),
        clearance=Clearance(
            cleared_by="Ness Farrow", qualification="Surveyor", document="Report 7", dated=date(2026, 11, 20)
        ),
        by=office,
    )
    issue_revision(revision, by=office)
    revision.refresh_from_db()
    assert revision.state == Revision.State.ISSUED


def test_an_open_survey_holds_the_quote(measured, office):
    revision = draft_quote(measured, by=office)
    with pytest.raises(CannotIssue, match="is not complete"):
        issue_revision(revision, by=office)


def test_a_quote_says_who_offers_it(draft, office):
    Firm.objects.update(address="", phone=" ")
    with pytest.raises(CannotIssue, match="lack its address and its phone"):
        issue_revision(draft, by=office)


def test_one_revision_stands(draft, token, office):
    other = next_revision(draft.quote, by=office)
    other.state, other.paper_sha256 = Revision.State.ISSUED, "0" * 64
    with pytest.raises(IntegrityError), transaction.atomic():
        other.save()


def test_the_earlier_revision_stands_until_the_next_is_issued(draft, token, office):
    following = next_revision(draft.quote, by=office)
    draft.refresh_from_db()
    assert (following.letter, draft.state) == ("B", Revision.State.ISSUED)
    with pytest.raises(CannotRevise, match="is a draft already"):
        next_revision(draft.quote, by=office)
    issue_revision(following, by=office)
    draft.refresh_from_db()
    assert draft.state == Revision.State.SUPERSEDED
    assert open_link(token) is None


def test_a_draft_is_not_issued_over_an_acceptance_that_came_meanwhile(draft, token, office):
    following = next_revision(draft.quote, by=office)
    accept(draft)
    with pytest.raises(CannotIssue, match="was accepted meanwhile"):
        issue_revision(following, by=office)
    discard_draft(following)
    with pytest.raises(CannotRevise, match="variation"):
        next_revision(draft.quote, by=office)


def test_a_quote_that_nobody_saw_goes_with_its_only_draft_and_its_number_is_not_given_again(
    draft, office, logged_in
):
    survey, number = draft.quote.survey, draft.quote.number
    desk = logged_in(office)
    assert "Throw the quote away" in desk.get(reverse("quote", args=[number])).content.decode()
    thrown = desk.post(reverse("revision_discard", args=[number, "A"]), follow=True)
    assert thrown.redirect_chain[-1][0] == reverse("survey", args=[survey.number])
    assert f"Quote {number} is thrown away." in thrown.content.decode()
    assert not Quote.objects.filter(number=number).exists()
    assert draft_quote(survey, by=office).quote.number > number


@pytest.mark.parametrize(
    ("letter", "after"), [("A", "B"), ("Y", "Z"), ("Z", "AA"), ("AA", "AB"), ("AZ", "BA")]
)
def test_letters_go_on_after_z(letter, after):
    assert _letter_after(letter) == after


def test_the_revision_after_aa_follows_it_and_not_z(draft, token, office):
    for letter in ("Z", "AA"):
        Revision.objects.filter(quote=draft.quote).update(state=Revision.State.SUPERSEDED)
        Revision.objects.create(
            quote=draft.quote, letter=letter, edition=draft.edition, choices=draft.choices, made_by=office,
            state=Revision.State.WITHDRAWN, paper_sha256=draft.paper_sha256,
        )  # fmt: skip
    assert next_revision(draft.quote, by=office).letter == "AB"


def test_offers_lapse_on_the_day_after_their_last(draft, token):
    assert lapse_offers(draft.valid_until) == 0
    assert lapse_offers(draft.valid_until + timedelta(days=1)) == 1
    draft.refresh_from_db()
    assert draft.state == Revision.State.LAPSED


def test_only_what_stands_is_withdrawn_or_linked_to(draft, token, office):
    withdraw_revision(draft)
    with pytest.raises(NotOnOffer, match="only an issued revision"):
        withdraw_revision(draft)
    with pytest.raises(NotOnOffer, match="no revision on offer"):
        resend_link(draft.quote, by=office)


def test_a_new_link_ends_the_old_and_opens_long_after_acceptance(draft, token, office):
    accept(draft)
    Revision.objects.update(valid_until=timezone.localdate() - timedelta(days=300))
    again = resend_link(draft.quote, by=office)
    assert open_link(token) is None
    assert open_link(again) is not None
