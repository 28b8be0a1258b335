"""A quote mailed to a phone: from the office's page through a real mail server to an acceptance and a job.

The link is taken from the message that the server received. What the customer saw, the office sees; whoever
else had the page open is told that it was accepted. The same without a script.
"""

from __future__ import annotations

import io
import re
from collections.abc import Callable, Iterator
from decimal import Decimal
from email.message import EmailMessage

import pytest
from django.contrib.auth.models import User
from playwright.sync_api import Page, expect
from pypdf import PdfReader

from jobs.mail.sending import send_waiting
from jobs.orders.models import MaterialsOrder
from jobs.quotes.customer.models import Decision
from jobs.quotes.models import Revision
from jobs.quotes.rights.models import Cancellation
from jobs.works.models import Job
from tests.browser.looking import faults
from tests.browser.walking import all_pounds, expect_state, follow, log_in, paper_text, pounds_in, press
from tests.jobs.mail.peer import Peer, mail_server
from tests.jobs.quotes.conftest import draft, measured

pytestmark = [pytest.mark.requires_chromium, pytest.mark.django_db(transaction=True)]
__all__ = ["draft", "measured"]

ODILE = "odile@example.org"
Machines = Callable[..., Page]
OFFER = re.compile("^A raised loft deck for ")
LINK = re.compile(r"http://\S+/q/[\w-]+/")


@pytest.fixture
def peer(settings) -> Iterator[Peer]:
    """Return the mail server that the site is set to."""
    with mail_server() as (peer, port):
        settings.EMAIL_BACKEND = "django.core.mail.backends.smtp.EmailBackend"
        settings.EMAIL_HOST, settings.EMAIL_PORT, settings.EMAIL_TIMEOUT = "127.0.0.1", port, 20
        settings.EMAIL_HOST_USER = settings.EMAIL_HOST_PASSWORD = ""
        settings.DEFAULT_FROM_EMAIL = "site@example.com"
        yield peer


@pytest.fixture
def offered(draft: Revision) -> Revision:
    """Return a draft whose customer has an e-mail."""
    customer = draft.quote.property.customer
    customer.email = ODILE
    customer.save()
    return draft


@pytest.mark.parametrize("scripts", [True, False], ids=["with scripts", "without scripts"])
def test_a_mailed_quote_is_read_asked_about_and_accepted_once(new_page, peer, offered, office, scripts):
    def phone_of_somebody() -> Page:
        return new_page(width=390, height=844, touch=True, java_script_enabled=scripts)

    desk = new_page(java_script_enabled=scripts)
    link = mail_from_the_desk(desk, peer, offered, office)

    other = phone_of_somebody()
    other.goto(link)
    press(other, "Accept this quote")

    phone = phone_of_somebody()
    phone.goto(link)
    assert "/q/" not in phone.url
    look_at(phone, OFFER, scripts=scripts)
    total = take_two(phone, scripts=scripts)
    paper = all_pounds(paper_text(phone, "The whole quote on paper (PDF)"))
    assert offered.quote.revisions.get().total in paper
    assert "Model cancellation form" in paper_text(phone, "Your rights and the form on paper (PDF)")
    ask(phone, "May we keep the old ladder?", scripts=scripts)
    expect(phone.locator(".price__total")).to_have_text(f"£{total:,}")  # what was ticked came back
    accept(phone, total, scripts=scripts)

    sign(other)
    other.get_by_role("button", name=re.compile("^Accept and agree")).click()
    look_at(other, "This quote was already accepted. Nothing more is needed.", scripts=scripts)
    assert Decision.objects.get().total == total

    copies_reach_both(peer, offered)
    office_sees_it(desk, offered, total)
    look_at_what_may_follow(phone, scripts=scripts)


