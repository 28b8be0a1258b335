"""The office's screens over outgoing mail."""

from __future__ import annotations

import secrets
from urllib.parse import urlencode

from django.contrib import messages
from django.contrib.auth.decorators import permission_required
from django.core.paginator import Paginator
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.views.decorators.cache import never_cache
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from jobs.firm.models import Firm
from jobs.forms import sent, status_of
from jobs.mail.forms import QuoteMailForm
from jobs.mail.models import OutgoingMail
from jobs.mail.quote_mail import mail_quote, suggested_subject, suggested_text
from jobs.mail.services import MailRefused, note_arrival, try_again, withdraw_mail
from jobs.mail.smtp_line import server_is_set
from jobs.quotes.models import Quote
from jobs.quotes.services import NotOnOffer, standing_revision

PAGE = 30
State = OutgoingMail.State
STATES = {
    "waiting": ("Waiting", (State.WAITING, State.SENDING)),
    "answer lost": ("Perhaps sent", (State.ANSWER_LOST,)),
    "sent": ("Sent", (State.SENT,)),
    "failed": ("Failed", (State.FAILED,)),
    "withdrawn": ("Withdrawn", (State.WITHDRAWN,)),
}


@permission_required("jobs.view_outgoingmail", raise_exception=True)
@require_safe
def outbox(request: HttpRequest) -> HttpResponse:
    wanted = request.GET.get("state", "")
    found = OutgoingMail.objects.select_related("about__quote").defer("text", "about__issued")
    if wanted in STATES:
        found = found.filter(state__in=STATES[wanted][1])
    page = Paginator(found, PAGE).get_page(request.GET.get("page"))
    context = {
        "page": page,
        "states": [(value, label) for value, (label, _) in STATES.items()],
        "wanted": wanted,
        "query": urlencode({"state": wanted}) if wanted else "",
        "server_is_set": server_is_set(),
    }
    return render(request, "mail/outbox.html", context)


@permission_required("jobs.view_outgoingmail", raise_exception=True)
@require_safe
@never_cache
def mail(request: HttpRequest, pk: int) -> HttpResponse:
    return render(request, "mail/mail.html", {"mail": _mail(pk), "server_is_set": server_is_set()})


@permission_required("jobs.change_outgoingmail", raise_exception=True)
@require_POST
def mail_try_again(request: HttpRequest, pk: int) -> HttpResponse:
    try:
        try_again(_mail(pk))
        messages.success(request, "It goes within seconds." if server_is_set() else "It waits.")
    except MailRefused as refused:
        messages.error(request, str(refused))
    return redirect("mail", pk=pk)


@permission_required("jobs.change_outgoingmail", raise_exception=True)
@require_POST
def mail_arrived(request: HttpRequest, pk: int) -> HttpResponse:
    try:
        note_arrival(_mail(pk))
        messages.success(request, "Noted. It is not sent again.")
    except MailRefused as refused:
        messages.error(request, str(refused))
    return redirect("mail", pk=pk)


@permission_required("jobs.change_outgoingmail", raise_exception=True)
@require_POST
def mail_withdraw(request: HttpRequest, pk: int) -> HttpResponse:
    try:
        withdraw_mail(_mail(pk))
        messages.success(request, "Withdrawn. It is not sent.")
    except MailRefused as refused:
        messages.error(request, str(refused))
    return redirect("mail", pk=pk)


@permission_required(("jobs.issue_quote", "jobs.add_outgoingmail"), raise_exception=True)
@require_http_methods(["GET", "HEAD", "POST"])
@never_cache
def quote_mail(request: HttpRequest, number: str) -> HttpResponse:
    """Show who gets the quote and with what words; taken, the message waits in the outbox."""
    quote = get_object_or_404(Quote.objects.select_related("property__customer"), number=number)
    try:
        revision = standing_revision(quote)
    except NotOnOffer as refused:
        messages.error(request, str(refused))
        return redirect("quote", number=number)
    firm, customer = Firm.ours(), quote.property.customer
    suggested = {
        "name": customer.name,
        "address": customer.email,
        "subject": suggested_subject(revision, firm),
        "text": suggested_text(revision, firm, by=request.user),
        "once": secrets.token_hex(16),
    }
    form = QuoteMailForm(sent(request), initial=suggested)
    if form.is_bound and form.is_valid():
        given = form.cleaned_data
        try:
            queued = mail_quote(
                quote,
                to=form.recipients,
                subject=given["subject"],
                text=given["text"],
                by=request.user,
                once=given["once"],
            )
        except MailRefused as refused:
            form.refuse(refused.field, str(refused))
        except NotOnOffer as refused:
            messages.error(request, str(refused))
            return redirect("quote", number=number)
        else:
            messages.success(request, f"To be sent to {' and '.join(each.recipient for each in queued)}.")
            return redirect("quote", number=number)
    context = {"quote": quote, "revision": revision, "form": form, "server_is_set": server_is_set()}
    return render(request, "mail/quote.html", context, status=status_of(form))


def _mail(pk: int) -> OutgoingMail:
    return get_object_or_404(OutgoingMail.objects.select_related("about__quote", "made_by"), pk=pk)
