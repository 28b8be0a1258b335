"""The surveyor's visit on a touch tablet: every section filled in the order of the visit, box by box."""

from __future__ import annotations

import io
import re
from collections.abc import Mapping

from PIL import Image
from playwright.sync_api import Locator, Page, expect

from estimating.published.hazards import HAZARDS
from tests.browser.walking import press


def fill_visit(page: Page, answers: Mapping[str, Mapping[str, str]], seen: Mapping[str, str]) -> None:
    """Walk from the first section to the last, and stay on the sheet that reads the survey back."""
    for section in ("arrive", "hazards", "roof", "plan", "insulation", "services", "wishes"):
        expect(page).to_have_url(re.compile(f"/{section}/$"))
        if section == "hazards":
            answer_every_hazard(page, seen)
        else:
            fill_section(page, answers[section])
        go_on(page)
    add_photograph(page, shows="The hatch, open")
    go_on(page)


def fill_section(page: Page, answers: Mapping[str, str]) -> None:
    for name, typed in answers.items():
        box = page.locator(f"[name={name}]").first
        unfold(page, box)
        if box.get_attribute("type") == "radio":
            tap(page, name, typed)
        elif box.evaluate("box => box.tagName") == "SELECT":
            box.select_option(typed)
            settle(page)
        else:
            write(box, typed)


def unfold(page: Page, box: Locator) -> None:
    """Open what is folded away because it is seldom wanted."""
    fold = page.locator("details:not([open])", has=box)
    if fold.count():
        fold.locator("summary").tap()


def answer_every_hazard(page: Page, seen: Mapping[str, str]) -> None:
    for hazard in HAZARDS:
        tap(page, f"seen_{hazard.key}", "yes" if hazard.key in seen else "no")
        if hazard.key in seen:
            write(page.locator(f"[name=words_{hazard.key}]"), seen[hazard.key])


def add_photograph(page: Page, *, shows: str) -> None:
    picture = io.BytesIO()
    Image.new("RGB", (640, 480), "tan").save(picture, "JPEG")
    file = {"name": "hatch.jpg", "mimeType": "image/jpeg", "buffer": picture.getvalue()}
    page.get_by_label("Photographs", exact=True).set_input_files([file])
    if page.evaluate("() => 'htmx' in window"):  # with scripts the page itself takes it in
        write(page.get_by_label("What it shows").first, shows)
        return
    page.get_by_label("What they show").fill(shows)
    press(page, "Add the photographs")
    expect(page.get_by_role("img", name=shows)).to_be_visible()


def tap(page: Page, name: str, value: str) -> None:
    page.locator("label", has=page.locator(f"[name={name}][value='{value}']")).tap()
    settle(page)


def write(box: Locator, words: str) -> None:
    box.fill(words)
    box.blur()
    settle(box.page)


def settle(page: Page) -> None:
    """Wait until what was just answered is written through, as a thumb in a glove takes longer anyway."""
    page.wait_for_function("() => !document.querySelector('.htmx-request')")


def go_on(page: Page) -> None:
    page.get_by_role("button", name=re.compile("^Next: ")).tap()
