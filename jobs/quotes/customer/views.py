"""What a customer sees and does on the link: no log-in, one quote, nothing about anyone else."""

from __future__ import annotations

from typing import Any

from django.contrib.auth.decorators import login_not_required
from django.http import HttpRequest, HttpResponse, QueryDict
from django.shortcuts import redirect, render
from django.views.decorators.http import require_http_methods, require_POST, require_safe
from django_htmx.http import HttpResponseClientRefresh

from estimating.checks.verdicts import Heat
from jobs.documents.for_the_customer import (
    heat_told,
    range_in_words,
    room_told,
    saving_in_words,
    what_to_know,
)
from jobs.forms import sent, status_of
from jobs.quotes.compared import compared
from jobs.quotes.customer.decisions import (
    NEWER,
    NotOpen,
    accept_revision,
    ask_question,
    decline_revision,
    why_closed,
)
from jobs.quotes.customer.forms import AcceptForm, DecisionForm, DeclineForm, QuestionForm
from jobs.quotes.customer.models import CustomerLink, Decision
from jobs.quotes.customer.opening import evidence_of, show_outcome, show_paper, with_link
from jobs.quotes.frozen import frozen_alternative, frozen_checks, frozen_gap, frozen_told
from jobs.quotes.models import Revision
from jobs.quotes.options import in_groups, options_in
from jobs.quotes.picking import Picking
from jobs.quotes.rights.cancelling import cancellations_of
from jobs.quotes.rights.shown import rights_shown
from jobs.templatetags.shown import two_figures


@login_not_required
@require_safe
@with_link
def customer_quote(request: HttpRequest, link: CustomerLink, revision: Revision) -> HttpResponse:
    if request.htmx:
        return _live(request, revision)
    context = _quote(revision, _picking(request, revision)) | {"question": QuestionForm()}
    return render(request, "customer/quote.html", context)


def _live(request: HttpRequest, revision: Revision) -> HttpResponse:
    """Answer a changed option with the price, and a changed alternative with all that follows it."""
    if _reads_another(request, revision) or why_closed(revision):
        return HttpResponseClientRefresh()
    picking = Picking(revision, request.GET)
    if request.GET.get("drawn", "") in ("", str(picking.alternative)):
        context = _priced(revision, picking)
    else:
        context = _quote(revision, picking) | {"redrawn": True}
    return render(request, "customer/_live.html", context)


@login_not_required
@require_http_methods(["GET", "HEAD", "POST"])
@with_link
def customer_accept(request: HttpRequest, link: CustomerLink, revision: Revision) -> HttpResponse:
    picking = Picking(revision, _asked(request))
    form = AcceptForm(sent(request), revision=revision, offer=picking.offers[picking.alternative])
    refused = _closed(request, revision, form)
    if refused:
        again = _pressed_again(form, link)
        return redirect("customer_quote", number=revision.quote.number) if again else refused
    if _reads_another(request, revision):
        return show_outcome(request, revision, NEWER, status=409)
    if form.is_bound and form.is_valid():
        try:
            accept_revision(
                revision,
                name_typed=form.cleaned_data["name_typed"],
                statements=form.statements,
                taken_parts=form.taken_parts,
                evidence=evidence_of(request, link),
                early_start=form.wants_early_start,
                news=form.wants_news,
                alternative=form.cleaned_data["alternative"],
            )
        except NotOpen as too_late:
            return show_outcome(request, revision, str(too_late), status=409)
        return redirect("customer_quote", number=revision.quote.number)
    if picking.now.why_not:
        context = _quote(revision, picking) | {"question": QuestionForm()}
        return render(request, "customer/quote.html", context, status=422)
    context = _priced(revision, picking) | {"form": form}
    return render(request, "customer/accept.html", context, status=status_of(form))


@login_not_required
@require_http_methods(["GET", "HEAD", "POST"])
@with_link
def customer_decline(request: HttpRequest, link: CustomerLink, revision: Revision) -> HttpResponse:
    form = DeclineForm(sent(request), revision=revision)
    refused = _closed(request, revision, form)
    if refused:
        return refused
    if form.is_bound and form.is_valid():
        asked = form.cleaned_data
        try:
            decline_revision(
                revision,
                name_typed=asked["name_typed"],
                because=asked["because"],
                reason=asked["reason"],
                evidence=evidence_of(request, link),
            )
        except NotOpen as too_late:
            return show_outcome(request, revision, str(too_late), status=409)
        return redirect("customer_quote", number=revision.quote.number)
    picking = Picking(revision, None if _reads_another(request, revision) else request.GET)
    context = _priced(revision, picking) | {"form": form}
    return render(request, "customer/decline.html", context, status=status_of(form))


def _pressed_again(form: AcceptForm, link: CustomerLink) -> bool:
    """Tell whether the acceptance that stands is this very one: a double tap is answered like the first."""
    if not form.is_bound or not form.is_valid():
        return False
    same = Decision.objects.filter(
        revision=form.revision,
        revision__letter=form.cleaned_data["letter"],
        kind=Decision.Kind.ACCEPTED,
        link=link,
        name_typed=form.cleaned_data["name_typed"],
    ).first()
    return (
        same is not None
        and same.taken_parts == sorted(form.taken_parts)
        and same.alternative == form.cleaned_data["alternative"]
    )


