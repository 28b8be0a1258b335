"""HTML to PDF, with everything it may read named beforehand."""

from __future__ import annotations

import atexit
import gc
import mimetypes
import re
from collections.abc import Mapping
from functools import cache
from pathlib import Path
from threading import Lock
from typing import Any
from urllib.parse import unquote, urlsplit

from django.contrib.staticfiles import finders
from django.template.loader import render_to_string

from jobs.firm.logo import read_logo
from jobs.kept_files import FileDamaged

SCHEME = "app"
LOGO = re.compile(r"logos/([0-9a-f]{64})\.png")
STYLESHEETS = ("css/print_fonts.css", "css/tokens.css", "css/print.css", "css/print_survey.css")
_one_at_a_time = Lock()  # Pango's fonts are shared by all papers of a process and must not be by two threads


class PdfUnavailable(Exception):
    """The PDF cannot be made; the message says what to do."""


def pdf_from_template(template: str, context: Mapping[str, Any]) -> bytes:
    """Render a document template to a tagged PDF.

    The template may refer to the app's own static files as app:///img/mark.png, to a kept logo as
    app:///logos/<digest>.png and to nothing else: a customer's words can never make the server read a file
    or call an address.
    """
    return _typeset(render_to_string(template, dict(context)))


def _typeset(html: str) -> bytes:
    weasyprint = _weasyprint()
    document = weasyprint.HTML(string=html, base_url=f"{SCHEME}:///", url_fetcher=_static_files_only())
    try:
        with _one_at_a_time:
            fonts, stylesheets = _dress()
            pdf: bytes = document.write_pdf(
                stylesheets=stylesheets, font_config=fonts, pdf_variant="pdf/ua-1"
            )
    except weasyprint.urls.FatalURLFetchingError as refused:
        raise PdfUnavailable(str(refused)) from refused
    return pdf


def _weasyprint() -> Any:
    # Imported late: without Pango the import itself fails, and every page but the papers works without it.
    try:
        import weasyprint  # noqa: PLC0415
    except OSError as missing:
        raise PdfUnavailable(
            "Papers need Pango: apt install libpango-1.0-0 libpangoft2-1.0-0 libharfbuzz-subset0"
        ) from missing
    return weasyprint


@cache
def _dress() -> tuple[Any, list[Any]]:
    """Read the papers' stylesheets and fonts once: unpacking the fonts takes longer than a page does."""
    from weasyprint import CSS  # noqa: PLC0415
    from weasyprint.text.fonts import FontConfiguration  # noqa: PLC0415

    fonts = FontConfiguration()
    atexit.register(_dress.cache_clear)  # its own clean-up fails once the interpreter has begun to go
    fetcher = _static_files_only()
    sheets = [CSS(url=f"{SCHEME}:///{name}", url_fetcher=fetcher, font_config=fonts) for name in STYLESHEETS]
    gc.collect()
    gc.freeze()  # all that was read stays: looking through it for rubbish is a seventh of a paper's time
    return fonts, sheets


def _static_files_only() -> Any:
    from weasyprint.urls import FatalURLFetchingError, URLFetcher, URLFetcherResponse  # noqa: PLC0415

    class StaticFilesOnly(URLFetcher):  # type: ignore[misc]
        def fetch(self, url: str, headers: Mapping[str, str] | None = None) -> URLFetcherResponse:
            address = urlsplit(url)
            name = unquote(address.path).lstrip("/")
            if address.scheme == SCHEME and (logo := LOGO.fullmatch(name)):
                try:
                    return URLFetcherResponse(url, read_logo(logo[1]), {"Content-Type": "image/png"})
                except FileDamaged as lost:
                    raise FatalURLFetchingError(f"The firm's logo: {lost}") from lost
            found = finders.find(name) if address.scheme == SCHEME and ".." not in name else None
            if not found:
                raise FatalURLFetchingError(f"A paper asked for {url}, which is no file of this app.")
            kind = mimetypes.guess_type(name)[0] or "application/octet-stream"
            return URLFetcherResponse(url, Path(found).read_bytes(), {"Content-Type": kind})

    return StaticFilesOnly(allowed_protocols=(SCHEME,), allow_redirects=False)
