"""Customers, their properties and what they asked for."""

from __future__ import annotations

from django.conf import settings
from django.db import models

from estimating.nations import Nation


class Customer(models.Model):
    class Kind(models.TextChoices):
        HOUSEHOLD = "household", "Household"
        BUSINESS = "business", "Business"

    name = models.CharField(max_length=120)
    kind = models.CharField(max_length=12, choices=Kind, default=Kind.HOUSEHOLD)
    email = models.EmailField("e-mail", blank=True)
    phone = models.CharField(max_length=32, blank=True)
    note = models.TextField(blank=True)
    news_words = models.TextField("what they agreed to be sent", blank=True)
    news_agreed_at = models.DateTimeField("agreed to news on", null=True, blank=True)
    news_withdrawn_at = models.DateTimeField("took it back on", null=True, blank=True)
    created_at = models.DateTimeField(auto_now_add=True)

    class Meta:
        ordering = ("name", "pk")
        indexes = (models.Index(fields=("name",)),)

    def __str__(self) -> str:
        return self.name

    @property
    def wants_news(self) -> bool:
        return self.news_agreed_at is not None and self.news_withdrawn_at is None


class Property(models.Model):
    """A building with a loft. Address lines are free text: the address file itself is licensed."""

    customer = models.ForeignKey(Customer, on_delete=models.PROTECT, related_name="properties")
    address = models.CharField("house and street", max_length=120)
    locality = models.CharField(max_length=70, blank=True)
    town = models.CharField("post town", max_length=30)
    postcode = models.CharField(max_length=8)
    nation = models.CharField(
        max_length=20,
        choices=[(nation.value, nation.value) for nation in Nation],
        default=Nation.ENGLAND.value,
    )
    description = models.CharField("kind of building", max_length=80, blank=True)
    built_year = models.PositiveSmallIntegerField("year built, about", null=True, blank=True)
    note = models.TextField("parking, keys, animals", blank=True)

    class Meta:
        ordering = ("postcode", "address")
        verbose_name_plural = "properties"
        indexes = (models.Index(fields=("postcode",)),)

    def __str__(self) -> str:
        return f"{self.address}, {self.town}"

    @property
    def address_lines(self) -> list[str]:
        return [line for line in (self.address, self.locality, self.town, self.postcode) if line]


class Enquiry(models.Model):
    class State(models.TextChoices):
        NEW = "new", "New"
        VISIT_BOOKED = "visit booked", "Visit booked"
        SURVEYED = "surveyed", "Surveyed"
        CLOSED = "closed", "Closed"

    property = models.ForeignKey(Property, on_delete=models.PROTECT, related_name="enquiries")
    state = models.CharField(max_length=12, choices=State, default=State.NEW)
    wants = models.TextField("what they want", blank=True)
    to_store = models.CharField("what will be stored", max_length=200, blank=True)
    when_wanted = models.CharField("when they want it", max_length=80, blank=True)
    visit_at = models.DateTimeField("survey visit", null=True, blank=True)
    surveyor = models.ForeignKey(
        settings.AUTH_USER_MODEL, on_delete=models.SET_NULL, null=True, blank=True, related_name="visits"
    )
    closed_because = models.CharField(max_length=200, blank=True)
    taken_by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")
    received_at = models.DateTimeField(auto_now_add=True)

    class Meta:
        ordering = ("-received_at",)
        verbose_name_plural = "enquiries"
        indexes = (models.Index(fields=("state", "-received_at")),)

    def __str__(self) -> str:
        return f"Enquiry for {self.property}"
