"""A paper sheet typed in at a desk: the whole survey by the keyboard alone, from the enquiry to complete.

The boxes are reached in the order of the paper, by Tab or by Enter, and nothing is ever reached by a name.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from typing import Any

import pytest
from playwright.sync_api import Page, expect

from estimating.published.hazards import HAZARDS
from jobs.customers.models import Enquiry
from jobs.demo.lofts import BUNGALOW
from jobs.surveys.models import Survey
from jobs.surveys.plan.tables import ROW_KINDS
from jobs.surveys.sections import SECTIONS
from tests.browser.walking import count, expect_state, log_in

pytestmark = [
    pytest.mark.requires_chromium,
    pytest.mark.django_db(transaction=True),
    pytest.mark.any_database,
]

ROW_NAME = re.compile(rf"({'|'.join(ROW_KINDS)})-(\d+)-(\w+)")

HERE = """() => {
  const here = document.activeElement, form = here.form;
  const named = form ? [...form.elements].filter((each) => each.name === here.name) : [];
  const fold = here.tagName === "SUMMARY" ? here.closest("details") : null;
  const row = here.closest(".row");
  const rows = row ? [...row.parentElement.querySelectorAll(":scope > .row")] : [];
  return {
    name: here.name ?? "", value: here.value ?? "", tag: here.tagName.toLowerCase(), type: here.type ?? "",
    words: here.textContent.trim(), place: rows.indexOf(row),
    choices: [...(here.type === "radio" ? named : here.options ?? [])].map((each) => each.value),
    folded: [...(fold?.querySelectorAll("input, textarea, select") ?? [])].map((each) => each.name),
    isOpen: Boolean(fold?.open),
  };
}"""
"""What the keyboard is at: the box, its place among the rows of its kind, what a fold would open to."""

MOST_STEPS = 400


@pytest.fixture
def enquiry(building, office) -> Enquiry:
    return Enquiry.objects.create(property=building, taken_by=office, wants="Boxes from the garage")


def here(page: Page) -> dict[str, Any]:
    return page.evaluate(HERE)


def tab_to(page: Page, words: str) -> None:
    """Press Tab until the button or link with these words is reached."""
    for _ in range(MOST_STEPS):
        page.keyboard.press("Tab")
        at = here(page)
        if at["tag"] in {"a", "button"} and re.match(words, at["words"]):
            return
    pytest.fail(f"no Tab reaches {words}")


def settled(page: Page) -> None:
    """Wait until the page is ready to keep what is typed."""
    page.wait_for_function("() => document.body.dataset.ready === 'true'")


def answers_by_place(answers: Mapping[str, str]) -> dict[str, str]:
    return {_by_place(name): answer for name, answer in answers.items() if not name.endswith("TOTAL_FORMS")}


def _by_place(name: str, place: int | None = None) -> str:
    """Name the answer of a row by the row's place: its number is given by the page."""
    found = ROW_NAME.fullmatch(name)
    return f"{found[1]}-{found[2] if place is None else place}-{found[3]}" if found else name


def type_section(page: Page, answers: dict[str, str]) -> None:
    """Walk through a page by Tab, answer what has an answer, and press Next at its end."""
    left = answers_by_place(answers)
    for _ in range(MOST_STEPS):
        at = here(page)
        name = _by_place(at["name"], at["place"])
        if name in left:
            answer(page, at, left.pop(name))
        elif at["folded"] and not at["isOpen"] and folds_away(at, left):
            page.keyboard.press("Enter")
        elif at["name"] == "act" and at["value"].startswith("add ") and wants_row(at["value"], left):
            page.keyboard.press("Enter")
            continue  # the first box of the new row has the focus
        elif at["name"] == "act" and at["value"] == "next":
            assert left == {}
            page.keyboard.press("Enter")
            return
        page.keyboard.press("Tab")
    pytest.fail(f"never reached Next; still to type: {left}")


def folds_away(at: Mapping[str, Any], left: Mapping[str, str]) -> bool:
    return any(_by_place(name, at["place"]) in left for name in at["folded"])


def wants_row(act: str, left: Mapping[str, str]) -> bool:
    return any(name.startswith(f"{act.removeprefix('add ')}-") for name in left)


def answer(page: Page, at: Mapping[str, Any], wanted: str) -> None:
    if at["type"] == "radio":
        page.keyboard.press("Space")
        for _ in range(at["choices"].index(wanted)):
            page.keyboard.press("ArrowDown")
    elif at["tag"] == "select":
        for _ in range(at["choices"].index(wanted)):
            page.keyboard.press("ArrowDown")
    else:
        page.keyboard.type(wanted)


def answer_hazards(page: Page, seen: Mapping[str, str]) -> None:
    """Answer by a letter and Enter; words are asked for only where something was seen."""
    for hazard in HAZARDS:
        assert here(page)["name"] == f"seen_{hazard.key}"
        page.keyboard.type("y" if hazard.key in seen else "n")
        page.keyboard.press("Enter")
        if hazard.key in seen:
            assert here(page)["name"] == f"words_{hazard.key}"
            page.keyboard.type(seen[hazard.key])
            page.keyboard.press("Tab")
    assert here(page)["value"] == "next"
    page.keyboard.press("Enter")


