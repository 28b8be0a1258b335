"""The office's pages over customers, their properties and what they asked for."""

from __future__ import annotations

from datetime import datetime
from typing import Any

from django.contrib import messages
from django.contrib.auth.decorators import permission_required
from django.core.paginator import Paginator
from django.db.models import Prefetch, QuerySet
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils import timezone
from django.views.decorators.http import require_POST, require_safe

from jobs.customers.finding import find_customers
from jobs.customers.forms import CloseForm, CustomerForm, PropertyForm, VisitForm, WishForm
from jobs.customers.models import Customer, Enquiry, Property
from jobs.customers.services import (
    EnquiryClosed,
    book_visit,
    change_customer,
    change_property,
    close_enquiry,
    reopen_enquiry,
    take_enquiry,
    withdraw_news,
)
from jobs.forms import sent, status_of
from jobs.surveys.versions.visits import visits

PAGE = 30
FEW = 8


@permission_required("jobs.view_enquiry", raise_exception=True)
@require_safe
def enquiries(request: HttpRequest) -> HttpResponse:
    wanted = request.GET.get("state", "")
    rows = Enquiry.objects.select_related("property__customer", "surveyor")
    open_ones = rows.exclude(state=Enquiry.State.CLOSED)
    rows = rows.filter(state=wanted) if wanted in Enquiry.State.values else open_ones
    page = Paginator(rows, PAGE).get_page(request.GET.get("page"))
    context = {"page": page, "states": Enquiry.State, "wanted": wanted}
    return render(request, "customers/enquiries.html", context)


@permission_required("jobs.add_enquiry", raise_exception=True)
def enquiry_new(request: HttpRequest) -> HttpResponse:
    """Take an enquiry: of a new customer, of a known one, or about a known property."""
    known, building = _known(request)
    asked = sent(request)
    customer_form = CustomerForm(asked, prefix="customer", instance=known) if known is None else None
    property_form = PropertyForm(asked, prefix="property") if building is None else None
    wish_form = WishForm(asked, prefix="wish")
    forms = [form for form in (customer_form, property_form, wish_form) if form]
    if asked is not None and all(form.is_valid() for form in forms):
        enquiry = take_enquiry(
            wish_form.save(commit=False),
            building=building or property_form.save(commit=False),
            customer=known or customer_form.save(commit=False),
            by=request.user,
        )
        messages.success(request, f"The enquiry for {enquiry.property} is kept.")
        return redirect("enquiry", pk=enquiry.pk)
    context = {
        "forms": forms,
        "customer_form": customer_form,
        "property_form": property_form,
        "wish_form": wish_form,
        "known": known,
        "building": building,
        "words": request.GET.get("q", ""),
        "matches": find_customers(request.GET.get("q", ""))[:FEW],
    }
    template = "customers/_matches.html" if request.htmx and asked is None else "customers/enquiry_new.html"
    return render(request, template, context, status=max(status_of(form) for form in forms))


def _known(request: HttpRequest) -> tuple[Customer | None, Property | None]:
    """Return the customer and the property that the address names, if it names any."""
    named = {name: request.GET.get(name, "") for name in ("customer", "property")}
    if named["property"].isdecimal():
        building = get_object_or_404(Property.objects.select_related("customer"), pk=named["property"])
        return building.customer, building
    if named["customer"].isdecimal():
        return get_object_or_404(Customer, pk=named["customer"]), None
    return None, None


@permission_required("jobs.view_enquiry", raise_exception=True)
@require_safe
def enquiry(request: HttpRequest, pk: int) -> HttpResponse:
    return _enquiry_page(request, _enquiry(pk))


def _enquiry_page(request: HttpRequest, row: Enquiry, **forms: Any) -> HttpResponse:
    start = timezone.localtime(row.visit_at) if row.visit_at else None
    initial = {"day": start.date(), "time": start.time(), "surveyor": row.surveyor} if start else {}
    context = {
        "enquiry": row,
        "surveys": row.surveys.all(),
        "visits": visits().filter(property=row.property),
        "visit_form": VisitForm(initial=initial, prefix="visit"),
        "close_form": CloseForm(prefix="close"),
    } | forms
    status = max((status_of(form) for form in forms.values()), default=200)
    return render(request, "customers/enquiry.html", context, status=status)


