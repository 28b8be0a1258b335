"""The customer's link, what was opened and asked on it, and what the customer decided."""

from __future__ import annotations

from django.conf import settings
from django.db import models

from jobs.quotes.models import Quote, Revision


class CustomerLink(models.Model):
    """The way in for one customer. Only the token's digest is kept, so a copied database opens nothing."""

    quote = models.ForeignKey(Quote, on_delete=models.PROTECT, related_name="links")
    digest = models.CharField(max_length=64, unique=True)
    expires_at = models.DateTimeField()
    revoked_at = models.DateTimeField(null=True, blank=True)
    made_by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")
    made_at = models.DateTimeField(auto_now_add=True)

    class Meta:
        ordering = ("-made_at",)

    def __str__(self) -> str:
        return f"Link to {self.quote.number}, ends {self.expires_at:%-d %B %Y}"

    @property
    def earlier_openings(self) -> models.QuerySet[LinkOpening]:
        """The openings of the links to the same quote that this one replaced."""
        return LinkOpening.objects.filter(link__quote=self.quote_id).exclude(link=self)


class LinkOpening(models.Model):
    """That a link was opened, for the office."""

    link = models.ForeignKey(CustomerLink, on_delete=models.CASCADE, related_name="openings")
    opened_at = models.DateTimeField(auto_now_add=True)
    address = models.GenericIPAddressField(null=True, blank=True)
    browser = models.CharField(max_length=200, blank=True)

    class Meta:
        ordering = ("-opened_at",)

    def __str__(self) -> str:
        return f"{self.opened_at:%-d %B %Y %H:%M}"


REASONS = [
    ("price", "The price"),
    ("another firm", "Another firm was chosen"),
    ("time", "It could not be done in time"),
    ("not now", "Not now, perhaps later"),
    ("plans", "The plans for the loft changed"),
    ("other", "Something else"),
]
"""Why an offer is declined, in words that customer and office can both use."""


class Decision(models.Model):
    """What the customer decided about one revision, with the evidence. One for each revision, ever.

    `recorded_by` is who of the office wrote down what the customer told them; empty for the customer's link.
    """

    class Kind(models.TextChoices):
        ACCEPTED = "accepted", "Accepted"
        DECLINED = "declined", "Declined"

    revision = models.OneToOneField(Revision, on_delete=models.PROTECT, related_name="decision")
    kind = models.CharField(max_length=8, choices=Kind)
    name_typed = models.CharField(max_length=120)
    statements = models.JSONField("the exact words ticked", default=list)
    taken_parts = models.JSONField("options taken", default=list)
    alternative = models.PositiveSmallIntegerField("alternative, counted from 0", default=0)
    total = models.DecimalField("price with VAT, £", max_digits=10, decimal_places=2)
    paper_sha256 = models.CharField(max_length=64)
    rights_sha256 = models.CharField("paper of the rights", max_length=64, blank=True)
    how_agreed = models.CharField("how it was agreed", max_length=16, blank=True)
    last_goods_on = models.DateField("last goods came on", null=True, blank=True)
    because = models.CharField("why it was declined", max_length=20, choices=REASONS, blank=True)
    reason = models.TextField(blank=True)
    recorded_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, on_delete=models.PROTECT, null=True, blank=True, related_name="+"
    )
    decided_at = models.DateTimeField()
    link = models.ForeignKey(
        CustomerLink, on_delete=models.PROTECT, null=True, blank=True, related_name="decisions"
    )
    address = models.GenericIPAddressField(null=True, blank=True)
    browser = models.CharField(max_length=400, blank=True)

    class Meta:
        indexes = (models.Index(fields=("kind", "decided_at", "because"), name="decisions_by_reason"),)

    def __str__(self) -> str:
        return f"{self.revision} {self.kind} by {self.name_typed}"

    @property
    def why(self) -> str:
        """Why it was declined, as far as that was told."""
        reason = self.get_because_display() if self.because else ""
        told = f"{reason}: {self.reason}" if reason and self.reason else reason or self.reason
        return told or "No reason was given."


class CustomerQuestion(models.Model):
    """A question asked on the customer's link."""

    quote = models.ForeignKey(Quote, on_delete=models.PROTECT, related_name="questions")
    words = models.TextField()
    asked_at = models.DateTimeField(auto_now_add=True)
    answered_at = models.DateTimeField(null=True, blank=True)

    class Meta:
        ordering = ("-asked_at",)
        indexes = (
            models.Index(
                fields=("asked_at",), name="questions_unanswered", condition=models.Q(answered_at=None)
            ),
        )

    def __str__(self) -> str:
        return self.words[:60]
