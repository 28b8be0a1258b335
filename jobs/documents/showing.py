"""Show papers in the browser, and say what is wrong where a kept one cannot be shown."""

from __future__ import annotations

import logging
from collections.abc import Callable

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render

from jobs.kept_files import FileDamaged

logger = logging.getLogger(__name__)


def show_pdf(pdf: bytes, *, filename: str) -> HttpResponse:
    """Return a paper for one person's eyes, to be read in the browser or saved under a name."""
    headers = {"Content-Disposition": f'inline; filename="{filename}"', "Cache-Control": "private, no-store"}
    return HttpResponse(pdf, content_type="application/pdf", headers=headers)


class TellDamagedFiles:
    """Answer for a kept file that is missing or changed with what to do about it, not with a breakdown."""

    def __init__(self, get_response: Callable[[HttpRequest], HttpResponse]) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        return self.get_response(request)

    def process_exception(self, request: HttpRequest, exception: Exception) -> HttpResponse | None:
        if not isinstance(exception, FileDamaged):
            return None
        logger.error("kept file not shown", exc_info=exception)
        return render(request, "documents/damaged.html", {"words": str(exception)}, status=503)
