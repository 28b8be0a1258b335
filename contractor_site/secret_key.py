"""The key that signs sessions: made on the first run, kept in the data folder, read by its owner alone."""

from __future__ import annotations

import secrets
from pathlib import Path


def read_or_make(path: Path) -> str:
    """Return the key of this installation."""
    try:
        return path.read_text().strip()
    except FileNotFoundError:
        path.parent.mkdir(parents=True, exist_ok=True, mode=0o700)
    # Two workers may start at once: whoever links first wins, and both read the winner's key.
    draft = path.with_name(f"{path.name}.{secrets.token_hex(8)}")
    draft.touch(mode=0o600)
    draft.write_text(secrets.token_urlsafe(64))
    try:
        path.hardlink_to(draft)
    except FileExistsError:
        pass
    finally:
        draft.unlink()
    return path.read_text().strip()
