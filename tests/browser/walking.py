"""What everybody does in a browser, whatever their role: log in, find what waits, read a page or a paper."""

from __future__ import annotations

import io
import re
from decimal import Decimal

from playwright.sync_api import Locator, Page, expect
from pypdf import PdfReader

POUNDS = re.compile(r"£([\d,]+\.\d\d)")


def log_in(page: Page, username: str, password: str = "a long invented one") -> None:
    page.goto("/log-in/")
    page.get_by_label("Name", exact=True).fill(username)
    page.get_by_label("Password").fill(password)
    page.get_by_role("button", name="Log in").click()
    expect(page.get_by_role("heading", level=1)).to_have_text("Today")


def open_what_waits(page: Page, group: str) -> None:
    """Follow the first thing that the first page lists under a heading."""
    page.goto("/")
    part = page.locator(".today__part", has=page.get_by_role("heading", name=group, exact=True))
    part.locator(".register__link").first.click()


def press(page: Page, name: str) -> None:
    page.get_by_role("button", name=name, exact=True).click()


def follow(page: Page, name: str) -> None:
    page.get_by_role("link", name=name, exact=True).click()


def expect_state(page: Page, words: str) -> None:
    """Wait until the head of a sheet says that it stands so."""
    expect(page.locator(".sheet__about .state").first).to_have_text(exactly(words))


def pounds_in(place: Locator) -> Decimal:
    """Return the first sum of money that a part of a page shows."""
    return all_pounds(place.inner_text())[0]


def all_pounds(text: str) -> list[Decimal]:
    return [Decimal(sum_.replace(",", "")) for sum_ in POUNDS.findall(text)]


def figure(page: Page, name: str) -> str:
    """Return what stands beside a name in the figures of a sheet."""
    line = page.locator(".figures__line", has=page.locator(".figures__name", has_text=exactly(name)))
    return line.locator(".figures__value").first.inner_text().replace("\N{NO-BREAK SPACE}", " ")


def count(page: Page, name: str) -> str:
    """Return what stands in a cell of the running count."""
    cell = page.locator(".counts__cell", has=page.locator(".counts__name", has_text=exactly(name)))
    return cell.locator(".counts__value").first.inner_text().replace("\N{NO-BREAK SPACE}", " ")


def exactly(words: str) -> re.Pattern[str]:
    return re.compile(rf"^\s*{re.escape(words)}\s*$")


def paper_text(page: Page, link: str) -> str:
    """Fetch the paper that a link on this page leads to, as this person, and return its words."""
    address = page.get_by_role("link", name=link, exact=True).get_attribute("href")
    answer = page.context.request.get(address or "")
    assert answer.headers["content-type"] == "application/pdf"
    text = "\n".join(sheet.extract_text() for sheet in PdfReader(io.BytesIO(answer.body())).pages)
    return text.replace("\N{NO-BREAK SPACE}", " ")
