"""Jobs and their completion."""

from __future__ import annotations

from django.conf import settings
from django.db import models

from jobs.quotes.models import Revision


class Job(models.Model):
    class State(models.TextChoices):
        ACCEPTED = "accepted", "To be booked"
        BOOKED = "booked", "Booked"
        UNDER_WAY = "under way", "Under way"
        COMPLETE = "complete", "Complete"
        HANDED_OVER = "handed over", "Handed over"
        CLOSED = "closed", "Closed"
        CALLED_OFF = "called off", "Called off"

    number = models.CharField(max_length=16, unique=True)
    revision = models.OneToOneField(Revision, on_delete=models.PROTECT, related_name="job")
    state = models.CharField(max_length=12, choices=State, default=State.ACCEPTED)
    starts_on = models.DateField(null=True, blank=True)
    ends_on = models.DateField(null=True, blank=True)
    crew = models.ManyToManyField(settings.AUTH_USER_MODEL, blank=True, related_name="jobs")
    note = models.TextField("note for the crew", blank=True)
    sheet_sha256 = models.CharField(max_length=64, blank=True)
    hours_taken = models.DecimalField(
        "person-hours it took", max_digits=7, decimal_places=2, null=True, blank=True
    )
    why_no_orders = models.TextField("why accepting made no orders", blank=True)
    booked_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, on_delete=models.PROTECT, null=True, blank=True, related_name="+"
    )
    started_at = models.DateTimeField(null=True, blank=True)
    completed_at = models.DateTimeField(null=True, blank=True)
    completion_note = models.TextField(blank=True)
    handed_over_to = models.CharField("who took it over", max_length=120, blank=True)
    handed_over_at = models.DateTimeField(null=True, blank=True)
    called_off_at = models.DateTimeField(null=True, blank=True)
    closed_at = models.DateTimeField(null=True, blank=True)
    made_at = models.DateTimeField(auto_now_add=True)

    class Meta:
        ordering = ("starts_on", "pk")
        permissions = (("book_job", "Can book jobs"), ("report_job", "Can report work done"))
        indexes = (models.Index(fields=("state", "starts_on")),)

    def __str__(self) -> str:
        return f"{self.number}, {self.revision.quote.property}"
