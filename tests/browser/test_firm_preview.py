"""The firm's settings: what is typed is in the preview at once, and in the book only when it is saved."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from django.contrib.auth.models import User
from playwright.sync_api import Locator, Page, expect

from jobs.firm.models import Firm
from tests.browser.walking import log_in, press

pytestmark = [pytest.mark.requires_chromium, pytest.mark.django_db(transaction=True)]


def test_what_is_typed_is_in_the_preview_and_nothing_is_saved_until_it_is_pressed(
    new_page: Callable[..., Page], firm: Firm, owner: User
) -> None:
    was, colour = firm.name, firm.accent_colour
    page = new_page()
    log_in(page, owner.username)
    page.goto("/firm/")
    page.get_by_label("Name", exact=True).fill("Gŵyl & Sons <Lofts>")
    expect(_in_preview(page, ".preview__firm")).to_have_text("Gŵyl & Sons <Lofts>")
    firm.refresh_from_db()
    assert firm.name == was

    page.goto("/firm/dress/")
    page.get_by_label("Colour of headings and lines").fill("#8a2be2")
    expect(_in_preview(page, ".preview__price")).to_have_css("color", "rgb(138, 43, 226)")
    firm.refresh_from_db()
    assert (firm.name, firm.accent_colour) == (was, colour)

    press(page, "Save")
    expect(_in_preview(page, ".preview__price")).to_have_css("color", "rgb(138, 43, 226)")
    firm.refresh_from_db()
    assert (firm.name, firm.accent_colour) == (was, "#8a2be2")


def _in_preview(page: Page, part: str) -> Locator:
    return page.locator(f"#preview {part}")
