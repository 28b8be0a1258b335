"""The page reads lengths by the office's rules, and asks before anybody has to wait for an answer."""

from __future__ import annotations

import time
from collections.abc import Iterator
from random import Random
from typing import Any

import pytest
from playwright.sync_api import Page, expect

from estimating.refusals import Ambiguous, Refusal
from jobs.surveys.models import Survey
from jobs.surveys.typed.measures import OpeningField
from tests.browser.looking import violations
from tests.estimating.lengths.texts import READERS, UNITS, texts
from tests.jobs.surveys.lofts import TRUSSED
from tests.jobs.surveys.test_in_browser import log_in

pytestmark = [
    pytest.mark.requires_chromium,
    pytest.mark.django_db(transaction=True),
    pytest.mark.any_database,
]

GLOVE_PX = 48


def office_reads(kind: str, text: str, unit: str | None) -> list[Any]:
    """What the office makes of a text: what it means, the ways it asks for, and why it is refused."""
    try:
        if kind == "opening":
            field = OpeningField(label="Opening")
            field.read_bare_numbers_in(unit or "ask")
            return [field.read(text), [], ""]
        return [READERS[kind](text, default_unit=unit), [], ""]
    except Refusal as refused:
        asks = list(refused.readings) if isinstance(refused, Ambiguous) else []
        return [None, asks, refused.requirement[:1].upper() + refused.requirement[1:]]


PAGE_READS = """async cases => {
    const { readAs } = await import("/static/js/survey/lengths.js");
    return cases.map(([kind, text, unit]) => {
        const { value, asks, error } = readAs(kind, text, unit);
        return [value, asks, error];
    });
}"""


def test_the_page_and_the_office_read_ten_thousand_texts_alike(new_page):
    random = Random(2026)
    kinds = [*READERS, "opening"]
    cases = [[random.choice(kinds), text, random.choice(UNITS)] for text in texts(random, 10_000)]
    cases = [
        case for case in cases if case[1].strip()
    ]  # an empty box is a gap, which no reader is asked about
    page = new_page()
    page.goto("/log-in/")
    read = page.evaluate(PAGE_READS, cases)
    lists = {"length": int, "opening": int, "corners": lambda each: [list(corner) for corner in each]}
    differ = []
    for case, by_page in zip(cases, read, strict=True):
        value, asks, error = office_reads(*case)
        plain = value if value is None else lists.get(case[0], list)(value)
        by_office = [plain, asks, error]
        if by_page != by_office and not (error == "Is missing" and by_page == [None, [], ""]):
            differ.append((case, by_office, by_page))
    assert differ == []


@pytest.fixture
def typed(survey, edition) -> Survey:
    survey.answers = {section: dict(answers) for section, answers in TRUSSED.items()}
    survey.save()
    return survey


@pytest.fixture
def tablet(new_page, typed) -> Iterator[Page]:
    page = new_page(width=390, height=844, touch=True)
    log_in(page, "mirren")
    page.goto(f"/surveys/{typed.number}/plan/")
    yield page
    page.context.close()
    time.sleep(0.3)  # what the tablet asked for in the background is answered before the tables are emptied


def test_what_is_understood_shows_while_it_is_typed(tablet):
    box, told = tablet.locator("#id_outline_length"), tablet.locator("#id_outline_length_understood")
    box.fill("27ft 3")
    expect(told).to_have_text("read as 8\N{NO-BREAK SPACE}306\N{NO-BREAK SPACE}mm")
    box.fill("long")
    expect(told).to_contain_text('Cannot read "long" as a length')
    expect(box).to_have_attribute("aria-invalid", "true")
    box.fill("")
    expect(told).to_have_text("")


def test_an_ambiguous_length_offers_each_way_to_write_it_and_a_tap_writes_it(tablet, typed):
    box = tablet.locator("#id_outline_length")
    box.fill("8.2")
    ways = box.locator("xpath=ancestor::*[contains(@class, 'field')][last()]").locator(".asks__way")
    expect(ways).to_have_text(["8.2 m", "8.2 cm", "8.2 mm"])
    assert all(way.bounding_box()["height"] >= GLOVE_PX for way in ways.all())
    ways.first.tap()
    expect(box).to_have_value("8.2 m")
    expect(ways).to_have_count(0)
    expect(tablet.locator("#id_outline_length_understood")).to_contain_text("read as 8")
    expect(box).to_be_focused()


