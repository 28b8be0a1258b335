"""How a page waits: it asks every second and a half whether something landed, and stops after a while."""

from __future__ import annotations

from collections.abc import Callable, Collection
from dataclasses import dataclass
from datetime import timedelta
from urllib.parse import urlencode

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.utils import timezone
from django_htmx.http import reswap, retarget

from jobs.layouts.models import StoredLayout
from jobs.layouts.store import Awaited

State = StoredLayout.State
PATIENCE = timedelta(minutes=3)
MOST_DIGESTS = 64
LONGEST_MOMENT = 12  # digits of a moment in seconds; more are not ours
NOTHING_YET = 204
"""htmx leaves the page as it is, and asks again."""


@dataclass(frozen=True, slots=True)
class Waiting:
    """What a page waits for, and since when; the next stage of it travels in the address that it asks.

    One stage at a time, so that what somebody has opened on the page is not shut at every small step.
    """

    awaited: Awaited
    since: int

    @property
    def query(self) -> str:
        proofs = self.awaited.shown or self.awaited.others
        stage = {"proofs": ",".join(proofs)} if proofs else {"searches": ",".join(self.awaited.searches)}
        return urlencode(stage | {"since": self.since})


def waiting_for(awaited: Awaited, *, since: int | None = None) -> Waiting | None:
    """Return what a page is to wait for; a page that was improved goes on from when it first began."""
    if not awaited:
        return None
    return Waiting(awaited, int(timezone.now().timestamp()) if since is None else since)


def answer_to_waiting(request: HttpRequest, show_landed: Callable[[int], HttpResponse]) -> HttpResponse:
    """Answer a page that waits: the improved part, nothing yet, or that it need not ask any longer.

    `show_landed` is told since when the page has waited. What cannot be read has waited long enough.
    """
    begun = request.GET.get("since", "")
    since = int(begun) if begun.isascii() and begun.isdecimal() and len(begun) <= LONGEST_MOMENT else 0
    proofs, searches = _digests(request, "proofs"), _digests(request, "searches")
    if has_landed(proofs, State.PROOF_WANTED) or has_landed(searches, State.SEARCH_WANTED):
        return show_landed(since)
    if timezone.now().timestamp() - since < PATIENCE.total_seconds():
        return HttpResponse(status=NOTHING_YET)
    return reswap(retarget(render(request, "layouts/_no_longer.html"), "#awaited"), "outerHTML")


def has_landed(digests: Collection[str], wanted: str) -> bool:
    """Tell whether nothing of what a page waits for is wanted any longer. One query, by digests."""
    if not digests:
        return False
    moved_on = StoredLayout.objects.filter(digest__in=digests).exclude(state=wanted)
    return moved_on.count() == len(digests)


def _digests(request: HttpRequest, name: str) -> frozenset[str]:
    sent = request.GET.get(name, "").split(",")
    return frozenset(digest for digest in sent[:MOST_DIGESTS] if digest)
