"""An issued quote stays as it was issued, whatever becomes of the firm, its price book and our own words."""

from __future__ import annotations

import hashlib
import json
from decimal import Decimal

import pytest
from django.template.loader import render_to_string
from django.urls import reverse

from jobs.demo.dress import drawn_logo
from jobs.documents import for_the_customer, quote_words
from jobs.documents.papers import read_paper
from jobs.documents.quote import quote_context
from jobs.firm.insurance_models import Insurance
from jobs.firm.logo import keep_logo, read_as_logo
from jobs.firm.models import Firm
from jobs.price_books.models import EditionProduct
from jobs.quotes.frozen import price_with, taken_parts
from jobs.quotes.models import Revision
from jobs.quotes.services import issue_revision
from tests.documents.dress import dress
from tests.jobs.conftest import edition
from tests.jobs.offers import make_offer
from tests.jobs.quotes.conftest import draft, measured

__all__ = ["draft", "edition", "measured"]

ANEW = "written anew"

pytestmark = pytest.mark.django_db


def as_rendered(revision: Revision) -> str:
    return render_to_string("documents/quote.html", quote_context(Revision.objects.get(pk=revision.pk)))


def change_everything(monkeypatch) -> None:
    """Change every setting of the firm, every price, and the words that the code gives."""
    firm = Firm.ours()
    other = read_as_logo(drawn_logo(300, 300))
    for field in firm._meta.fields:
        if field.name == "id" or field.choices:
            continue
        if field.get_internal_type() in {"CharField", "TextField", "EmailField"}:
            setattr(firm, field.name, "#aa2222" if field.name == "accent_colour" else ANEW)
        elif field.get_internal_type() == "BooleanField":
            setattr(firm, field.name, not getattr(firm, field.name))
        else:
            setattr(firm, field.name, 7)
    firm.logo_sha256, firm.logo_width, firm.logo_height = keep_logo(other), other.width, other.height
    firm.bank_sort_code, firm.bank_account_number, firm.kind = "99-99-99", "99999999", "sole trader"
    firm.save()
    Insurance.objects.all().delete()
    EditionProduct.objects.update(pack_cost=Decimal(999))
    for name in ("WHAT_THE_CUSTOMER_DOES", "WHAT_COULD_CHANGE_THE_PRICE", "WHO_ELSE_MUST_BE_ASKED"):
        monkeypatch.setattr(quote_words, name, (ANEW,))
    for module, name in (
        (quote_words, "SQUASHED"),
        (quote_words, "HOW_A_CHANGE_IS_AGREED"),
        (for_the_customer, "ASK_ENGINEER"),
        (for_the_customer, "ASK_DESIGNER"),
    ):
        monkeypatch.setattr(module, name, ANEW)
    monkeypatch.setattr(quote_words, "what_we_do", lambda _worked: [ANEW])
    monkeypatch.setattr(quote_words, "opening_words", lambda _worked: ANEW)


def test_a_quote_reads_the_same_whatever_changes_after_it_is_issued(firm, survey, office, monkeypatch):
    dress(firm)
    revision = make_offer(survey, office)
    before = as_rendered(revision)
    frozen = json.dumps(Revision.objects.get(pk=revision.pk).issued, sort_keys=True)
    price = price_with(revision, taken_parts(revision))
    change_everything(monkeypatch)
    assert as_rendered(revision) == before
    assert ANEW not in before
    again = Revision.objects.get(pk=revision.pk)
    assert json.dumps(again.issued, sort_keys=True) == frozen
    assert price_with(again, taken_parts(again)) == price
    later = make_offer(survey, office)
    assert ANEW in as_rendered(later)  # what was changed does reach a new quote


def test_the_paper_that_was_issued_is_kept_to_the_byte(firm, draft, office, logged_in, monkeypatch):
    dress(firm)
    issue_revision(draft, by=office)
    revision = Revision.objects.get(pk=draft.pk)
    pdf = read_paper(revision.paper_sha256)
    assert pdf.startswith(b"%PDF")
    assert hashlib.sha256(pdf).hexdigest() == revision.paper_sha256
    change_everything(monkeypatch)
    address = reverse("revision_paper", args=[revision.quote.number, revision.letter])
    assert logged_in(office).get(address).content == pdf
    assert Revision.objects.get(pk=revision.pk).paper_sha256 == hashlib.sha256(pdf).hexdigest()
