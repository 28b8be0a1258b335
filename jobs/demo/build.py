"""Live one week of the invented firm, through the services of the rooms, and write its papers to disk."""

from __future__ import annotations

import secrets
from collections.abc import Callable
from dataclasses import dataclass, replace
from datetime import date, timedelta
from decimal import Decimal
from pathlib import Path

from django.contrib.auth.models import User
from django.db import transaction
from django.urls import reverse
from django.utils import timezone

from estimating.choices import ChosenPieces, Part
from jobs.demo.dress import dress_firm
from jobs.demo.lofts import BUNGALOW, CUT_ROOF, HELD, TRUSSED, DemoLoft
from jobs.demo.price_book import demo_price_book
from jobs.demo.visits import clear_wiring, leave_a_survey_under_way, leave_an_enquiry_to_visit, survey_loft
from jobs.demo.written import write_papers
from jobs.firm.heat import set_fuel_prices
from jobs.firm.models import Firm
from jobs.firm.services import add_person
from jobs.layouts.services import prove_wanted_layouts
from jobs.layouts.store import LayFromStore
from jobs.orders.services import make_orders, send_order
from jobs.price_books.as_price_book import fill_edition
from jobs.price_books.models import Edition
from jobs.price_books.services import close_edition
from jobs.quotes.alternatives import alternatives_of
from jobs.quotes.customer.decisions import Evidence, accept_revision
from jobs.quotes.drafts.alternatives import add_alternative, rename_alternative
from jobs.quotes.drafts.services import change_draft, draft_quote, estimate_draft
from jobs.quotes.frozen import optional_parts
from jobs.quotes.models import Revision
from jobs.quotes.rights.told import rights_of
from jobs.quotes.services import issue_revision
from jobs.works.models import Job
from jobs.works.services import book_job

FRIDAY = 5
FIRM = "Saltmarsh Loft Boarding"
PEOPLE = (
    ("owner", "owner", "Rhona Hale"),
    ("office", "office", "Pru Addisham"),
    ("surveyor", "surveyor", "Callum Vey"),
    ("crew", "crew", "Dov Marlin"),
)
FUEL_PRICES = {"mains gas": Decimal("6.30"), "heating oil": Decimal("7.10"), "electricity": Decimal("26.00")}


@dataclass(frozen=True, slots=True)
class DemoSummary:
    """What to tell the person who ran the demo; `log_ins` is empty when it was there already."""

    log_ins: list[tuple[str, str, str]]
    customer_link: str
    papers: list[Path]
    already_there: bool


Tell = Callable[[str], None]


def build_demo(papers_folder: Path, base_url: str, *, tell: Tell = lambda _: None) -> DemoSummary:
    """Make the demo firm and its week unless they are there, and write the papers beside the project.

    `tell` is told each step as it begins, because the papers take a while.
    """
    if Firm.objects.exists():
        return DemoSummary([], "", write_papers(papers_folder), already_there=True)
    with transaction.atomic():
        log_ins = _people()
        link = _week(tell)
    return DemoSummary(log_ins, f"{base_url}{link}", write_papers(papers_folder), already_there=False)


def _people() -> list[tuple[str, str, str]]:
    firm = Firm.objects.create(
        pk=1,
        name=FIRM,
        address="Unit 6, Tidewater Yard\nWexcombe\nWX1 4SB",
        phone="0161 496 0100",
        email="office@example.com",
        company_number="00000000",
        vat_number="GB 999 9999 73",
    )
    dress_firm(firm, today=timezone.localdate())
    log_ins = []
    for role, username, full_name in PEOPLE:
        password = secrets.token_urlsafe(9)
        add_person(username=username, full_name=full_name, role=role, password=password)
        log_ins.append((role, username, password))
    return log_ins


