"""Logs as one JSON object a line, with the request's id and without anything a customer typed."""

from __future__ import annotations

import json
import logging
import traceback
from contextvars import ContextVar
from datetime import UTC, datetime

request_id: ContextVar[str] = ContextVar("request_id", default="")


class JsonLines(logging.Formatter):
    """Format a record for a machine to read."""

    def format(self, record: logging.LogRecord) -> str:
        request = getattr(record, "request", None)
        # The message of Django's request log holds the path, and a customer's link is a path.
        message = route_of(request) if request is not None else record.getMessage()
        line: dict[str, object] = {
            "at": datetime.fromtimestamp(record.created, UTC).isoformat(timespec="milliseconds"),
            "level": record.levelname,
            "logger": record.name,
            "message": message,
            **getattr(record, "figures", {}),
        }
        if request_id.get():
            line["request_id"] = request_id.get()
        if record.exc_info and record.exc_info[1] is not None:
            line["failure"] = _failure(record.exc_info[1])
        return json.dumps(line, ensure_ascii=False, default=str)


def route_of(request: object) -> str:
    """Return the pattern that matched, never the path itself."""
    match = getattr(request, "resolver_match", None)
    return f"/{match.route}" if match else "(no page)"


def _failure(error: BaseException) -> dict[str, object]:
    # The exception's own words are left out: a database repeats the row it refused, a parser what was typed.
    frames = traceback.extract_tb(error.__traceback__)
    return {
        "kind": type(error).__name__,
        "trace": [f"{frame.filename}:{frame.lineno} {frame.name}" for frame in frames],
        **({"because": _failure(error.__cause__)} if error.__cause__ else {}),
    }
