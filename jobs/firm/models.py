"""The firm's particulars, its running numbers and its log-in attempts."""

from __future__ import annotations

from decimal import Decimal

from django.db import models

from estimating.nations import Nation
from estimating.published.surface_resistances import RoofSpace
from jobs.firm.length_units import LengthUnit

TERMS = """The price holds for what is described here. Anything found once work has begun that changes it \
is agreed in writing, with its price, before it is done.
Please empty the loft before we come, and keep a parking place for one van.
The deck is for light storage only. It is not a floor for a room."""


class Firm(models.Model):
    """The one firm whose book this is; there is exactly one row."""

    name = models.CharField(max_length=120)
    address = models.TextField()
    phone = models.CharField(max_length=32)
    email = models.EmailField("e-mail")
    company_number = models.CharField(max_length=20, blank=True)
    vat_number = models.CharField("VAT number", max_length=20, blank=True)
    nation = models.CharField(
        max_length=20,
        choices=[(nation.value, nation.value) for nation in Nation],
        default=Nation.ENGLAND.value,
    )
    quote_valid_days = models.PositiveSmallIntegerField("quotes hold for, days", default=30)
    deposit_percent = models.DecimalField(
        "deposit, per cent", max_digits=5, decimal_places=2, default=Decimal(25)
    )
    gap_mm = models.PositiveSmallIntegerField("gap above insulation, mm", default=50)
    least_headroom_mm = models.PositiveSmallIntegerField("least headroom over a deck, mm", default=1000)
    insulation_waste_percent = models.DecimalField(
        "insulation waste, per cent", max_digits=5, decimal_places=2, default=Decimal(5)
    )
    roof_space = models.CharField(
        "roof space in U-values",
        max_length=30,
        choices=[(each.value, f"{each.value[:1].upper()}{each.value[1:]}") for each in RoofSpace],
        default=RoofSpace.COUNTED.value,
    )
    length_unit = models.CharField(
        "unit of a length written without one",
        max_length=3,
        choices=LengthUnit,
        default=LengthUnit.MILLIMETRES,
    )
    prices_checked_days = models.PositiveSmallIntegerField(
        "prices are old after, days",
        default=90,
        help_text="Since they were last checked with the supplier. Today and the edition then say so.",
    )
    terms = models.TextField("terms printed on quotes", default=TERMS)

    class Meta:
        verbose_name_plural = "firm"
        constraints = (models.CheckConstraint(condition=models.Q(pk=1), name="there_is_one_firm"),)

    def __str__(self) -> str:
        return self.name

    @classmethod
    def ours(cls) -> Firm:
        """Return the firm whose book this is."""
        return cls.objects.get(pk=1)


class RunningNumber(models.Model):
    """The last number given in one series and year. Numbers are never used twice."""

    series = models.CharField(max_length=1)
    year = models.PositiveSmallIntegerField()
    last = models.PositiveIntegerField(default=0)

    class Meta:
        constraints = (models.UniqueConstraint(fields=("series", "year"), name="one_count_for_each_series"),)

    def __str__(self) -> str:
        return f"{self.series}-{self.year}-{self.last:04d}"


class LogInAttempt(models.Model):
    """A log-in that failed. The name is kept as a digest: people type passwords into the wrong box."""

    name_digest = models.CharField(max_length=64)
    address = models.GenericIPAddressField(null=True)
    at = models.DateTimeField(auto_now_add=True)

    class Meta:
        indexes = (models.Index(fields=("name_digest", "at")), models.Index(fields=("address", "at")))

    def __str__(self) -> str:
        return f"{self.address} at {self.at:%H:%M}"
