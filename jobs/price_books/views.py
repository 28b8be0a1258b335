from __future__ import annotations

from typing import Any

from django.contrib import messages
from django.contrib.auth.decorators import permission_required
from django.db import IntegrityError
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils import timezone
from django.views.decorators.http import require_POST, require_safe

from estimating.price_book import Role
from estimating.refusals import Refusal
from jobs.forms import sent, status_of
from jobs.price_books.as_price_book import requirement_in_words
from jobs.price_books.checked import old_prices
from jobs.price_books.closing import lacks_of, notes_of
from jobs.price_books.dimensions import dimensions_in_words
from jobs.price_books.forms import ROW_FORMS, CopyForm, EditionForm, ProductForm
from jobs.price_books.models import Edition, EditionProduct
from jobs.price_books.services import EditionClosed, close_edition, copy_edition, keep_row, take_out_row


@permission_required("jobs.view_edition", raise_exception=True)
@require_safe
def price_books(request: HttpRequest) -> HttpResponse:
    editions = Edition.objects.select_related("closed_by")
    return render(request, "price_books/price_books.html", {"editions": editions})


@permission_required("jobs.view_edition", raise_exception=True)
@require_safe
def price_book(request: HttpRequest, pk: int) -> HttpResponse:
    return _book(request, get_object_or_404(Edition, pk=pk), CopyForm())


def _book(request: HttpRequest, edition: Edition, copy_form: CopyForm) -> HttpResponse:
    """Show an edition, with the form that makes the next one of it."""
    rows = list(edition.products.all())
    for row in rows:
        row.dimensions_in_words = dimensions_in_words(row.dimensions)
    by_role = [(role, [row for row in rows if row.role == role]) for role in Role]
    context = {
        "edition": edition,
        "products": [(role, found) for role, found in by_role if found],
        "roles": list(Role),
        "old": old_prices(edition, today=timezone.localdate()),
        "may_change": edition.is_open and request.user.has_perm("jobs.change_edition"),
        "others": Edition.objects.exclude(pk=edition.pk),
        "copy_form": copy_form,
    }
    return render(request, "price_books/price_book.html", context, status=status_of(copy_form))


@permission_required("jobs.add_edition", raise_exception=True)
def edition_new(request: HttpRequest) -> HttpResponse:
    """Begin an empty edition: a firm's first has nothing to be copied from."""
    form = EditionForm(sent(request))
    if form.is_bound and form.is_valid():
        return redirect("price_book", pk=form.save().pk)
    context = {"form": form, "title": "New edition"}
    return render(request, "price_books/row.html", context, status=status_of(form))


@permission_required("jobs.change_edition", raise_exception=True)
def edition_pricing(request: HttpRequest, pk: int) -> HttpResponse:
    edition = open_edition(request, pk)
    if edition is None:
        return redirect("price_book", pk=pk)
    form = EditionForm(sent(request), instance=edition)
    return _keep(request, form, edition, title="How this edition prices")


@permission_required("jobs.change_editionproduct", raise_exception=True)
def product(request: HttpRequest, pk: int, product_pk: int | None = None) -> HttpResponse:
    """Add or change a product; a new one says its role first, because its boxes depend on it."""
    edition = open_edition(request, pk)
    if edition is None:
        return redirect("price_book", pk=pk)
    row = (
        get_object_or_404(edition.products, pk=product_pk) if product_pk else EditionProduct(edition=edition)
    )
    wanted = row.role or request.GET.get("role", "")
    if wanted not in list(Role):
        raise Http404("No such role.")
    initial = _wanted(request, row)
    form = ProductForm(sent(request), instance=row, edition=edition, role=Role(wanted), initial=initial)
    form.hint_at_vat_class()
    title = row.description if product_pk else f"New {wanted}"
    return _keep(request, form, edition, title=title, kind="product")


@permission_required("jobs.change_edition", raise_exception=True)
def edition_row(request: HttpRequest, pk: int, kind: str, row_pk: int | None = None) -> HttpResponse:
    """Add or change a labour rate, a condition or a charge."""
    edition = open_edition(request, pk)
    if edition is None:
        return redirect("price_book", pk=pk)
    if kind not in ROW_FORMS:
        raise Http404("No such row.")
    model = ROW_FORMS[kind]._meta.model
    row = get_object_or_404(model, pk=row_pk, edition=edition) if row_pk else model(edition=edition)
    form = ROW_FORMS[kind](sent(request), instance=row, initial=_wanted(request, row))
    return _keep(request, form, edition, title=str(row) if row_pk else f"New {kind}", kind=kind)


