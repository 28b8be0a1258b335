"""Days on a bad line: a surveyor types, taps, photographs, leaves pages and shuts windows meanwhile.

What is done and what breaks is drawn from a seed, so that a day that failed can be lived again. At the end of
each day the line is whole, and the office must hold every value and photograph, once, and nothing aside.
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import suppress
from dataclasses import dataclass, field
from random import Random

import pytest
from django.utils import timezone
from playwright.sync_api import BrowserContext, Error, Page

from jobs.surveys.models import Survey
from jobs.surveys.services import open_survey
from jobs.surveys.tablet.models import SentChange
from jobs.surveys.writing import answers_now
from tests.browser.faulty_line import Fault, FaultyLine, faulty_line
from tests.browser.tablets import (
    expect_saved,
    open_section,
    photograph,
    tablet,
    take_photographs,
    wait_until_kept,
)
from tests.browser.walking import log_in

pytestmark = [
    pytest.mark.requires_chromium,
    pytest.mark.django_db(transaction=True),
    pytest.mark.any_database,
    pytest.mark.usefixtures("edition"),
]

ACTS = 9
BOXES = {
    "roof": ("span", "ridge_height", "roof_notes"),
    "insulation": ("depth_readings", "gaps_seen"),
    "hazards": ("words_bats", "words_wasps"),
}
BROKEN = tuple(fault for fault in Fault if fault is not Fault.NONE)


@dataclass
class Day:
    """One survey on one bad line, and what was done to it."""

    random: Random
    survey: Survey
    machine: BrowserContext
    said: dict[tuple[str, str], str] = field(default_factory=dict)
    section: str = "roof"
    pictures: int = 0

    @property
    def page(self) -> Page:
        return self.machine.pages[-1]

    def live(self) -> None:
        self._go("roof")
        for _ in range(ACTS):
            self.random.choice(
                (self._type, self._type, self._type, self._tap, self._photograph, self._leave)
            )()

    def _type(self) -> None:
        name = self.random.choice(BOXES[self.section])
        words = f"{self.random.randint(1000, 9999)} mm"
        self.page.fill(f"[name={name}]", words)
        self.said[self.section, name] = words

    def _tap(self) -> None:
        if self.section != "hazards":
            self._go("hazards")
        seen = self.random.choice(("yes", "no", "not seen"))
        self.page.locator("label", has=self.page.locator(f"[name=seen_bats][value='{seen}']")).tap()
        self.said["hazards", "seen_bats"] = seen

    def _photograph(self) -> None:
        here = self.section
        self._go("photographs")
        take_photographs(self.page, photograph(self.random, width=360, height=270))
        self.pictures += 1
        self._go(here)

    def _leave(self) -> None:
        """Go to another page at once, whatever is still being written; sometimes by shutting the window."""
        if self.random.random() < 0.5:
            left = self.page
            self.machine.new_page()
            left.close()
        self._go(self.random.choice(list(BOXES)))

    def _go(self, section: str) -> None:
        self.section = section
        with suppress(Error):  # a page whose own request broke is opened again, as a person would
            open_section(self.page, self.survey, section)
            return
        open_section(self.page, self.survey, section)

    def settle(self) -> None:
        self.page.goto("/surveys/on-this-tablet/")
        expect_saved(self.page)


@pytest.fixture
def machine(browser, live_server, surveyor, tmp_path) -> Iterator[tuple[BrowserContext, FaultyLine]]:
    """A tablet that is signed in and keeps its pages, and the line that it hangs on."""
    site = (live_server.thread.host, live_server.thread.port)
    with faulty_line(site) as (address, line), tablet(browser, tmp_path / "tablet", address) as opened:
        page = opened.new_page()
        log_in(page, surveyor.username)
        page.goto("/surveys/on-this-tablet/")
        wait_until_kept(page)
        yield opened, line


@pytest.mark.parametrize(
    "days",
    [
        pytest.param(range(10), id="the first ten"),
        pytest.param(range(10, 30), id="twenty more", marks=pytest.mark.slow),
    ],
)
def test_days_on_a_bad_line_lose_nothing(days, machine, building, surveyor, subtests):
    for seed in days:
        with subtests.test(day=seed):
            _live(Random(seed), _survey(building, surveyor), *machine)


def _survey(building, surveyor) -> Survey:
    return open_survey(building, by=surveyor, visited_on=timezone.localdate())


def _live(random: Random, survey: Survey, machine: BrowserContext, line: FaultyLine) -> None:
    day = Day(random, survey, machine)
    line.choose = lambda method, path: _fault(random, method, path)
    day.live()
    line.choose = lambda _method, _path: Fault.NONE
    day.settle()
    survey.refresh_from_db()
    held = {(section, name): answers_now(survey, section).get(name) for section, name in day.said}
    assert held == day.said
    assert survey.photographs.count() == day.pictures
    assert not survey.kept_aside.exists()
    changes = SentChange.objects.filter(survey=survey)
    assert changes.values("tablet", "number").distinct().count() == changes.count()


def _fault(random: Random, method: str, path: str) -> Fault:
    """Break about every third request that sends something, and some of those that only ask."""
    share = 0.35 if method in {"POST", "PUT"} else 0.05 if path.startswith("/surveys/") else 0
    return random.choice(BROKEN) if random.random() < share else Fault.NONE
