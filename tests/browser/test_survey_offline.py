"""A survey measured without a signal: kept on the tablet, through a closed browser, and sent once."""

from __future__ import annotations

import pytest
from playwright.sync_api import Page, expect

from jobs.surveys.models import Survey
from tests.browser.walking import log_in

pytestmark = [pytest.mark.requires_chromium, pytest.mark.django_db(transaction=True)]


def open_on_tablet(page: Page, survey: Survey, section: str) -> None:
    page.goto(f"/surveys/{survey.number}/{section}/")
    page.wait_for_selector("body[data-ready]")


def wait_until_kept(page: Page) -> None:
    page.evaluate("navigator.serviceWorker.ready")
    page.wait_for_function("async () => (await caches.keys()).length > 0")


def state(page: Page):
    return page.locator("#tablet-state")


def test_a_change_is_kept_and_saved_in_the_office(new_page, survey, surveyor, edition):
    page = new_page(width=820, height=1180, touch=True)
    log_in(page, surveyor.username)
    open_on_tablet(page, survey, "arrive")
    page.fill("[name=hatch_long]", "726")
    page.locator("[name=hatch_long]").blur()
    expect(state(page)).to_have_text("Saved in the office")
    page.wait_for_function(
        "() => !document.querySelector('#counts').innerText.includes('Hatch clear opening, long')"
    )
    survey.refresh_from_db()
    assert survey.answers["arrive"] == {"hatch_long": "726"}


def test_what_is_typed_without_a_signal_goes_up_once_there_is_one(new_page, survey, surveyor, edition):
    page = new_page(width=820, height=1180, touch=True)
    log_in(page, surveyor.username)
    open_on_tablet(page, survey, "arrive")
    wait_until_kept(page)
    page.context.set_offline(True)
    page.fill("[name=hatch_long]", "726")
    page.get_by_role("button", name="Next: hazards").tap()
    page.wait_for_selector("body[data-ready][data-shell]")
    expect(state(page)).to_have_text("1 change on this tablet")
    page.locator("label", has=page.locator("[name=seen_bats][value=yes]")).tap()
    page.fill("[name=words_bats]", "Droppings by the chimney")
    page.goto(f"/surveys/{survey.number}/arrive/")
    page.wait_for_selector("body[data-ready][data-shell]")
    expect(page.locator("[name=hatch_long]")).to_have_value("726")
    expect(page.locator(".loft-head__back")).to_have_text(survey.property.address)
    expect(state(page)).to_have_text("2 changes on this tablet")
    page.goto(f"/surveys/{survey.number}/")
    expect(page.locator(".read-back").first).to_contain_text("726")
    page.goto("/surveys/on-this-tablet/")
    expect(page.locator(".unsent__item")).to_have_count(2)
    page.context.set_offline(False)
    expect(state(page)).to_have_text("Saved in the office")
    survey.refresh_from_db()
    assert survey.answers["arrive"] == {"hatch_long": "726"}
    assert survey.findings.get().words == "Droppings by the chimney"
