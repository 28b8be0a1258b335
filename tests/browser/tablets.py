"""A tablet in a test: a touch browser with a profile of its own, that can be shut and opened again."""

from __future__ import annotations

import io
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from random import Random

from PIL import Image
from playwright.sync_api import Browser, BrowserContext, Locator, Page, expect

from jobs.surveys.models import Survey
from tests.conftest import CHROMIUM, PATIENCE_MS, QUIET

SAVED = "Saved in the office"


@contextmanager
def tablet(
    browser: Browser, profile: Path, address: str, *, offline: bool = False
) -> Iterator[BrowserContext]:
    """Open the browser of a tablet; what it kept when it was shut last is there."""
    complaints: list[str] = []
    context = browser.browser_type.launch_persistent_context(
        str(profile),
        executable_path=CHROMIUM,
        args=QUIET,
        base_url=address,
        has_touch=True,
        viewport={"width": 820, "height": 1180},
        offline=offline,
    )
    context.set_default_timeout(PATIENCE_MS)
    context.on("weberror", lambda failure: complaints.append(str(failure.error)))
    try:
        yield context
    finally:
        context.close()
    assert not complaints


def open_section(page: Page, survey: Survey, section: str) -> None:
    page.goto(f"/surveys/{survey.number}/{section}/")
    page.wait_for_selector("body[data-ready]")


def wait_until_kept(page: Page) -> None:
    """Wait until the pages lie on the tablet and are served from there."""
    page.evaluate("() => navigator.serviceWorker.ready.then(() => true)")
    page.wait_for_function("() => navigator.serviceWorker.controller !== null")


def state(page: Page) -> Locator:
    return page.locator("#tablet-state")


def expect_saved(page: Page) -> None:
    expect(state(page)).to_have_text(SAVED)


def photograph(random: Random, *, width: int = 900, height: int = 600) -> bytes:
    """Return a JPEG that is unlike any other and does not shrink to nothing: noise, as in a dark loft."""
    noise = Image.frombytes("RGB", (width, height), random.randbytes(width * height * 3))
    written = io.BytesIO()
    noise.save(written, "JPEG", quality=80)
    return written.getvalue()


def take_photographs(page: Page, *pictures: bytes) -> None:
    files = [
        {"name": f"{number}.jpg", "mimeType": "image/jpeg", "buffer": picture}
        for number, picture in enumerate(pictures)
    ]
    page.locator("[name=pictures]").set_input_files(files)
    expect(page.locator("#taking")).to_have_text(f"{len(pictures)} kept on this tablet.")
