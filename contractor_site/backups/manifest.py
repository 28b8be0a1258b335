"""What an archive says of itself, so that a restore can prove it before it touches anything."""

from __future__ import annotations

import json
import tomllib
from dataclasses import asdict, dataclass
from pathlib import Path
from typing import Any

from django.conf import settings

FORMAT = 1
"""Raised when archives change shape; `read_manifest` goes on taking every lower number."""

MANIFEST = "manifest.json"


class Refused(Exception):
    """Why there will be no backup or no restore, in words that say what to do."""


class CannotBackUp(Refused):
    """No archive was made."""


class CannotRestore(Refused):
    """The archive was not restored, and nothing has been touched."""


@dataclass(frozen=True, slots=True)
class Member:
    """A file of the archive as it was when it went in."""

    sha256: str
    size_bytes: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Manifest:
    """The archive's own account of what it holds."""

    format: int
    made_at: str
    version: str
    engine: str
    migrations: tuple[tuple[str, str], ...]
    members: dict[str, Member]

    def to_json(self) -> bytes:
        return json.dumps(asdict(self), indent=1).encode()


def read_manifest(written: bytes) -> Manifest:
    """Return the manifest, or refuse what is not one of ours or is newer than this version of the site."""
    try:
        fields: dict[str, Any] = json.loads(written)
        if fields["format"] > FORMAT:
            raise CannotRestore(
                f"The archive was made by a newer version ({fields['version']}): upgrade this site first."
            )
        return Manifest(
            format=fields["format"],
            made_at=str(fields["made_at"]),
            version=str(fields["version"]),
            engine=str(fields["engine"]),
            migrations=tuple((app, name) for app, name in fields["migrations"]),
            members={name: Member(**member) for name, member in fields["members"].items()},
        )
    except (ValueError, KeyError, TypeError, AttributeError) as error:
        raise CannotRestore(
            "The archive's manifest cannot be read: the file is damaged or no backup."
        ) from error


def version_of_this_site() -> str:
    """Return the version in pyproject.toml, the one place where it is written."""
    with Path(settings.ROOT / "pyproject.toml").open("rb") as file:
        return str(tomllib.load(file)["project"]["version"])
