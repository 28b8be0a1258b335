"""Editions of the price book and their rows. An edition is never edited once it is closed."""

from __future__ import annotations

from decimal import ROUND_HALF_UP, Decimal

from django.conf import settings
from django.core.validators import MinValueValidator
from django.db import models

from estimating.price.margin import told_the_other_way
from estimating.price_book import Condition, Role, Task
from estimating.refusals import Refusal
from estimating.ways_to_price import MarginKind, VatClass, VatRounding


def _choices(words: type) -> list[tuple[str, str]]:
    return [(word.value, word.value) for word in words]


class Edition(models.Model):
    class State(models.TextChoices):
        OPEN = "open", "Open"
        CLOSED = "closed", "Closed"

    name = models.CharField(max_length=60, unique=True)
    dated = models.DateField()
    state = models.CharField(max_length=8, choices=State, default=State.OPEN)
    hourly_cost = models.DecimalField("cost of one person-hour, £", max_digits=8, decimal_places=2)
    margin_kind = models.CharField(
        "margin or mark-up", max_length=10, choices=_choices(MarginKind), default=MarginKind.MARGIN.value
    )
    percent = models.DecimalField("per cent", max_digits=6, decimal_places=2, default=Decimal(30))
    materials_percent = models.DecimalField(
        "on materials, per cent",
        max_digits=6,
        decimal_places=2,
        null=True,
        blank=True,
        help_text="Empty: the per cent of everything.",
    )
    hours_percent = models.DecimalField(
        "on hours, per cent",
        max_digits=6,
        decimal_places=2,
        null=True,
        blank=True,
        help_text="Empty: the per cent of everything.",
    )
    charges_percent = models.DecimalField(
        "on charges, per cent",
        max_digits=6,
        decimal_places=2,
        null=True,
        blank=True,
        help_text="Empty: the per cent of everything.",
    )
    minimum_net = models.DecimalField(
        "least price of a job before VAT, £", max_digits=9, decimal_places=2, default=Decimal(0)
    )
    round_to = models.DecimalField(
        "round the offered price to, £", max_digits=6, decimal_places=2, default=Decimal("0.01")
    )
    vat_registered = models.BooleanField("registered for VAT", default=True)
    vat_rounding = models.CharField(
        "how VAT is rounded",
        max_length=40,
        choices=_choices(VatRounding),
        default=VatRounding.RATE_SUBTOTAL_HALF_UP.value,
    )
    least_margin_percent = models.DecimalField(
        "least margin without the owner's approval, per cent",
        max_digits=5,
        decimal_places=2,
        default=Decimal(0),
        help_text="Of the price without VAT. Below it the owner issues a quote, or approves it. 0 for none.",
    )
    copied_from = models.ForeignKey(
        "self", on_delete=models.SET_NULL, null=True, blank=True, related_name="+"
    )
    closed_at = models.DateTimeField(null=True, blank=True)
    closed_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, on_delete=models.PROTECT, null=True, blank=True, related_name="+"
    )
    created_at = models.DateTimeField(auto_now_add=True)

    class Meta:
        ordering = ("-dated", "-pk")
        permissions = (("see_costs", "Can see costs and margins"),)

    def __str__(self) -> str:
        return self.name

    @property
    def is_open(self) -> bool:
        return self.state == self.State.OPEN

    @property
    def told_the_other_way(self) -> str:
        """Say its margin as a mark-up, or its mark-up as a margin, so that neither is taken for the other."""
        kind = MarginKind(self.margin_kind)
        try:
            other = told_the_other_way(kind, self.percent).value
        except Refusal:  # an open edition may hold what it cannot be closed with
            return ""
        name = "a mark-up on cost" if kind is MarginKind.MARGIN else "a margin on the price"
        tenth = other.quantize(Decimal("0.1"), rounding=ROUND_HALF_UP)
        return f"the same as {name} of {tenth.normalize():f} %"

    @property
    def vat_rounding_in_words(self) -> str:
        return VatRounding(self.vat_rounding).in_words


class EditionProduct(models.Model):
    """One product; `dimensions` holds what its role needs (the core names and checks them)."""

    edition = models.ForeignKey(Edition, on_delete=models.CASCADE, related_name="products")
    role = models.CharField(max_length=20, choices=_choices(Role))
    code = models.CharField(max_length=40)
    description = models.CharField(max_length=120)
    supplier = models.CharField(max_length=80)
    supplier_code = models.CharField("supplier's code", max_length=40, blank=True)
    pack_cost = models.DecimalField(
        "cost of one pack, £",
        max_digits=9,
        decimal_places=2,
        validators=(MinValueValidator(Decimal("0.01")),),
    )
    pack_size = models.PositiveIntegerField("pieces in a pack", default=1, validators=(MinValueValidator(1),))
    weight_kg = models.DecimalField(
        "weight of one piece, kg", max_digits=8, decimal_places=3, default=Decimal(0)
    )
    vat_class = models.CharField(
        "VAT class", max_length=40, choices=_choices(VatClass), default=VatClass.STANDARD.value
    )
    checked_on = models.DateField("price checked on", null=True, blank=True)
    dimensions = models.JSONField(default=dict, blank=True)

    class Meta:
        ordering = ("role", "code")
        constraints = (
            models.UniqueConstraint(fields=("edition", "code"), name="each_code_once_an_edition"),
            models.CheckConstraint(condition=models.Q(pack_cost__gt=0), name="a_pack_costs_something"),
        )

    def __str__(self) -> str:
        return f"{self.code}, {self.description}"


class EditionLabourRate(models.Model):
    edition = models.ForeignKey(Edition, on_delete=models.CASCADE, related_name="labour_rates")
    task = models.CharField(max_length=60, choices=_choices(Task))
    hours = models.DecimalField("person-hours for one", max_digits=7, decimal_places=3)
    unit = models.CharField(
        max_length=6, choices=[("job", "job"), ("m2", "m²"), ("m", "metre"), ("each", "each")]
    )

    class Meta:
        ordering = ("pk",)
        constraints = (models.UniqueConstraint(fields=("edition", "task"), name="each_task_once_an_edition"),)

    def __str__(self) -> str:
        return self.task


class EditionConditionRate(models.Model):
    edition = models.ForeignKey(Edition, on_delete=models.CASCADE, related_name="condition_rates")
    condition = models.CharField(max_length=40, choices=_choices(Condition))
    percent_longer = models.DecimalField("per cent longer", max_digits=6, decimal_places=2)

    class Meta:
        ordering = ("pk",)
        constraints = (
            models.UniqueConstraint(fields=("edition", "condition"), name="each_condition_once_an_edition"),
        )

    def __str__(self) -> str:
        return self.condition


class EditionCharge(models.Model):
    edition = models.ForeignKey(Edition, on_delete=models.CASCADE, related_name="charges")
    code = models.CharField(max_length=40)
    description = models.CharField(max_length=120)
    amount = models.DecimalField("amount, £", max_digits=8, decimal_places=2)
    per = models.CharField(max_length=6, choices=[("job", "job"), ("mile", "mile")], default="job")
    always = models.BooleanField("on every job", default=True)

    class Meta:
        ordering = ("pk",)
        constraints = (
            models.UniqueConstraint(fields=("edition", "code"), name="each_charge_once_an_edition"),
        )

    def __str__(self) -> str:
        return self.description
