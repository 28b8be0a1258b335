"""A tablet for tests: it writes changes as the script does, and remembers nothing."""

from __future__ import annotations

import hashlib
import io
import json
from typing import Any
from uuid import UUID, uuid4

from django.test import Client
from PIL import Image

from jobs.surveys.form_version import FORM_VERSION

TABLET, OTHER_TABLET = UUID(int=1), UUID(int=2)
PIECE = 200


def envelope(kind: str, *, tablet: UUID = TABLET, id: UUID | None = None, **told: Any) -> dict[str, str]:
    """Return a change as a tablet would write it."""
    written = {
        "form": FORM_VERSION,
        "tablet": str(tablet),
        "number": 1,
        "made_at": "2026-11-18T10:00:00Z",
        "kind": kind,
        **told,
    }
    return sealed(json.dumps(written), id=id)


def sealed(body: str, *, id: UUID | None = None) -> dict[str, str]:
    """Return a text with a number and its digest."""
    return {
        "id": str(id or uuid4()),
        "digest": hashlib.sha256(body.encode("utf-8", "surrogatepass")).hexdigest(),
        "body": body,
    }


def answers(section: str = "roof", *, tablet: UUID = TABLET, **fields: tuple[str, str]) -> dict[str, str]:
    return envelope("answers", tablet=tablet, section=section, fields=fields)


def send(client: Client, number: str, change: dict[str, str]) -> Any:
    """Post a change and return the response."""
    return client.post(
        f"/surveys/{number}/changes/", json.dumps(change), content_type="application/json",
        headers={"accept": "application/json"},
    )  # fmt: skip


def picture(colour: str = "saddlebrown", size: tuple[int, int] = (24, 16), kind: str = "JPEG") -> bytes:
    written = io.BytesIO()
    Image.new("RGB", size, colour).save(written, kind)
    return written.getvalue()


def digest(content: bytes) -> str:
    return hashlib.sha256(content).hexdigest()


def put(client: Client, number: str, content: bytes, begins_at: int, ends_at: int, **also: Any) -> Any:
    """Send one piece of a photograph."""
    headers = {"upload-offset": str(begins_at), "upload-length": str(len(content)), **also}
    return client.put(
        f"/surveys/{number}/photographs/{digest(content)}/", content[begins_at:ends_at],
        content_type="application/octet-stream", headers={"accept": "application/json", **headers},
    )  # fmt: skip


def upload(client: Client, number: str, content: bytes, *, piece: int = PIECE) -> Any:
    """Send a photograph piece by piece and return the last answer."""
    response = None
    for begins_at in range(0, len(content), piece):
        response = put(client, number, content, begins_at, begins_at + piece)
        assert response.status_code == 200, response.content
    return response
