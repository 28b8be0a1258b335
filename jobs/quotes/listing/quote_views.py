"""What the office notes on a quote that is with its customer: when to ask again, and that they declined."""

from __future__ import annotations

from datetime import timedelta

from django.contrib import messages
from django.contrib.auth.decorators import permission_required
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils import timezone
from django.views.decorators.http import require_http_methods, require_POST

from jobs.forms import sent, status_of
from jobs.quotes.listing.declined import CannotDecline, record_decline
from jobs.quotes.listing.following import SHORTCUTS, USUAL_DAYS, drop_follow_up, set_follow_up
from jobs.quotes.listing.forms import DeclinedForm, FollowUpForm
from jobs.quotes.models import Quote
from jobs.quotes.views import revision_asked_for


@permission_required("jobs.change_quote", raise_exception=True)
@require_http_methods(["GET", "HEAD", "POST"])
def quote_follow_up(request: HttpRequest, number: str) -> HttpResponse:
    """Set the day to ask again, by the page or by a button that names the days until then."""
    quote = get_object_or_404(Quote.objects.select_related("property__customer"), number=number)
    today = timezone.localdate()
    days = request.POST.get("in_days", "")
    if days in map(str, SHORTCUTS):
        set_follow_up(quote, on=today + timedelta(days=int(days)), note=quote.follow_up_note)
        return redirect("quote", number=number)
    suggested = {
        "follow_up_on": quote.follow_up_on or today + timedelta(days=USUAL_DAYS),
        "follow_up_note": quote.follow_up_note,
    }
    form = FollowUpForm(sent(request), initial=suggested)
    if form.is_bound and form.is_valid():
        asked = form.cleaned_data
        set_follow_up(quote, on=asked["follow_up_on"], note=asked["follow_up_note"])
        return redirect("quote", number=number)
    context = {"quote": quote, "form": form}
    return render(request, "quotes/follow_up.html", context, status=status_of(form))


@permission_required("jobs.change_quote", raise_exception=True)
@require_POST
def quote_followed_up(request: HttpRequest, number: str) -> HttpResponse:
    drop_follow_up(get_object_or_404(Quote, number=number))
    messages.success(request, "Followed up. No day is set any more.")
    return redirect("quote", number=number)


@permission_required("jobs.issue_quote", raise_exception=True)
@require_http_methods(["GET", "HEAD", "POST"])
def revision_declined(request: HttpRequest, number: str, letter: str) -> HttpResponse:
    """Write down that the customer declined by word of mouth."""
    revision = revision_asked_for(number, letter)
    form = DeclinedForm(sent(request), initial={"told_by": revision.quote.property.customer.name})
    if form.is_bound and form.is_valid():
        try:
            record_decline(revision, **form.cleaned_data, by=request.user)
            messages.success(request, f"{revision} is declined.")
        except CannotDecline as refused:
            messages.error(request, str(refused))
        return redirect("quote", number=number)
    context = {"quote": revision.quote, "revision": revision, "form": form}
    return render(request, "quotes/declined.html", context, status=status_of(form))
