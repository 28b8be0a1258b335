"""Below the firm's least margin a quote goes out only with the owner's approval of just what it says."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest
from django.urls import reverse
from django.utils import timezone

from estimating.json_forms import choices_from_json
from estimating.price_terms import Discount
from jobs.quotes.approval import approval_of, digest_of
from jobs.quotes.drafts.alternatives import add_alternative
from jobs.quotes.drafts.services import change_draft, estimate_draft, price_at_current_edition
from jobs.quotes.listing.turns import Because
from jobs.quotes.models import Quote, Revision
from jobs.quotes.services import CannotIssue, OwnerMustApprove, issue_revision
from jobs.today.waiting import waiting_for

pytestmark = pytest.mark.django_db


@pytest.fixture
def cheap(draft) -> Revision:
    """Return the draft at a margin some points below the edition's least."""
    draft.edition.least_margin_percent = Decimal("28.5")
    draft.edition.save()
    give(draft, "5")
    return draft


def give(draft: Revision, percent: str) -> None:
    """Take so much off the draft's price."""
    less = (Discount(reason="Neighbours", percent=Decimal(percent)),)
    choices = replace(choices_from_json(draft.choices), discounts=less)
    change_draft(draft, choices=choices, introduction="")
    draft.refresh_from_db()


def approve(client, draft, note=""):
    margin = approval_of(draft, [estimate_draft(draft)]).below.margin.value
    sent = {"note": note, "margin": str(margin)}
    client.post(reverse("revision_approve", args=[draft.quote.number, draft.letter]), sent)
    draft.refresh_from_db()


def test_the_office_is_told_how_much_below_and_cannot_issue(cheap, office, logged_in):
    margin = estimate_draft(cheap).price.margin_percent.value
    lacking = Decimal("28.5") - margin
    words = f"The margin is {margin.normalize():f} %, {lacking.normalize():f} below the 28.5 %"
    with pytest.raises(CannotIssue, match=words.replace(".", r"\.")):
        issue_revision(cheap, by=office)
    page = logged_in(office).get(reverse("quote", args=[cheap.quote.number])).content.decode()
    assert words in page
    assert "Approve it as it stands" not in page


def test_the_office_issues_what_the_owner_approved(cheap, office, owner, logged_in):
    client = logged_in(owner)
    page = client.get(reverse("quote", args=[cheap.quote.number])).content.decode()
    assert "Approve it as it stands" in page
    approve(client, cheap, "An old customer.")
    assert (cheap.approved_by, cheap.approval_note) == (owner, "An old customer.")
    assert cheap.approved_digest == digest_of(cheap)
    page = logged_in(office).get(reverse("quote", args=[cheap.quote.number])).content.decode()
    assert "Isolde Fennimore approved it on" in page
    issue_revision(cheap, by=office)
    cheap.refresh_from_db()
    assert cheap.state == Revision.State.ISSUED


@pytest.mark.parametrize("role", ["office", "surveyor"])
def test_nobody_but_the_owner_approves(cheap, role, request, logged_in):
    client = logged_in(request.getfixturevalue(role))
    answer = client.post(reverse("revision_approve", args=[cheap.quote.number, "A"]), {"margin": "1"})
    cheap.refresh_from_db()
    assert answer.status_code == 403
    assert cheap.approved_at is None


def test_a_changed_draft_asks_again(cheap, office, owner, logged_in):
    approve(logged_in(owner), cheap)
    give(cheap, "6")
    with pytest.raises(CannotIssue, match="approved before it was changed"):
        issue_revision(cheap, by=office)
    give(cheap, "5")
    issue_revision(cheap, by=office)


def test_a_dearer_survey_asks_again_although_the_choices_stand(cheap, office, owner, logged_in):
    """The digest is of choices and edition; costs may also move with what was measured."""
    approve(logged_in(owner), cheap)
    Revision.objects.update(approved_margin_percent=cheap.approved_margin_percent + 1)
    with pytest.raises(CannotIssue, match="needs approval again"):
        issue_revision(cheap, by=office)


def test_what_the_owner_did_not_see_is_not_approved(cheap, owner, logged_in):
    sent = {"margin": "99.9"}
    answer = logged_in(owner).post(
        reverse("revision_approve", args=[cheap.quote.number, "A"]), sent, follow=True
    )
    cheap.refresh_from_db()
    assert "changed meanwhile" in answer.content.decode()
    assert cheap.approved_at is None


def test_the_owner_issues_directly_and_it_is_kept(cheap, owner):
    issue_revision(cheap, by=owner)
    cheap.refresh_from_db()
    assert cheap.approved_by == owner
    assert cheap.approval_note == "Issued by the owner."


def test_above_the_floor_nobody_is_asked(draft, office):
    draft.edition.least_margin_percent = Decimal(20)
    draft.edition.save()
    assert approval_of(draft, [estimate_draft(draft)]) is None
    issue_revision(draft, by=office)
    draft.refresh_from_db()
    assert draft.approved_at is None


