"""The firm's particulars, its running numbers and its log-in attempts."""

from __future__ import annotations

from decimal import Decimal

from django.db import models

from estimating.nations import Nation
from estimating.published.surface_resistances import RoofSpace
from jobs.firm.kinds import FirmKind, RegisteredIn
from jobs.firm.length_units import LengthUnit
from jobs.firm.rights_words import COMPLAINTS, GOODS_BACK, GUARANTEES, HOW_TO_CANCEL, REDRESS

TERMS = """The price holds for what is described here. Anything found once work has begun that changes it \
is agreed in writing, with its price, before it is done.
Please empty the loft before we come, and keep a parking place for one van.
The deck is for light storage only. It is not a floor for a room."""
CLOSING_WORDS = "Thank you for asking us. If anything here is not clear, ring us: no question is too small."


class Firm(models.Model):
    """The one firm whose book this is; there is exactly one row."""

    name = models.CharField(max_length=120)
    address = models.TextField()
    phone = models.CharField(max_length=32)
    email = models.EmailField("e-mail")
    kind = models.CharField("kind of firm", max_length=30, choices=FirmKind, blank=True)
    registered_name = models.CharField(max_length=160, blank=True)
    company_number = models.CharField(max_length=20, blank=True)
    registered_in = models.CharField(max_length=20, choices=RegisteredIn, blank=True)
    registered_office = models.TextField(blank=True)
    owners = models.TextField("names of the owner or partners", blank=True)
    service_address = models.TextField("address for service of documents", blank=True)
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
    closing_words = models.TextField("closing words of a quote", blank=True, default=CLOSING_WORDS)
    logo_sha256 = models.CharField(max_length=64, blank=True)
    logo_width = models.PositiveSmallIntegerField(default=0)
    logo_height = models.PositiveSmallIntegerField(default=0)
    accent_colour = models.CharField("colour of headings and lines", max_length=7, blank=True)
    bank_account_name = models.CharField("name of the account", max_length=120, blank=True)
    bank_sort_code = models.CharField("sort code", max_length=8, blank=True)
    bank_account_number = models.CharField("account number", max_length=8, blank=True)
    right_to_cancel_anyway = models.BooleanField(
        "give home customers the right to cancel also where the law does not", default=True
    )
    how_to_cancel = models.TextField("how a customer cancels", default=HOW_TO_CANCEL)
    goods_back = models.TextField("goods, when a customer cancels", default=GOODS_BACK)
    complaints = models.TextField("how complaints are handled", default=COMPLAINTS)
    guarantees = models.TextField("after the work, and guarantees", default=GUARANTEES)
    redress = models.TextField("codes of conduct, and who settles disputes", default=REDRESS)

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
