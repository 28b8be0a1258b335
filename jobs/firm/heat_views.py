"""The owner's screen over targets and fuel prices."""

from __future__ import annotations

from django.contrib import messages
from django.contrib.auth.decorators import permission_required
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render

from jobs.firm.heat import fuel_prices, set_fuel_prices
from jobs.firm.heat_forms import FuelPricesForm, NationTargetForm
from jobs.firm.heat_models import FuelPrice, NationTarget
from jobs.forms import sent, status_of


@permission_required(("jobs.change_nationtarget", "jobs.change_fuelprice"), raise_exception=True)
def heat(request: HttpRequest) -> HttpResponse:
    """Show the targets, and set what fuels cost."""
    form = FuelPricesForm(sent(request), prices=fuel_prices())
    if form.is_bound and form.is_valid():
        set_fuel_prices(form.asked())
        messages.success(request, "The fuel prices are saved.")
        return redirect("heat")
    context = {
        "form": form,
        "targets": NationTarget.objects.all(),
        "newest": FuelPrice.objects.order_by("set_on").last(),
    }
    return render(request, "firm/heat.html", context, status=status_of(form))


@permission_required("jobs.change_nationtarget", raise_exception=True)
def target(request: HttpRequest, pk: int | None = None) -> HttpResponse:
    """Add a target for a nation, or change one. Issued quotes keep what they said."""
    row = get_object_or_404(NationTarget, pk=pk) if pk else None
    form = NationTargetForm(sent(request), instance=row)
    if form.is_bound and form.is_valid():
        saved = form.save()
        messages.success(request, f"The target for {saved.nation} is saved.")
        return redirect("heat")
    return render(request, "firm/target.html", {"form": form, "target": row}, status=status_of(form))
