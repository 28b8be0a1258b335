"""The office's screen over the store, and what a job's page does with it."""

from __future__ import annotations

from django.contrib import messages
from django.contrib.auth.decorators import permission_required
from django.core.paginator import Paginator
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.views.decorators.http import require_http_methods, require_POST

from jobs.firm.models import Firm
from jobs.forms import sent, status_of
from jobs.price_books.services import NoEdition, current_edition
from jobs.store.at_hand import rows_at_hand
from jobs.store.forms import StoredBoardForm, TakeOutForm
from jobs.store.models import StoredBoard
from jobs.store.services import StoreRefused, keep_offcuts, take_for_job, take_out
from jobs.works.models import Job

PAGE = 50


@permission_required("jobs.view_storedboard", raise_exception=True)
@require_http_methods(["GET", "HEAD", "POST"])
def store(request: HttpRequest) -> HttpResponse:
    """Show what is at hand, and put more into the store."""
    if request.method == "POST" and not request.user.has_perm("jobs.add_storedboard"):
        return HttpResponse("Only the office changes the store.", status=403)
    try:
        edition = current_edition()
    except NoEdition:
        edition = None
    form = StoredBoardForm(sent(request), edition=edition)
    if form.is_bound and form.is_valid():
        form.instance.added_by = request.user
        form.save()
        messages.success(request, f"In the store: {form.instance}.")
        return redirect("store")
    rows = rows_at_hand().select_related("left_by__revision__quote__property")
    page = Paginator(rows, PAGE).get_page(request.GET.get("page"))
    context = {"page": page, "form": form, "edition": edition, "firm": Firm.ours()}
    return render(request, "store/store.html", context, status=status_of(form))


@permission_required("jobs.change_storedboard", raise_exception=True)
@require_POST
def store_take_out(request: HttpRequest, pk: int) -> HttpResponse:
    row = get_object_or_404(StoredBoard, pk=pk)
    form = TakeOutForm(request.POST)
    if not form.is_valid():
        messages.error(request, " ".join(form.errors["count"]))
        return redirect("store")
    try:
        take_out(row, count=form.cleaned_data["count"])
        messages.success(request, f"Taken out: {form.cleaned_data['count']} of {row.length_mm} mm.")
    except StoreRefused as refused:
        messages.error(request, str(refused))
    return redirect("store")


@permission_required("jobs.change_storedboard", raise_exception=True)
@require_POST
def job_take_boards(request: HttpRequest, number: str) -> HttpResponse:
    taken = take_for_job(get_object_or_404(Job, number=number))
    if taken:
        messages.success(request, f"{taken} taken out of the store for this job.")
    else:
        messages.error(request, "None of what is missing is in the store: buy it, or put it into the store.")
    return redirect("job", number=number)


@permission_required("jobs.add_storedboard", raise_exception=True)
@require_POST
def job_keep_offcuts(request: HttpRequest, number: str) -> HttpResponse:
    try:
        kept = keep_offcuts(get_object_or_404(Job, number=number), by=request.user)
        messages.success(request, f"{kept} offcut{'s' if kept != 1 else ''} put into the store.")
    except StoreRefused as refused:
        messages.error(request, str(refused))
    return redirect("job", number=number)
