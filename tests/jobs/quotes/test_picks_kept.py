"""What a customer had picked is still there after a question, and on the way back from accepting."""

from __future__ import annotations

import re
from html import unescape

import pytest
from django.contrib.auth.models import User
from django.test import Client
from django.urls import reverse

from estimating.choices import Part
from jobs.quotes.customer.links import make_link
from jobs.quotes.customer.models import CustomerQuestion
from jobs.quotes.models import Revision
from jobs.quotes.picking import Picking
from tests.jobs.quotes.rights.conftest import accept, address
from tests.jobs.quotes.test_picking import offer as choice
from tests.jobs.quotes.test_picking import worked

pytestmark = pytest.mark.django_db
__all__ = ["choice", "chooser", "worked"]
HTMX = {"HX-Request": "true"}
LADDER = {"priced": "1", "letter": "A", "alternative": "0", "drawn": "0", "taken": ["ladder"]}


@pytest.fixture
def chooser(client: Client, choice: Revision, office: User) -> Client:
    """Return the browser of a customer who has alternatives to pick from."""
    client.get(reverse("customer_exchange", args=[make_link(choice, by=office)]))
    return client


def sent_with_a_question(page: str) -> dict[str, list[str]]:
    """Return the hidden boxes that stand with the question, as a browser sends them."""
    part = page[page.index('id="asked-with"') :]
    boxes = re.findall(r'<input type="hidden" name="(\w+)" value="([^"]*)">', part[: part.index("</div>")])
    sent: dict[str, list[str]] = {}
    for name, value in boxes:
        sent.setdefault(name, []).append(unescape(value))
    return sent


def back_of(answer) -> str:
    found = re.search(r'href="([^"]*)">Back to the quote', answer.content.decode())
    assert found
    return unescape(found[1])


@pytest.mark.parametrize("headers", [{}, HTMX], ids=["without a script", "with a script"])
def test_a_question_is_asked_and_what_was_ticked_is_still_there(offer, phone, headers):
    page = phone.get(address("quote", offer), LADDER, headers=headers).content.decode()
    sent = sent_with_a_question(page)
    answer = phone.post(address("ask", offer), {**sent, "words": "May we keep the old one?"})
    assert CustomerQuestion.objects.get().words == "May we keep the old one?"
    back = back_of(answer)
    assert "old" not in back
    assert "csrf" not in back
    again = phone.get(back)
    assert again.context["taken"] == {Part.LADDER}
    assert 'value="ladder" id="take-ladder" checked' in again.content.decode()


def test_a_question_that_comes_back_keeps_what_was_ticked(offer, phone):
    answer = phone.post(address("ask", offer), {**LADDER, "words": ""})
    assert answer.status_code == 422
    assert answer.context["taken"] == {Part.LADDER}


def test_whoever_picked_nothing_goes_back_to_the_plain_address(offer, phone):
    sent = sent_with_a_question(phone.get(address("quote", offer)).content.decode())
    assert back_of(phone.post(address("ask", offer), {**sent, "words": "When?"})) == address("quote", offer)
    assert back_of(phone.get(address("accept", offer))) == address("quote", offer)


def test_alternative_and_wishes_come_back_from_a_question_and_from_accepting(choice, chooser):
    asked = {
        "priced": "1", "letter": "A", "alternative": "1", "drawn": "0", "taken": ["light"],
        "unwished": ["hatch"],
    }  # fmt: skip
    shown = chooser.get(address("quote", choice), asked)
    before = shown.context["picked"]
    sent = sent_with_a_question(shown.content.decode())
    for answer in (
        chooser.post(address("ask", choice), {**sent, "words": "When?"}),
        chooser.get(address("accept", choice), asked),
        chooser.post(address("accept", choice), {**sent, "name_typed": ""}),
    ):
        again = chooser.get(back_of(answer))
        assert again.context["picked"] == before
        assert again.context["wishes"] == shown.context["wishes"]
        assert again.context["alternatives"] == shown.context["alternatives"]


def test_what_was_picked_on_another_revision_is_not_read_as_if_of_this_one(offer, phone):
    old = {**LADDER, "letter": "Z"}
    assert phone.get(address("quote", offer), old).context["taken"] == frozenset()
    assert back_of(phone.post(address("ask", offer), {**old, "words": "When?"})) == address("quote", offer)


def test_once_accepted_an_address_carries_no_wishes(offer, phone):
    accept(offer)
    assert 'name="wished"' not in phone.get(address("quote", offer)).content.decode()
    assert back_of(phone.post(address("ask", offer), {**LADDER, "words": "When?"})) == address("quote", offer)
    assert Picking(Revision.objects.get(pk=offer.pk)).query == ""


def test_the_address_back_changes_nothing(offer, phone):
    before = Revision.objects.values().get(pk=offer.pk)
    phone.get(reverse("customer_quote", args=[offer.quote.number]) + Picking(offer).query)
    phone.get(back_of(phone.get(address("accept", offer), LADDER)))
    assert Revision.objects.values().get(pk=offer.pk) == before


@pytest.mark.parametrize("headers", [{}, HTMX], ids=["without a script", "with a script"])
def test_whoever_looks_at_declining_finds_what_was_ticked_again(offer, phone, headers):
    page = phone.get(address("quote", offer), LADDER, headers=headers).content.decode()
    found = re.search(r'href="([^"]*)">I do not want this', page)
    assert found
    decline = unescape(found[1])
    for answer in (phone.get(decline), phone.post(decline, {"letter": "A", "name_typed": ""})):
        assert phone.get(back_of(answer)).context["taken"] == {Part.LADDER}