@permission_required("jobs.change_enquiry", raise_exception=True)
@require_POST
def enquiry_visit(request: HttpRequest, pk: int) -> HttpResponse:
    row = _enquiry(pk)
    form = VisitForm(request.POST, prefix="visit")
    if not form.is_valid():
        return _enquiry_page(request, row, visit_form=form)
    at = timezone.make_aware(datetime.combine(form.cleaned_data["day"], form.cleaned_data["time"]))
    try:
        book_visit(row, at=at, surveyor=form.cleaned_data["surveyor"])
    except EnquiryClosed as closed:
        messages.error(request, str(closed))
    else:
        messages.success(request, "The visit is booked.")
    return redirect("enquiry", pk=pk)


@permission_required("jobs.change_enquiry", raise_exception=True)
@require_POST
def enquiry_close(request: HttpRequest, pk: int) -> HttpResponse:
    row = _enquiry(pk)
    form = CloseForm(request.POST, prefix="close")
    if not form.is_valid():
        return _enquiry_page(request, row, close_form=form)
    try:
        close_enquiry(row, because=form.cleaned_data["because"])
    except EnquiryClosed as closed:
        messages.error(request, str(closed))
    return redirect("enquiry", pk=pk)


@permission_required("jobs.change_enquiry", raise_exception=True)
@require_POST
def enquiry_reopen(request: HttpRequest, pk: int) -> HttpResponse:
    reopen_enquiry(_enquiry(pk))
    return redirect("enquiry", pk=pk)


@permission_required("jobs.view_customer", raise_exception=True)
@require_safe
def customers(request: HttpRequest) -> HttpResponse:
    words = request.GET.get("q", "")
    rows: QuerySet[Customer] = find_customers(words) if words else Customer.objects.all()
    page = Paginator(rows.prefetch_related("properties"), PAGE).get_page(request.GET.get("page"))
    return render(request, "customers/customers.html", {"page": page, "words": words})


@permission_required("jobs.view_customer", raise_exception=True)
@require_safe
def customer(request: HttpRequest, pk: int) -> HttpResponse:
    row = get_object_or_404(Customer, pk=pk)
    buildings = row.properties.prefetch_related(
        "enquiries__surveyor", Prefetch("surveys", visits()), "quotes__revisions"
    )
    return render(request, "customers/customer.html", {"customer": row, "properties": buildings})


@permission_required("jobs.change_customer", raise_exception=True)
def customer_change(request: HttpRequest, pk: int) -> HttpResponse:
    row = get_object_or_404(Customer, pk=pk)
    form = CustomerForm(sent(request), instance=row)
    if form.is_bound and form.is_valid():
        change_customer(form.save(commit=False))
        return redirect("customer", pk=pk)
    context = {"form": form, "title": row.name, "back": row}
    return render(request, "customers/change.html", context, status=status_of(form))


@permission_required("jobs.change_customer", raise_exception=True)
@require_POST
def customer_news_end(request: HttpRequest, pk: int) -> HttpResponse:
    """Keep that a customer wants no news any longer, as they told the office."""
    withdraw_news(get_object_or_404(Customer, pk=pk))
    messages.success(request, "They are sent no news any longer.")
    return redirect("customer", pk=pk)


@permission_required("jobs.change_property", raise_exception=True)
def property_change(
    request: HttpRequest, pk: int | None = None, customer_pk: int | None = None
) -> HttpResponse:
    """Change a property, or add one to a customer."""
    if pk is None:
        building = Property(customer=get_object_or_404(Customer, pk=customer_pk))
    else:
        building = get_object_or_404(Property.objects.select_related("customer"), pk=pk)
    form = PropertyForm(sent(request), instance=building)
    if form.is_bound and form.is_valid():
        change_property(form.save(commit=False))
        return redirect("customer", pk=building.customer_id)
    title = str(building) if pk else f"New property of {building.customer}"
    context = {"form": form, "title": title, "back": building.customer}
    return render(request, "customers/change.html", context, status=status_of(form))


def _enquiry(pk: int) -> Enquiry:
    return get_object_or_404(Enquiry.objects.select_related("property__customer", "surveyor"), pk=pk)
