"""Outgoing mail: one row for each recipient, kept after it went."""

from __future__ import annotations

from django.conf import settings
from django.db import models

from jobs.quotes.customer.models import CustomerLink
from jobs.quotes.models import Revision


class OutgoingMail(models.Model):
    """One message to one recipient, from the wish to send it until it is sent, failed or withdrawn.

    The text holds a place where the customer's link goes, never the link: its token is worked out anew at
    each try, from `link_seed` and the site's secret key, which does not lie in the database. So the row can
    be kept and tried again for as long as anybody likes, every try carries the same link, and a copied
    database opens nothing.

    Nothing is sent twice by itself: once a message's text began to go (`handed_over`) and nobody knows what
    became of it, it is perhaps sent, and only the office lets it go again. `message_id` is made with the row,
    so that the receiver of such a repetition can tell.
    """

    class State(models.TextChoices):
        WAITING = "waiting", "Waiting"
        SENDING = "sending", "Being sent"
        ANSWER_LOST = "answer lost", "Perhaps sent"
        SENT = "sent", "Sent"
        FAILED = "failed", "Failed for good"
        WITHDRAWN = "withdrawn", "Withdrawn"

    to_name = models.CharField("recipient's name", max_length=120, blank=True)
    to_address = models.EmailField("recipient's e-mail")
    subject = models.CharField(max_length=200)
    text = models.TextField()
    attachments = models.JSONField(default=list, blank=True)
    about = models.ForeignKey(
        Revision, on_delete=models.PROTECT, null=True, blank=True, related_name="outgoing_mail"
    )
    link = models.ForeignKey(
        CustomerLink, on_delete=models.PROTECT, null=True, blank=True, related_name="outgoing_mail"
    )
    link_seed = models.CharField(max_length=32, blank=True)
    message_id = models.CharField(max_length=255, unique=True)
    once = models.CharField("what is queued only once", max_length=120, unique=True, null=True, blank=True)
    state = models.CharField(max_length=12, choices=State, default=State.WAITING)
    attempts = models.PositiveSmallIntegerField(default=0)
    handed_over = models.BooleanField("the text began to go", default=False)
    answers_lost = models.PositiveSmallIntegerField(default=0)
    next_try_at = models.DateTimeField("next try")
    last_error = models.TextField("what went wrong last", blank=True)
    claimed_by = models.CharField("the try that has it", max_length=16, blank=True)
    claimed_at = models.DateTimeField(null=True, blank=True)
    claimed_until = models.DateTimeField(null=True, blank=True)
    made_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, on_delete=models.PROTECT, null=True, blank=True, related_name="+"
    )
    made_at = models.DateTimeField()
    sent_at = models.DateTimeField(null=True, blank=True)
    stopped_at = models.DateTimeField("no longer goes by itself since", null=True, blank=True)

    class Meta:
        ordering = ("-pk",)
        verbose_name_plural = "outgoing mail"
        indexes = (models.Index(fields=("state", "next_try_at")),)
        constraints = (
            models.CheckConstraint(
                condition=~models.Q(state="sent") | models.Q(sent_at__isnull=False),
                name="sent_mail_says_when",
            ),
            models.CheckConstraint(
                condition=~models.Q(state="sending") | models.Q(claimed_until__isnull=False),
                name="mail_is_claimed_for_a_while",
            ),
            models.CheckConstraint(
                condition=~models.Q(state="failed") | ~models.Q(last_error=""),
                name="failed_mail_says_why",
            ),
        )

    def __str__(self) -> str:
        return f"{self.subject}, to {self.recipient}"

    @property
    def recipient(self) -> str:
        return f"{self.to_name} <{self.to_address}>" if self.to_name else self.to_address

    @property
    def is_unsent(self) -> bool:
        """Tell whether the office may try it again or withdraw it."""
        return self.state in UNSENT


UNSENT = (OutgoingMail.State.WAITING, OutgoingMail.State.ANSWER_LOST, OutgoingMail.State.FAILED)
"""What the office may try again, withdraw, or tell to have arrived; what is being sent is left alone."""
