"""How a page waits: it asks every second and a half whether something landed, and stops after a while."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import timedelta
from urllib.parse import urlencode

from django.db.models import Q
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.utils import timezone
from django_htmx.http import reswap, retarget

from jobs.layouts.models import StoredLayout
from jobs.layouts.store import Awaited

State = StoredLayout.State
PATIENCE = timedelta(minutes=3)
MOST_DIGESTS = 64
NOTHING_YET = 204
"""htmx leaves the page as it is, and asks again."""


@dataclass(frozen=True, slots=True)
class Waiting:
    """What a page waits for, and since when; it travels in the address that the page asks."""

    awaited: Awaited
    since: int

    @property
    def query(self) -> str:
        return urlencode(
            {
                "proofs": ",".join(self.awaited.proofs),
                "searches": ",".join(self.awaited.searches),
                "since": self.since,
            }
        )

    @property
    def has_lasted(self) -> bool:
        return timezone.now().timestamp() - self.since > PATIENCE.total_seconds()


def waiting_for(awaited: Awaited, *, since: int | None = None) -> Waiting | None:
    """Return what a page is to wait for; a page that was improved goes on from when it first began."""
    if not awaited:
        return None
    return Waiting(awaited, int(timezone.now().timestamp()) if since is None else since)


def answer_to_waiting(request: HttpRequest, show_landed: Callable[[int], HttpResponse]) -> HttpResponse:
    """Answer a page that waits: the improved part, nothing yet, or that it need not ask any longer.

    `show_landed` is told since when the page has waited.
    """
    waiting = _sent(request)
    if has_landed(waiting.awaited):
        return show_landed(waiting.since)
    if not waiting.has_lasted:
        return HttpResponse(status=NOTHING_YET)
    return reswap(retarget(render(request, "layouts/_no_longer.html"), "#awaited"), "outerHTML")


def has_landed(awaited: Awaited) -> bool:
    """Tell whether anything that a page waits for has moved on. One query, by digests."""
    moved_on = Q(digest__in=awaited.proofs) & ~Q(state=State.PROOF_WANTED)
    moved_on |= Q(digest__in=awaited.searches) & ~Q(state=State.SEARCH_WANTED)
    return StoredLayout.objects.filter(moved_on).exists()


def _sent(request: HttpRequest) -> Waiting:
    """Read what was sent; whatever cannot be read has waited long enough."""
    proofs, searches = (
        tuple(digest for digest in request.GET.get(name, "").split(",") if digest)[:MOST_DIGESTS]
        for name in ("proofs", "searches")
    )
    since = request.GET.get("since", "")
    return Waiting(Awaited(proofs, searches), int(since) if _is_moment(since) else 0)


def _is_moment(text: str) -> bool:
    return text.isascii() and text.isdecimal() and len(text) <= 12
