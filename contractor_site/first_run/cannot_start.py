"""Why the site cannot start, in one line that says what to do."""

from __future__ import annotations

import errno


class CannotStart(Exception):
    """Something on this machine stands in the way; the message is for the person at the keyboard."""


def why_it_failed(error: OSError) -> str | None:
    """Return one line saying what a person can put right, or None when the failure is ours."""
    place = f" at {error.filename}" if error.filename else ""
    if error.errno in (errno.ENOSPC, errno.EDQUOT):
        return f"The disk is full{place}. Free some space and run the command again."
    if error.errno in (errno.EACCES, errno.EPERM):
        return f"No permission to write{place}. Run as its owner, or give yourself write access."
    if error.errno == errno.EROFS:
        return f"The disk is read-only{place}. Put the project on a disk that can be written."
    return None
