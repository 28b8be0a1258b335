"""Boxes of a draft that belong together, as its page shows them under one fold."""

from __future__ import annotations

from dataclasses import dataclass, field

from django import forms

Boxes = dict[str, forms.Field]


@dataclass(frozen=True, slots=True)
class BoxGroup:
    """Boxes that belong together, in rows; open where something stands in them or is wrong.

    `fresh` are the rows that a page which sent this form does not have yet; they are added to those that the
    group has there by its `key`.
    """

    title: str
    about: str
    rows: list[list[forms.BoundField]]
    is_open: bool
    key: str = ""
    fresh: list[list[forms.BoundField]] = field(default_factory=list)
