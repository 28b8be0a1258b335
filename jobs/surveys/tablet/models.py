"""What tablets sent, word for word, and what could not be written into a survey without a person's choice."""

from __future__ import annotations

from django.conf import settings
from django.db import models
from django.utils import timezone

from jobs.surveys.models import Survey


class SentChange(models.Model):
    """One change as a tablet made it, and the answer it was given.

    The number comes from the tablet, so that the same change sent again is known again; its answer is kept
    and given again byte for byte. The tablet's clock is kept as it was and decides nothing.
    """

    id = models.UUIDField(primary_key=True)
    survey = models.ForeignKey(Survey, on_delete=models.PROTECT, related_name="sent_changes")
    digest = models.CharField(max_length=64)
    body = models.TextField()
    tablet = models.UUIDField()
    number = models.BigIntegerField()
    made_at = models.CharField(max_length=40)
    form_version = models.PositiveSmallIntegerField()
    kind = models.CharField(max_length=20)
    by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")
    received_at = models.DateTimeField(default=timezone.now)
    answer = models.TextField()

    class Meta:
        ordering = ("received_at",)
        indexes = (models.Index(fields=("by", "received_at")),)

    def __str__(self) -> str:
        return f"{self.kind} {self.id}"


class Reason(models.TextChoices):
    """Why a value was not written; the label says it to the office."""

    DIFFERS = "differs", "somebody else had changed it meanwhile"
    NO_QUESTION = "no such question now", "the survey no longer asks for it"
    NO_ANSWER = "no such answer now", "it is none of the answers that may be picked"
    CLOSED = "was closed", "the survey was closed to changes"
    CLEARED = "was cleared", "the answer to a cleared stop stays"
    TOO_LONG = "too long", "it is longer than can be kept there"
    OTHER_WORDS = "same number, other words", "it came under a number that another change has"
    UNREAD = "could not be read", "this version of the site does not know how to read it"


class KeptAside(models.Model):
    """A value that came and does not stand in the survey, until somebody chooses between the two.

    `stood` is what the survey said when it came, and from the choice on what it said then. A row is never
    deleted: who chose, and which, is part of the survey's history.
    """

    survey = models.ForeignKey(Survey, on_delete=models.PROTECT, related_name="kept_aside")
    change = models.ForeignKey(
        SentChange, on_delete=models.PROTECT, null=True, blank=True, related_name="kept_aside"
    )
    section = models.CharField(max_length=40, blank=True)
    name = models.CharField(max_length=100, blank=True)
    stood = models.TextField(blank=True)
    other = models.TextField(blank=True)
    reason = models.CharField(max_length=30, choices=Reason)
    by = models.ForeignKey(
        settings.AUTH_USER_MODEL, on_delete=models.PROTECT, null=True, blank=True, related_name="+"
    )
    at = models.DateTimeField(default=timezone.now)
    settled_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, on_delete=models.PROTECT, null=True, blank=True, related_name="+"
    )
    settled_at = models.DateTimeField(null=True, blank=True)
    taken = models.BooleanField(null=True, blank=True)

    class Meta:
        ordering = ("at", "pk")
        indexes = (models.Index(fields=("survey", "settled_at")),)

    def __str__(self) -> str:
        return f"{self.section} {self.name}: {self.other}"


class ArrivedPhotograph(models.Model):
    """A file that came whole: the digest it was sent under, and that of the photograph built from it."""

    survey = models.ForeignKey(Survey, on_delete=models.PROTECT, related_name="arrived_photographs")
    sent_sha256 = models.CharField(max_length=64)
    size_bytes = models.PositiveIntegerField()
    sha256 = models.CharField(max_length=64)
    width = models.PositiveIntegerField()
    height = models.PositiveIntegerField()
    by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")
    arrived_at = models.DateTimeField(default=timezone.now)

    class Meta:
        ordering = ("pk",)
        constraints = (
            models.UniqueConstraint(fields=("survey", "sent_sha256"), name="each_file_arrives_once_a_survey"),
        )

    def __str__(self) -> str:
        return self.sent_sha256
