"""The customer's link: a token that only the customer holds, kept here as its digest."""

from __future__ import annotations

import base64
import hashlib
import secrets
from datetime import datetime, time, timedelta

from django.contrib.auth.models import User
from django.db import transaction
from django.db.models import Max
from django.utils import timezone
from django.utils.crypto import salted_hmac

from jobs.quotes.customer.models import CustomerLink, LinkOpening
from jobs.quotes.models import Quote, Revision

TOKEN_BYTES = 24  # 192 random bits
DAYS_AFTER_CONTRACT = 400  # fourteen days and a year, the longest that a customer may cancel
DAYS_AFTER_OFFER = 90  # a quote stays readable for its customer, also one re-sent long after it was accepted


def token_digest(token: str) -> str:
    """Return what is kept of a token."""
    return hashlib.sha256(token.encode()).hexdigest()


def derived_token(seed: str) -> str:
    """Return the token that belongs to a random seed: whoever lacks the site's secret key cannot work it out.

    The outbox keeps the seed, so that each try of a message carries the same link and none is kept.
    """
    mixed = salted_hmac("jobs.quotes.customer.links.derived_token", seed, algorithm="sha256").digest()
    return base64.urlsafe_b64encode(mixed[:TOKEN_BYTES]).decode()


@transaction.atomic
def make_link(revision: Revision, *, by: User, token: str = "") -> str:
    """Make a link to a quote and return its token, which is shown once and kept nowhere.

    Earlier links to the quote end, so that a link sent to a wrong address dies when a new one is made. The
    new one lasts as long as the one it replaces: a contract made on that one is still read on this.
    """
    if revision.valid_until is None:
        raise ValueError("only an issued revision has a link")
    replaced = revision.quote.links.filter(revoked_at=None).aggregate(last=Max("expires_at"))["last"]
    revoke_links(revision.quote)
    token = token or secrets.token_urlsafe(TOKEN_BYTES)
    is_contract = revision.state == Revision.State.ACCEPTED
    days = DAYS_AFTER_CONTRACT if is_contract else DAYS_AFTER_OFFER
    last_day = max(revision.valid_until, timezone.localdate()) + timedelta(days=days)
    expires_at = timezone.make_aware(datetime.combine(last_day, time.max))
    CustomerLink.objects.create(
        quote=revision.quote,
        digest=token_digest(token),
        expires_at=max(expires_at, replaced or expires_at),
        made_by=by,
    )
    return token


def keep_open_for_contract(quote: Quote) -> None:
    """Let the open link last as long as the longest time in which its contract may be cancelled."""
    last = timezone.now() + timedelta(days=DAYS_AFTER_CONTRACT)
    quote.links.filter(revoked_at=None, expires_at__lt=last).update(expires_at=last)


def revoke_links(quote: Quote) -> int:
    """End every open link to a quote and return how many ended."""
    return quote.links.filter(revoked_at=None).update(revoked_at=timezone.now())


def open_link(token: str) -> CustomerLink | None:
    """Return the link a token opens, or None when there is none, or it ended."""
    return (
        CustomerLink.objects.select_related("quote__property__customer")
        .filter(digest=token_digest(token), revoked_at=None, expires_at__gt=timezone.now())
        .first()
    )


def was_a_link(token: str) -> bool:
    """Tell whether a token opened something once: whoever holds it does not guess."""
    return bool(token) and CustomerLink.objects.filter(digest=token_digest(token)).exists()


def note_opening(link: CustomerLink, *, address: str | None, browser: str) -> None:
    """Record for the office that the link was opened."""
    LinkOpening.objects.create(link=link, address=address, browser=browser[:200])
