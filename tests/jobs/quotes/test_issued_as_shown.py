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
    return kept | {"as_stored": form.as_stored}


def issue(client, draft, sent):
    answer = client.post(reverse("revision_issue", args=[draft.quote.number, "A"]), sent)
    draft.refresh_from_db()
    return answer


def keep(client, draft, sent, **headers):
    address = reverse("revision_choices", args=[draft.quote.number, "A"])
    answer = client.post(address, sent, headers=headers)
    draft.refresh_from_db()
    return answer


def as_stored_in(page: str) -> list[str]:
    return re.findall(r'id="as-stored" name="as_stored" value="(\w+)"', page)


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
    assert as_stored_in(page) == [shown["as_stored"]]


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
    first = keep(logged_in(office), draft, {**shown, "miles": "25"}, **HTMX)
    if send is keep:
        late = keep(logged_in(owner), draft, {**shown, "introduction": "Dear Odile"}, **headers)
    else:
        late = issue(logged_in(owner), draft, {**shown, "introduction": "Dear Odile"})
    page = late.content.decode()
    assert (late.status_code, draft.is_draft) == (422, True)
    assert TOLD in page
    assert as_stored_in(page) == ([] if headers and send is keep else [shown["as_stored"]])
    assert (choices_from_json(draft.choices).miles, draft.introduction) == (25, "")
    [fresh] = as_stored_in(first.content.decode())
    again = {**shown, "as_stored": fresh, "miles": "25", "introduction": "Dear Odile"}
    assert keep(logged_in(office), draft, again, **HTMX).status_code == 200
    assert draft.introduction == "Dear Odile"


def test_sending_what_stands_there_leaves_the_draft_and_the_question_to_the_owner(
    draft, shown, office, logged_in
):
    ask_owner(draft, by=office)
    assert keep(logged_in(office), draft, shown, **HTMX).status_code == 200
    assert draft.waits_for_owner
    keep(logged_in(office), draft, {**shown, "miles": "25"}, **HTMX)
    assert not draft.waits_for_owner
