"""Discounts, payments, VAT classes, reverse charge: the office's boxes, and what the customer reads."""

from __future__ import annotations

import re
from dataclasses import replace
from datetime import date
from decimal import Decimal
from importlib import import_module

import pytest
from django.apps import apps
from django.template.loader import render_to_string
from django.urls import reverse

from estimating.choices import Part
from estimating.json_forms import choices_from_json
from estimating.price_terms import Discount, ReverseChargeAnswers, Stage, StageDue
from jobs.customers.models import Customer
from jobs.documents.quote import quote_context
from jobs.firm.models import Firm
from jobs.quotes.drafts.forms import ChoicesForm
from jobs.quotes.drafts.services import change_draft, draft_quote, next_revision
from jobs.quotes.drafts.terms import with_usual_stages
from jobs.quotes.models import Revision
from jobs.quotes.services import CannotIssue, issue_revision
from jobs.surveys.services import complete_survey

pytestmark = pytest.mark.django_db
HTMX = {"HX-Request": "true"}


@pytest.fixture
def typed(draft) -> dict[str, object]:
    return boxes(draft)


def boxes(draft: Revision) -> dict[str, object]:
    """Return the choices of the draft as its form sends them."""
    form = ChoicesForm(revision=draft, may_choose_vat_class=True)
    sent = {name: form[name].value() for name in form.fields}
    return {name: value for name, value in sent.items() if value is not None and value is not False}


def send(client, draft, sent):
    answer = client.post(reverse("revision_choices", args=[draft.quote.number, "A"]), sent, headers=HTMX)
    draft.refresh_from_db()
    return answer


def issue_with(draft: Revision, by, **changes) -> None:
    change_draft(draft, choices=_changed(draft, **changes), introduction="")
    issue_revision(draft, by=by)
    draft.refresh_from_db()


def _changed(draft, **changes):
    return replace(choices_from_json(draft.choices), **changes)


def test_a_draft_begins_with_the_firms_deposit(measured, office):
    complete_survey(measured)
    for percent, stages in ((Decimal("40.00"), 1), (Decimal(0), 0)):
        Firm.objects.update(deposit_percent=percent)
        kept = choices_from_json(draft_quote(measured, by=office).choices)
        assert [each.percent for each in kept.stages] == [percent] * stages
        assert kept.reverse_charge is None


def test_discounts_and_payments_typed_are_kept_and_shown(draft, typed, office, logged_in):
    sent = {
        "discount_0_reason": "Two lofts in one street", "discount_0_percent": "5",
        "discount_1_reason": "Off season", "discount_1_amount": "40",
        "stage_0_due": "acceptance", "stage_0_percent": "20",
        "stage_1_on": "2027-02-08", "stage_1_amount": "300.00",
    }  # fmt: skip
    answer = send(logged_in(office), draft, typed | sent)
    kept = choices_from_json(draft.choices)
    assert kept.discounts == (
        Discount(reason="Two lofts in one street", percent=Decimal(5)),
        Discount(reason="Off season", amount=Decimal(40)),
    )
    assert kept.stages == (
        Stage(due=StageDue.ACCEPTANCE, percent=Decimal(20)),
        Stage(on=date(2027, 2, 8), amount=Decimal("300.00")),
    )
    page = answer.content.decode()
    for words in ("Discount of 5 %: Two lofts in one street", "Discount: Off season", "On 8 February 2027"):
        assert words in page
    again = boxes(draft)
    assert all(str(again[name]) == value.removesuffix(".00") for name, value in sent.items())


@pytest.mark.parametrize(
    ("changes", "words"),
    [
        ({"discount_0_percent": "5"}, "Discount 1, reason must say why less is asked."),
        (
            {"discount_0_reason": "x"},
            "Discount 1, or £ without VAT must be given either per cent or in pounds, and not both.",
        ),
        ({"discount_1_reason": "x", "discount_1_percent": "100"}, "Discount 2, per cent must be more than 0"),
        ({"discount_0_reason": "x", "discount_0_amount": "lots"}, "must be a number."),
        ({"stage_1_percent": "20"}, "Payment 2, when must be one event, or else a day, and not both."),
        (
            {"stage_1_due": "start of work", "stage_1_percent": "20", "stage_1_amount": "5"},
            "Payment 2, per cent must be given either per cent or in pounds, and not both.",
        ),
    ],
)
def test_what_cannot_be_so_is_said_in_the_boxes_words_and_stays(  # noqa: PLR0913, PLR0917 - fixtures
    draft, typed, office, logged_in, changes, words
):
    before = draft.choices
    answer = send(logged_in(office), draft, {**typed, **changes, "act": "work it out"})
    assert answer.status_code == 422
    assert words in answer.content.decode()
    assert draft.choices == before


