"""Quotes and their revisions. An issued revision keeps its own frozen copy of everything it says."""

from __future__ import annotations

from django.conf import settings
from django.db import models
from django.utils import timezone

from estimating.contracts.kind import HowAgreed
from jobs.customers.models import Property
from jobs.price_books.models import Edition
from jobs.quotes.listing.turns import Because, Turn
from jobs.surveys.models import Survey


class RevisionState(models.TextChoices):
    """What may become of a revision, in the words of contract law."""

    DRAFT = "draft", "Draft"
    ISSUED = "issued", "Issued"
    ACCEPTED = "accepted", "Accepted"
    DECLINED = "declined", "Declined"
    LAPSED = "lapsed", "Lapsed"
    WITHDRAWN = "withdrawn", "Withdrawn"
    SUPERSEDED = "superseded", "Superseded"
    CANCELLED = "cancelled", "Cancelled"


TURNS = [(turn.value, turn.value.capitalize()) for turn in Turn]


class Quote(models.Model):
    """A price offered for one survey, in revisions that follow each other.

    From `state` on the fields say what the list of quotes shows, so that it need not open revisions, which
    are large: `listing/standing.py` alone writes them, at the end of each service that moves a quote.
    """

    number = models.CharField(max_length=16, unique=True)
    property = models.ForeignKey(Property, on_delete=models.PROTECT, related_name="quotes")
    survey = models.ForeignKey(Survey, on_delete=models.PROTECT, related_name="quotes")
    made_by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")
    made_at = models.DateTimeField(auto_now_add=True)
    follow_up_on = models.DateField("follow up on", null=True, blank=True)
    follow_up_note = models.CharField("what to ask", max_length=200, blank=True)
    state = models.CharField(max_length=10, choices=RevisionState, default=RevisionState.DRAFT)
    letter = models.CharField("revision that stands for it", max_length=2, blank=True)
    total = models.DecimalField("price with VAT, £", max_digits=10, decimal_places=2, null=True, blank=True)
    valid_until = models.DateField("holds until", null=True, blank=True)
    turn = models.CharField("whose turn", max_length=8, choices=TURNS, default=Turn.OFFICE.value)
    turn_since = models.DateTimeField(default=timezone.now)
    turn_because = models.CharField(max_length=10, default=Because.DRAFT.value)
    office_from = models.DateTimeField("the office's turn from", null=True, blank=True)

    class Meta:
        ordering = ("-made_at",)
        indexes = (
            models.Index(fields=("state", "id"), name="quotes_by_state"),
            models.Index(fields=("turn", "turn_since", "id"), name="quotes_by_turn"),
            models.Index(fields=("office_from", "id"), name="quotes_for_the_office"),
            models.Index(fields=("follow_up_on",), name="quotes_to_follow_up"),
        )

    def __str__(self) -> str:
        return f"{self.number}, {self.property}"


class Revision(models.Model):
    """One revision of a quote: a draft until it is issued, then never changed but in its state.

    `choices` is the core's choices form; a draft that uses the store is worked out with what it holds then.
    `issued` is empty for a draft; once issued it holds the survey, the price book, the choices, the estimate
    and the words, as they were on that day. A revision may offer other ways to do the job: `choices` are
    those of the first alternative, and `alternatives` holds the name and the choices of each that follows.
    """

    State = RevisionState

    quote = models.ForeignKey(Quote, on_delete=models.PROTECT, related_name="revisions")
    letter = models.CharField("revision", max_length=2)
    state = models.CharField(max_length=10, choices=State, default=State.DRAFT)
    edition = models.ForeignKey(Edition, on_delete=models.PROTECT, related_name="revisions")
    choices = models.JSONField(default=dict)
    alternative_name = models.CharField("name of the first alternative", max_length=60, blank=True)
    alternatives = models.JSONField("alternatives after the first", default=list, blank=True)
    use_store = models.BooleanField("use what is in the store", default=False)
    introduction = models.TextField("opening words", blank=True)
    approved_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, on_delete=models.PROTECT, null=True, blank=True, related_name="+"
    )
    approved_at = models.DateTimeField(null=True, blank=True)
    approval_note = models.TextField("why it is approved", blank=True)
    approved_digest = models.CharField("digest of what was approved", max_length=64, blank=True)
    approved_margin_percent = models.DecimalField(
        "margin approved, per cent", max_digits=6, decimal_places=1, null=True, blank=True
    )
    owner_asked_at = models.DateTimeField("when the owner was asked to approve", null=True, blank=True)
    owner_asked_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, on_delete=models.PROTECT, null=True, blank=True, related_name="+"
    )
    how_agreed = models.CharField(
        "how it is agreed",
        max_length=16,
        choices=[(each.name, each.value) for each in HowAgreed],
        default=HowAgreed.WITHOUT_MEETING.name,
    )
    valid_until = models.DateField("holds until", null=True, blank=True)
    issued = models.JSONField(default=dict, blank=True)
    total = models.DecimalField("price with VAT, £", max_digits=10, decimal_places=2, null=True, blank=True)
    paper_sha256 = models.CharField(max_length=64, blank=True)
    rights_sha256 = models.CharField("paper of the rights", max_length=64, blank=True)
    issued_at = models.DateTimeField(null=True, blank=True)
    issued_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, on_delete=models.PROTECT, null=True, blank=True, related_name="+"
    )
    made_by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")
    made_at = models.DateTimeField(auto_now_add=True)
    changed_at = models.DateTimeField(auto_now=True)
    changed_on_page = models.CharField("page that changed it last", max_length=16, blank=True)

    class Meta:
        ordering = ("quote", "letter")
        permissions = (
            ("issue_quote", "Can issue and withdraw quotes"),
            ("approve_quote", "Can approve quotes below the least margin"),
            ("choose_vat_class", "Can choose the VAT class of a part"),
        )
        indexes = (models.Index(fields=("state", "valid_until")),)
        constraints = (
            models.UniqueConstraint(fields=("quote", "letter"), name="each_letter_once_a_quote"),
            models.UniqueConstraint(
                fields=("quote",),
                condition=models.Q(state__in=("issued", "accepted")),
                name="one_revision_on_offer_a_quote",
            ),
            models.CheckConstraint(
                condition=models.Q(state="draft") | ~models.Q(paper_sha256=""),
                name="an_issued_revision_has_its_paper",
            ),
        )

    def __str__(self) -> str:
        return f"{self.quote.number}{self.letter}"

    @property
    def is_draft(self) -> bool:
        return self.state == self.State.DRAFT

    @property
    def waits_for_owner(self) -> bool:
        """Tell whether the owner was asked about the draft as it stands: a change takes the question back."""
        return self.is_draft and self.owner_asked_at is not None and self.changed_at <= self.owner_asked_at
