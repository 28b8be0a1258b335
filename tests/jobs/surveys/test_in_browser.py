"""The visit in a real browser: written through by htmx on a tablet, and the same pages without scripts."""

from __future__ import annotations

import io
import re

import pytest
from PIL import Image
from playwright.sync_api import Page, Route, expect

from jobs.surveys.models import Survey
from tests.jobs.surveys.lofts import TRUSSED

pytestmark = [pytest.mark.requires_chromium, pytest.mark.django_db(transaction=True)]

PASSWORD = "a long invented one"


@pytest.fixture
def typed(survey, edition) -> Survey:
    survey.answers = {section: dict(answers) for section, answers in TRUSSED.items()}
    survey.save()
    return survey


def log_in(page: Page, username: str) -> None:
    page.goto("/log-in/")
    page.fill("[name=username]", username)
    page.fill("[name=password]", PASSWORD)
    page.press("[name=password]", "Enter")
    page.wait_for_url(lambda address: "log-in" not in address)


def test_a_change_on_the_tablet_is_written_at_once_and_moves_the_count(new_page, typed):
    page = new_page(width=820, height=1180, touch=True)
    log_in(page, "mirren")
    page.goto(f"/surveys/{typed.number}/plan/")
    deck = page.locator(".counts__value").first
    expect(deck).to_contain_text("14.4 m²")
    page.fill("[name=zones-0-length]", "3m")
    page.locator("[name=zones-0-length]").blur()
    expect(page.locator("#id_zones-0-length_understood")).to_have_text("read as 3 000 mm")
    expect(deck).not_to_contain_text("14.4 m²")
    expect(page.locator("#figures svg").first).to_be_visible()
    typed.refresh_from_db()
    assert typed.answers["plan"]["zones-0-length"] == "3m"

    page.fill("[name=zones-0-length]", "4.2")
    page.locator("[name=zones-0-length]").blur()
    expect(page.locator("#id_zones-0-length_understood")).to_contain_text("needs its unit")
    expect(page.locator("[name=zones-0-length]")).to_have_value("4.2")


def test_a_stop_tapped_on_the_hazard_list_shows_at_once(new_page, typed):
    page = new_page(width=820, height=1180, touch=True)
    log_in(page, "mirren")
    page.goto(f"/surveys/{typed.number}/hazards/")
    page.locator("label", has=page.locator("[name=seen_bats][value=yes]")).tap()
    expect(page.locator("#figures .verdict--stop")).to_contain_text("Bats")
    expect(page.locator("#counts")).to_contain_text("1 holds work")


def test_another_row_comes_at_once_and_keeps_what_stands_in_the_others(new_page, typed):
    page = new_page(width=390, height=844, touch=True)
    log_in(page, "mirren")
    page.goto(f"/surveys/{typed.number}/plan/")
    page.locator("button[value='add zones']").tap()
    rows = page.locator("[name^=zones-][name$=-left]")
    expect(rows).to_have_count(2)
    expect(rows.nth(1)).to_be_visible()
    expect(page.locator(".row__name", has_text="Deck zone")).to_have_text(["Deck zone 1", "Deck zone 2"])
    expect(page.locator("[name=zones-0-left]")).to_have_value("1.2m")


def test_the_visit_can_be_walked_without_scripts(new_page, typed):
    page = new_page(width=390, height=844, java_script_enabled=False)
    log_in(page, "mirren")
    page.goto(f"/surveys/{typed.number}/plan/")
    page.click("button[value='add zones']")
    page.fill("[name=zones-1-left]", "5.4 m")
    page.click(".foot-bar button[value=next]")
    page.wait_for_url("**/insulation/")
    typed.refresh_from_db()
    assert typed.answers["plan"]["zones-1-left"] == "5.4 m"


TOO_SMALL_FOR_A_GLOVE = """() => {
    const shown = chosen => [...document.querySelectorAll(chosen)]
        .filter(each => each.checkVisibility() && !each.matches('.unseen'));
    const boxes = 'input:not([type=hidden], [type=checkbox], [type=radio])';
    const pressed = shown(`.loft button, .loft .picker__option, .foot-bar__act, .loft ${boxes}`)
        .concat(shown('.loft summary'));
    const words = shown('.loft p, .loft label, .loft legend, .loft a, .foot-bar__act');
    return [
        ...pressed.filter(each => each.getBoundingClientRect().height < 48),
        ...words.filter(each => parseFloat(getComputedStyle(each).fontSize) < 18),
    ].map(each => each.outerHTML);
}"""


@pytest.mark.parametrize("width", [390, 820])
def test_targets_and_text_are_large_enough_for_a_glove(new_page, typed, width):
    page = new_page(width=width, height=1000)
    log_in(page, "mirren")
    for section in ("hazards", "plan", "photographs"):
        page.goto(f"/surveys/{typed.number}/{section}/")
        assert page.evaluate(TOO_SMALL_FOR_A_GLOVE) == []
        assert page.evaluate("document.documentElement.scrollWidth") <= width


def test_a_deck_zone_is_proposed_from_what_was_typed_a_moment_ago(new_page, typed):
    page = new_page(width=820, height=1180, touch=True)
    log_in(page, "mirren")
    page.goto(f"/surveys/{typed.number}/plan/")
    page.wait_for_selector("body[data-ready]")
    page.fill("[name=zones-0-name]", "By the hatch")
    page.get_by_role("button", name="Propose a deck zone").tap()
    expect(page.locator(".form__said[role=status]")).to_contain_text("Proposed: ")
    expect(page.locator("[name=zones-0-name]")).to_have_value("By the hatch")
    expect(page.locator("[name=zones-1-left]")).not_to_have_value("")


def test_a_photograph_chosen_before_the_script_ran_is_kept_all_the_same(new_page, typed, tmp_path, settings):
    settings.PHOTOGRAPHS_DIR = tmp_path
    page = new_page(width=820, height=1180, touch=True)
    log_in(page, "mirren")
    script, held = re.compile(r"/photographs(\.\w+)?\.js$"), list[Route]()

    def hold(route: Route) -> None:
        held.append(route)

    page.route(script, hold)
    with page.expect_request(script):
        page.goto(f"/surveys/{typed.number}/photographs/", wait_until="commit")
    picture = io.BytesIO()
    Image.new("RGB", (64, 48), "tan").save(picture, "JPEG")
    file = {"name": "hatch.jpg", "mimeType": "image/jpeg", "buffer": picture.getvalue()}
    page.get_by_label("Photographs", exact=True).set_input_files([file])
    expect(page.get_by_label("What it shows")).to_have_count(0)
    (route,) = held
    route.continue_()
    expect(page.get_by_label("What it shows")).to_have_count(1)
    expect(page.locator("#taking")).to_have_text("1 kept on this tablet.")
    page.wait_for_function("() => document.body.dataset.ready === 'true'")
