"""What the list shows of a quote is what its revisions say, after whatever happened to them."""

from __future__ import annotations

import random
from collections.abc import Callable
from datetime import timedelta

import pytest
from django.utils import timezone

from jobs.mail.models import OutgoingMail
from jobs.mail.sending import _set_cut_short_aside, _take
from jobs.mail.services import Recipient, note_arrival, queue_mail, try_again, withdraw_mail
from jobs.mail.smtp_line import Kind, Outcome
from jobs.quotes.customer.decisions import Evidence, NotOpen, accept_revision, ask_question, decline_revision
from jobs.quotes.drafts.services import CannotRevise, NotADraft, discard_draft, next_revision
from jobs.quotes.listing.declined import CannotDecline, record_decline
from jobs.quotes.listing.following import drop_follow_up, set_follow_up
from jobs.quotes.listing.standing import KEPT, keep_standing, standing_of, turn_of
from jobs.quotes.listing.turns import Because, Turn
from jobs.quotes.models import Quote, Revision
from jobs.quotes.services import NotOnOffer, answer_question, lapse_offers, withdraw_revision
from jobs.works.models import Job
from jobs.works.services import book_job
from tests.jobs.offers import NOT_A_PAPER, make_offer

pytestmark = pytest.mark.django_db
NOBODY = Evidence(link=None, address=None, browser="")
REFUSALS = (NotOpen, CannotRevise, NotADraft, CannotDecline, NotOnOffer)


def now_of(quote: Quote) -> tuple[Turn, Because]:
    quote.refresh_from_db()
    told = turn_of(quote, now=timezone.now())
    return told.turn, told.because


@pytest.fixture
def no_sheets(monkeypatch):
    """Book jobs without their papers: what is tried is whose turn it is."""
    monkeypatch.setattr("jobs.works.services.job_sheet_pdf", lambda job: b"%PDF-")


def accept(revision: Revision) -> Job:
    accept_revision(
        revision, name_typed="O. P.", statements=["I accept."], taken_parts=frozenset(), evidence=NOBODY
    )
    return Job.objects.get(revision=revision)


def test_the_turn_goes_from_office_to_customer_and_back_until_the_job_is_booked(
    offer, edition, office, no_sheets
):
    quote = offer.quote
    keep_standing(quote)
    assert now_of(quote) == (Turn.CUSTOMER, Because.DECIDE)
    question = ask_question(quote, "May it carry a wardrobe?")
    assert now_of(quote) == (Turn.OFFICE, Because.QUESTION)
    answer_question(question)
    assert now_of(quote) == (Turn.CUSTOMER, Because.DECIDE)
    draft = next_revision(quote, by=office)
    assert now_of(quote) == (Turn.OFFICE, Because.DRAFT)
    assert (quote.state, quote.letter, quote.total) == ("issued", "A", offer.total)
    discard_draft(draft)
    assert now_of(quote) == (Turn.CUSTOMER, Because.DECIDE)
    job = accept(offer)
    assert now_of(quote) == (Turn.OFFICE, Because.BOOK)
    today = timezone.localdate()
    book_job(job, starts_on=today, ends_on=today, crew=[], note="", by=office)
    assert now_of(quote) == (Turn.NOBODY, Because.BOOKED)


def test_a_draft_left_over_an_accepted_revision_waits_for_nobody(offer, edition, office):
    next_revision(offer.quote, by=office)
    accept(offer)
    assert now_of(offer.quote) == (Turn.OFFICE, Because.BOOK)


def test_the_price_of_an_accepted_quote_is_that_of_the_options_taken(offer):
    accept_revision(
        offer,
        name_typed="O. P.",
        statements=[],
        taken_parts=frozenset(line.part for line in _options(offer)),
        evidence=NOBODY,
    )
    offer.quote.refresh_from_db()
    assert offer.quote.total == offer.quote.revisions.get().decision.total > offer.total


def _options(offer: Revision):
    from jobs.quotes.options import options_of  # noqa: PLC0415

    return [option.line for option in options_of(offer, frozenset())]


def test_mail_that_stopped_is_the_offices_until_it_goes_or_is_withdrawn(offer, settings):
    settings.EMAIL_URL = "smtp://127.0.0.1:1"
    mail = queue_mail(to=Recipient("", "a@example.com"), subject="S", text="T", about=offer)
    keep_standing(offer.quote)
    assert now_of(offer.quote) == (Turn.CUSTOMER, Because.DECIDE)
    taken = _take(timezone.now)
    taken.keep(Outcome(Kind.FAILED, "No such box."))
    mail.refresh_from_db()
    assert now_of(offer.quote) == (Turn.OFFICE, Because.MAIL)
    assert offer.quote.turn_since == mail.stopped_at
    try_again(mail)
    assert now_of(offer.quote) == (Turn.CUSTOMER, Because.DECIDE)
    _take(timezone.now).begin_text()
    OutgoingMail.objects.update(claimed_until=timezone.now() - timedelta(seconds=1))
    _set_cut_short_aside(timezone.now())
    assert now_of(offer.quote) == (Turn.OFFICE, Because.MAIL)
    note_arrival(OutgoingMail.objects.get(pk=mail.pk))
    assert now_of(offer.quote) == (Turn.CUSTOMER, Because.DECIDE)


