"""The alternatives that a revision offers: each a name and one whole way to do the job; one is picked."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from typing import Any

from estimating.choices import Choices
from estimating.json_forms import choices_from_json
from jobs.quotes.drafts.terms import with_usual_stages
from jobs.quotes.listing.standing import keep_standing
from jobs.quotes.models import Revision

MOST_ALTERNATIVES = 4
"""How many a customer can still weigh on a phone."""


@dataclass(frozen=True, slots=True)
class Alternative:
    """One way to do the job; `form` is its choices as the core writes them."""

    number: int
    name: str
    form: Mapping[str, Any]

    @property
    def shown(self) -> str:
        """The name, or the place in the list where none was given."""
        return self.name or f"Alternative {self.number + 1}"

    @property
    def choices(self) -> Choices:
        return choices_from_json(self.form)


def alternatives_of(revision: Revision) -> tuple[Alternative, ...]:
    """Return a revision's alternatives as the office chose them, the first one first."""
    first = {"name": revision.alternative_name, "choices": revision.choices}
    return tuple(
        Alternative(number, each["name"], each["choices"])
        for number, each in enumerate([first, *revision.alternatives])
    )


def keep_alternatives(revision: Revision, alternatives: list[Alternative]) -> None:
    """Put alternatives into a revision's columns in their order, and save those.

    What the owner was asked was about the draft as it stood, so a change takes that back.
    """
    first, *others = alternatives
    revision.alternative_name, revision.choices = first.name, dict(first.form)
    revision.alternatives = [{"name": each.name, "choices": dict(each.form)} for each in others]
    revision.save(update_fields=["alternative_name", "choices", "alternatives", "changed_at"])
    if revision.owner_asked_at:
        keep_standing(revision.quote)


def number_asked(typed: str | None, *, of: int) -> int | None:
    """Read which of a number of alternatives an address or a form names; None where it names none of them."""
    number = int(typed) if typed and typed.isascii() and typed.isdigit() and len(typed) < 4 else None
    return number if number is not None and number < of else None


def carried_over(revision: Revision, *, tax_point: date) -> dict[str, Any]:
    """Return what another revision takes over of this one's alternatives, with another day of the work."""
    first, *others = (
        {"name": each.name, "choices": {**with_usual_stages(each.form), "tax_point": tax_point.isoformat()}}
        for each in alternatives_of(revision)
    )
    return {"choices": first["choices"], "alternative_name": first["name"], "alternatives": others}
