"""A surveyed loft, its draft and its issued quote, made through the same services as a real one's."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from django.test import Client
from django.urls import reverse

from estimating.published.hazards import HAZARDS
from jobs.demo.lofts import TRUSSED
from jobs.quotes.customer.links import make_link
from jobs.quotes.drafts.services import draft_quote
from jobs.quotes.models import Revision
from jobs.quotes.services import issue_revision
from jobs.surveys.models import Finding, Survey
from jobs.surveys.services import answer_hazards, complete_survey, save_section


def answer_every_hazard(survey: Survey, **seen: str) -> None:
    """Answer the hazard list: what is named was seen, everything else was not."""
    yes, no = Finding.Seen.YES, Finding.Seen.NO
    answer_hazards(
        survey,
        answers=[(each.key, yes if each.key in seen else no, seen.get(each.key, "")) for each in HAZARDS],
    )


@pytest.fixture
def measured(survey: Survey, edition) -> Survey:
    """Return a survey whose every section is answered, not yet complete."""
    for section, typed in TRUSSED.answers.items():
        save_section(survey, section=section, typed=typed)
    answer_every_hazard(survey)
    survey.refresh_from_db()
    return survey


@pytest.fixture
def draft(measured: Survey, office) -> Revision:
    complete_survey(measured)
    measured.refresh_from_db()
    return draft_quote(measured, by=office)


@pytest.fixture
def token(draft: Revision, office) -> str:
    """Return the token of the link to the issued draft."""
    issued = issue_revision(draft, by=office)
    draft.refresh_from_db()
    return issued


@pytest.fixture
def customer(client: Client, token: str) -> Client:
    """Return the browser in which the customer opened the link."""
    client.get(reverse("customer_exchange", args=[token]))
    return client


@pytest.fixture
def phone(client: Client, offer: Revision, office) -> Client:
    """Return the customer's browser, with the link to an offer made in one go opened."""
    client.get(reverse("customer_exchange", args=[make_link(offer, by=office)]))
    return client


@pytest.fixture
def accepting(draft: Revision) -> Callable[..., dict[str, object]]:
    """Return what the accept page sends."""

    def sent(*taken: str, **changes: object) -> dict[str, object]:
        whole = {
            "priced": "1", "letter": draft.letter, "name_typed": "Odile Pemberwick", "scope": "on",
            "cancel": "on", "taken": list(taken),
        }  # fmt: skip
        return {**whole, **changes}

    return sent
