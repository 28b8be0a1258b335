"""A quote whose customer has the link open, without laying the loft anew for each test."""

from __future__ import annotations

from collections.abc import Callable
from datetime import timedelta

import pytest
from django.urls import reverse
from django.utils import timezone

from estimating.contracts.kind import HowAgreed
from jobs.firm.models import Firm
from jobs.quotes.customer.decisions import accept_revision
from jobs.quotes.customer.evidence import Evidence
from jobs.quotes.customer.models import Decision
from jobs.quotes.models import Revision
from jobs.quotes.rights.told import rights_of, rights_told

NOBODY = Evidence(link=None, address=None, browser="")


@pytest.fixture
def told(offer: Revision) -> Callable[..., Revision]:
    """Freeze the offer's rights anew, as the firm's settings and the office's answer would have made them."""

    def freeze(how_agreed: HowAgreed = HowAgreed.WITHOUT_MEETING, **settings: object) -> Revision:
        firm = Firm.ours()
        for name, value in settings.items():
            setattr(firm, name, value)
        offer.how_agreed = how_agreed.name
        offer.issued["rights"] = rights_told(offer, firm, price=offer.total)
        offer.save()
        return offer

    return freeze


@pytest.fixture
def accepted(offer: Revision) -> Decision:
    return accept(offer)


def accept(offer: Revision, *, days_ago: int = 0, early_start: bool = False) -> Decision:
    """Accept an offer some days ago, with or without the wish to start early."""
    decision = accept_revision(
        offer,
        name_typed="Odile Pemberwick",
        statements=rights_of(offer).statements,
        taken_parts=frozenset(),
        evidence=NOBODY,
        early_start=early_start,
    )
    decision.decided_at = timezone.now() - timedelta(days=days_ago)
    decision.save()
    return Decision.objects.select_related("revision__quote__property__customer").get(pk=decision.pk)


def address(name: str, revision: Revision) -> str:
    return reverse(f"customer_{name}", args=[revision.quote.number])