@pytest.mark.parametrize("scripts", [True, False], ids=["with scripts", "without scripts"])
def test_a_contract_is_cancelled_on_the_phone_and_settled_at_the_desk(
    new_page, peer, offered, office, scripts
):
    desk = new_page(java_script_enabled=scripts)
    link = mail_from_the_desk(desk, peer, offered, office)
    phone = new_page(width=390, height=844, touch=True, java_script_enabled=scripts)
    phone.goto(link)
    press(phone, "Accept this quote")
    sign(phone)
    phone.get_by_role("button", name=re.compile("^Accept and agree")).tap()
    expect(phone.locator(".verdict").first).to_contain_text("Accepted")

    follow(phone, "Cancel the contract")
    press(phone, "Cancel the contract")
    expect(phone.get_by_role("alert")).to_contain_text("Your full name")
    phone.get_by_label("Your full name").fill("Odile Pemberwick")
    press(phone, "Cancel the contract")
    expect(phone.locator(".verdict").first).to_contain_text("Cancelled")
    look_at(phone, OFFER, scripts=scripts)
    assert Cancellation.objects.get().settlement["payable"] == "0.00"

    desk.goto(f"/quotes/{offered.quote.number}/")
    expect_state(desk, "cancelled")
    follow(desk, "What the customer was told of their rights")
    desk.get_by_label(re.compile("Share of the whole work")).fill("0")
    desk.get_by_label(re.compile("Paid by the customer")).fill("100")
    press(desk, "Work out what is owed")
    expect(desk.locator("main")).to_contain_text("£100.00, by")
    phone.reload()
    expect(phone.locator("#settlement")).to_contain_text("£100.00")
    assert Job.objects.get().state == Job.State.CALLED_OFF


def mail_from_the_desk(desk: Page, peer: Peer, revision: Revision, office: User) -> str:
    """Issue the quote, mail it from its page, let the worker send it, and return the link that arrived."""
    log_in(desk, office.username)
    desk.goto(f"/quotes/{revision.quote.number}/")
    press(desk, "Issue revision A")
    follow(desk, "Mail it instead")
    press(desk, "Mail it")
    expect_state(desk, "issued")
    send_waiting()
    [(recipients, message)] = peer.taken
    assert recipients == [ODILE]
    assert sorted(pages_of(message)) == [f"Quote {revision}.pdf", f"Your rights {revision}.pdf"]
    found = LINK.search(text_of(message))
    assert found
    peer.taken.clear()
    return found[0]


def take_two(phone: Page, *, scripts: bool) -> Decimal:
    """Take the first two options that are not in the price yet, and return the price with them."""
    total = phone.locator(".price__total")
    due = pounds_in(total)
    free = phone.locator(".choice", has=phone.locator("input[type=checkbox]:not(:checked)"))
    names = free.locator(".choice__name").all_inner_texts()[:2]
    assert len(names) == 2
    for name in names:
        option = phone.locator(".choice", has=phone.get_by_text(name, exact=True))
        due += pounds_in(option)
        option.tap()
        if not scripts:
            press(phone, "Work out the price again")
        expect(total).to_have_text(f"£{due:,}")
    return due


def ask(phone: Page, words: str, *, scripts: bool) -> None:
    phone.get_by_label("Your question").fill(words)
    press(phone, "Send the question")
    look_at(phone, re.compile("Your question is with us"), scripts=scripts)
    follow(phone, "Back to the quote")


def sign(phone: Page) -> None:
    phone.get_by_label("Your full name").fill("Odile Pemberwick")
    phone.get_by_label(re.compile("I have read what")).check()
    phone.get_by_label(re.compile("I know that I may cancel")).check()