@pytest.mark.parametrize(
    ("changes", "words"),
    [
        (
            {"discount_0_reason": "Friends", "discount_0_amount": "90000"},
            "Discounts must leave something to pay",
        ),
        (
            {"stage_1_due": "start of work", "stage_1_amount": "90000"},
            "Payments before the rest must not ask more than the price",
        ),
    ],
)
def test_what_the_price_cannot_bear_is_refused(draft, typed, office, logged_in, changes, words):  # noqa: PLR0913, PLR0917 - fixtures
    answer = send(logged_in(office), draft, {**typed, **changes})
    assert words in answer.content.decode()
    assert "price" not in answer.context
    with pytest.raises(Exception, match="must"):
        issue_revision(draft, by=office)


def test_only_the_owner_chooses_a_vat_class_and_says_why(draft, typed, office, owner, logged_in):
    chosen = {"vat_0_part": "insulation", "vat_0_class": "standard", "vat_0_note": "One supply."}
    send(logged_in(office), draft, {**typed, **chosen})
    assert choices_from_json(draft.choices).vat_classes == ()
    refused = send(logged_in(owner), draft, {**typed, **chosen, "vat_0_note": "", "act": "work it out"})
    assert "VAT class 1, note why must say why" in refused.content.decode()
    answer = send(logged_in(owner), draft, {**typed, **chosen})
    wool = next(each for each in answer.context["price"].lines if each.part is Part.INSULATION)
    assert wool.vat_percent == 20
    assert "Class chosen by the owner, standard: One supply." in answer.content.decode()
    kept = draft.choices["vat_classes"]
    send(logged_in(office), draft, typed)
    assert draft.choices["vat_classes"] == kept


def test_the_customer_reads_the_discount_and_what_is_paid_when(draft, office, client):
    change_draft(
        draft,
        choices=_changed(
            draft,
            discounts=(Discount(reason="Neighbours of our last job", percent=Decimal(5)),),
            optional_parts=frozenset({Part.INSULATION}),
        ),
        introduction="",
    )
    token = issue_revision(draft, by=office)
    draft.refresh_from_db()
    client.get(reverse("customer_exchange", args=[token]))
    address = reverse("customer_quote", args=[draft.quote.number])
    answer = client.get(address, {"priced": "1", "taken": ["insulation"]}, headers=HTMX)
    less = client.get(address, {"priced": "1"}, headers=HTMX)
    for each in (answer, less):
        page = each.content.decode()
        assert "Neighbours of our last job" in page
        price = each.context["price"]
        assert sum(stage.gross for stage in price.stages) == price.totals.gross
        for stage in price.stages:
            assert f"£{stage.gross:,.2f}" in page
    assert answer.context["price"].totals.gross > less.context["price"].totals.gross
    paper = render_to_string("documents/quote.html", quote_context(draft))
    assert "Neighbours of our last job" in paper


def test_a_household_is_asked_nothing_about_the_reverse_charge(draft, office, logged_in):
    page = logged_in(office).get(reverse("quote", args=[draft.quote.number])).content.decode()
    assert "What a business customer is asked" not in page


@pytest.fixture
def business(draft) -> Customer:
    customer = draft.quote.property.customer
    customer.kind = Customer.Kind.BUSINESS
    customer.save()
    draft.refresh_from_db()
    return customer


def test_a_business_is_asked_before_the_quote_goes_out(draft, business, office, logged_in):
    page = logged_in(office).get(reverse("quote", args=[draft.quote.number])).content.decode()
    assert "What a business customer is asked" in page
    with pytest.raises(CannotIssue, match="nobody has said yet"):
        issue_revision(draft, by=office)
    send(logged_in(office), draft, {**boxes(draft), "customer_registered": "no"})
    issue_revision(draft, by=office)
    draft.refresh_from_db()
    assert draft.issued["estimate"]["price"]["reverse_charge"] is None


