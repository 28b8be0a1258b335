"""What any test may ask for: programs of the machine, a browser, pages that fail on console errors."""

from __future__ import annotations

import os
import re
import shutil
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from typing import TYPE_CHECKING, Any

import pytest
from hypothesis import settings

from tests.private_postgresql import server_programs
from tests.requests_under_way import RequestsUnderWay

if TYPE_CHECKING:
    from playwright.sync_api import Browser, BrowserContext, Page

CHROMIUM = shutil.which("chromium-headless-shell") or shutil.which("chromium")
"""The shell draws the same pages without the desktop's windows, in three quarters of the time."""

NEEDS = {
    "requires_chromium": ("chromium-headless-shell", lambda: CHROMIUM),
    "requires_postgresql": ("postgresql", server_programs),
    "requires_poppler": ("poppler-utils", lambda: shutil.which("pdftotext") and shutil.which("pdftoppm")),
}
"""Marker, the Debian package that brings the program, and how to tell that it is there."""

REFUSED_ON_PURPOSE = re.compile(
    r"Failed to load resource.* "
    r"(status of (401|403|409|422|429)|net::ERR_(INTERNET_DISCONNECTED|FAILED|ABORTED))"
    r"|htmx:(afterRequest|sendAbort|sendError), "
    r"|Response Status Error Code (401|403|409|429) "
)
"""The browser's note of an answer that a test provokes, of a line that it cut, or of a page that it left amid
a question; a missing file (404) or a failure (500) counts."""


# A busy machine is not a fault. What must hold on every push is tried on the same examples each time; new
# ones are found by whoever runs the tests at a desk.
settings.register_profile("desk", deadline=None)
settings.register_profile("ci", deadline=None, derandomize=True)


def pytest_configure(config: pytest.Config) -> None:
    settings.load_profile("ci" if os.environ.get("CI") == "true" else "desk")
    for marker, (package, _is_there) in NEEDS.items():
        config.addinivalue_line(
            "markers", f"{marker}: skipped where Debian's {package} is missing, unless CI=true"
        )


def pytest_runtest_setup(item: pytest.Item) -> None:
    for marker, (package, is_there) in NEEDS.items():
        if item.get_closest_marker(marker) and not is_there():
            missing = f"needs {package}: apt-get install --yes --no-install-recommends {package}"
            if os.environ.get("CI") == "true":
                pytest.fail(f"{missing} (compulsory, because CI=true)", pytrace=False)
            pytest.skip(missing)


PATIENCE_MS = 40_000
"""A paper on a busy machine takes its time; what never comes fails late rather than by chance."""

QUIET = ["--disable-background-networking", "--disable-component-update", "--disable-sync", "--no-first-run"]


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    """One Chromium for the whole session; tests that use it carry the marker requires_chromium."""
    from playwright.sync_api import expect, sync_playwright  # noqa: PLC0415 - a second, for these tests only

    # Playwright keeps an event loop in this thread from now on; Django would refuse every query under it.
    os.environ["DJANGO_ALLOW_ASYNC_UNSAFE"] = "true"
    expect.set_options(timeout=PATIENCE_MS)
    with sync_playwright() as playwright:
        chromium = playwright.chromium.launch(
            executable_path=CHROMIUM,
            args=QUIET,
        )
        yield chromium
        chromium.close()


@contextmanager
def open_pages(browser: Browser, base_url: str) -> Iterator[Callable[..., Page]]:
    """Give a maker of pages; fail at the end if a console complained or anything was fetched from outside."""
    contexts: list[BrowserContext] = []
    complaints: list[str] = []
    outside: set[str] = set()
    ours = (base_url, "data:", "blob:", "about:")

    def make(*, width: int = 1440, height: int = 900, touch: bool = False, **options: Any) -> Page:
        size = {"width": width, "height": height}
        context = browser.new_context(base_url=base_url, viewport=size, has_touch=touch, **options)
        contexts.append(context)
        context.set_default_timeout(PATIENCE_MS)
        context.on("console", lambda message: message.type == "error" and complaints.append(message.text))
        context.on("request", lambda asked: asked.url.startswith(ours) or outside.add(asked.url))
        context.on("weberror", lambda failure: complaints.append(str(failure.error)))
        return context.new_page()

    try:
        yield make
    finally:
        for context in contexts:
            context.close()
    unexpected = [complaint for complaint in complaints if not REFUSED_ON_PURPOSE.match(complaint)]
    assert not unexpected, f"the browser's console complained: {unexpected}"
    assert not outside, f"the pages asked for what is not ours: {sorted(outside)}"


@pytest.fixture(autouse=True)
def answered_before_the_tables_are_emptied(request: pytest.FixtureRequest) -> Iterator[None]:
    """Empty the tables only when the site answers nobody any more: PostgreSQL would see a deadlock."""
    if "live_server" not in request.fixturenames:
        yield
        return
    request.getfixturevalue("transactional_db")  # so that this ends after the browser's pages and before it
    under_way = RequestsUnderWay()
    yield
    under_way.wait_for_none()
    under_way.stop()


@pytest.fixture
def new_page(browser: Browser, live_server, settings) -> Iterator[Callable[..., Page]]:
    """Make pages of the live site, each in a context of its own: `new_page(width=820, touch=True)`.

    Use with `pytest.mark.django_db(transaction=True)` and `requires_chromium`. Other keywords go to the
    context (`java_script_enabled=False`, `color_scheme="dark"`). Addresses may be paths: `page.goto("/")`.
    """
    settings.BASE_URL = live_server.url
    with open_pages(browser, live_server.url) as make:
        yield make


@pytest.fixture
def page(new_page: Callable[..., Page]) -> Page:
    """Return one page at the width of a desk screen."""
    return new_page()
