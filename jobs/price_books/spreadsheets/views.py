from __future__ import annotations

from django.contrib import messages
from django.contrib.auth.decorators import permission_required
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils import timezone
from django.utils.text import slugify
from django.views.decorators.http import require_POST, require_safe

from jobs.forms import status_of
from jobs.price_books.import_models import PriceImport
from jobs.price_books.models import Edition
from jobs.price_books.row_values import value_label
from jobs.price_books.services import EditionClosed
from jobs.price_books.spreadsheets.bounds import CannotRead
from jobs.price_books.spreadsheets.columns import header_of, product_columns, remembered_columns
from jobs.price_books.spreadsheets.export import products_csv, products_xlsx
from jobs.price_books.spreadsheets.forms import ColumnsForm, SendFileForm
from jobs.price_books.spreadsheets.importing import (
    PlanChanged,
    keep_import,
    plan_of,
    remember_columns,
    take_import,
)
from jobs.price_books.spreadsheets.rows import emptied_by_an_empty_cell
from jobs.price_books.views import open_edition

XLSX = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet"
FAULTS_SHOWN = 1000
"""Whoever has more mends these first; a page of a hundred thousand helps nobody."""


@permission_required("jobs.view_edition", raise_exception=True)
@require_safe
def edition_export(request: HttpRequest, pk: int) -> HttpResponse:
    edition = get_object_or_404(Edition, pk=pk)
    return _as_file(edition, products_csv(edition), ending="csv", kind="text/csv; charset=utf-8")


@permission_required("jobs.view_edition", raise_exception=True)
@require_safe
def edition_workbook(request: HttpRequest, pk: int) -> HttpResponse:
    edition = get_object_or_404(Edition, pk=pk)
    return _as_file(edition, products_xlsx(edition), ending="xlsx", kind=XLSX)


def _as_file(edition: Edition, content: bytes, *, ending: str, kind: str) -> HttpResponse:
    answer = HttpResponse(content, content_type=kind)
    name = slugify(edition.name) or edition.pk
    answer["Content-Disposition"] = f'attachment; filename="price-book-{name}.{ending}"'
    return answer


@permission_required("jobs.change_editionproduct", raise_exception=True)
def import_new(request: HttpRequest, pk: int) -> HttpResponse:
    """Take a file in for a preview; nothing of the edition is changed by it."""
    edition = open_edition(request, pk)
    if edition is None:
        return redirect("price_book", pk=pk)
    form = SendFileForm(request.POST, request.FILES) if request.method == "POST" else SendFileForm()
    if form.is_bound and form.is_valid():
        file = form.cleaned_data["file"]
        try:
            kept = keep_import(edition, name=file.name, content=file.read(), by=request.user)
        except CannotRead as refused:
            form.add_error("file", str(refused))
        else:
            return redirect("import_preview", pk=pk, import_pk=kept.pk)
    columns = [(header_of(name), value_label(name)) for name in product_columns()]
    emptied = [header_of(name) for name in emptied_by_an_empty_cell()]
    context = {"edition": edition, "form": form, "columns": columns, "emptied": emptied}
    return render(request, "price_books/import_new.html", context, status=status_of(form))


@permission_required("jobs.change_editionproduct", raise_exception=True)
@require_safe
def import_preview(request: HttpRequest, pk: int, import_pk: int) -> HttpResponse:
    kept = _kept(request, pk, import_pk)
    if kept is None or open_edition(request, pk) is None:
        return redirect("price_book", pk=pk)
    plan = plan_of(kept)
    form = ColumnsForm(columns=plan.columns, remembered=remembered_columns())
    context = {
        "kept": kept,
        "edition": kept.edition,
        "plan": plan,
        "columns_form": form if form.fields else None,
        "faults": [(fault, header_of(fault.column)) for fault in plan.faults[:FAULTS_SHOWN]],
        "faults_left": max(0, len(plan.faults) - FAULTS_SHOWN),
    }
    return render(request, "price_books/import_preview.html", context)


@permission_required("jobs.change_editionproduct", raise_exception=True)
@require_POST
def import_columns(request: HttpRequest, pk: int, import_pk: int) -> HttpResponse:
    """Remember what the firm calls its columns, and look again."""
    kept = _kept(request, pk, import_pk)
    if kept is None:
        return redirect("price_book", pk=pk)
    form = ColumnsForm(request.POST, columns=plan_of(kept).columns, remembered=remembered_columns())
    if form.is_valid():
        remember_columns(form.meanings)
    else:
        messages.error(request, "The columns were changed meanwhile: say again what they are.")
    return redirect("import_preview", pk=pk, import_pk=import_pk)


@permission_required("jobs.change_editionproduct", raise_exception=True)
@require_POST
def import_take(request: HttpRequest, pk: int, import_pk: int) -> HttpResponse:
    kept = _kept(request, pk, import_pk)
    if kept is None:
        return redirect("price_book", pk=pk)
    try:
        plan = take_import(kept, shown=request.POST.get("shown", ""))
    except PlanChanged as refused:
        messages.error(request, f"Nothing was taken. {refused}")
        return redirect("import_preview", pk=pk, import_pk=import_pk)
    except EditionClosed as refused:
        messages.error(request, f"Nothing was taken. {refused}")
        return redirect("price_book", pk=pk)
    messages.success(request, f"{kept.name} is taken: {len(plan.added)} added, {len(plan.changed)} changed.")
    return redirect("price_book", pk=pk)


def _kept(request: HttpRequest, pk: int, import_pk: int) -> PriceImport | None:
    """Find a kept file, or say that it is kept no longer: only whoever sent it may go on with it."""
    get_object_or_404(Edition, pk=pk)
    found = PriceImport.objects.select_related("edition").filter(pk=import_pk).first()
    if found is not None and (found.by_id != request.user.pk or found.edition_id != pk):
        raise Http404("No such file.")
    if found is None or found.ends_at <= timezone.now():
        messages.error(
            request,
            "That file is no longer kept: it was taken already, or its day has passed. If it is still to be "
            "taken, send it again.",
        )
        return None
    return found
