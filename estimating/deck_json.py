"""Deck tasks and laid decks as JSON, so that a layout can be kept under the task that asked for it.

Neither form is offered to others: they are read back by the program that wrote them, or not at all.
"""

from __future__ import annotations

import hashlib
import json
from dataclasses import dataclass
from typing import Any

from estimating.design.boards.layout import Bound, LaidDeck, Layout, NoLayout
from estimating.design.boards.problem import DeckTask
from estimating.json_records import as_json, read_record

SOLVER_VERSION = 4
"""Raise it whenever the same task may get another answer: what was kept before is then not found again."""


@dataclass(frozen=True, slots=True)
class _LaidZone:
    """One of the two, because the reader tells records apart by their field and not by their shape."""

    layout: Layout | None
    no_layout: NoLayout | None


@dataclass(frozen=True, slots=True)
class _LaidForm:
    zones: tuple[_LaidZone, ...]
    cost: int
    bound: Bound | None


def deck_task_as_json(task: DeckTask) -> dict[str, Any]:
    """Write a deck task.

    Args:
        task: The zones and the boards to cut from. Record. [mm]

    Returns:
        The JSON-ready form. Mapping. [-]

    Source:
        Own definition of the format.
    """
    return _form(task)


def deck_task_from_json(given: object) -> DeckTask:
    """Read a deck task.

    Args:
        given: The parsed JSON. Mapping. [-]

    Returns:
        The task. Record. [mm]

    Raises:
        Refusal: Everything that is wrong with it, at once.

    Source:
        Own definition of the format.
    """
    return read_record(DeckTask, given)


def deck_task_digest(form: dict[str, Any]) -> str:
    """Name a task by what is in it, so that equal tasks have one name in every process.

    Args:
        form: The task as JSON. Mapping. [-]

    Returns:
        The digest of the task and of the solver's version. Text. [-]

    Source:
        BLAKE2b, RFC 7693.
    """
    written = json.dumps([SOLVER_VERSION, form], sort_keys=True, separators=(",", ":"))
    return hashlib.blake2b(written.encode(), digest_size=16).hexdigest()


def laid_deck_as_json(laid: LaidDeck) -> dict[str, Any]:
    """Write a laid deck with its bound and the certificate.

    Args:
        laid: The deck laid. Record. [mm]

    Returns:
        The JSON-ready form. Mapping. [-]

    Source:
        Own definition of the format.
    """
    zones = tuple(
        _LaidZone(zone, None) if isinstance(zone, Layout) else _LaidZone(None, zone) for zone in laid.zones
    )
    return _form(_LaidForm(zones, laid.cost, laid.bound))


def laid_deck_from_json(given: object) -> LaidDeck:
    """Read a laid deck.

    Args:
        given: The parsed JSON. Mapping. [-]

    Returns:
        The deck laid. Record. [mm]

    Raises:
        Refusal: Everything that is wrong with it, at once.

    Source:
        Own definition of the format.
    """
    form = read_record(_LaidForm, given)
    zones = tuple(each for zone in form.zones for each in (zone.layout, zone.no_layout) if each is not None)
    return LaidDeck(zones, form.cost, form.bound)


def _form(record: object) -> dict[str, Any]:
    form = as_json(record)
    assert isinstance(form, dict)  # noqa: S101 - records become mappings
    return form
