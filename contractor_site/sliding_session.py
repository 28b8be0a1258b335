"""Let a session last while it is used: each touch moves its end, but not each touch is worth a write."""

from __future__ import annotations

import time
from collections.abc import Callable

from django.http import HttpRequest, HttpResponse

WRITE_AFTER_SECONDS = 600
LAST_MOVED = "end_moved_at"


class SlidingSession:
    """SESSION_SAVE_EVERY_REQUEST without its write on every request."""

    def __init__(self, get_response: Callable[[HttpRequest], HttpResponse]) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        now = int(time.time())
        if request.user.is_authenticated and now - request.session.get(LAST_MOVED, 0) >= WRITE_AFTER_SECONDS:
            request.session[LAST_MOVED] = now
        return self.get_response(request)
