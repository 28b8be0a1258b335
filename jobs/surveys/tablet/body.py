"""A change as a tablet sends it: an envelope with a number and a digest, and in it the change itself as text.

The envelope proves that the text came whole; the text is kept for good. Whatever is wrong with the envelope
happened on the way and is sent again; a text that came whole and says nothing we know is kept for a person.
"""

from __future__ import annotations

import hashlib
import json
import re
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any
from uuid import UUID

MOST_BYTES = 256 * 1024
MOST_FIELDS = 500
MOST_ENVELOPE_BYTES = 2 * MOST_BYTES + 1024
"""The text lies in the envelope as JSON, which writes each quotation mark as two letters."""

_DIGEST = re.compile(r"[0-9a-f]{64}")
_NOT_KEPT = re.compile("[\ud800-\udfff\0]")
"""What no database keeps: halves of a letter that a box cut in two, and the letter nought."""


class Damaged(Exception):
    """The envelope is not one, or its text is not what was digested: nothing in it can be trusted."""


class TooLarge(Exception):
    """The text is longer than any change may be: sent again, it would be so again."""


class Unreadable(Exception):
    """The text came whole, and is no change that this version of the site knows."""


@dataclass(frozen=True, slots=True)
class Envelope:
    """A change's number, the digest of its text, and the text."""

    id: UUID
    digest: str
    body: str


@dataclass(frozen=True, slots=True)
class Change:
    """What every change tells of itself; `told` is the rest, by its kind."""

    form_version: int
    tablet: UUID
    number: int
    made_at: str
    kind: str
    told: Mapping[str, Any]


def read_envelope(content: bytes) -> Envelope:
    """Read and prove an envelope; raises Damaged and TooLarge."""
    told = _json(content, Damaged)
    number, digest, body = told.get("id"), told.get("digest"), told.get("body")
    if not (isinstance(number, str) and isinstance(digest, str) and isinstance(body, str)):
        raise Damaged("It has no number, no digest or no text.")
    if _NOT_KEPT.search(body):
        raise Damaged("It holds letters that no tablet writes.")
    written = body.encode()
    if len(written) > MOST_BYTES:
        raise TooLarge
    if not _DIGEST.fullmatch(digest) or hashlib.sha256(written).hexdigest() != digest:
        raise Damaged("It is not what the tablet sent.")
    return Envelope(_uuid(number, Damaged), digest, body)


def read_change(body: str) -> Change:
    """Read what a change says; raises Unreadable."""
    told = _json(body, Unreadable)
    return Change(
        form_version=whole(told.get("form"), most=32_767),
        tablet=_uuid(told.get("tablet"), Unreadable),
        number=whole(told.get("number"), most=2**53),
        made_at=text(told.get("made_at"), most=40),
        kind=text(told.get("kind"), most=20),
        told=told,
    )


def read_fields(told: Mapping[str, Any]) -> dict[str, tuple[str, str]]:
    """Return the boxes that a change names, each with what stood in it before and after."""
    fields = told.get("fields")
    if not isinstance(fields, dict) or len(fields) > MOST_FIELDS:
        raise Unreadable(f"It must name at most {MOST_FIELDS} answers.")
    return {text(name, most=100): _before_and_after(pair) for name, pair in fields.items()}


def _before_and_after(pair: Any) -> tuple[str, str]:
    if not isinstance(pair, list) or len(pair) != 2:
        raise Unreadable("An answer must come with what stood there before.")
    return text(pair[0]), text(pair[1])


def text(told: Any, *, most: int = MOST_BYTES) -> str:
    """Return a text, or refuse what is none."""
    if not isinstance(told, str) or len(told) > most:
        raise Unreadable(f"A text is missing, or longer than {most} letters.")
    return _NOT_KEPT.sub("\N{REPLACEMENT CHARACTER}", told)


def whole(told: Any, *, most: int, least: int = 0) -> int:
    """Return a whole number, or refuse what is none."""
    if not isinstance(told, int) or isinstance(told, bool) or not least <= told <= most:
        raise Unreadable(f"A whole number from {least} to {most} is missing.")
    return told


def digest_of(told: Any) -> str:
    """Return a digest, or refuse what is none."""
    if not isinstance(told, str) or not _DIGEST.fullmatch(told):
        raise Unreadable("A digest is missing.")
    return told


def _uuid(told: Any, refuse: type[Exception]) -> UUID:
    try:
        return UUID(told)
    except (ValueError, TypeError, AttributeError):
        raise refuse("A number made on the tablet is missing.") from None


def _json(content: bytes | str, refuse: type[Exception]) -> dict[str, Any]:
    try:
        told = json.loads(content)
    except (ValueError, RecursionError):
        raise refuse("It cannot be read.") from None
    if not isinstance(told, dict):
        raise refuse("It cannot be read.")
    return told