def test_under_the_reverse_charge_the_paper_asks_no_vat_and_says_why(
    draft, business, office, logged_in, client
):
    said = {"customer_registered": "yes", "reported_in_cis": "yes", "end_user_notice": "no"}
    answer = send(logged_in(office), draft, {**boxes(draft), **said})
    assert choices_from_json(draft.choices).reverse_charge == ReverseChargeAnswers(
        customer_registered=True, reported_in_cis=True, end_user_notice=False
    )
    assert "no VAT to pay" in answer.content.decode()
    token = issue_revision(draft, by=office)
    draft.refresh_from_db()
    totals = quote_context(draft)["price"].totals
    assert draft.total == totals.gross == totals.net
    paper = render_to_string("documents/quote.html", quote_context(draft))
    declared = f"customer to account to HMRC for the VAT of £{totals.customer_accounts_for} on this invoice"
    assert declared in paper
    assert "Every charge is in it, and no VAT to pay to us" in paper
    assert f"you account for £{totals.customer_accounts_for}" in paper
    assert "with VAT" not in paper
    assert "With VAT" not in paper
    client.get(reverse("customer_exchange", args=[token]))
    page = client.get(reverse("customer_quote", args=[draft.quote.number])).content.decode()
    assert "no VAT to pay to us" in page
    assert declared in page


def test_a_business_that_becomes_a_household_is_charged_vat_again(draft, business, office):
    every = ReverseChargeAnswers(customer_registered=True, reported_in_cis=True, end_user_notice=False)
    change_draft(draft, choices=_changed(draft, reverse_charge=every), introduction="")
    Customer.objects.update(kind=Customer.Kind.HOUSEHOLD)
    issue_revision(Revision.objects.get(pk=draft.pk), by=office)
    draft.refresh_from_db()
    assert Decimal(draft.issued["estimate"]["price"]["totals"]["vat"]) > 0


def test_rounding_down_is_refused_for_a_household_and_names_the_box(draft, office):
    """HMRC Notice 700 s.17.5: rounding down is for invoices between businesses."""
    draft.edition.vat_rounding = "invoice_rounded_down"
    draft.edition.save()
    with pytest.raises(CannotIssue, match=r"“How VAT is rounded” in Autumn, .* business customers only"):
        issue_revision(draft, by=office)
    Customer.objects.update(kind=Customer.Kind.BUSINESS)
    no = ReverseChargeAnswers(customer_registered=False)
    change_draft(draft, choices=_changed(draft, reverse_charge=no), introduction="")
    issue_revision(Revision.objects.get(pk=draft.pk), by=office)


def test_a_firm_that_is_not_registered_shows_no_vat_on_any_page_or_paper(  # noqa: PLR0913, PLR0917 - fixtures
    draft, business, office, owner, logged_in, client
):
    draft.edition.vat_registered = False
    draft.edition.save()
    Firm.objects.update(vat_number="GB123456789", terms="Pay by transfer.")
    page = logged_in(owner).get(reverse("quote", args=[draft.quote.number])).content.decode()
    kept = "Why the hatch follows the insulation&#x27;s VAT rate"
    assert "VAT" not in re.sub(r"<figure.*?</figure>", "", page.replace(kept, ""), flags=re.DOTALL)
    token = issue_revision(draft, by=office)
    draft.refresh_from_db()
    client.get(reverse("customer_exchange", args=[token]))
    for name in ("customer_quote", "customer_accept"):
        page = client.get(reverse(name, args=[draft.quote.number])).content.decode()
        assert "VAT" not in page, name
    paper = render_to_string("documents/quote.html", quote_context(draft))
    assert paper.replace("not registered for VAT", "").count("VAT") == 0


def test_drafts_kept_before_stages_keep_the_firms_deposit(draft, token, office):
    """What was paid by the firm's settings says so itself from the migration on; an issued copy is let be."""
    migration = import_module("jobs.migrations.0018_ask_the_owner_below_a_margin")
    newer = next_revision(draft.quote, by=office)
    for revision in (draft, newer):
        older = {name: value for name, value in revision.choices.items() if name != "stages"}
        Revision.objects.filter(pk=revision.pk).update(choices=older)
    Firm.objects.update(deposit_percent=Decimal("30"))
    migration.keep_deposits_of_drafts(apps, None)
    draft.refresh_from_db()
    newer.refresh_from_db()
    (deposit,) = choices_from_json(newer.choices).stages
    assert (deposit.due, deposit.percent) == (StageDue.ACCEPTANCE, 30)
    assert "stages" not in draft.choices
    assert Decimal(with_usual_stages(draft.choices)["stages"][0]["percent"]) == 30
