"""A quote of as many alternatives as a quote may have, for whoever picks among them on a phone."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

from django.contrib.auth.models import User

from jobs.quotes.alternatives import MOST_ALTERNATIVES, alternatives_of
from jobs.quotes.drafts.alternatives import add_alternative
from jobs.quotes.drafts.services import change_draft, draft_quote
from jobs.quotes.models import Revision
from jobs.quotes.services import issue_revision
from jobs.surveys.models import Survey

U_VALUES = tuple(map(Decimal, ("0.16", "0.15", "0.14", "0.13")))
"""What each alternative insulates to, W/m²K; each is another design, with its own prices and drawings."""


def offer_alternatives(survey: Survey, *, by: User) -> tuple[str, str]:
    """Issue a quote with an alternative for each U-value; return its number and the customer's token."""
    revision = draft_quote(survey, by=by)
    for number in range(1, MOST_ALTERNATIVES):
        add_alternative(revision, name=f"With more insulation, {number}")
        revision.refresh_from_db()
    for number, u_w_m2k in enumerate(U_VALUES):
        choices = alternatives_of(revision)[number].choices
        aim = replace(choices, target_u_w_m2k=u_w_m2k, target_source="chosen for this quote")
        change_draft(revision, choices=aim, introduction="", alternative=number)
    token = issue_revision(Revision.objects.get(pk=revision.pk), by=by)
    return revision.quote.number, token
