"""A survey measured without a signal: kept on the tablet, through a closed browser, and sent once."""

from __future__ import annotations

from random import Random

import pytest
from django.contrib.sessions.models import Session
from playwright.sync_api import Page, expect

from estimating.published.hazards import HAZARDS
from jobs.demo.lofts import TRUSSED
from jobs.surveys.models import Survey
from jobs.surveys.tablet.models import SentChange
from tests.browser.faulty_line import Fault, faulty_line
from tests.browser.tablets import (
    SAVED,
    expect_saved,
    open_section,
    photograph,
    state,
    tablet,
    take_photographs,
    wait_until_kept,
)
from tests.browser.visit import answer_every_hazard, fill_section, go_on
from tests.browser.walking import log_in

pytestmark = [
    pytest.mark.requires_chromium,
    pytest.mark.django_db(transaction=True),
    pytest.mark.usefixtures("edition"),
]


def test_a_change_is_kept_and_saved_in_the_office(new_page, survey, surveyor):
    page = new_page(width=820, height=1180, touch=True)
    log_in(page, surveyor.username)
    open_section(page, survey, "arrive")
    next_missing = page.locator("#counts .counts__cell", has_text="Next")
    expect(next_missing).to_contain_text("Hatch clear opening, long side")
    page.fill("[name=hatch_long]", "726")
    page.locator("[name=hatch_long]").blur()
    expect_saved(page)
    expect(next_missing).to_contain_text("Hatch clear opening, short side")
    survey.refresh_from_db()
    assert survey.answers["arrive"] == {"hatch_long": "726"}


def test_a_whole_survey_by_touch_offline_from_the_second_page_on(
    browser, live_server, survey, surveyor, tmp_path
):
    random, profile = Random(5), tmp_path / "tablet"
    with faulty_line((live_server.thread.host, live_server.thread.port)) as (address, line):
        with tablet(browser, profile, address) as machine:
            page = machine.new_page()
            log_in(page, surveyor.username)
            open_section(page, survey, "arrive")
            wait_until_kept(page)
            fill_section(page, TRUSSED.answers["arrive"])
            expect_saved(page)
            line.choose = lambda _method, _path: Fault.NO_LINE
            for section in ("hazards", "roof"):
                go_on_to(page, section)
                fill(page, section)
        with tablet(browser, profile, address) as machine:
            page = machine.new_page()
            open_section(page, survey, "roof")
            expect(page.locator("[name=span]")).to_have_value(TRUSSED.answers["roof"]["span"])
            for section in ("plan", "insulation", "services", "wishes"):
                go_on_to(page, section)
                fill(page, section)
            go_on_to(page, "photographs")
            take_photographs(page, *(photograph(random) for _ in range(3)))
            go_on(page)
            page.get_by_role("button", name="Survey complete").tap()
            expect(page.locator("#completed")).to_be_visible()
            page.goto("/surveys/on-this-tablet/")
            expect(page.locator(".unsent__item").last).to_contain_text("Survey complete")
            line.choose = lambda _method, _path: Fault.NONE
            page.get_by_role("button", name="Send now").tap()  # the log-in ended with the first browser
            expect(state(page)).to_contain_text("sign in to send")
            log_in(page, surveyor.username)
            page.goto("/surveys/on-this-tablet/")
            expect_saved(page)
    survey.refresh_from_db()
    held = {section: answers for section, answers in survey.answers.items() if section != "hazards"}
    assert held == {section: dict(answers) for section, answers in TRUSSED.answers.items()}
    assert survey.findings.count() == len(HAZARDS)
    assert survey.photographs.count() == 3
    assert survey.state == Survey.State.COMPLETE
    assert not survey.kept_aside.exists()


def go_on_to(page: Page, section: str) -> None:
    """Go on to a page that the tablet keeps."""
    go_on(page)
    page.wait_for_url(f"**/{section}/")
    page.wait_for_selector("body[data-ready][data-shell]")


def fill(page: Page, section: str) -> None:
    if section == "hazards":
        answer_every_hazard(page, TRUSSED.seen)
    else:
        fill_section(page, TRUSSED.answers[section])


