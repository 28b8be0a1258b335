"""What is issued is what the page shows, and nobody undoes unseen what somebody else has changed."""

from __future__ import annotations

import re

import pytest
from django.urls import reverse

from estimating.json_forms import choices_from_json
from jobs.quotes.approval import ask_owner
from jobs.quotes.drafts.forms import ChoicesForm

pytestmark = pytest.mark.django_db
HTMX = {"HX-Request": "true"}
TOLD = "Somebody changed this draft after this page was shown"


@pytest.fixture
def shown(draft) -> dict[str, object]:
    """Return what the draft's page sends when nothing on it was touched."""
    form = ChoicesForm(revision=draft)
    sent = {name: form[name].value() for name in form.fields}
    kept = {name: value for name, value in sent.items() if value is not None and value is not False}
    return kept | {"page": form.page, "after": form.after}


def issue(client, draft, sent):
    answer = client.post(reverse("revision_issue", args=[draft.quote.number, "A"]), sent)
    draft.refresh_from_db()
    return answer


def keep(client, draft, sent, **headers):
    address = reverse("revision_choices", args=[draft.quote.number, "A"])
    answer = client.post(address, sent, headers=headers)
    draft.refresh_from_db()
    return answer


def test_what_was_typed_last_is_in_the_quote_that_is_issued(draft, shown, office, logged_in):
    answer = issue(logged_in(office), draft, {**shown, "miles": "30", "introduction": "Dear Odile"})
    assert "Revision A is issued." in answer.content.decode()
    assert (choices_from_json(draft.choices).miles, draft.introduction) == (30, "Dear Odile")
    assert draft.issued["estimate"]["choices"]["miles"] == "30"


def test_what_cannot_be_kept_is_not_issued_and_nothing_typed_is_lost(draft, shown, office, logged_in):
    wrong = {**shown, "gap_mm": "wide", "introduction": "Dear Odile"}
    answer = issue(logged_in(office), draft, wrong)
    page = answer.content.decode()
    assert (answer.status_code, draft.is_draft) == (422, True)
    assert "Not issued." in page
    assert "Gap above insulation, mm must be a number." in page
    assert 'value="wide"' in page
    assert "Dear Odile" in page
    assert f'name="page" value="{shown["page"]}"' in page


def test_issuing_is_pressed_in_the_form_of_the_choices_and_enter_only_works_them_out(
    draft, office, logged_in
):
    page = logged_in(office).get(reverse("quote", args=[draft.quote.number])).content.decode()
    address = reverse("revision_issue", args=[draft.quote.number, "A"])
    pressed = re.findall(r'<button[^>]*form="choices"[^>]*\bvalue="([\w ]+)"', page)
    assert pressed == ["work it out", "issue"]
    assert f'form="choices" formaction="{address}"' in page
    assert re.search(r'<select[^>]*name="how_agreed"[^>]*form="choices"', page)


@pytest.mark.parametrize("send", [keep, issue])
@pytest.mark.parametrize("headers", [{}, HTMX], ids=["without scripts", "with scripts"])
def test_a_page_shown_before_somebody_elses_change_undoes_nothing(  # noqa: PLR0913, PLR0917 - fixtures
    draft, shown, office, owner, logged_in, send, headers
):
    desk, other = logged_in(office), {**shown, "page": "another", "introduction": "Dear Odile"}
    keep(desk, draft, {**shown, "miles": "25"}, **HTMX)
    if send is keep:
        late = keep(logged_in(owner), draft, other, **headers)
    else:
        late = issue(logged_in(owner), draft, other)
    assert (late.status_code, draft.is_draft) == (422, True)
    assert TOLD in late.content.decode()
    assert (choices_from_json(draft.choices).miles, draft.introduction) == (25, "")


def test_a_page_goes_on_after_its_own_changes_and_one_shown_after_them_takes_over(
    draft, shown, office, logged_in
):
    """Even when the answers to its changes have not come yet: the page always sends what it began with."""
    desk = logged_in(office)
    for miles in ("25", "30"):
        assert keep(desk, draft, {**shown, "miles": miles}, **HTMX).status_code == 200
    fresh = ChoicesForm(revision=draft)
    taken_over = {**shown, "page": fresh.page, "after": fresh.after, "miles": "35"}
    assert keep(desk, draft, taken_over, **HTMX).status_code == 200
    assert keep(desk, draft, {**shown, "miles": "40"}, **HTMX).status_code == 422
    assert choices_from_json(draft.choices).miles == 35


def test_sending_what_stands_there_leaves_the_draft_and_the_question_to_the_owner(
    draft, shown, office, logged_in
):
    ask_owner(draft, by=office)
    assert keep(logged_in(office), draft, shown, **HTMX).status_code == 200
    assert draft.waits_for_owner
    keep(logged_in(office), draft, {**shown, "miles": "25"}, **HTMX)
    assert not draft.waits_for_owner


def test_a_change_that_a_page_sends_behind_its_own_press_on_issue_takes_it_nowhere(
    draft, shown, office, logged_in
):
    """The page is on its way to the customer's link, which is shown once."""
    desk = logged_in(office)
    assert "Revision A is issued." in issue(desk, draft, shown).content.decode()
    behind = keep(desk, draft, {**shown, "miles": "9"}, **HTMX)
    assert (behind.status_code, behind.headers.get("HX-Redirect"), behind.content) == (204, None, b"")
    another = keep(desk, draft, {**shown, "page": "another"}, **HTMX)
    assert another.headers["HX-Redirect"] == reverse("quote", args=[draft.quote.number])
    assert "make a new revision to change it" in desk.get(another.headers["HX-Redirect"]).content.decode()
