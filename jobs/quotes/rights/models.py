"""What a customer asked for after accepting: an early start, or out of the contract. One of each, ever."""

from __future__ import annotations

from django.conf import settings
from django.core.validators import MaxValueValidator, MinValueValidator
from django.db import models

from jobs.quotes.customer.models import CustomerLink, Decision


class SaidByCustomer(models.Model):
    """What somebody said, word for word, and how it reached us."""

    name_typed = models.CharField(max_length=120)
    words = models.TextField("the exact words")
    said_at = models.DateTimeField()
    link = models.ForeignKey(CustomerLink, on_delete=models.PROTECT, null=True, blank=True, related_name="+")
    address = models.GenericIPAddressField(null=True, blank=True)
    browser = models.CharField(max_length=400, blank=True)

    class Meta:
        abstract = True


class EarlyStart(SaidByCustomer):
    """The express request to begin within the time for cancelling, kept apart from the acceptance."""

    decision = models.OneToOneField(Decision, on_delete=models.PROTECT, related_name="early_start")

    def __str__(self) -> str:
        return f"Early start asked for by {self.name_typed}"


class Cancellation(SaidByCustomer):
    """That a customer cancelled, and what each side then owes.

    `period` is how the last day stood when it was said. `share_done` is 0 before work begins; of a job under
    way the office says it. What was paid is known to the office only.
    """

    decision = models.OneToOneField(Decision, on_delete=models.PROTECT, related_name="cancellation")
    reason = models.TextField(blank=True)
    period = models.JSONField(default=dict)
    work_had_begun = models.BooleanField(default=False)
    share_done = models.DecimalField(
        "share of the work done, from 0 to 1", max_digits=5, decimal_places=4, null=True, blank=True,
        validators=(MinValueValidator(0), MaxValueValidator(1)),
    )  # fmt: skip
    paid = models.DecimalField("paid until then, £", max_digits=10, decimal_places=2, null=True, blank=True)
    settlement = models.JSONField(default=dict, blank=True)
    settled_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, on_delete=models.PROTECT, null=True, blank=True, related_name="+"
    )
    settled_at = models.DateTimeField(null=True, blank=True)

    def __str__(self) -> str:
        return f"{self.decision.revision} cancelled by {self.name_typed}"
