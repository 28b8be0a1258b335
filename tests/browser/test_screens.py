"""Every main screen of the demo firm: whole at every width, clean to axe in both sheets, and all our own."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
from django.contrib.auth.models import User
from django.utils import timezone
from playwright.sync_api import Page

from jobs.customers.models import Enquiry
from jobs.demo import DemoSummary, build_demo
from jobs.price_books.models import Edition
from jobs.quotes.drafts.services import draft_quote
from jobs.surveys.models import Survey
from jobs.surveys.sections import SECTIONS
from jobs.surveys.services import copy_survey
from tests.browser.looking import faults
from tests.browser.walking import log_in

pytestmark = [
    pytest.mark.requires_chromium,
    pytest.mark.django_db(transaction=True),
    pytest.mark.any_database,
]

OFFICE = (
    "/", "/enquiries/", "/enquiries/new/", "/surveys/", "/surveys/{S1}/", "/quotes/", "/quotes/{Q1}/",
    "/quotes/{Q3}/", "/quotes/{Q4}/", "/orders/", "/orders/{M1}/", "/store/", "/jobs/", "/jobs/{J1}/",
    "/price-books/", "/search/?q=larkfield", "/mail/", "/mail/quote/{Q3}/",
    "/quotes/{Q1}/A/rights/", "/quotes/{Q1}/A/cancelled/",
)  # fmt: skip


@pytest.fixture
def demo(tmp_path: Path, live_server: Any, settings: Any) -> DemoSummary:
    """The demo firm, with an open survey and a draft besides."""
    settings.PAPERS_DIR, settings.BASE_URL = tmp_path / "papers", live_server.url
    summary = build_demo(tmp_path / "demo-papers", live_server.url)
    office, surveyor = (User.objects.get(username=name) for name in ("office", "surveyor"))
    survey = Survey.objects.get(number=_number("S2"))
    copy_survey(survey, by=surveyor, visited_on=timezone.localdate())
    draft_quote(survey, by=office)
    return summary


def test_every_screen_is_whole_and_can_be_read_by_everyone(
    new_page: Callable[..., Page], demo: DemoSummary, subtests: pytest.Subtests
) -> None:
    for person, addresses in _rounds(demo):
        page = new_page()
        if person in _passwords(demo):
            log_in(page, person, _passwords(demo)[person])
        for address in addresses:
            answer = page.goto(address)
            with subtests.test(person=person, address=page.url):
                assert answer
                assert answer.status == 200
                assert list(faults(page)) == []


def _rounds(demo: DemoSummary) -> Iterator[tuple[str, list[str]]]:
    """Yield each person with the screens they use, in the order they are looked at."""
    enquiry = Enquiry.objects.latest("pk")
    visit = Survey.objects.latest("pk").number
    owner, edition = User.objects.get(username="owner"), Edition.objects.latest("pk")
    yield "nobody", ["/log-in/"]
    numbers = {short: _number(short) for short in ("S1", "Q1", "Q3", "Q4", "M1", "J1")}
    office = [address.format(**numbers) for address in OFFICE]
    yield "office", [*office, f"/enquiries/{enquiry.pk}/", f"/customers/{enquiry.property.customer_id}/"]
    yield (
        "owner",
        ["/people/", f"/people/{owner.pk}/", "/firm/", "/firm/rights/", f"/price-books/{edition.pk}/"],
    )
    yield "surveyor", [f"/surveys/{visit}/{section.key}/" for section in SECTIONS]
    yield "crew", ["/", "/jobs/", f"/jobs/{numbers['J1']}/", f"/jobs/{numbers['J1']}/sheet/"]
    offer = f"/your-quote/{numbers['Q3']}/"
    yield "customer", [demo.customer_link, offer, f"{offer}accept/", f"{offer}decline/"]


def _number(short: str) -> str:
    """Return the running number that this year's demo gave, such as Q-2026-0003 for Q3."""
    return f"{short[0]}-{timezone.localdate().year}-{int(short[1:]):04d}"


def _passwords(demo: DemoSummary) -> dict[str, str]:
    return {username: password for _, username, password in demo.log_ins}
