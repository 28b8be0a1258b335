"""What every screen is held to: it fits its width, and axe finds nothing on it in either sheet."""

from __future__ import annotations

from collections.abc import Iterator

from axe_playwright_python.base import AXE_SCRIPT
from playwright.sync_api import Page

WCAG = ("wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22a", "wcag22aa")
SHEETS = {
    "light": {"type": "tag", "values": WCAG},
    "dark": {"type": "rule", "values": ["color-contrast"]},  # which differs in nothing but its colours
}
WIDTHS = (390, 820, 1440)
QUIET_MS = 300


def faults(page: Page) -> Iterator[str]:
    """Yield all that is wrong with the page in sight, and leave it as wide as a phone, in the light."""
    page.wait_for_load_state()
    yield from too_wide(page)
    show_whole(page, width=390)
    yield from violations(page)


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


def violations(page: Page, part: str = "html") -> Iterator[str]:
    """Yield what axe finds in a part of the page, each with where."""
    if not page.evaluate("'axe' in window"):
        page.evaluate(AXE_SCRIPT)  # half a megabyte to read, once for each page
    for sheet, rules in SHEETS.items():
        page.emulate_media(color_scheme=sheet)
        options = {"runOnly": rules, "resultTypes": ["violations"]}  # what passes is not written out
        found = page.evaluate("([part, options]) => axe.run(part, options)", [part, options])
        for each in found["violations"]:
            for node in each["nodes"]:
                yield f"{each['id']} ({sheet}): {node['html'][:160]}"
    page.emulate_media(color_scheme="light")
