"""The firm's insurances, as a quote names them."""

from __future__ import annotations

from django.db import models


class Insurance(models.Model):
    """One insurance: what it covers, with whom, and until when. One that has run out is never printed."""

    what = models.CharField("what it covers", max_length=120)
    insurer = models.CharField(max_length=120)
    policy_number = models.CharField("policy number", max_length=60, blank=True)
    until = models.DateField("holds until")

    class Meta:
        ordering = ("pk",)

    def __str__(self) -> str:
        return f"{self.what}, until {self.until:%-d %B %Y}"
