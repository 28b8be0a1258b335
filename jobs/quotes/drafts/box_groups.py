"""Boxes of a draft that belong together, as its page shows them under one fold."""

from __future__ import annotations

from dataclasses import dataclass

from django import forms

Boxes = dict[str, forms.Field]


@dataclass(frozen=True, slots=True)
class BoxGroup:
    """Boxes that belong together, in rows; open where something stands in them or is wrong."""

    title: str
    about: str
    rows: list[list[forms.BoundField]]
    is_open: bool