@pytest.fixture
def one_cheap_of_two(draft) -> Revision:
    """Return a draft whose second alternative alone is below the edition's least margin."""
    draft.edition.least_margin_percent = Decimal("28.5")
    draft.edition.save()
    number = add_alternative(draft, name="Half the loft")
    draft.refresh_from_db()
    choices = replace(
        choices_from_json(draft.choices), discounts=(Discount(reason="Neighbours", percent=Decimal(5)),)
    )
    change_draft(draft, choices=choices, introduction="", alternative=number)
    draft.refresh_from_db()
    return draft


@pytest.mark.parametrize("alternative", [0, 1])
def test_the_page_of_any_alternative_asks_for_the_approval_of_all_and_takes_it(
    one_cheap_of_two, owner, office, logged_in, alternative
):
    page = f"{reverse('quote', args=[one_cheap_of_two.quote.number])}?alternative={alternative}"
    assert "Ask the owner to approve it" in logged_in(office).get(page).content.decode()
    shown = logged_in(owner).get(page)
    margin = shown.context["approval"].below.margin.value
    sent = {"note": "", "margin": str(margin)}
    logged_in(owner).post(reverse("revision_approve", args=[one_cheap_of_two.quote.number, "A"]), sent)
    one_cheap_of_two.refresh_from_db()
    assert one_cheap_of_two.approved_margin_percent == margin
    issue_revision(one_cheap_of_two, by=office)


def test_the_approval_is_of_the_boards_used_too(cheap, owner, logged_in):
    approve(logged_in(owner), cheap)
    before = digest_of(cheap)
    cheap.use_store = not cheap.use_store
    assert digest_of(cheap) != before


def turn_shown(draft) -> str:
    return Quote.objects.get(pk=draft.quote_id).turn_because


def test_the_list_of_quotes_says_that_one_waits_for_the_owner(cheap, office, owner, logged_in):
    ask = reverse("revision_ask_owner", args=[cheap.quote.number, "A"])
    changes = (
        lambda: give(cheap, "6"),
        lambda: add_alternative(cheap, name="Half the loft"),
        lambda: price_at_current_edition(cheap),
        lambda: approve(logged_in(owner), cheap),
    )
    for change in changes:
        logged_in(office).post(ask)
        assert turn_shown(cheap) == Because.APPROVE
        assert "have the owner approve it" in logged_in(office).get(reverse("quotes")).content.decode()
        cheap.refresh_from_db()
        change()
        assert turn_shown(cheap) == Because.DRAFT


def waits(person) -> dict[str, list]:
    """Return since when what waits for a person, under each title."""
    groups = waiting_for(person, today=timezone.localdate())
    return {group.title: [item.day for item in group.items] for group in groups}


@pytest.mark.parametrize("press", ["revision_ask_owner", "revision_issue"])
def test_a_draft_below_the_least_margin_waits_for_the_owner_once_they_are_asked(
    cheap, office, owner, logged_in, press
):
    today, mine = [timezone.localdate()], {"Issue the draft", "Approve the price", "Waiting for the owner"}
    assert mine & waits(office).keys() == mine & waits(owner).keys() == {"Issue the draft"}
    desk, address = logged_in(office), [cheap.quote.number, "A"]
    answer = desk.post(reverse(press, args=address), {"how_agreed": cheap.how_agreed}, follow=True)
    assert "The owner is asked" in answer.content.decode()
    assert "Waiting for the owner: Bram Tollkeeper asked on" in answer.content.decode()
    assert {title: days for title, days in waits(office).items() if title in mine} == {
        "Waiting for the owner": today
    }
    assert {title: days for title, days in waits(owner).items() if title in mine} == {
        "Approve the price": today
    }
    approve(logged_in(owner), cheap)
    assert mine & waits(office).keys() == mine & waits(owner).keys() == {"Issue the draft"}


def test_asked_again_the_first_question_stands_and_a_change_takes_it_back(cheap, office, logged_in):
    ask = reverse("revision_ask_owner", args=[cheap.quote.number, "A"])
    logged_in(office).post(ask)
    cheap.refresh_from_db()
    first = cheap.owner_asked_at
    logged_in(office).post(ask)
    cheap.refresh_from_db()
    assert (cheap.owner_asked_at, cheap.owner_asked_by) == (first, office)
    give(cheap, "6")
    assert not cheap.waits_for_owner
    assert "Issue the draft" in waits(office)
    logged_in(office).post(ask)
    cheap.refresh_from_db()
    assert cheap.owner_asked_at > first


def test_nobody_asks_the_owner_about_a_price_above_the_floor(draft, office, logged_in):
    ask = reverse("revision_ask_owner", args=[draft.quote.number, "A"])
    assert "needs no approval" in logged_in(office).post(ask, follow=True).content.decode()
    draft.refresh_from_db()
    assert draft.owner_asked_at is None


def test_a_surveyor_does_not_ask_the_owner(cheap, surveyor, logged_in):
    ask = reverse("revision_ask_owner", args=[cheap.quote.number, "A"])
    assert logged_in(surveyor).post(ask).status_code == 403


def test_what_else_keeps_a_draft_from_being_issued_does_not_wait_for_the_owner(cheap, office, firm):
    firm.phone = ""
    firm.save()
    with pytest.raises(CannotIssue) as refused:
        issue_revision(cheap, by=office)
    assert not isinstance(refused.value, OwnerMustApprove)