def accept(phone: Page, due: Decimal, *, scripts: bool) -> None:
    """Accept with name and ticks; neither the early start nor the news is ticked in advance, or needed."""
    press(phone, "Accept this quote")
    look_at(phone, "Accept this quote", scripts=scripts)
    follow(phone, "what could change the price")
    expect(phone.get_by_role("heading", name="What could change the price")).to_be_in_viewport()
    assert pounds_in(phone.locator(".price__total")) == due
    press(phone, "Accept this quote")
    for words in ("Please start within", "You may send me news"):
        expect(phone.get_by_label(re.compile(words))).not_to_be_checked()
    sign(phone)
    press(phone, f"Accept and agree to pay £{due:,}")
    expect(phone.locator(".verdict").first).to_contain_text("Accepted")
    assert pounds_in(phone.locator(".price__total")) == due


def copies_reach_both(peer: Peer, revision: Revision) -> None:
    send_waiting()
    accepted = [(to, each) for to, each in peer.taken if each["Subject"] == f"Quote {revision} is accepted"]
    assert sorted(to for to, _ in accepted) == [["odile@example.org"], ["office@example.com"]]
    for _, message in accepted:
        assert "Accepted by: Odile Pemberwick" in text_of(message)
        assert sorted(pages_of(message)) == [f"Quote {revision}.pdf", f"Your rights {revision}.pdf"]
    asked = [to for to, each in peer.taken if "A question about" in each["Subject"]]
    assert asked == [["office@example.com"]]


def office_sees_it(desk: Page, revision: Revision, total: Decimal) -> None:
    """Find acceptance, question and job on the quote's page, and on the job's the orders that it made."""
    desk.goto(f"/quotes/{revision.quote.number}/")
    expect_state(desk, "accepted")
    assert pounds_in(desk.locator(".price")) == total
    expect(desk.locator("main")).to_contain_text("May we keep the old ladder?")
    expect(desk.locator("main")).to_contain_text("Odile Pemberwick accepted this revision.")
    expect(desk.locator("main")).to_contain_text("opened the link 2 times")
    job = Job.objects.get(revision__quote=revision.quote)
    follow(desk, f"Job {job.number}")
    orders = desk.locator("a.register__link[href^='/orders/']")
    expect(orders).to_have_count(MaterialsOrder.objects.filter(job=job).count())
    expect(desk.locator("main")).to_contain_text("an order is sent at the firm’s own risk")
    orders.first.click()
    expect_state(desk, "draft")
    expect(desk.locator("main")).to_contain_text("made on acceptance")
    expect(desk.locator("main")).to_contain_text("an order is sent at the firm’s own risk")


def look_at_what_may_follow(phone: Page, *, scripts: bool) -> None:
    """Look at what may be asked for after accepting, and ask for the early start."""
    look_at(phone, OFFER, scripts=scripts)
    follow(phone, "Cancel the contract")
    look_at(phone, "Cancel the contract", scripts=scripts)
    follow(phone, "Keep it, back to the quote")
    follow(phone, "Ask us to start early")
    look_at(phone, "Ask us to start early", scripts=scripts)
    phone.get_by_label("Your full name").fill("Odile Pemberwick")
    phone.get_by_label(re.compile("Please start within")).check()
    press(phone, "Ask for the early start")
    expect(phone.locator("#change-your-mind")).to_contain_text("You asked on")


def look_at(page: Page, heading: str | re.Pattern[str], *, scripts: bool) -> None:
    """Wait for the page of a heading, and hold it to its widths and to axe (a script), in both sheets.

    A button that was pressed lets go before the next page is there, so a look says which page it is for.
    """
    expect(page.get_by_role("heading", level=1)).to_have_text(heading)
    if not scripts:
        return
    for each in page.locator("details").all():
        each.evaluate("element => { element.open = true }")
    assert list(faults(page)) == []
    page.set_viewport_size({"width": 390, "height": 844})


def text_of(message: EmailMessage) -> str:
    body = message.get_body()
    assert body
    return str(body.get_content())


def pages_of(message: EmailMessage) -> dict[str, int]:
    """Return the papers of a message by name, each with its pages, read as PDFs."""
    return {
        each.get_filename() or "": len(PdfReader(io.BytesIO(each.get_content())).pages)
        for each in message.iter_attachments()
    }