@permission_required("jobs.change_edition", raise_exception=True)
@require_POST
def row_remove(request: HttpRequest, pk: int, kind: str, row_pk: int) -> HttpResponse:
    edition = open_edition(request, pk)
    if edition is not None:
        models = {"product": EditionProduct, **{name: form._meta.model for name, form in ROW_FORMS.items()}}
        if kind not in models:
            raise Http404("No such row.")
        row = get_object_or_404(models[kind], pk=row_pk, edition=edition)
        try:
            take_out_row(edition, row)
            messages.success(request, f"{row} is taken out of {edition}.")
        except EditionClosed as refused:
            messages.error(request, str(refused))
    return redirect("price_book", pk=pk)


@permission_required("jobs.add_edition", raise_exception=True)
@require_POST
def edition_copy(request: HttpRequest, pk: int) -> HttpResponse:
    edition = get_object_or_404(Edition, pk=pk)
    form = CopyForm(request.POST)
    if form.is_valid():
        try:
            following = copy_edition(edition, **form.cleaned_data)
        except Refusal as refused:
            for each in refused.each:
                form.add_error(None, f"Not copied. {requirement_in_words(edition, each)}.")
        else:
            messages.success(request, f"{following} is open. Change it, then close it to use it.")
            # Named, because a browser carries the form's own place over to an address that names none.
            return redirect(reverse("price_book", args=[following.pk]) + "#content")
    return _book(request, edition, form)


@permission_required("jobs.change_edition", raise_exception=True)
@require_safe
def edition_closing(request: HttpRequest, pk: int) -> HttpResponse:
    """Show everything that an edition lacks, each with a link to mend it, and close it once nothing is."""
    edition = open_edition(request, pk)
    if edition is None:
        return redirect("price_book", pk=pk)
    context = {
        "edition": edition,
        "lacks": lacks_of(edition),
        "notes": list(notes_of(edition)),
        "old": old_prices(edition, today=timezone.localdate()),
    }
    return render(request, "price_books/closing.html", context)


@permission_required("jobs.change_edition", raise_exception=True)
@require_POST
def edition_close(request: HttpRequest, pk: int) -> HttpResponse:
    edition = get_object_or_404(Edition, pk=pk)
    try:
        close_edition(edition, by=request.user)
        messages.success(request, f"{edition} is closed. Quotes made from its date on use it.")
    except Refusal:
        messages.error(request, f"{edition} is not closed: it lacks what is listed here.")
        return redirect("edition_closing", pk=pk)
    except EditionClosed as refused:
        messages.error(request, str(refused))
    return redirect("price_book", pk=pk)


def _wanted(request: HttpRequest, row: Any) -> dict[str, str]:
    """What a new row is begun with: the closing page's links name what is missing."""
    return {} if row.pk else request.GET.dict()


def open_edition(request: HttpRequest, pk: int) -> Edition | None:
    """Find an edition that may be changed, or say why it may not be."""
    edition = get_object_or_404(Edition, pk=pk)
    if edition.is_open:
        return edition
    messages.error(request, f"{edition} is closed and stays as it is. Copy it to make the next edition.")
    return None


def _keep(request: HttpRequest, form: Any, edition: Edition, *, title: str, kind: str = "") -> HttpResponse:
    """Keep a sent form in the open edition, or show it again; a row, which has a kind, may be taken out."""
    if form.is_bound and form.is_valid():
        try:
            keep_row(edition, form.instance)
            messages.success(request, "Saved.")
            return redirect("price_book", pk=edition.pk)
        except IntegrityError:
            form.add_error(None, "This edition has such a row already: change that one.")
        except EditionClosed as refused:
            form.add_error(None, str(refused))
    context = {"form": form, "edition": edition, "title": title, "kind": kind}
    template = "product.html" if kind == "product" else "row.html"
    return render(request, f"price_books/{template}", context, status=status_of(form))
