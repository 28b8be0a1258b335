"""Surveys, what was seen, who cleared it, and the photographs."""

from __future__ import annotations

from django.conf import settings
from django.db import models

from estimating.survey import Severity
from jobs.customers.models import Enquiry, Property
from jobs.firm.length_units import LengthUnit


class Survey(models.Model):
    """One visit's measurements.

    `answers` keeps what was typed, section by section, exactly as typed: `as_measured.py` reads it into the
    core's frozen survey. What was understood is never stored apart from what was typed, so the two cannot
    disagree; a quote freezes its own copy of what was understood. For the same reason a survey keeps the
    unit of its bare numbers: the firm may change its own later, and 5200 must go on meaning what it meant.
    """

    class State(models.TextChoices):
        OPEN = "open", "Open"
        COMPLETE = "complete", "Complete"

    number = models.CharField(max_length=16, unique=True)
    property = models.ForeignKey(Property, on_delete=models.PROTECT, related_name="surveys")
    enquiry = models.ForeignKey(
        Enquiry, on_delete=models.PROTECT, null=True, blank=True, related_name="surveys"
    )
    surveyor = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="surveys")
    visited_on = models.DateField()
    state = models.CharField(max_length=10, choices=State, default=State.OPEN)
    form_version = models.PositiveSmallIntegerField(default=1)
    length_unit = models.CharField(max_length=3, choices=LengthUnit, default=LengthUnit.MILLIMETRES)
    answers = models.JSONField(default=dict, blank=True)
    copied_from = models.ForeignKey(
        "self", on_delete=models.SET_NULL, null=True, blank=True, related_name="+"
    )
    created_at = models.DateTimeField(auto_now_add=True)
    updated_at = models.DateTimeField(auto_now=True)

    class Meta:
        ordering = ("-visited_on", "-pk")
        indexes = (
            models.Index(fields=("state", "-visited_on")),
            models.Index(fields=("-visited_on", "-id"), name="surveys_by_day"),
        )

    def __str__(self) -> str:
        return f"{self.number}, {self.property}"

    def is_open(self) -> bool:
        return self.state == self.State.OPEN


class Finding(models.Model):
    """The answer to one hazard of the list: seen, not there, or could not be seen."""

    class Seen(models.TextChoices):
        YES = "yes", "Yes"
        NO = "no", "No"
        NOT_SEEN = "not seen", "Could not be seen"

    survey = models.ForeignKey(Survey, on_delete=models.CASCADE, related_name="findings")
    hazard = models.CharField(max_length=40)
    seen = models.CharField(max_length=8, choices=Seen)
    severity = models.CharField(max_length=8, choices=[(each.value, each.value) for each in Severity])
    words = models.TextField(blank=True)

    class Meta:
        ordering = ("pk",)
        constraints = (
            models.UniqueConstraint(fields=("survey", "hazard"), name="one_answer_for_each_hazard"),
        )

    def __str__(self) -> str:
        return f"{self.hazard}: {self.seen}"

    @property
    def holds_work(self) -> bool:
        """A stop that was seen holds work until it is cleared."""
        is_stop = self.severity == Severity.STOP and self.seen == self.Seen.YES
        return is_stop and not hasattr(self, "clearance")


class Clearance(models.Model):
    """The record that a stop was resolved: who, what paper, when."""

    finding = models.OneToOneField(Finding, on_delete=models.PROTECT, related_name="clearance")
    cleared_by = models.CharField("who resolved it", max_length=120)
    qualification = models.CharField("their qualification", max_length=120)
    document = models.CharField("which paper says so", max_length=200)
    dated = models.DateField("date of that paper")
    recorded_by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")
    recorded_at = models.DateTimeField(auto_now_add=True)

    def __str__(self) -> str:
        return f"{self.cleared_by} ({self.qualification}), {self.document}, {self.dated:%-d %B %Y}"


class Photograph(models.Model):
    """A photograph, kept under its digest outside every served folder.

    A tablet knows it by the digest of the file it sent. It may be tied to a hazard before that is answered:
    `hazard` then waits for the finding.
    """

    survey = models.ForeignKey(Survey, on_delete=models.PROTECT, related_name="photographs")
    finding = models.ForeignKey(
        Finding, on_delete=models.SET_NULL, null=True, blank=True, related_name="photographs"
    )
    shows = models.CharField("what it shows", max_length=120, blank=True)
    hazard = models.CharField(max_length=40, blank=True)
    left_mm = models.IntegerField("from left gable", null=True, blank=True)
    front_mm = models.IntegerField("from front eaves", null=True, blank=True)
    sha256 = models.CharField(max_length=64)
    sent_sha256 = models.CharField(max_length=64, blank=True)
    width = models.PositiveIntegerField()
    height = models.PositiveIntegerField()
    taken_by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")
    added_at = models.DateTimeField(auto_now_add=True)

    class Meta:
        ordering = ("pk",)
        constraints = (
            models.UniqueConstraint(fields=("survey", "sha256"), name="each_photograph_once_a_survey"),
            models.UniqueConstraint(
                fields=("survey", "sent_sha256"),
                condition=~models.Q(sent_sha256=""),
                name="each_sent_file_once_a_survey",
            ),
        )

    def __str__(self) -> str:
        return self.shows or f"Photograph {self.pk}"
