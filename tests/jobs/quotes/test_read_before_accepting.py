"""What a customer says they have read before accepting stands on their page, in the words of the paper."""

from __future__ import annotations

import re
from html import unescape

import pytest
from django.urls import reverse

from estimating.choices import Part
from estimating.estimate import estimate
from jobs.documents import quote_words
from jobs.documents.quote import quote_context
from jobs.firm.models import Firm
from jobs.quotes.customer.links import make_link
from jobs.quotes.frozen import freeze, frozen_told
from jobs.quotes.models import Revision
from tests.estimating import lofts
from tests.jobs.offers import make_offer
from tests.jobs.quotes.rights.conftest import accept, address

pytestmark = pytest.mark.django_db
HTMX = {"HX-Request": "true"}
SAID = ("what_we_do", "what_we_do_not", "what_the_customer_does", "what_could_change")
HEADINGS = (
    "What we do",
    "What is not in it",
    "What we ask of you",
    "What could change the price",
    "How a change is agreed",
    "You may change your mind",
)


def read(answer) -> str:
    """Return a page as it is read, each run of white space as one space."""
    return re.sub(r"\s+", " ", unescape(answer.content.decode()))


def test_the_page_says_what_the_paper_says_before_the_right_to_cancel(offer, phone):
    page, paper = read(phone.get(address("quote", offer))), quote_context(offer)
    for name in SAID:
        assert paper[name]
        for words in paper[name]:
            assert f"<li>{words}</li>" in page
    assert paper["how_a_change_is_agreed"] in page
    places = [page.index(f">{heading}</h") for heading in HEADINGS]
    assert places == sorted(places)


def test_the_words_stay_those_that_the_quote_was_issued_with(offer, phone, monkeypatch):
    monkeypatch.setattr(quote_words, "WHAT_COULD_CHANGE_THE_PRICE", ("Written anew.",))
    monkeypatch.setattr(quote_words, "what_we_do", lambda _worked: ["Written anew."])
    assert "Written anew." not in read(phone.get(address("quote", offer)))


def test_a_quote_issued_before_the_words_were_kept_is_told_from_its_estimate(offer, phone):
    kept = dict(frozen_told(offer))
    del offer.issued["told"]
    offer.save()
    assert frozen_told(offer)["what_we_do"] == kept["what_we_do"]
    assert kept["what_we_do"][0] in read(phone.get(address("quote", offer)))


def test_the_price_is_shown_line_by_line_and_adds_up_to_what_is_asked(offer, phone):
    for asked in ({}, {"priced": "1", "taken": ["ladder"]}):
        answer = phone.get(address("quote", offer), asked)
        page, price = read(answer), answer.context["price"]
        folded = page[page.index("what is in the price</summary>") :]
        folded = folded[: folded.index("</details>")]
        for line in price.lines:
            assert (line.description in folded) is line.counted
            assert not line.counted or f"£{line.net.value:,.2f}" in folded
        assert f'Sum without VAT</span> <span class="figures__value">£{price.totals.net:,.2f}' in folded
        assert f'In all, with VAT</span> <span class="figures__value">£{price.totals.gross:,.2f}' in folded


def test_an_option_taken_besides_is_named_under_what_we_do_at_once(offer, phone):
    asked = {"priced": "1", "letter": "A", "drawn": "0", "alternative": "0", "taken": ["ladder"]}
    ladder = next(line for line in quote_context(offer)["options"] if line.line.part is Part.LADDER)
    for headers in ({}, HTMX):
        page = read(phone.get(address("quote", offer), asked, headers=headers))
        besides = page[page.index("And the options that you take besides:") :]
        assert ladder.line.description in besides[: besides.index("</section>")]
        assert 'id="scope"' in page
    assert "take besides" not in read(phone.get(address("quote", offer)))


def test_an_alternative_that_is_picked_brings_its_own_words(firm, survey, office, client):
    def way(parts: frozenset[Part]):
        return estimate(lofts.trussed_loft(), lofts.price_book(), lofts.choices(parts=parts))

    short, long = way(frozenset({Part.INSULATION})), way(frozenset({Part.INSULATION, Part.EDGE_TRIM}))
    others = [{"name": "Trimmed", "choices": {}}]
    offer = make_offer(survey, office, worked=short, alternative_name="Plain", alternatives=others)
    offer.issued = freeze(offer, short, Firm.ours(), [long])
    offer.save()
    client.get(reverse("customer_exchange", args=[make_link(offer, by=office)]))
    trim = "Trim the open edges of the deck"
    assert trim not in read(client.get(address("quote", offer)))
    asked = {"priced": "1", "letter": "A", "alternative": "1", "drawn": "0"}
    for headers in ({}, HTMX):
        assert trim in read(client.get(address("quote", offer), asked, headers=headers))


def test_the_page_to_accept_on_leads_to_the_paper_and_to_the_words(offer, phone):
    asked = {"priced": "1", "taken": ["ladder"]}
    page = read(phone.get(address("accept", offer), asked))
    assert f'href="{address("paper", offer)}"' in page
    for name in ("what-we-do", "what-is-not-in-it", "what-could-change"):
        found = re.search(rf'href="({re.escape(address("quote", offer))}[^"#]*)#{name}"', page)
        assert found
        there = phone.get(found[1])
        assert f'id="{name}"' in there.content.decode()
        assert there.context["taken"] == {Part.LADDER}


def test_what_was_agreed_can_be_read_after_accepting(offer, phone):
    accept(offer)
    page = read(phone.get(address("quote", Revision.objects.get(pk=offer.pk))))
    assert all(f">{heading}</h" in page for heading in HEADINGS[:5])
