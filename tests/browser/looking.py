"""What every screen is held to: it fits its width, and axe finds nothing on it."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page

WCAG = {
    "runOnly": {"type": "tag", "values": ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22a", "wcag22aa"]}
}
CONTRAST = {"runOnly": {"type": "rule", "values": ["color-contrast"]}}
WIDTHS = (390, 820, 1440)
QUIET_MS = 300


def too_wide(page: Page) -> Iterator[str]:
    """Yield the widths at which the page can be pushed sideways."""
    for width in WIDTHS:
        page.set_viewport_size({"width": width, "height": 900})
        shown, needed = page.evaluate(
            "[document.documentElement.clientWidth, document.documentElement.scrollWidth]"
        )
        if needed > shown:
            yield f"{width} px: {needed} px are needed"


def show_whole(page: Page, *, width: int) -> None:
    """Make the window as tall as the page: what a bar at its foot covers can be scrolled clear of it."""
    page.set_viewport_size({"width": width, "height": 900})
    tall = 0
    while tall != (tall := page.evaluate("document.documentElement.scrollHeight")):
        page.wait_for_timeout(QUIET_MS)  # what was understood appears beneath each box a moment later
    page.set_viewport_size({"width": width, "height": tall})


def violations(page: Page, rules: dict[str, Any]) -> list[str]:
    """Return what axe finds, each with where."""
    found = Axe().run(page, options=rules).response["violations"]
    return [f"{each['id']}: {node['html'][:160]}" for each in found for node in each["nodes"]]
