"""Materials orders: one for each supplier of a job."""

from __future__ import annotations

from decimal import Decimal

from django.conf import settings
from django.db import models

from jobs.works.models import Job


class MaterialsOrder(models.Model):
    class State(models.TextChoices):
        DRAFT = "draft", "Draft"
        SENT = "sent", "Sent"
        RECEIVED = "received", "Received"

    number = models.CharField(max_length=16, unique=True)
    job = models.ForeignKey(Job, on_delete=models.PROTECT, related_name="orders")
    supplier = models.CharField(max_length=80)
    state = models.CharField(max_length=10, choices=State, default=State.DRAFT)
    wanted_on = models.DateField("wanted on", null=True, blank=True)
    note = models.TextField("note for the supplier", blank=True)
    paper_sha256 = models.CharField(max_length=64, blank=True)
    sent_at = models.DateTimeField(null=True, blank=True)
    sent_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, on_delete=models.PROTECT, null=True, blank=True, related_name="+"
    )
    received_at = models.DateTimeField(null=True, blank=True)
    made_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, on_delete=models.PROTECT, null=True, blank=True, related_name="+"
    )
    made_at = models.DateTimeField(auto_now_add=True)

    class Meta:
        ordering = ("-made_at", "-pk")
        indexes = (
            models.Index(fields=("-made_at", "-id"), name="orders_by_moment"),
            models.Index(fields=("state", "-made_at", "-id"), name="orders_by_state"),
            models.Index(fields=("supplier",), name="orders_by_supplier"),
        )
        constraints = (
            models.UniqueConstraint(fields=("job", "supplier"), name="one_order_for_each_supplier_of_a_job"),
            models.CheckConstraint(
                condition=models.Q(state="draft") | ~models.Q(paper_sha256=""),
                name="a_sent_order_has_its_paper",
            ),
        )

    def __str__(self) -> str:
        return f"{self.number}, {self.supplier}"

    @property
    def is_draft(self) -> bool:
        return self.state == self.State.DRAFT

    @property
    def cost(self) -> Decimal:
        """What the order costs without VAT."""
        return sum((line.cost for line in self.lines.all()), Decimal(0))

    @property
    def weight_kg(self) -> Decimal:
        """What is delivered."""
        return sum((line.weight_kg for line in self.lines.all()), Decimal(0))


class OrderLine(models.Model):
    order = models.ForeignKey(MaterialsOrder, on_delete=models.CASCADE, related_name="lines")
    code = models.CharField(max_length=40)
    supplier_code = models.CharField(max_length=40, blank=True)
    description = models.CharField(max_length=120)
    packs = models.PositiveIntegerField()
    pack_size = models.PositiveIntegerField(default=1)
    pack_cost = models.DecimalField(max_digits=9, decimal_places=2)
    weight_kg = models.DecimalField("weight of all, kg", max_digits=9, decimal_places=2, default=Decimal(0))

    class Meta:
        ordering = ("pk",)
        constraints = (models.UniqueConstraint(fields=("order", "code"), name="each_product_once_an_order"),)

    def __str__(self) -> str:
        return f"{self.packs} x {self.description}"

    @property
    def cost(self) -> Decimal:
        return self.packs * self.pack_cost