def test_a_list_that_can_be_read_in_two_ways_offers_both(tablet):
    tablet.locator("summary", has_text="Uneven joists").first.tap()
    box = tablet.locator("[name=joists-0-readings]")
    box.fill("0 400 1 200")
    ways = tablet.locator(".asks__way")
    expect(ways).to_have_text(["0, 400, 1200", "0, 400, 1, 200"])
    ways.first.tap()
    expect(box).to_have_value("0, 400, 1200")


def test_a_row_added_on_the_page_asks_too(tablet):
    tablet.locator("button[value='add zones']").tap()
    box = tablet.locator("[name^=zones-][name$=-edge_may_move]").last
    box.fill("1.5")
    expect(tablet.locator(".asks__way").first).to_have_text("1.5 m")


def test_a_survey_begun_in_metres_reads_its_bare_numbers_in_metres(new_page, typed):
    typed.length_unit, typed.answers = "m", {}
    typed.save()
    page = new_page()
    log_in(page, "mirren")
    page.goto(f"/surveys/{typed.number}/arrive/")
    box = page.locator("#id_floor_to_ceiling")
    expect(box.locator("xpath=following-sibling::*")).to_have_text("m unless you say")
    box.fill("2.4")
    expect(page.locator("#id_floor_to_ceiling_understood")).to_contain_text("read as 2")
    box.fill("2400")
    expect(page.locator(".asks__way")).to_have_text(["2400 cm", "2400 mm"])


def test_length_boxes_open_the_keypad_and_keys_beside_it_write_the_units(tablet):
    box = tablet.locator("#id_outline_length")
    expect(box).to_have_attribute("inputmode", "decimal")
    box.fill("")
    box.tap()
    keys = tablet.locator(".unit-keys__key")
    expect(keys).to_have_text(["m", "cm", "mm", "ft", "in", "ABC"])
    for key in keys.all():
        size = key.bounding_box()
        assert min(size["width"], size["height"]) >= GLOVE_PX
    tablet.keyboard.type("27")
    keys.filter(has_text="ft").tap()
    tablet.keyboard.type("3")
    keys.filter(has_text="in").tap()
    expect(box).to_have_value("27 ft3 in")
    expect(box).to_be_focused()
    keys.filter(has_text="ABC").tap()
    expect(box).to_have_attribute("inputmode", "text")
    tablet.locator("#id_outline_length").press("Tab")
    tablet.locator("[name=joists-0-name]").focus()
    expect(keys.first).to_be_hidden()


def test_the_keys_for_units_move_nothing_under_a_finger(tablet):
    box = tablet.locator("#id_outline_depth")
    box.scroll_into_view_if_needed()
    before = box.bounding_box()
    box.focus()
    expect(tablet.locator(".unit-keys")).to_be_visible()
    assert box.bounding_box() == before


def test_axe_finds_nothing_while_a_length_is_asked_about(new_page, typed):
    page = new_page(width=820, height=1180, touch=True)
    log_in(page, "mirren")
    page.goto(f"/surveys/{typed.number}/arrive/")
    page.locator("#id_floor_to_ceiling").fill("2.4")
    expect(page.locator(".asks__way")).to_have_count(3)
    expect(page.locator(".unit-keys")).to_be_visible()
    for part in (".field--error", ".unit-keys"):
        assert list(violations(page, part)) == []
    page.context.close()
    time.sleep(0.3)


def test_a_way_is_chosen_and_a_unit_written_by_keyboard_alone(tablet):
    box = tablet.locator("#id_outline_length")
    box.fill("8.2")
    expect(tablet.locator(".asks__way")).to_have_count(3)
    tablet.keyboard.press("Tab")
    tablet.keyboard.press("Enter")
    expect(box).to_have_value("8.2 m")
    expect(box).to_be_focused()
    box.fill("27")
    for key in ("ArrowDown", "ArrowRight", "ArrowRight", "ArrowRight", "Enter"):
        tablet.keyboard.press(key)
    expect(box).to_have_value("27 ft")
    expect(box).to_be_focused()


def test_with_a_mouse_there_are_no_keys_and_without_scripts_there_are_letters(new_page, typed):
    desk = new_page()
    log_in(desk, "mirren")
    desk.goto(f"/surveys/{typed.number}/plan/")
    desk.locator("#id_outline_length").click()
    expect(desk.locator(".unit-keys")).to_have_count(0)
    plain = new_page(java_script_enabled=False)
    log_in(plain, "mirren")
    plain.goto(f"/surveys/{typed.number}/plan/")
    expect(plain.locator("#id_outline_length")).not_to_have_attribute("inputmode", "decimal")
