"""One gloved hand on the drawing of the plan: it taps, drags and types, and counts how often."""

from __future__ import annotations

import re
from collections.abc import Iterator
from contextlib import contextmanager

from playwright.sync_api import CDPSession, Page, expect

Point = tuple[float, float]
STEPS = 8


class Glove:
    """A finger on the plan page; places are in mm on plan, as on the survey."""

    def __init__(self, page: Page) -> None:
        self.page = page
        self.taps = 0
        self.editor = page.locator("[data-plan-editor]")
        self.drawing = page.locator("[data-plan-drawing]")
        expect(self.drawing).to_have_attribute("data-view", re.compile(r"\d"))
        self.touch: CDPSession = page.context.new_cdp_session(page)

    def on_screen(self, place: Point) -> Point:
        """Return where a place on plan lies in the window, the drawing scrolled into sight."""
        self.drawing.scroll_into_view_if_needed()
        scale, left, top = map(float, (self.drawing.get_attribute("data-view") or "").split())
        box = self.drawing.bounding_box()
        assert box
        return box["x"] + left + place[0] * scale, box["y"] + top - place[1] * scale

    def press(self, name: str) -> None:
        self.taps += 1
        self.editor.get_by_role("button", name=name, exact=True).tap()

    def tap(self, place: Point) -> None:
        self.taps += 1
        self.page.touchscreen.tap(*self.on_screen(place))

    def type(self, label: str, text: str) -> None:
        """Tap into a box beside the drawing and type."""
        self.taps += 1
        box = self.editor.get_by_label(label, exact=True)
        box.tap()
        box.fill(text)

    def drag(self, start: Point, end: Point) -> None:
        with self.holding(start, end):
            pass

    @contextmanager
    def holding(self, start: Point, end: Point) -> Iterator[None]:
        """Drag, and look while the finger is still down."""
        self.taps += 1
        (ax, ay), (bx, by) = self.on_screen(start), self.on_screen(end)
        self._touch("touchStart", [(ax, ay)])
        for step in range(1, STEPS + 1):
            at = ax + (bx - ax) * step / STEPS, ay + (by - ay) * step / STEPS
            self._touch("touchMove", [at])
        yield
        self._touch("touchEnd", [])

    def pinch(self, place: Point, *, from_px: float, to_px: float) -> None:
        """Put two fingers level about a place, and move them apart or together."""
        self.taps += 1
        x, y = self.on_screen(place)
        self._touch("touchStart", [(x - from_px / 2, y)])
        self._touch("touchStart", [(x - from_px / 2, y), (x + from_px / 2, y)])
        for step in range(1, STEPS + 1):
            half = (from_px + (to_px - from_px) * step / STEPS) / 2
            self._touch("touchMove", [(x - half, y), (x + half, y)])
        self._touch("touchEnd", [])

    def hold(self, place: Point) -> None:
        """Press long."""
        self.taps += 1
        x, y = self.on_screen(place)
        self._touch("touchStart", [(x, y)])
        self.page.wait_for_timeout(700)
        self._touch("touchEnd", [])

    def expect_typed(self, name: str, text: str) -> None:
        """Wait until something stands in a box of the table."""
        self.page.wait_for_function(
            """([name, text]) =>
                (new FormData(document.querySelector("form#answers")).get(name) ?? "") === text""",
            arg=[name, text],
        )

    def _touch(self, kind: str, points: list[Point]) -> None:
        told = [{"x": x, "y": y, "id": number} for number, (x, y) in enumerate(points)]
        self.touch.send("Input.dispatchTouchEvent", {"type": kind, "touchPoints": told})
