"""One whole day in a real browser, from the enquiry to the hand-over, with scripts and without.

Four people, each on their own machine, follow the links that the pages give them. What one of them reads
must be what the next one reads: the price on screen, phone and paper, the packs of the sheet and of the
orders, the boards of the plan and of the job sheet.
"""

from __future__ import annotations

import csv
import io
import re
from collections import Counter
from collections.abc import Callable
from datetime import timedelta
from decimal import Decimal

import pytest
from django.utils import timezone
from playwright.sync_api import Page, expect

from jobs.demo.lofts import TRUSSED
from tests.browser.visit import fill_visit
from tests.browser.walking import (
    all_pounds,
    count,
    expect_state,
    figure,
    follow,
    log_in,
    open_what_waits,
    paper_text,
    pounds_in,
    press,
)

pytestmark = [pytest.mark.requires_chromium, pytest.mark.django_db(transaction=True)]

Machines = Callable[..., Page]


@pytest.mark.parametrize("scripts", [True, False], ids=["with scripts", "without scripts"])
@pytest.mark.usefixtures("edition")
def test_an_enquiry_becomes_a_deck_that_is_handed_over(new_page, office, surveyor, crew, scripts):
    def machine(**kind):
        return new_page(java_script_enabled=scripts, **kind)

    desk = machine()
    log_in(desk, office.username)
    take_enquiry(desk, surveyor.get_full_name())

    tablet = machine(width=820, height=1180, touch=True)
    log_in(tablet, surveyor.username)
    pedestals = survey_the_loft(tablet)

    draft_the_quote(desk)
    change_the_offer(desk, scripts=scripts)
    offered, packs, boards = pounds_in(desk.locator(".price")), packs_on(desk), boards_on_plan(desk)
    link = issue(desk)

    phone = machine(width=390, height=844, touch=True)
    phone.goto(link)
    accepted = accept(phone, offered=offered, scripts=scripts)

    open_what_waits(desk, "Book the job")
    assert pounds_in(desk.locator("section", has_text="What was accepted").last) == accepted
    quote_says_so(desk, offered=offered, accepted=accepted)
    book(desk, crew.get_full_name())
    ordered = order(desk)
    assert {description: ordered[description] for description in packs} == packs

    van = machine(width=390, height=844, touch=True)
    log_in(van, crew.username)
    build(van, boards=boards, pedestals=pedestals)
    refuse_prices(van, desk)

    open_what_waits(desk, "Hand over")
    desk.get_by_label("Who took it over").fill("Odile Pemberwick")
    press(desk, "Hand over")
    expect_state(desk, "handed over")


def take_enquiry(desk: Page, surveyor: str) -> None:
    follow(desk, "New enquiry")
    desk.get_by_label("Name", exact=True).fill(TRUSSED.customer)
    desk.get_by_label(re.compile("^Phone")).fill(TRUSSED.phone)
    desk.get_by_label(re.compile("^E-mail")).fill(TRUSSED.email)
    desk.get_by_label("House and street").fill(TRUSSED.address)
    desk.get_by_label("Post town").fill(TRUSSED.town)
    desk.get_by_label("Postcode", exact=True).fill(TRUSSED.postcode)
    desk.get_by_label(re.compile("^What they want")).fill(TRUSSED.wants)
    press(desk, "Keep the enquiry")
    desk.get_by_label("Day of the visit").fill(timezone.localdate().isoformat())
    desk.get_by_label("Time").fill("09:30")
    desk.get_by_label("Surveyor").select_option(label=surveyor)
    press(desk, "Book the visit")
    expect_state(desk, "visit booked")


def survey_the_loft(tablet: Page) -> int:
    """Fill the whole survey and complete it; return how many pedestals it counted."""
    open_what_waits(tablet, "Visit")
    press(tablet, "Start the survey")
    fill_visit(tablet, TRUSSED.answers, TRUSSED.seen)
    pedestals = int(count(tablet, "Pedestals"))
    press(tablet, "Survey complete")
    expect_state(tablet, "complete")
    assert "Margin" not in tablet.locator("main").inner_text()
    return pedestals


def draft_the_quote(desk: Page) -> None:
    open_what_waits(desk, "Price the survey")
    press(desk, "Draft a quote")
    expect(desk.locator(".price__total")).to_be_visible()


def change_the_offer(desk: Page, *, scripts: bool) -> None:
    """Take the shelves into the price: it must move, by htmx while the page stays, else by the button."""
    before = desk.locator(".price__total").inner_text()
    desk.get_by_label("Shelves", exact=True).select_option(label="In the price")
    if not scripts:
        press(desk, "Work it out")
    expect(desk.locator(".price__total")).not_to_have_text(before)
    desk.reload()
    expect(desk.locator(".price__total")).not_to_have_text(before)


def packs_on(desk: Page) -> dict[str, int]:
    """Read from the sheet how many packs the boards, pedestals, screws and rolls come to."""
    names = desk.locator("#figures .figures").first.locator(".figures__name").all_inner_texts()
    counted = [name for name in names if name not in ("Deck laid", "Person-hours", "Delivered weight")]
    return {name: _packs(figure(desk, name)) for name in counted}


def _packs(shown: str) -> int:
    """Read the packs of "163 · 14 boxes", or of the bare number that things bought singly have."""
    return int(shown.rpartition("·")[2].split()[0])


def boards_on_plan(desk: Page) -> set[str]:
    """Read the numbers that the plan writes on its boards."""
    texts = desk.locator("#drawings svg").first.locator(".drawing__text--strong").all_text_contents()
    return {text for text in texts if text.isdecimal()}