def test_a_broken_line_loses_nothing_and_doubles_nothing(browser, live_server, survey, surveyor, tmp_path):
    """The line breaks in a photograph, an answer is lost, the site is away, the log-in ends."""
    broken = {"PUT": [Fault.CUT_SHORT, Fault.LOST_ANSWER], "POST": [Fault.LOST_ANSWER, Fault.NO_LINE]}

    def choose(method: str, path: str) -> Fault:
        wanted = "/photographs/" in path or path.endswith("/changes/")
        return broken[method].pop(0) if wanted and broken.get(method) else Fault.NONE

    site = (live_server.thread.host, live_server.thread.port)
    with (
        faulty_line(site) as (address, line),
        tablet(browser, tmp_path / "tablet", address) as machine,
    ):
        page = machine.new_page()
        log_in(page, surveyor.username)
        open_section(page, survey, "roof")
        line.choose = choose
        page.fill("[name=span]", "6.2 m")
        page.locator("[name=span]").blur()
        expect_saved(page)
        open_section(page, survey, "photographs")
        take_photographs(page, photograph(Random(7), width=1200, height=900))
        expect_saved(page)
        assert not any(broken.values())

        Session.objects.all().delete()
        page.get_by_label("What it shows").fill("The hatch, open")
        page.get_by_label("What it shows").blur()
        expect(state(page)).to_contain_text("on this tablet, sign in to send")
        log_in(page, surveyor.username)
        open_section(page, survey, "photographs")
        expect_saved(page)
    survey.refresh_from_db()
    assert survey.answers["roof"] == {"span": "6.2 m"}
    assert survey.photographs.get().shows == "The hatch, open"
    assert SentChange.objects.count() == 3  # the span, the photograph, and its words


def test_two_tablets_on_one_survey_lose_neither_value(new_page, survey, surveyor, office):
    hers = new_page(width=820, height=1180, touch=True)
    his = new_page(width=820, height=1180, touch=True)
    for page, person in ((hers, surveyor), (his, office)):
        log_in(page, person.username)
        open_section(page, survey, "roof")
    his.context.set_offline(True)
    for page, span in ((hers, "6.2 m"), (his, "6.4 m")):
        page.fill("[name=span]", span)
        page.locator("[name=span]").blur()
    expect_saved(hers)
    his.context.set_offline(False)
    expect(state(his)).to_have_text(f"{SAVED}, some of it kept aside")
    survey.refresh_from_db()
    assert survey.answers["roof"]["span"] == "6.2 m"
    assert survey.kept_aside.get().other == "6.4 m"


def test_signing_out_warns_of_what_is_unsent_and_wipes_the_tablet(new_page, survey, surveyor):
    page = new_page(width=820, height=1180, touch=True)
    log_in(page, surveyor.username)
    open_section(page, survey, "roof")
    wait_until_kept(page)
    page.route("**/changes/", lambda route: route.abort())
    page.fill("[name=span]", "6.2 m")
    page.locator("[name=span]").blur()
    expect(state(page)).to_have_text("1 change on this tablet")
    page.goto("/")
    page.locator(".masthead__summary").tap()
    page.get_by_role("button", name="Log out").tap()
    asked = page.get_by_role("dialog", name="Not everything is in the office")
    expect(asked).to_contain_text("1 change on this tablet")
    asked.get_by_role("button", name="Stay signed in").tap()
    expect(asked).to_be_hidden()
    page.get_by_role("button", name="Log out").tap()
    asked.get_by_role("button", name="Sign out and remove it").tap()
    page.wait_for_url("**/log-in/")
    left = page.evaluate("async () => [(await indexedDB.databases()).length, (await caches.keys()).length]")
    assert left == [0, 0]


def test_a_page_that_was_made_before_a_change_was_taken_shows_the_change(new_page, survey, surveyor):
    """The office makes the page, takes the change, and only then does the page arrive."""
    page = new_page(width=820, height=1180, touch=True)
    log_in(page, surveyor.username)
    open_section(page, survey, "roof")
    older = page.context.request.get(f"/surveys/{survey.number}/roof/").body()
    page.fill("[name=span]", "6.2 m")
    page.locator("[name=span]").blur()
    expect_saved(page)
    page.route("**/roof/", lambda route: route.fulfill(body=older, content_type="text/html"))
    open_section(page, survey, "roof")
    expect(page.locator("[name=span]")).to_have_value("6.2 m")
    with page.expect_response("**/changes/"):
        page.fill("[name=span]", "6.4 m")
        page.locator("[name=span]").blur()
    survey.refresh_from_db()
    assert survey.answers["roof"]["span"] == "6.4 m"
    assert not survey.kept_aside.exists()
