"""Boards and offcuts in the firm's store: what is at hand, and what was taken out for which job."""

from __future__ import annotations

from django.conf import settings
from django.core.validators import MinValueValidator
from django.db import models

from jobs.works.models import Job

LEAST_PIECE_MM = 300


class StoredBoard(models.Model):
    """So many boards of one length and full width.

    They are at hand until they are taken out for a job; the row then says for which, and is kept.
    """

    board_code = models.CharField("board", max_length=40)
    description = models.CharField(max_length=120)
    length_mm = models.PositiveIntegerField(
        "length it covers, mm", validators=(MinValueValidator(LEAST_PIECE_MM),)
    )
    count = models.PositiveIntegerField("how many", validators=(MinValueValidator(1),))
    cut = models.BooleanField("cut at an end", default=False)
    note = models.CharField(max_length=200, blank=True)
    left_by = models.ForeignKey(
        Job, on_delete=models.PROTECT, null=True, blank=True, related_name="boards_left"
    )
    taken_for = models.ForeignKey(
        Job, on_delete=models.PROTECT, null=True, blank=True, related_name="boards_taken"
    )
    added_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, on_delete=models.PROTECT, null=True, blank=True, related_name="+"
    )
    added_at = models.DateTimeField(auto_now_add=True)

    class Meta:
        ordering = ("board_code", "-length_mm", "pk")
        constraints = (
            models.CheckConstraint(condition=models.Q(count__gte=1), name="a_stored_board_is_there"),
            models.CheckConstraint(
                condition=models.Q(length_mm__gte=LEAST_PIECE_MM), name="a_stored_board_makes_a_piece"
            ),
        )

    def __str__(self) -> str:
        return f"{self.count} of {self.length_mm} mm, {self.description}"
