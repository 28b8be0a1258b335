"""How much a file may hold, whatever kind it is, and the "no" to one that holds more."""

from __future__ import annotations

MOST_BYTES = 2 * 1024 * 1024
MOST_ROWS = 5000
MOST_COLUMNS = 100


class CannotRead(Exception):
    """The file as a whole cannot be read; the message tells whoever sent it what to do."""
