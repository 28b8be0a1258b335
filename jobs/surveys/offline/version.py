"""The version of the pages that a tablet keeps: another one as soon as any file that makes them changes."""

from __future__ import annotations

import hashlib
from collections.abc import Callable, Iterator
from functools import lru_cache
from pathlib import Path

from django.conf import settings
from django.http import HttpRequest, HttpResponse

_MADE_FROM = (
    ("templates", "*.html"), ("static", "*"), ("jobs/surveys", "*.py"), ("jobs/surveys", "*.js"),
    ("estimating/survey", "*.py"), ("estimating/published", "hazards.py"),
)  # fmt: skip
_KEPT_STATIC = ("css", "js", "fonts", "img")


def pages_version() -> str:
    """Return the version of the kept pages; worked out once for a process that serves."""
    return _digest() if settings.DEBUG else _digest_once()


class TellPagesVersion:
    """Middleware: tell a tablet with each page whether the files that it keeps are still the right ones."""

    def __init__(self, get_response: Callable[[HttpRequest], HttpResponse]) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        response = self.get_response(request)
        if request.user.is_authenticated and response.get("Content-Type", "").startswith("text/html"):
            response["Pages-Version"] = pages_version()
        return response


def static_files() -> list[str]:
    """Return every static file that a kept page may ask for, by its path under the static folder."""
    root = Path(settings.ROOT) / "static"
    return sorted(
        str(file.relative_to(root))
        for folder in _KEPT_STATIC
        for file in (root / folder).rglob("*")
        if file.suffix in {".css", ".js", ".woff2", ".svg", ".ico"}
    )


def _digest() -> str:
    told = hashlib.sha256()
    for file in _files():
        told.update(str(file).encode())
        told.update(file.read_bytes())
    return told.hexdigest()[:16]


_digest_once = lru_cache(maxsize=1)(_digest)


def _files() -> Iterator[Path]:
    for folder, pattern in _MADE_FROM:
        yield from sorted(file for file in (Path(settings.ROOT) / folder).rglob(pattern) if file.is_file())
