"""Issued papers: what was sent, kept by its digest."""

from __future__ import annotations

from django.db import models


class Paper(models.Model):
    """A PDF as it was issued; the file lies in the data folder under its digest, written once."""

    class Kind(models.TextChoices):
        QUOTE = "quote", "Quote"
        MATERIALS_ORDER = "materials order", "Materials order"
        JOB_SHEET = "job sheet", "Job sheet"
        RIGHTS = "rights", "Customer's rights"

    sha256 = models.CharField(max_length=64, primary_key=True)
    kind = models.CharField(max_length=16, choices=Kind)
    title = models.CharField(max_length=120)
    made_at = models.DateTimeField(auto_now_add=True)

    class Meta:
        ordering = ("-made_at",)

    def __str__(self) -> str:
        return self.title
