"""A draft's page in a real browser: rows that are half filled, rows that come by themselves, and issuing."""

from __future__ import annotations

import pytest
from django.urls import reverse
from playwright.sync_api import Page, expect

from estimating.json_forms import choices_from_json
from tests.browser.walking import log_in

pytestmark = [
    pytest.mark.requires_chromium,
    pytest.mark.django_db(transaction=True),
    pytest.mark.any_database,
]


@pytest.fixture
def sheet(page: Page, draft, office) -> Page:
    log_in(page, office.username)
    page.goto(reverse("quote", args=[draft.quote.number]))
    page.get_by_text("Discounts", exact=True).click()
    return page


def test_who_types_is_left_in_peace_and_who_issues_is_asked(sheet: Page, draft):
    sheet.get_by_label("Discount 1, reason").fill("Two lofts in one street")
    sheet.keyboard.press("Tab")
    expect(sheet.get_by_text("Discount 1 is half filled and does not count yet.")).to_be_visible()
    expect(sheet.get_by_label("Discount 1, per cent")).to_be_focused()
    expect(sheet.get_by_label("Discount 2, reason")).to_be_visible()
    sheet.get_by_role("button", name="Issue revision A").click()
    expect(sheet.locator(".error-summary")).to_contain_text("Discount 1, or £ without VAT")
    expect(sheet.get_by_label("Discount 1, reason")).to_have_value("Two lofts in one street")
    draft.refresh_from_db()
    assert draft.is_draft
    sheet.get_by_label("Discount 1, per cent").fill("5")
    sheet.keyboard.press("Tab")
    expect(sheet.locator(".error-summary")).to_have_count(0)
    expect(sheet.locator("#lines")).to_contain_text("Discount of 5 %: Two lofts in one street")
    draft.refresh_from_db()
    assert [each.percent for each in choices_from_json(draft.choices).discounts] == [5]
    sheet.get_by_role("button", name="Issue revision A").click()
    expect(sheet.get_by_text("Revision A is issued.")).to_be_visible()


def test_what_is_typed_last_is_issued_and_enter_issues_nothing(sheet: Page, draft):
    sheet.get_by_label("Gap above insulation").fill("60")
    sheet.keyboard.press("Enter")
    expect(sheet.locator("#figures")).to_contain_text("102 mm")
    draft.refresh_from_db()
    assert (draft.is_draft, choices_from_json(draft.choices).gap_mm) == (True, 60)
    sheet.get_by_label("Miles to drive").fill("120")
    sheet.get_by_role("button", name="Issue revision A").click()
    expect(sheet.get_by_text("Revision A is issued.")).to_be_visible()
    draft.refresh_from_db()
    assert choices_from_json(draft.choices).miles == 120


def test_what_could_not_be_kept_is_said_until_it_is(sheet: Page, draft):
    told = sheet.locator("#not-kept")
    sheet.context.set_offline(True)
    sheet.get_by_label("Miles to drive").fill("25")
    sheet.keyboard.press("Tab")
    expect(told).to_contain_text("Not kept: nothing answers.")
    sheet.context.set_offline(False)
    sheet.get_by_label("Lights", exact=True).fill("2")
    sheet.keyboard.press("Tab")
    expect(told).to_be_hidden()
    draft.refresh_from_db()
    kept = choices_from_json(draft.choices)
    assert (kept.miles, kept.lights) == (25, 2)
    sheet.context.clear_cookies()
    sheet.get_by_label("Miles to drive").fill("30")
    sheet.keyboard.press("Tab")
    expect(told).to_contain_text("Not kept: you are no longer signed in")