def issue(desk: Page) -> str:
    press(desk, "Issue revision A")
    address = desk.get_by_label("Address of the quote").input_value()
    follow(desk, "Back to the quote")
    expect_state(desk, "issued")
    return address


def accept(phone: Page, *, offered: Decimal, scripts: bool) -> Decimal:
    """Take the ladder, look at the total, accept with name and ticks; return what was accepted."""
    total = phone.locator(".price__total")
    assert pounds_in(total) == offered
    assert "/q/" not in phone.url
    option = phone.locator(".choice", has_text="ladder")
    adds = pounds_in(option)
    option.tap()
    if not scripts:
        press(phone, "Work out the price again")
    expect(total).to_have_text(f"£{offered + adds:,}")
    assert all_pounds(paper_text(phone, "The whole quote on paper (PDF)")).count(offered) >= 2
    assert adds in all_pounds(paper_text(phone, "The whole quote on paper (PDF)"))

    press(phone, "Accept this quote")
    expect(total).to_have_text(f"£{offered + adds:,}")
    press(phone, f"Accept and agree to pay £{offered + adds:,}")
    expect(phone.get_by_role("alert")).to_contain_text("Your full name")
    phone.get_by_label("Your full name").fill(TRUSSED.customer)
    phone.get_by_label(re.compile("I have read what")).check()
    phone.get_by_label(re.compile("I know that I may cancel")).check()
    press(phone, f"Accept and agree to pay £{offered + adds:,}")
    expect(phone.locator(".verdict").first).to_contain_text("Accepted")
    assert pounds_in(total) == offered + adds
    return offered + adds


def quote_says_so(desk: Page, *, offered: Decimal, accepted: Decimal) -> None:
    desk.get_by_role("link", name=re.compile(", revision A$")).click()
    expect_state(desk, "accepted")
    assert pounds_in(desk.locator(".price")) == accepted
    assert offered in all_pounds(paper_text(desk, "Paper"))
    desk.get_by_role("link", name=re.compile("^Job J-")).click()


def book(desk: Page, crew: str) -> None:
    first = timezone.localdate() + timedelta(days=3)
    follow(desk, "Book this job")
    desk.get_by_label("First day").fill(first.isoformat())
    desk.get_by_label("Last day").fill((first + timedelta(days=1)).isoformat())
    desk.get_by_label(crew).check()
    press(desk, "Book")
    expect_state(desk, "booked")


def order(desk: Page) -> dict[str, int]:
    """Send each order that the acceptance made; return the packs of what the sheet lists, as ordered."""
    job = desk.url
    ordered: Counter[str] = Counter()
    orders = desk.locator("a.register__link[href^='/orders/']")
    expect(orders).not_to_have_count(0)
    for address in [each.get_attribute("href") for each in orders.all()]:
        desk.goto(address or "")
        lines = packs_in_csv(desk)
        press(desk, "Mark as sent")
        expect_state(desk, "sent")
        paper = paper_text(desk, "Paper (PDF)")
        assert all(description in " ".join(paper.split()) for description in lines)
        ordered.update(lines)
    desk.goto(job)
    expect(desk.get_by_role("button", name=re.compile("^Make the"))).to_have_count(0)
    return ordered


def packs_in_csv(desk: Page) -> dict[str, int]:
    with desk.expect_download() as started:
        follow(desk, "CSV")
    text = started.value.path().read_text("utf-8-sig")
    return {row["description"]: int(row["packs"]) for row in csv.DictReader(io.StringIO(text))}


def build(van: Page, *, boards: set[str], pedestals: int) -> None:
    """Open the job sheet, begin, and report that the work is complete."""
    open_what_waits(van, "Your jobs")
    follow(van, "Open the job sheet")
    van.wait_for_url("**/sheet/")
    screen = van.locator("main").inner_text()
    assert "£" not in screen
    assert sum(map(int, re.findall(r"(\d+) ×", count(van, "Supports")))) == pedestals
    assert boards_on_sheet(van) == boards
    follow(van, "To the job: begin, complete")
    van.wait_for_url(re.compile(r"/jobs/[\w-]+/$"))
    assert "£" not in van.locator("body").inner_text()
    assert "£" not in paper_text(van, "Job sheet (PDF)")
    press(van, "We begin")
    van.get_by_label(re.compile("Person-hours it took")).fill("11.5")
    press(van, "The work is complete")
    expect_state(van, "complete")


def boards_on_sheet(van: Page) -> set[str]:
    """Read every board and piece that the cutting list names: the whole ones, and what each cut keeps."""
    words = "\n".join(van.locator("#cutting > p, #cutting > ol").all_inner_texts())
    whole = re.search(r"Whole, without a saw: ([^.]*)\.", words)
    named = re.findall(r"keep ([^.]*?)\.", words)
    return set(re.findall(r"\d+", " ".join([whole[1] if whole else "", *named])))


def refuse_prices(van: Page, desk: Page) -> None:
    """Nothing that the crew's own pages link to, and no address typed in, shows the crew a price."""
    for address in van.locator("a[href^='/']").evaluate_all("links => links.map(link => link.href)"):
        if "paper" not in address:
            van.goto(address)
            assert "£" not in van.locator("body").inner_text()
    for room in ("/quotes/", "/orders/", "/price-books/", desk.url.replace("/jobs/", "/orders/")):
        assert van.context.request.get(room).status in (403, 404)
