"""What an import keeps: the file between its preview and its taking, and what the firm calls its columns."""

from __future__ import annotations

from datetime import datetime, timedelta

from django.conf import settings
from django.db import models
from django.utils import timezone

from jobs.price_books.models import Edition

KEPT_FOR = timedelta(hours=24)


def _end() -> datetime:
    return timezone.now() + KEPT_FOR


class ColumnMapping(models.Model):
    """What the firm's own name of a column means. Nothing in `ours` means that the column is left out."""

    theirs = models.CharField("column in the file", max_length=120, unique=True)
    ours = models.CharField("column of the price book", max_length=60, blank=True)

    class Meta:
        ordering = ("theirs",)

    def __str__(self) -> str:
        return f"{self.theirs} → {self.ours or 'left out'}"


class PriceImport(models.Model):
    """A file between its preview and its taking: the browser is never asked to send it a second time."""

    edition = models.ForeignKey(Edition, on_delete=models.CASCADE, related_name="imports")
    by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.CASCADE, related_name="+")
    name = models.CharField(max_length=120)
    content = models.BinaryField()
    ends_at = models.DateTimeField(default=_end)
    made_at = models.DateTimeField(auto_now_add=True)

    class Meta:
        ordering = ("-made_at",)

    def __str__(self) -> str:
        return self.name
