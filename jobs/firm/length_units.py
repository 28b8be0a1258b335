"""In which unit people write a length to which they write none."""

from __future__ import annotations

from django.db import models


class LengthUnit(models.TextChoices):
    """The unit of a bare number, or that there is none and each one is asked about."""

    MILLIMETRES = "mm", "Millimetres"
    CENTIMETRES = "cm", "Centimetres"
    METRES = "m", "Metres"
    FEET = "ft", "Feet"
    INCHES = "in", "Inches"
    ALWAYS_ASK = "ask", "None: always ask"
