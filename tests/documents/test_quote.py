from __future__ import annotations

from datetime import timedelta
from decimal import Decimal

import pytest
from django.template.loader import render_to_string
from django.utils import timezone

from estimating.choices import Part
from jobs.documents.quote import quote_context, quote_pdf
from jobs.firm.models import Firm
from jobs.quotes.frozen import price_with
from tests.documents.reading import fonts, pages, read, roles
from tests.jobs.offers import make_job, make_offer

pytestmark = pytest.mark.django_db


@pytest.fixture
def pdf(offer) -> bytes:
    return quote_pdf(offer)


def pounds(amount: Decimal) -> str:
    return f"£{amount:,.2f}"


def test_there_is_one_price_and_it_is_the_sum_of_what_is_listed(offer):
    context = quote_context(offer)
    listed = sum(line.net.value for line in context["lines"])
    listed += sum(each.net for each in context["price"].adjustments)
    totals = context["price"].totals
    assert listed == totals.net
    assert totals.net + sum(rate.vat for rate in totals.vat_by_rate) == totals.gross == offer.total


def test_an_option_says_what_it_adds_and_that_it_is_not_in_the_price(offer):
    options = {option.line.part: option for option in quote_context(offer)["options"]}
    assert set(options) == {Part.LADDER, Part.LIGHT}
    for part, option in options.items():
        assert not option.taken
        assert option.adds == price_with(offer, [part]).totals.gross - offer.total > 0


def test_an_option_taken_is_in_the_price_and_among_what_we_do(offer):
    make_job(offer, taken=[Part.LADDER])
    offer.refresh_from_db()
    context = quote_context(offer)
    assert context["price"].totals.gross == offer.decision.total
    assert Part.LADDER in {line.part for line in context["lines"]}


def test_stages_make_the_price_on_paper(offer):
    offer.issued["choices"]["stages"] = [
        {"due": "acceptance", "percent": "25", "on": None, "amount": None},
        {"due": None, "on": "2027-02-08", "percent": None, "amount": "300.00"},
    ]
    stages = quote_context(offer)["price"].stages
    assert [each.is_rest for each in stages] == [False, False, True]
    assert sum(each.gross for each in stages) == offer.total
    page = render_to_string("documents/quote.html", quote_context(offer))
    for words in (
        "When you accept, 25 %",
        "On 8 February 2027",
        ": the rest",
        "is that of the day it comes in",
    ):
        assert words in page


def test_an_offer_older_than_stages_is_paid_by_the_deposit_of_then(firm, survey, office):
    Firm.objects.update(deposit_percent=40)
    offer = make_offer(survey, office)
    del offer.issued["choices"]["stages"]
    Firm.objects.update(deposit_percent=10)
    assert [each.percent for each in quote_context(offer)["price"].stages] == [40, None]


def test_no_deposit_is_said_when_none_is_asked(offer):
    page = render_to_string("documents/quote.html", quote_context(offer))
    assert "All of it when the work is complete" in page


def test_the_quote_says_the_firm_as_it_was_that_day(offer):
    Firm.objects.update(name="Another name", phone="0161 496 0999")
    assert quote_context(offer)["firm"]["name"] == "Quillfeather Lofts"


def test_the_heat_of_squashed_insulation_stands_beside_the_proposal(offer):
    heat = quote_context(offer)["heat"]
    assert heat.as_proposed.value < heat.squashed.value


def test_the_first_page_is_the_price(pdf, offer):
    first = pages(pdf)[0]
    until = timezone.localdate() + timedelta(days=30)
    for words in (
        "Quillfeather Lofts",
        "Odile Pemberwick",
        "14 Larkfield Rise",
        pounds(offer.total),
        "With VAT and every charge in it.",
        f"It holds until {until.day} {until:%B %Y}.",
        "What we do",
    ):
        assert words in first, words


def test_the_paper_says_all_that_a_customer_must_know(pdf, offer):
    whole = " ".join(pages(pdf))
    for words in (
        "What you may take or leave",
        "What we do",
        "What is not in it",
        "What we ask of you",
        "What could change the price",
        "As we found it",
        "If the same insulation were squashed",
        "Take care",
        "structural engineer",
        "truss designer",
        "registered electrician",
        "How you pay",
        "You have the right to cancel this contract within 14 days without giving any reason.",
        "Model cancellation form",
        "Open Government Licence",
        "Our terms",
        "To accept",
        f"quote {offer.quote.number}, revision A",
        "Signature",
    ):
        assert words in whole, words


def test_no_paper_calls_anything_safe(pdf):
    assert "safe" not in " ".join(pages(pdf)).lower()


def test_a_business_is_not_told_of_a_right_it_has_not(firm, survey, office):
    customer = survey.property.customer
    customer.kind = customer.Kind.BUSINESS
    customer.save()
    assert "You may change your mind" not in " ".join(pages(quote_pdf(make_offer(survey, office))))


def test_the_paper_is_tagged_titled_and_carries_its_fonts(pdf, offer):
    paper = read(pdf)
    assert paper.metadata.title == f"Quote {offer.quote.number}, revision A"
    assert paper.trailer["/Root"]["/Lang"] == "en-GB"
    assert roles(pdf) >= {"/H1", "/H2", "/Table", "/TH", "/TD", "/Figure"}
    carried = fonts(pdf)
    assert all(carried.values())
    assert all("Source-Sans" in name for name in carried)


def test_a_drawing_lies_down_on_a_sheet_of_its_own(pdf):
    lying = [page for page in read(pdf).pages if page.mediabox.width > page.mediabox.height]
    assert len(lying) == 1


def test_welsh_and_long_names_are_set_in_the_papers_own_type(firm, survey, office):
    name = "Gwynfryn Ŵyn-Llŷr ap Siôn a'i Gwmni Teuluol o Adeiladwyr Traddodiadol, " * 2
    survey.property.customer.name = name[:120].rstrip(", ")
    survey.property.customer.save()
    words = "Ar gyfer eich llofft: £ ŵ ŷ. " * 60
    pdf = quote_pdf(make_offer(survey, office, introduction=words))
    assert "Ŵyn-Llŷr" in pages(pdf)[0]
    assert all("Source-Sans" in name for name in fonts(pdf))
    assert len(pages(pdf)) <= 10


def test_what_a_customer_is_called_cannot_make_the_paper_fetch(firm, survey, office):
    survey.property.customer.name = '<img src="http://example.com/x.png">'
    survey.property.customer.save()
    pdf = quote_pdf(make_offer(survey, office, introduction="<script>x</script>"))
    assert '<img src="http://example.com/x.png">' in pages(pdf)[0]
