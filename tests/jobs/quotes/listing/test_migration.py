"""Quotes made before there was a list of them are listed and found after the migration."""

from __future__ import annotations

from datetime import timedelta
from importlib import import_module

import pytest
from django.apps import apps
from django.utils import timezone

from jobs.quotes.customer.decisions import ask_question
from jobs.quotes.listing.models import QuoteWord
from jobs.quotes.listing.standing import KEPT, standing_of
from jobs.quotes.listing.words import words_of_quote
from jobs.quotes.models import Quote, Revision
from tests.jobs.offers import make_job, make_offer

pytestmark = pytest.mark.django_db
MIGRATION = import_module("jobs.migrations.0016_list_quotes_by_whose_turn_it_is")


def test_what_was_there_is_listed_and_found_as_if_its_services_had_kept_it(survey, firm, office):
    offers = {name: make_offer(survey, office) for name in ("open", "asked", "accepted", "lapsed", "draft")}
    ask_question(offers["asked"].quote, "Why?")
    make_job(offers["accepted"])
    Revision.objects.filter(pk=offers["lapsed"].pk).update(state=Revision.State.LAPSED)
    Revision.objects.create(
        quote=offers["draft"].quote, letter="B", edition=offers["draft"].edition, made_by=office
    )
    QuoteWord.objects.all().delete()
    Quote.objects.update(
        state="draft", letter="", total=None, turn="office", turn_because="draft", office_from=None,
        turn_since=timezone.now() - timedelta(days=99),
    )  # fmt: skip
    MIGRATION.list_what_is_there(apps, None)
    for quote in Quote.objects.select_related("property__customer"):
        assert {name: getattr(quote, name) for name in KEPT} == standing_of(quote)
        assert set(quote.words.values_list("word", flat=True)) == words_of_quote(quote)
    assert Quote.objects.exclude(letter="").count() == len(offers)
