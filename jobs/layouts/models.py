"""Layouts that the worker proved, kept under the task that asked for them, and those still to be proved."""

from __future__ import annotations

from django.db import models


class StoredLayout(models.Model):
    """The best layout known for one deck task, or the wish for one.

    `digest` names the task and the solver's version together, so what an older solver found is not found
    again. Nothing refers to these rows: all of them may be thrown away, and are found anew when asked for.
    """

    class State(models.TextChoices):
        PROOF_WANTED = "proof", "Proof wanted"
        SEARCH_WANTED = "search", "Longer search wanted"
        LANDED = "landed", "Landed"
        GIVEN_UP = "given up", "Given up"

    digest = models.CharField(max_length=32, unique=True)
    task = models.JSONField()
    laid = models.JSONField("layout and bound", null=True, default=None)
    state = models.CharField(max_length=8, choices=State, default=State.PROOF_WANTED)
    attempts = models.PositiveSmallIntegerField("attempts at what is wanted", default=0)
    asked_at = models.DateTimeField("last asked for")
    used_on = models.DateField("last shown on")
    taken_at = models.DateTimeField("taken by a worker", null=True)
    landed_at = models.DateTimeField(null=True)

    class Meta:
        indexes = (models.Index(fields=("state", "-asked_at")),)
        constraints = (
            models.CheckConstraint(
                condition=~models.Q(state__in=("search", "landed")) | models.Q(laid__isnull=False),
                name="what_landed_is_there",
            ),
        )

    def __str__(self) -> str:
        return f"{self.digest[:8]}, {self.get_state_display().lower()}"