def test_a_follow_up_is_the_offices_on_its_day_and_goes_with_the_decision(offer):
    today = timezone.localdate()
    set_follow_up(offer.quote, on=today + timedelta(days=1))
    assert now_of(offer.quote) == (Turn.CUSTOMER, Because.DECIDE)
    set_follow_up(offer.quote, on=today, note="Ask about the ladder")
    assert now_of(offer.quote) == (Turn.OFFICE, Because.FOLLOW_UP)
    decline_revision(offer, name_typed="O. P.", reason="", evidence=NOBODY)
    assert now_of(offer.quote) == (Turn.NOBODY, Because.SETTLED)
    assert (offer.quote.follow_up_on, offer.quote.follow_up_note) == (None, "")


def test_an_offer_that_lapses_waits_for_nobody(offer):
    keep_standing(offer.quote)
    assert lapse_offers(offer.valid_until) == 0
    assert lapse_offers(offer.valid_until + timedelta(days=1)) == 1
    assert now_of(offer.quote) == (Turn.NOBODY, Because.SETTLED)
    assert offer.quote.state == Revision.State.LAPSED


def issue_again(quote: Quote, office) -> None:
    """Issue the draft as the service does, without the estimate and the paper that take seconds."""
    draft = quote.revisions.order_by("-pk").first()
    if not draft.is_draft or quote.revisions.filter(state=Revision.State.ACCEPTED).exists():
        raise NotADraft
    quote.revisions.filter(state=Revision.State.ISSUED).update(state=Revision.State.SUPERSEDED)
    first = quote.revisions.order_by("pk").first()
    draft.issued, draft.total = first.issued, first.total
    draft.valid_until, draft.issued_at = first.valid_until, timezone.now()
    draft.state, draft.paper_sha256 = Revision.State.ISSUED, NOT_A_PAPER
    draft.save()
    keep_standing(quote)


def acts(quote: Quote, office, chance: random.Random) -> dict[str, Callable[[], object]]:
    """Return what can happen to a quote, by name."""
    latest = quote.revisions.order_by("-pk").first()
    issued = quote.revisions.exclude(state="draft").first()
    today = timezone.localdate()

    def on_a_question() -> None:
        for question in quote.questions.filter(answered_at=None)[:1]:
            answer_question(question)

    def to_a_mail() -> None:
        for mail in OutgoingMail.objects.filter(about__quote=quote, state="waiting")[:1]:
            OutgoingMail.objects.exclude(pk=mail.pk).filter(state="waiting").update(
                next_try_at=timezone.now() + timedelta(days=1)
            )
            OutgoingMail.objects.filter(pk=mail.pk).update(next_try_at=timezone.now())
            kind = chance.choice([Kind.FAILED, Kind.SENT, Kind.TRY_AGAIN, Kind.ANSWER_LOST])
            _take(timezone.now).keep(Outcome(kind, "Words."))

    def with_stopped_mail() -> None:
        for mail in OutgoingMail.objects.filter(about__quote=quote, state="failed")[:1]:
            chance.choice([try_again, withdraw_mail])(mail)

    def book() -> None:
        for job in Job.objects.filter(revision__quote=quote):
            book_job(job, starts_on=today, ends_on=today, crew=[], note="", by=office)

    told = {"told_by": "O. P.", "because": "price", "reason": ""}
    return {
        "next": lambda: next_revision(quote, by=office),
        "issue": lambda: issue_again(quote, office),
        "discard": lambda: discard_draft(latest),
        "withdraw": lambda: withdraw_revision(latest),
        "accept": lambda: accept(latest),
        "decline": lambda: decline_revision(latest, name_typed="O. P.", reason="", evidence=NOBODY),
        "declined by telephone": lambda: record_decline(latest, **told, by=office),
        "ask": lambda: ask_question(quote, "Why?"),
        "answer": on_a_question,
        "follow up": lambda: set_follow_up(quote, on=today + timedelta(days=chance.randint(-2, 2))),
        "followed up": lambda: drop_follow_up(quote),
        "mail": lambda: queue_mail(to=Recipient("", "a@example.com"), subject="S", text="T", about=issued),
        "server": to_a_mail,
        "stopped mail": with_stopped_mail,
        "lapse": lambda: lapse_offers(today + timedelta(days=chance.choice([0, 0, 0, 99]))),
        "book": book,
    }


@pytest.mark.parametrize("seed", range(6))
def test_after_any_history_the_list_shows_what_is_found_by_reading_everything_anew(  # noqa: PLR0913, PLR0917
    seed, survey, firm, edition, office, no_sheets, settings
):
    settings.EMAIL_URL = "smtp://127.0.0.1:1"
    chance = random.Random(seed)
    quotes = [make_offer(survey, office).quote for _ in range(3)]
    for quote in quotes:
        keep_standing(quote)
    done = set()
    for _ in range(40):
        quote = chance.choice(quotes)
        name, act = chance.choice(sorted(acts(quote, office, chance).items()))
        try:
            act()
            done.add(name)
        except REFUSALS:
            continue
        for each in Quote.objects.all():
            assert {field: getattr(each, field) for field in KEPT} == standing_of(each), name
    assert len(done) > 8, "too little happened to show anything"
