"""The cast of an invented firm, one person of each role, and what every room's tests begin with."""

from __future__ import annotations

import hashlib
from collections.abc import Callable
from datetime import date

import pytest
from django.contrib.auth.models import Group, User
from django.test import Client

from jobs.customers.finding import keep_words_of_customers
from jobs.customers.models import Customer, Property
from jobs.demo.price_book import demo_price_book
from jobs.firm.models import Firm
from jobs.price_books.as_price_book import fill_edition
from jobs.price_books.models import Edition
from jobs.quotes.models import Revision
from jobs.surveys.models import Survey
from jobs.surveys.services import open_survey
from jobs.works.models import Job
from tests.jobs.offers import make_job, make_offer


@pytest.fixture(autouse=True)
def papers_in_no_time(request: pytest.FixtureRequest, monkeypatch: pytest.MonkeyPatch) -> None:
    """Fill a paper's template but do not typeset it: hundreds of tests issue a quote and read no paper.

    Papers are set and read in tests/documents and tests/browser, and where a test is marked `typesets`.
    """
    if request.node.get_closest_marker("typesets") is None:
        monkeypatch.setattr("jobs.documents.render._typeset", _not_typeset)


def _not_typeset(html: str) -> bytes:
    return f"%PDF-1.7\n% not typeset: {hashlib.sha256(html.encode()).hexdigest()}\n".encode()


@pytest.fixture
def firm(db) -> Firm:
    return Firm.objects.create(
        pk=1,
        name="Quillfeather Lofts",
        address="2 Sawpit Lane, Ambleford",
        phone="+442079460100",
        email="office@example.com",
    )


def _person(username: str, first: str, last: str, role: str) -> User:
    person = User.objects.create_user(
        username, password="a long invented one", first_name=first, last_name=last
    )
    person.groups.add(Group.objects.get(name=role))
    return person


@pytest.fixture
def owner(db) -> User:
    return _person("isolde", "Isolde", "Fennimore", "owner")


@pytest.fixture
def office(db) -> User:
    return _person("bram", "Bram", "Tollkeeper", "office")


@pytest.fixture
def surveyor(db) -> User:
    return _person("mirren", "Mirren", "Oxleigh", "surveyor")


@pytest.fixture
def crew(db) -> User:
    return _person("col", "Col", "Hedgecoe", "crew")


@pytest.fixture
def logged_in() -> Callable[[User], Client]:
    """Return a browser in which somebody is logged in."""

    def log_in(person: User) -> Client:
        client = Client()
        client.force_login(person)
        return client

    return log_in


@pytest.fixture
def building(db) -> Property:
    customer = Customer.objects.create(name="Odile Pemberwick", phone="+441614960137")
    place = Property.objects.create(
        customer=customer, address="14 Larkfield Rise", town="Wexcombe", postcode="WX4 7LR", built_year=1985
    )
    keep_words_of_customers([customer])
    return place


@pytest.fixture
def survey(building: Property, surveyor: User) -> Survey:
    return open_survey(building, by=surveyor, visited_on=date(2026, 11, 18))


@pytest.fixture
def edition(firm) -> Edition:
    """A closed edition of the price book, in use today."""
    dated = date(2026, 11, 1)
    made = Edition.objects.create(name="Autumn", dated=dated, hourly_cost=1)
    fill_edition(made, demo_price_book(firm=firm.name, dated=dated))
    made.state = Edition.State.CLOSED
    made.save()
    return made


@pytest.fixture
def offer(firm: Firm, survey: Survey, office: User) -> Revision:
    """Return an issued quote for the survey, with a ladder and a light as options."""
    return make_offer(survey, office)


@pytest.fixture
def job(offer: Revision) -> Job:
    """Return the job of that quote, accepted with no option taken."""
    return make_job(offer)
