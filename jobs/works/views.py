"""Screens over jobs, for the office and for the crew. None of those the crew may open shows a price."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from django.contrib import messages
from django.contrib.auth.decorators import permission_required
from django.core.paginator import Paginator
from django.db.models import F
from django.forms import Form
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from estimating.drawing.view import SCREEN
from jobs.documents.job_sheet import job_sheet_context, job_sheet_pdf
from jobs.documents.papers import read_paper
from jobs.documents.render import PdfUnavailable
from jobs.documents.showing import show_pdf
from jobs.firm.models import Firm
from jobs.forms import sent, status_of
from jobs.orders.own_risk import own_risk_until
from jobs.orders.services import OPEN_TO_ORDERS
from jobs.quotes.rights.shown import rights_shown
from jobs.store.services import LEAVES_OFFCUTS, offcuts_of, what_job_counts_on
from jobs.works.forms import BookForm, CompleteForm, HandOverForm
from jobs.works.models import Job
from jobs.works.services import (
    JobRefused,
    book_job,
    close_job,
    complete_job,
    hand_over_job,
    may_become,
    start_job,
    what_holds_work,
)

PAGE = 30
CREW_SEES = (
    Job.State.BOOKED, Job.State.UNDER_WAY, Job.State.COMPLETE, Job.State.HANDED_OVER, Job.State.CALLED_OFF,
)  # fmt: skip
PUT_AWAY = (Job.State.CLOSED, Job.State.CALLED_OFF)


@permission_required("jobs.view_job", raise_exception=True)
@require_safe
def jobs(request: HttpRequest) -> HttpResponse:
    wanted = request.GET.get("state", "")
    found = _visible(request).prefetch_related("crew")
    found = found.filter(state=wanted) if wanted in Job.State.values else found.exclude(state__in=PUT_AWAY)
    ordered = found.order_by(F("starts_on").asc(nulls_first=True), "pk")
    page = Paginator(ordered, PAGE).get_page(request.GET.get("page"))
    states = Job.State if _is_office(request) else CREW_SEES
    return render(request, "works/jobs.html", {"page": page, "states": states, "wanted": wanted})


@permission_required("jobs.view_job", raise_exception=True)
@require_safe
def job(request: HttpRequest, number: str) -> HttpResponse:
    return _job_page(request, _job(request, number))


@permission_required("jobs.book_job", raise_exception=True)
@require_http_methods(["GET", "HEAD", "POST"])
def job_book(request: HttpRequest, number: str) -> HttpResponse:
    found = _job(request, number)
    form = BookForm(sent(request), job=found)
    if form.is_bound and form.is_valid():
        try:
            book_job(found, **form.cleaned_data, by=request.user)
            messages.success(request, "Booked. The crew's job sheet is made.")
            return redirect("job", number=number)
        except JobRefused as refused:
            for reason in refused.reasons:
                form.add_error(None, reason)
        except PdfUnavailable as refused:
            form.add_error(None, str(refused))
    context = {"job": found, "form": form, "held": what_holds_work(found)}
    return render(request, "works/book.html", context, status=status_of(form))


@permission_required("jobs.report_job", raise_exception=True)
@require_POST
def job_start(request: HttpRequest, number: str) -> HttpResponse:
    return _move(request, number, start_job, "Under way.")


@permission_required("jobs.report_job", raise_exception=True)
@require_POST
def job_complete(request: HttpRequest, number: str) -> HttpResponse:
    return _move_with(request, number, CompleteForm, complete_job, "Complete. Thank you.")


@permission_required("jobs.book_job", raise_exception=True)
@require_POST
def job_hand_over(request: HttpRequest, number: str) -> HttpResponse:
    return _move_with(request, number, HandOverForm, hand_over_job, "Handed over.")


@permission_required("jobs.book_job", raise_exception=True)
@require_POST
def job_close(request: HttpRequest, number: str) -> HttpResponse:
    return _move(request, number, close_job, "Closed.")


@permission_required("jobs.view_job", raise_exception=True)
@require_safe
def job_sheet(request: HttpRequest, number: str) -> HttpResponse:
    context = job_sheet_context(_job(request, number), wide=SCREEN, narrow=SCREEN)
    return render(request, "works/sheet.html", context)


@permission_required("jobs.view_job", raise_exception=True)
@require_safe
def job_sheet_paper(request: HttpRequest, number: str) -> HttpResponse:
    """Show the sheet as the crew was given it; before the booking, what it would say now."""
    found = _job(request, number)
    try:
        pdf = read_paper(found.sheet_sha256) if found.sheet_sha256 else job_sheet_pdf(found)
    except PdfUnavailable as refused:
        messages.error(request, str(refused))
        return redirect("job", number=number)
    return show_pdf(pdf, filename=f"job-sheet-{found.number}.pdf")


def _move(request: HttpRequest, number: str, move: Callable[[Job], None], words: str) -> HttpResponse:
    try:
        move(_job(request, number))
        messages.success(request, words)
    except JobRefused as refused:
        for reason in refused.reasons:
            messages.error(request, reason)
    return redirect("job", number=number)


def _move_with(
    request: HttpRequest, number: str, form_class: type[Form], move: Callable[..., None], words: str
) -> HttpResponse:
    """Move a job on with what a form on its page says; what cannot be read comes back with the page."""
    form = form_class(request.POST)
    if not form.is_valid():
        return _job_page(request, _job(request, number), form)
    return _move(request, number, lambda found: move(found, **form.cleaned_data), words)


def _job_page(request: HttpRequest, found: Job, form: Form | None = None) -> HttpResponse:
    orders = list(found.orders.all()) if request.user.has_perm("jobs.view_materialsorder") else []
    unsent = any(order.is_draft for order in orders)
    context: dict[str, Any] = {
        "job": found,
        "revision": found.revision,
        "decision": found.revision.decision,
        "orders": orders,
        "own_risk_until": own_risk_until(found.revision.decision) if unsent else "",
        "may_order": (unsent or not orders)
        and found.state in OPEN_TO_ORDERS
        and request.user.has_perm("jobs.add_materialsorder"),
        "clearances": [
            finding.clearance
            for finding in found.revision.quote.survey.findings.select_related("clearance")
            if hasattr(finding, "clearance")
        ],
        "held": what_holds_work(found),
        "firm": Firm.ours(),
        "form": form or _next_form(request, found),
        **(rights_shown(found.revision) if request.user.has_perm("jobs.view_quote") else {}),
        **(_store(found) if request.user.has_perm("jobs.view_storedboard") else {}),
    }
    return render(request, "works/job.html", context, status=status_of(form) if form else 200)


def _store(found: Job) -> dict[str, Any]:
    """Return what the job takes from the store, and the offcuts it leaves that nobody put there yet."""
    counted_on = what_job_counts_on(found)
    leaves = found.state in LEAVES_OFFCUTS and not found.boards_left.exists()
    return {
        "counted_on": counted_on,
        "boards_missing": any(each.missing for each in counted_on),
        "offcuts": offcuts_of(found) if leaves else (),
    }


def _next_form(request: HttpRequest, found: Job) -> Form | None:
    """Return the form of the next step, if this person may take it."""
    if may_become(found, Job.State.COMPLETE) and request.user.has_perm("jobs.report_job"):
        return CompleteForm()
    if may_become(found, Job.State.HANDED_OVER) and request.user.has_perm("jobs.book_job"):
        return HandOverForm()
    return None


def _is_office(request: HttpRequest) -> bool:
    """Tell whether this person sees jobs before they are booked and after they are closed."""
    return request.user.has_perm("jobs.view_quote")


def _visible(request: HttpRequest) -> Any:
    found = Job.objects.select_related(
        "revision__quote__property__customer", "revision__quote__survey", "revision__decision", "booked_by"
    )
    return found if _is_office(request) else found.filter(state__in=CREW_SEES)


def _job(request: HttpRequest, number: str) -> Job:
    return get_object_or_404(_visible(request), number=number)
