"""Every screen of a survey in its worst state, in both sheets: unreadable answers, a stop, all unfolded.

`test_screens.py` looks at the same screens as most surveys leave them.
"""

from __future__ import annotations

import io
import re
from collections.abc import Callable

import pytest
from PIL import Image
from playwright.sync_api import Page, expect

from jobs.surveys.models import Survey
from jobs.surveys.photographs.kept import keep_photograph
from jobs.surveys.sections import SECTIONS
from jobs.surveys.services import add_photographs, copy_survey
from jobs.surveys.tablet.models import KeptAside, Reason
from tests.browser.looking import faults
from tests.browser.tablets import open_section, wait_until_kept
from tests.browser.walking import log_in
from tests.jobs.surveys.lofts import BUNGALOW

pytestmark = [
    pytest.mark.requires_chromium,
    pytest.mark.django_db(transaction=True),
    pytest.mark.any_database,
]

UNREADABLE = {
    "arrive": {"hatch_long": "wide", "built_year": "old"},
    "roof": {"span": "7,2 of what", "pitch_degrees": "steep", "joist_depth": "4.25"},
    "plan": {"outline_length": "long", "zones-0-length": "some", "joists-0-readings": "0 1' 2 3"},
    "insulation": {"depth_readings": "deep", "hidden_percent": "130"},
    "services": {"covered_cables": "thick", "heating_efficiency": "good"},
    "wishes": {"gap": "wide", "lights": "many"},
}


@pytest.fixture
def worst(edition, survey, surveyor, tmp_path, settings) -> Survey:
    """A survey whose every section has an answer that cannot be read, with stops and a photograph."""
    settings.PHOTOGRAPHS_DIR = tmp_path
    survey.answers = {section: {**answers, **UNREADABLE[section]} for section, answers in BUNGALOW.items()}
    survey.save()
    bats = survey.findings.create(hazard="bats", seen="yes", severity="stop", words="Droppings at the ridge")
    survey.findings.create(hazard="asbestos", seen="not seen", severity="stop")
    picture = io.BytesIO()
    Image.new("RGB", (640, 480), "tan").save(picture, "JPEG")
    kept = keep_photograph(picture.getvalue(), name="ridge.jpg")
    add_photographs(survey, kept=[kept], by=surveyor, shows="Droppings", finding=bats)
    KeptAside.objects.create(
        survey=survey, section="roof", name="ridge_height", stood="1.9 m", other="2.1 m",
        reason=Reason.values[0], by=surveyor,
    )  # fmt: skip
    return survey


def unfolded(page: Page) -> Page:
    page.evaluate("document.querySelectorAll('main details').forEach((fold) => { fold.open = true; })")
    return page


def opened(new_page: Callable[..., Page], person: str) -> Page:
    page = new_page(width=390)
    log_in(page, person)
    return page


def test_axe_finds_nothing_on_any_section_with_unreadable_answers(new_page, worst, surveyor, subtests):
    page = opened(new_page, surveyor.username)
    for section in SECTIONS:
        with subtests.test(section=section.key):
            page.goto(f"/surveys/{worst.number}/{section.key}/")
            if section.key in UNREADABLE:
                expect(page.locator(".error-summary")).to_be_visible()
            assert list(faults(unfolded(page))) == []


def test_axe_finds_nothing_on_a_page_that_was_refused(new_page, worst, surveyor, subtests):
    page = opened(new_page, surveyor.username)
    for section in ("roof", "plan", "hazards"):
        with subtests.test(section=section):
            page.goto(f"/surveys/{worst.number}/{section}/")
            if section == "hazards":
                page.locator("[name=seen_vermiculite][value=yes]").check(force=True)
            with page.expect_navigation() as answered:
                page.evaluate("document.querySelector('#answers').submit()")
            assert answered.value.status == 422
            expect(page.locator(".error-summary")).to_be_visible()
            assert list(faults(unfolded(page))) == []


def test_axe_finds_nothing_on_the_pages_round_a_survey(new_page, worst, office, subtests):
    version = copy_survey(worst, by=office, visited_on=worst.visited_on)
    version.answers["roof"]["span"] = "7.2 m"
    version.save()
    bats = worst.findings.get(hazard="bats")
    page = opened(new_page, office.username)
    for address in (
        "/surveys/", f"/surveys/{worst.number}/", f"/surveys/{version.number}/",
        f"/surveys/{version.number}/against/{worst.number}/", f"/surveys/{version.number}/aside/",
        f"/surveys/{worst.number}/findings/{bats.pk}/clear/", "/surveys/on-this-tablet/",
    ):  # fmt: skip
        with subtests.test(address=re.sub(r"\d+", "n", address)):
            answer = page.goto(address)
            assert answer.status == 200
            assert list(faults(unfolded(page))) == []


def test_axe_finds_nothing_without_a_signal(new_page, worst, surveyor, subtests):
    page = opened(new_page, surveyor.username)
    open_section(page, worst, "arrive")
    wait_until_kept(page)
    page.reload()  # carried from now on
    page.wait_for_selector("body[data-ready]")
    page.context.set_offline(True)
    for section in SECTIONS:
        with subtests.test(section=section.key):
            open_section(page, worst, section.key)
            expect(page.locator("body[data-shell]")).to_be_attached()
            assert list(faults(unfolded(page))) == []
    with subtests.test("the sheet"):
        page.goto(f"/surveys/{worst.number}/")
        expect(page.locator("body[data-shell]")).to_be_attached()
        assert list(faults(unfolded(page))) == []
