"""Read what the HTTPS proxy says of the request, and say which header it left out."""

from __future__ import annotations

from collections.abc import Callable

from django.conf import settings
from django.http import HttpRequest, HttpResponse


class BehindProxy:
    """Only acts when BASE_URL is https: then every request comes through a proxy that speaks HTTPS for us."""

    def __init__(self, get_response: Callable[[HttpRequest], HttpResponse]) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        if not settings.BEHIND_HTTPS_PROXY or request.path == "/health":
            return self.get_response(request)
        if "HTTP_X_FORWARDED_PROTO" not in request.META:
            return _says_nothing_of_https()
        forwarded_for = request.META.get("HTTP_X_FORWARDED_FOR", "")
        if forwarded_for:
            # The last address is the one our own proxy saw; those before it are the visitor's claim.
            request.META["REMOTE_ADDR"] = forwarded_for.rsplit(",", 1)[-1].strip()
        return self.get_response(request)


def _says_nothing_of_https() -> HttpResponse:
    """Answer in place of a redirect to HTTPS, which without the header would go round for ever."""
    return HttpResponse(
        f"BASE_URL is {settings.BASE_URL}, but the request came without the header X-Forwarded-Proto.\n"
        "Tell the reverse proxy to set it (https for visitors who came by HTTPS), then load it again.\n",
        status=400,
        content_type="text/plain; charset=utf-8",
    )
