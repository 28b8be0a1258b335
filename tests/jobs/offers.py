"""Issued quotes and accepted jobs made in one go, so that what comes after them can be tried alone."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import timedelta
from functools import cache
from typing import Any

from django.contrib.auth.models import User
from django.utils import timezone

from estimating.choices import Part
from estimating.estimate import Estimate, estimate
from estimating.json_forms import choices_as_json
from jobs.firm.models import Firm
from jobs.firm.numbers import next_number
from jobs.price_books.models import Edition
from jobs.quotes.customer.decisions import Evidence, accept_revision
from jobs.quotes.frozen import freeze
from jobs.quotes.listing.finding import keep_words
from jobs.quotes.listing.standing import keep_standing
from jobs.quotes.models import Quote, Revision
from jobs.surveys.models import Survey
from jobs.works.models import Job
from tests.estimating import lofts

NOT_A_PAPER = "0" * 64
OPTIONS = frozenset({Part.LADDER, Part.LIGHT})


@cache
def worked_loft(name: str = "trussed") -> Estimate:
    """Return one of the core's invented lofts, worked out with a ladder and a light as options."""
    survey = {
        "trussed": lofts.trussed_loft,
        "cut roof": lofts.cut_roof_loft,
        "bungalow": lofts.bungalow_loft,
    }[name]()
    parts = frozenset({Part.INSULATION, Part.EDGE_TRIM, Part.DRAUGHT_STRIP}) | OPTIONS
    return estimate(survey, lofts.price_book(), lofts.choices(parts=parts, optional_parts=OPTIONS))


def make_offer(survey: Survey, by: User, *, worked: Estimate | None = None, **fields: Any) -> Revision:
    """Return an issued revision for a survey, frozen as the quotes' own service does it."""
    edition, _ = Edition.objects.get_or_create(
        name="An edition", defaults={"dated": survey.visited_on, "hourly_cost": 20}
    )
    quote = Quote.objects.create(number=next_number("Q"), property=survey.property, survey=survey, made_by=by)
    worked = worked or worked_loft()
    today = timezone.localdate()
    revision = Revision(quote=quote, letter="A", edition=edition, made_by=by, issued_by=by, **fields)
    revision.issued_at, revision.valid_until = timezone.now(), today + timedelta(days=30)
    revision.choices = choices_as_json(worked.choices)
    revision.issued = freeze(revision, worked, Firm.ours())
    revision.total, revision.paper_sha256 = worked.price.totals.gross, NOT_A_PAPER
    revision.state = Revision.State.ISSUED
    revision.save()
    keep_standing(quote)
    keep_words([quote])
    return revision


def make_job(revision: Revision, *, taken: Iterable[Part] = ()) -> Job:
    """Accept an offer as its customer would, and return its job."""
    accept_revision(
        revision,
        name_typed=revision.quote.property.customer.name,
        statements=["I accept this quote."],
        taken_parts=frozenset(taken),
        evidence=Evidence(link=None, address="127.0.0.1", browser="a test"),
    )
    return Job.objects.get(revision=revision)
