"""What the firm says of heat: the U-values it aims at, by nation and day, and what fuels cost."""

from __future__ import annotations

from decimal import Decimal

from django.core.validators import MaxValueValidator, MinValueValidator
from django.db import models

from estimating.nations import Nation
from estimating.published.sap_fuels import FUELS


class NationTarget(models.Model):
    """The U-value that a ceiling is brought to in one nation, from one day on."""

    nation = models.CharField(max_length=20, choices=[(nation.value, nation.value) for nation in Nation])
    u_w_m2k = models.DecimalField(
        "target U-value, W/m²K",
        max_digits=4,
        decimal_places=2,
        validators=(MinValueValidator(Decimal("0.05")), MaxValueValidator(Decimal(1))),
    )
    from_day = models.DateField("from")
    source = models.CharField("where it is written", max_length=200)
    confirmed = models.BooleanField("confirmed: somebody of ours read it there", default=False)

    class Meta:
        ordering = ("nation", "-from_day")
        constraints = (
            models.UniqueConstraint(fields=("nation", "from_day"), name="one_target_for_a_nation_and_day"),
        )

    def __str__(self) -> str:
        return f"{self.nation}: {self.source}{'' if self.confirmed else ', to be confirmed'}"


class FuelPrice(models.Model):
    """What the firm reckons a kilowatt-hour of one fuel costs a household."""

    fuel = models.CharField(max_length=40, unique=True, choices=[(fuel, fuel) for fuel in FUELS])
    pence_kwh = models.DecimalField("pence per kWh", max_digits=6, decimal_places=2)
    set_on = models.DateField(auto_now=True)

    class Meta:
        ordering = ("fuel",)

    def __str__(self) -> str:
        return f"{self.fuel}: {self.pence_kwh} pence per kWh"
