"""Add, rename and remove the alternatives of a draft."""

from __future__ import annotations

from dataclasses import replace

from django.db import transaction

from jobs.quotes.alternatives import MOST_ALTERNATIVES, Alternative, alternatives_of, keep_alternatives
from jobs.quotes.drafts.services import locked_draft
from jobs.quotes.models import Revision

MOVED = "The alternatives of this quote were changed meanwhile, so nothing was done. Look at them again."


class CannotBeSo(Exception):
    """The alternatives cannot be changed so; the message tells the office why."""


@transaction.atomic
def add_alternative(revision: Revision, *, name: str, copy_of: int = 0) -> int:
    """Add an alternative that begins as a copy of another, and return its number."""
    draft, held = _draft(revision)
    if len(held) >= MOST_ALTERNATIVES:
        raise CannotBeSo(f"A quote offers at most {MOST_ALTERNATIVES} alternatives: remove one first.")
    added = Alternative(len(held), _free_name(name, held), _one_of(held, copy_of).form)
    keep_alternatives(draft, [*held, added])
    return added.number


@transaction.atomic
def rename_alternative(revision: Revision, number: int, *, name: str) -> None:
    """Give an alternative another name, by which the customer picks it."""
    draft, held = _draft(revision)
    _one_of(held, number)
    others = [each for each in held if each.number != number]
    held[number] = replace(held[number], name=_free_name(name, others))
    keep_alternatives(draft, held)


@transaction.atomic
def remove_alternative(revision: Revision, number: int) -> None:
    """Take an alternative out of a draft; those after it move up."""
    draft, held = _draft(revision)
    _one_of(held, number)
    if len(held) == 1:
        raise CannotBeSo("This is the only way to do the job that is offered: change it instead.")
    keep_alternatives(draft, [each for each in held if each.number != number])


def _draft(revision: Revision) -> tuple[Revision, list[Alternative]]:
    draft = locked_draft(revision)
    return draft, list(alternatives_of(draft))


def _one_of(held: list[Alternative], number: int) -> Alternative:
    if not 0 <= number < len(held):
        raise CannotBeSo(MOVED)
    return held[number]


def _free_name(name: str, others: list[Alternative]) -> str:
    """Return a name that a customer can tell from the others."""
    name = " ".join(name.split())
    longest = Revision._meta.get_field("alternative_name").max_length
    if not name:
        raise CannotBeSo("Name of the alternative is missing.")
    if len(name) > longest:
        raise CannotBeSo(f"Name of the alternative must not be longer than {longest} letters.")
    if name.casefold() in {each.shown.casefold() for each in others}:
        raise CannotBeSo(f"Another alternative is called {name} already.")
    return name