def _closed(request: HttpRequest, revision: Revision, form: DecisionForm) -> HttpResponse | None:
    """Answer a decision that cannot be taken, also one on a page left open over a newer revision."""
    words = why_closed(revision) or (NEWER if form.is_for_another_revision else "")
    return show_outcome(request, revision, words, status=409) if words else None


def _reads_another(request: HttpRequest, revision: Revision) -> bool:
    """Tell whether a page asks about another revision than the one that is shown now."""
    return _asked(request).get("letter", revision.letter) != revision.letter


def _picking(request: HttpRequest, revision: Revision) -> Picking:
    """Return what a page has picked; what was picked on another revision is not read here."""
    return Picking(revision, None if _reads_another(request, revision) else _asked(request))


def _asked(request: HttpRequest) -> QueryDict:
    return request.POST if request.method == "POST" else request.GET


@login_not_required
@require_POST
@with_link
def customer_ask(request: HttpRequest, link: CustomerLink, revision: Revision) -> HttpResponse:
    form, picking = QuestionForm(request.POST), _picking(request, revision)
    back = "" if why_closed(revision) else picking.query
    if form.is_valid():
        try:
            ask_question(link.quote, form.cleaned_data["words"])
        except NotOpen as too_many:
            return show_outcome(request, revision, str(too_many), picked_query=back, status=429)
        words = "Thank you. Your question is with us; we will answer soon."
        return show_outcome(request, revision, words, picked_query=back)
    context = _quote(revision, picking) | {"question": form}
    return render(request, "customer/quote.html", context, status=422)


@login_not_required
@require_safe
@with_link
def customer_paper(request: HttpRequest, link: CustomerLink, revision: Revision) -> HttpResponse:
    return show_paper(request, revision, revision.paper_sha256, filename=f"quote-{revision}.pdf")


def _priced(revision: Revision, picking: Picking) -> dict[str, Any]:
    """Return what follows every option: the price of what is picked, and what else could be."""
    picked = picking.now
    offer = picking.offers[picked.alternative]
    options = options_in(offer, picked.taken)
    groups, otherwise = in_groups(options), picked.taken ^ offer.offered_as_taken
    return {
        "revision": revision,
        "quote": revision.quote,
        "firm": revision.issued["firm"],
        "issued": revision.issued,
        "shows_vat": revision.issued["price_book"]["pricing"]["vat_registered"],
        "picked": picked,
        "price": picked.price,
        "lines": [line for line in picked.price.lines if line.counted],
        "told": frozen_told(revision, picked.alternative),
        "taken_besides": [each.line for each in options if each.taken and each.line.part in otherwise],
        "left_out": [each.line for each in options if not each.taken and each.line.part in otherwise],
        "taken": picked.taken,
        "options": options,
        "option_groups": groups,
        "single_options": [group.options[0] for group in groups if not group.is_one_of],
        "alternatives": compared(revision, picking.every) if len(picking.names) > 1 else [],
        "wishes": sorted(picking.wishes.items()),
        "picked_query": picking.query,
        "closed": why_closed(revision),
        "decision": getattr(revision, "decision", None),
    }


def _quote(revision: Revision, picking: Picking) -> dict[str, Any]:
    """Return the whole of one alternative, its price and its options with it."""
    frozen = frozen_alternative(revision, picking.alternative)
    design = frozen["estimate"]["design"]
    return {
        **_priced(revision, picking),
        "drawings": frozen["drawings"],
        **_checked(revision, picking.alternative),
        "deck_area_m2": design["deck_area_m2"]["value"],
        "finished_depth_mm": design["insulation"]["finished_depth_mm"]["value"],
        **rights_shown(revision),
        "earlier_cancellations": cancellations_of(revision.quote)
        .exclude(decision__revision=revision)
        .defer("decision__revision__issued"),
    }


def _checked(revision: Revision, alternative: int) -> dict[str, Any]:
    """Return what the checks found, read from the frozen copy without the rest of the estimate."""
    checks = frozen_checks(revision, alternative)
    return {
        "bars": _heat_bars(checks.heat),
        "heat": heat_told(checks),
        "saving": saving_in_words(checks),
        "room": room_told(checks, frozen_gap(revision, alternative)),
        "to_know": what_to_know(checks),
    }


def _heat_bars(heat: Heat) -> list[dict[str, Any]]:
    """Return the three U-values as bars, the longest filling the line."""
    ranges = heat.ranges
    named = [
        ("Now", heat.as_found, ranges and ranges.as_found),
        ("With us", heat.as_proposed, ranges and ranges.as_proposed),
        ("If squashed", heat.squashed, ranges and ranges.squashed),
    ]
    longest = max(figure.value for _, figure, _ in named)
    return [
        {
            "name": name,
            "value": two_figures(figure.value),
            "between": range_in_words(within) if within else "",
            "share": f"{100 * figure.value / longest:.1f}",
            "best": figure is heat.as_proposed,
        }
        for name, figure, within in named
    ]