def _week(tell: Tell) -> str:
    """Carry the lofts as far as a week takes them; return the open customer link."""
    owner, office, surveyor, crew = (User.objects.get(username=name) for _, name, _ in PEOPLE)
    today = timezone.localdate()
    edition = Edition.objects.create(name="to be named", dated=_first_of_month(today), hourly_cost=1)
    book = demo_price_book(firm=FIRM, dated=edition.dated)
    edition.name = book.edition
    fill_edition(edition, book)
    close_edition(edition, by=owner)
    set_fuel_prices(FUEL_PRICES)

    tell(f"{TRUSSED.address}: survey, quote, job, orders ...")
    trussed = _quoted(TRUSSED, surveyor=surveyor, office=office, days_ago=6)
    accept_and_book(trussed, by=office, crew=crew, starts_in=3)
    tell(f"{BUNGALOW.address}: survey, quote, job, orders ...")
    bungalow = _quoted(BUNGALOW, surveyor=surveyor, office=office, days_ago=4)
    accept_and_book(bungalow, by=office, crew=crew, starts_in=9)
    tell(f"{CUT_ROOF.address}: survey, a stop cleared, quote ...")
    cut_roof = survey_loft(CUT_ROOF, surveyor=surveyor, office=office, days_ago=2)
    clear_wiring(cut_roof, by=office)
    revision = draft_quote(cut_roof, by=office)
    _offer_more_insulation(revision)
    _prove_boards(revision)
    token = issue_revision(revision, by=office)
    tell(f"{HELD.address}: survey, a stop that holds its quote ...")
    held = draft_quote(survey_loft(HELD, surveyor=surveyor, office=office, days_ago=1), by=office)
    _prove_boards(held)
    leave_a_survey_under_way(office=office, surveyor=surveyor)
    leave_an_enquiry_to_visit(office=office, surveyor=surveyor)
    return reverse("customer_exchange", args=[token])


def _first_of_month(day: date) -> date:
    return day.replace(day=1)


def _quoted(loft: DemoLoft, *, surveyor: User, office: User, days_ago: int) -> Revision:
    survey = survey_loft(loft, surveyor=surveyor, office=office, days_ago=days_ago)
    revision = draft_quote(survey, by=office)
    if loft is TRUSSED:
        _offer_a_walkway(revision)
    _prove_boards(revision)
    issue_revision(revision, by=office)
    revision.refresh_from_db()
    return revision


def _offer_a_walkway(revision: Revision) -> None:
    """Offer a way to tread from the deck to the eaves, for the customer to take."""
    choices = alternatives_of(revision)[0].choices
    walkway = frozenset({Part.WALKWAY})
    with_it = replace(
        choices,
        parts=choices.parts | walkway,
        optional_parts=choices.optional_parts | walkway,
        pieces=(ChosenPieces(product_code="WALK-1200", count=2),),
    )
    change_draft(revision, choices=with_it, introduction="")


def _offer_more_insulation(revision: Revision) -> None:
    """Offer the same deck over a second depth of insulation, for the customer to weigh."""
    rename_alternative(revision, 0, name="With 300 mm of insulation")
    number = add_alternative(revision, name="With 320 mm of insulation")
    revision.refresh_from_db()
    deeper = replace(
        alternatives_of(revision)[number].choices,
        target_u_w_m2k=Decimal("0.14"),
        target_source="chosen for this quote",
    )
    change_draft(revision, choices=deeper, introduction="", alternative=number)


def _prove_boards(revision: Revision) -> None:
    """Do what the worker would have done by the time that somebody issues the draft."""
    layouts = LayFromStore()
    for alternative in alternatives_of(revision):
        estimate_draft(revision, layouts=layouts, alternative=alternative.number)
    layouts.write_down()
    prove_wanted_layouts(at_most=len(alternatives_of(revision)))


def accept_and_book(revision: Revision, *, by: User, crew: User, starts_in: int) -> Job:
    """Accept a quote with all its options, book the job and send its orders."""
    accept_revision(
        revision,
        name_typed=revision.quote.property.customer.name,
        statements=rights_of(revision).statements,
        taken_parts=optional_parts(revision, alternative=0),
        evidence=Evidence(link=None, address="127.0.0.1", browser="The demo"),
        early_start=True,
    )
    job = Job.objects.get(revision=revision)
    starts_on = _weekday_from(timezone.localdate() + timedelta(days=starts_in))
    ends_on = _weekday_from(starts_on + timedelta(days=1))
    book_job(job, starts_on=starts_on, ends_on=ends_on, crew=[crew], note="", by=by)
    for order in make_orders(job, by=by):
        send_order(order, by=by)
    job.refresh_from_db()
    return job


def _weekday_from(day: date) -> date:
    """Give a day, or the Monday after it; bank holidays, held for some years only, are not asked."""
    return day + timedelta(days=7 - day.weekday()) if day.isoweekday() > FRIDAY else day
