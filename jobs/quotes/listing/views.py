"""The office's list of quotes: a row for each, by whose turn it is or by state, and found as one types."""

from __future__ import annotations

from datetime import timedelta
from typing import Any
from urllib.parse import urlencode

from django.contrib.auth.decorators import permission_required
from django.db.models import Q, QuerySet
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.utils import timezone
from django.views.decorators.http import require_safe
from django.views.decorators.vary import vary_on_headers

from jobs.quotes.listing.declined import reasons_told_since
from jobs.quotes.listing.finding import find_quotes
from jobs.quotes.listing.pages import Order, page_of
from jobs.quotes.listing.standing import turn_of
from jobs.quotes.listing.turns import Turn
from jobs.quotes.models import Quote, RevisionState

COUNTED_TO = 100
A_YEAR = timedelta(days=365)
STATES = [state for state in RevisionState if state != RevisionState.SUPERSEDED]
SHOWN = (
    "number", "letter", "state", "total", "valid_until", "follow_up_on", "follow_up_note", "turn",
    "turn_since", "turn_because", "office_from", "property__address", "property__town", "property__postcode",
    "property__customer__name",
)  # fmt: skip
NEWEST_FIRST = Order(newest_first=True)
ORDERS = {
    Turn.OFFICE: Order("office_from"),
    Turn.CUSTOMER: Order("turn_since"),
    Turn.NOBODY: Order("turn_since", newest_first=True),
}
"""Who waits longest stands first; what is settled, last settled first."""


@permission_required("jobs.view_quote", raise_exception=True)
@require_safe
@vary_on_headers("HX-Request")
def quotes(request: HttpRequest) -> HttpResponse:
    turn, state = request.GET.get("turn", ""), request.GET.get("state", "")
    turn = turn if turn in list(Turn) else ""
    state = state if state in STATES and not turn else ""
    typed = request.GET.get("q", "").strip()[:80]
    rows: QuerySet[Quote] = Quote.objects.select_related("property__customer").only(*SHOWN)
    if turn:
        rows = rows.filter(_turn_is(Turn(turn)))
    elif state:
        rows = rows.filter(state=state)
    order = ORDERS[Turn(turn)] if turn and not typed else NEWEST_FIRST
    page = page_of(find_quotes(typed, rows), order, request.GET)
    now = timezone.now()
    kept = {name: value for name, value in (("turn", turn), ("state", state), ("q", typed)) if value}
    context: dict[str, Any] = {
        "rows": [(quote, turn_of(quote, now=now)) for quote in page.rows],
        "page": page,
        "query": urlencode(kept),
        "typed": typed,
        "turn": turn,
        "state": state,
    }
    if request.htmx and not request.htmx.history_restore_request:
        return render(request, "quotes/_found.html", context)
    counts = {each: _counted(_turn_is(each)) for each in (Turn.OFFICE, Turn.CUSTOMER)}
    context |= {
        "turns": [(each.value, each.value.capitalize(), counts.get(each, "")) for each in Turn],
        "states": STATES,
        "reasons": reasons_told_since(now - A_YEAR),
    }
    return render(request, "quotes/quotes.html", context)


def _turn_is(turn: Turn) -> Q:
    """Say whose turn it is now, in terms that an index answers."""
    now = timezone.now()
    if turn == Turn.OFFICE:
        return Q(office_from__lte=now)
    return Q(turn=turn.value) & (Q(office_from=None) | Q(office_from__gt=now))


def _counted(those: Q) -> str:
    """Count to a hundred and no further: nobody needs to know how many thousand."""
    found = Quote.objects.filter(those).order_by().values_list("pk", flat=True)[:COUNTED_TO]
    counted = len(found)
    return f"{COUNTED_TO - 1}+" if counted == COUNTED_TO else str(counted)
