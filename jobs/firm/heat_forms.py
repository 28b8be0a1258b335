from __future__ import annotations

from decimal import Decimal
from typing import Any, ClassVar

from django import forms

from estimating.published.sap_fuels import FUELS
from jobs.firm.heat_models import NationTarget
from jobs.forms import SheetForm, SheetModelForm, settle_fields


class NationTargetForm(SheetModelForm):
    class Meta:
        model = NationTarget
        fields = ("nation", "u_w_m2k", "from_day", "source", "confirmed")
        help_texts: ClassVar = {
            "from_day": "The first day on which it holds. Quotes take the one that holds on their tax point.",
            "source": "Document, edition and table. It is printed beside the target.",
        }


class FuelPricesForm(SheetForm):
    """One box for each fuel. An empty one means that savings are shown without pounds."""

    def __init__(self, data: Any = None, *, prices: dict[str, Decimal]) -> None:
        super().__init__(data)
        for number, fuel in enumerate(FUELS):
            self.fields[f"fuel_{number}"] = forms.DecimalField(
                label=f"{fuel[:1].upper()}{fuel[1:]}, pence per kWh",
                required=False,
                min_value=0,
                max_value=999,
                max_digits=5,
                decimal_places=2,
                initial=prices.get(fuel),
            )
        settle_fields(self)

    def asked(self) -> dict[str, Decimal | None]:
        """Return the price of each fuel as typed."""
        return {fuel: self.cleaned_data[f"fuel_{number}"] for number, fuel in enumerate(FUELS)}
