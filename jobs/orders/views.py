"""The office's screens over materials orders."""

from __future__ import annotations

from django.contrib import messages
from django.contrib.auth.decorators import permission_required
from django.core.paginator import Paginator
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from jobs.documents.materials_order import materials_order_pdf
from jobs.documents.papers import read_paper
from jobs.documents.render import PdfUnavailable
from jobs.documents.showing import show_pdf
from jobs.firm.models import Firm
from jobs.forms import sent, status_of
from jobs.orders import spreadsheet
from jobs.orders.forms import OrderForm
from jobs.orders.models import MaterialsOrder
from jobs.orders.own_risk import own_risk_until
from jobs.orders.services import OrderRefused, change_order, make_orders, receive_order, send_order
from jobs.works.models import Job

PAGE = 30


@permission_required("jobs.view_materialsorder", raise_exception=True)
@require_safe
def orders(request: HttpRequest) -> HttpResponse:
    wanted = request.GET.get("state", "")
    found = MaterialsOrder.objects.select_related("job__revision__quote__property").prefetch_related("lines")
    # A frozen quote is some hundred kilobytes, and the list shows none of it.
    found = found.defer(*(f"job__revision__{name}" for name in ("issued", "choices", "alternatives")))
    if wanted in MaterialsOrder.State.values:
        found = found.filter(state=wanted)
    page = Paginator(found, PAGE).get_page(request.GET.get("page"))
    context = {"page": page, "states": MaterialsOrder.State, "wanted": wanted}
    return render(request, "orders/orders.html", context)


@permission_required("jobs.view_materialsorder", raise_exception=True)
@require_http_methods(["GET", "HEAD", "POST"])
def order(request: HttpRequest, number: str) -> HttpResponse:
    """Show an order; while it is a draft, take when it is wanted and a note."""
    found = _order(number)
    if request.method == "POST" and not request.user.has_perm("jobs.change_materialsorder"):
        return HttpResponse("Only the office changes an order.", status=403)
    form = OrderForm(sent(request), instance=found)
    if form.is_bound and form.is_valid():
        try:
            change_order(found, **form.cleaned_data)
            messages.success(request, "Kept.")
        except OrderRefused as refused:
            messages.error(request, str(refused))
        return redirect("order", number=number)
    context = {"order": found, "lines": found.lines.all(), "form": form, "firm": Firm.ours()}
    context["own_risk_until"] = own_risk_until(found.job.revision.decision) if found.is_draft else ""
    return render(request, "orders/order.html", context, status=status_of(form))


@permission_required("jobs.add_materialsorder", raise_exception=True)
@require_POST
def orders_make(request: HttpRequest, job_number: str) -> HttpResponse:
    try:
        made = make_orders(get_object_or_404(Job, number=job_number), by=request.user)
        drafts = sum(each.is_draft for each in made)
        messages.success(request, f"{drafts} order{'s' if drafts != 1 else ''} to look over and send.")
    except OrderRefused as refused:
        messages.error(request, str(refused))
    return redirect("job", number=job_number)


@permission_required("jobs.change_materialsorder", raise_exception=True)
@require_POST
def order_send(request: HttpRequest, number: str) -> HttpResponse:
    try:
        send_order(_order(number), by=request.user)
        messages.success(request, "Marked as sent. Its paper is kept: send that to the supplier.")
    except (OrderRefused, PdfUnavailable) as refused:
        messages.error(request, str(refused))
    return redirect("order", number=number)


@permission_required("jobs.change_materialsorder", raise_exception=True)
@require_POST
def order_receive(request: HttpRequest, number: str) -> HttpResponse:
    try:
        receive_order(_order(number))
        messages.success(request, "Marked as received.")
    except OrderRefused as refused:
        messages.error(request, str(refused))
    return redirect("order", number=number)


@permission_required("jobs.view_materialsorder", raise_exception=True)
@require_safe
def order_paper(request: HttpRequest, number: str) -> HttpResponse:
    """Show the paper as it was sent; of a draft, what it would say now."""
    found = _order(number)
    try:
        pdf = read_paper(found.paper_sha256) if found.paper_sha256 else materials_order_pdf(found)
    except PdfUnavailable as refused:
        messages.error(request, str(refused))
        return redirect("order", number=number)
    return show_pdf(pdf, filename=f"{found.number}.pdf")


@permission_required("jobs.view_materialsorder", raise_exception=True)
@require_safe
def order_csv(request: HttpRequest, number: str) -> HttpResponse:
    found = _order(number)
    # With its mark in front, spreadsheets read the file as UTF-8 and keep ŵ and ŷ.
    text = spreadsheet.order_csv(found).encode("utf-8-sig")
    headers = {
        "Content-Disposition": f'attachment; filename="{found.number}.csv"',
        "Cache-Control": "private, no-store",
    }
    return HttpResponse(text, content_type="text/csv; charset=utf-8", headers=headers)


def _order(number: str) -> MaterialsOrder:
    found = MaterialsOrder.objects.select_related(
        "job__revision__quote__property__customer", "job__revision__decision", "sent_by", "made_by"
    ).prefetch_related("lines")
    return get_object_or_404(found, number=number)