def test_a_whole_survey_is_typed_in_without_a_mouse(new_page, edition, enquiry, office):
    page = new_page()
    log_in(page, office.username)
    page.goto(f"/enquiries/{enquiry.pk}/")
    tab_to(page, "Start the survey")
    page.keyboard.press("Enter")
    for section in SECTIONS:
        expect(page).to_have_url(re.compile(f"/{section.key}/$"))
        settled(page)
        if section.key == "arrive":
            page.keyboard.press("Tab")
            go_to_first_question(page)
        if section.key == "hazards":
            answer_hazards(page, BUNGALOW.seen)
        elif section.key == "photographs":
            tab_to(page, "Next: ")
            page.keyboard.press("Enter")
        else:
            type_section(page, dict(BUNGALOW.answers[section.key]))
    expect(page).to_have_url(re.compile(r"/surveys/S-\d+-\d+/$"))
    expect(page.locator("#counts")).to_contain_text("Pedestals")
    tab_to(page, "Survey complete")
    page.keyboard.press("Enter")
    expect_state(page, "complete")

    survey = Survey.objects.get()
    for section, typed in BUNGALOW.answers.items():
        kept = {name: text for name, text in survey.answers[section].items() if text}
        assert by_place(kept) == answers_by_place(typed), section
    assert survey.findings.count() == len(HAZARDS)
    assert dict(survey.findings.filter(seen="yes").values_list("hazard", "words")) == BUNGALOW.seen
    assert int(count(page, "Boards")) > 0


def go_to_first_question(page: Page) -> None:
    for _ in range(MOST_STEPS):
        if here(page)["name"] == "hatch_long":
            return
        page.keyboard.press("Tab")


def by_place(kept: Mapping[str, str]) -> dict[str, str]:
    """Name the rows by their places, in the order of their numbers."""
    numbers: dict[str, list[int]] = {kind: [] for kind in ROW_KINDS}
    found = [ROW_NAME.fullmatch(name) for name in kept]
    for kind, number in sorted({(each[1], int(each[2])) for each in found if each}):
        numbers[kind].append(number)
    return {
        _by_place(name, numbers[each[1]].index(int(each[2])) if each else None): kept[name]
        for name, each in zip(kept, found, strict=True)
    }


def open_section(
    new_page: Callable[..., Page], person: Any, survey: Survey, section: str, **kind: Any
) -> Page:
    page = new_page(**kind)
    log_in(page, person.username)
    page.goto(f"/surveys/{survey.number}/{section}/")
    return page


def test_enter_goes_to_the_next_question_and_keeps_what_was_typed(new_page, edition, survey, office):
    page = open_section(new_page, office, survey, "arrive")
    settled(page)
    page.locator("[name=hatch_long]").focus()
    page.keyboard.type("726")
    page.keyboard.press("Enter")
    assert here(page)["name"] == "hatch_short"
    expect(page).to_have_url(re.compile("/arrive/$"))
    page.locator("[name=clear_floor]").focus()
    page.keyboard.press("Enter")
    page.keyboard.press("Enter")
    assert here(page)["name"] == "over_stairs"
    page.keyboard.press("n")
    expect(page.locator("[name=over_stairs][value=no]")).to_be_checked()
    page.keyboard.press("Control+Enter")
    expect(page).to_have_url(re.compile("/hazards/$"))
    survey.refresh_from_db()
    assert (survey.answers["arrive"]["hatch_long"], survey.answers["arrive"]["over_stairs"]) == ("726", "no")


def test_without_scripts_enter_sends_the_page_and_goes_on(new_page, edition, survey, office):
    boxes = (("arrive", "hatch_long", "hazards"), ("plan", "outline_length", "insulation"))
    for section, box, then in boxes:
        page = open_section(new_page, office, survey, section, java_script_enabled=False)
        page.locator(f"[name={box}]").focus()
        page.keyboard.type("5200")
        page.keyboard.press("Enter")
        expect(page).to_have_url(re.compile(f"/{then}/$"))
        survey.refresh_from_db()
        assert survey.answers[section][box] == "5200"


def test_a_page_opened_by_next_begins_at_its_first_question_but_not_on_a_tablet(
    new_page, edition, survey, office
):
    desk = open_section(new_page, office, survey, "roof")
    settled(desk)
    assert here(desk)["tag"] == "body"
    desk.get_by_role("button", name=re.compile("^Next: ")).click()
    expect(desk).to_have_url(re.compile("/plan/$"))
    expect(desk.locator("[name=outline_kind]").first).to_be_focused()
    tablet = open_section(
        new_page, office, survey, "arrive", width=820, height=1180, touch=True, is_mobile=True
    )
    settled(tablet)
    tablet.get_by_role("button", name=re.compile("^Next: ")).tap()
    expect(tablet).to_have_url(re.compile("/hazards/$"))
    settled(tablet)
    assert here(tablet)["tag"] == "body"
