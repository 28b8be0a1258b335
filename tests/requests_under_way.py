"""How many requests a site in this process is answering: a browser that is shut leaves some behind."""

from __future__ import annotations

import time
from threading import Lock

from django.core.signals import request_finished, request_started

PATIENCE_SECONDS = 10
QUIET_SECONDS = 0.1
"""What was sent before the browser shut may still lie unread for a moment."""


class RequestsUnderWay:
    """Counts requests from their beginning to their end, whichever thread answers them."""

    def __init__(self) -> None:
        self._lock = Lock()
        self._count = 0
        self._last_change = time.monotonic()
        request_started.connect(self._begin)
        request_finished.connect(self._end)

    def wait_for_none(self) -> None:
        """Return once none was under way for a moment; what never ends is left to fail where it matters."""
        given_up = time.monotonic() + PATIENCE_SECONDS
        while time.monotonic() < given_up and not self._is_quiet():
            time.sleep(QUIET_SECONDS / 5)

    def stop(self) -> None:
        request_started.disconnect(self._begin)
        request_finished.disconnect(self._end)

    def _is_quiet(self) -> bool:
        return not self._count and time.monotonic() - self._last_change > QUIET_SECONDS

    def _begin(self, **_: object) -> None:
        self._move(1)

    def _end(self, **_: object) -> None:
        self._move(-1)

    def _move(self, by: int) -> None:
        with self._lock:
            self._count += by
            self._last_change = time.monotonic()
