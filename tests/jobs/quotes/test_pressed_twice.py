"""Two people pressing at once: one clear outcome, whatever they press."""

from __future__ import annotations

from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from threading import Barrier

import pytest
from django.db import connection

from jobs.firm.write_roles import write_roles
from jobs.mail.models import OutgoingMail
from jobs.quotes.customer.decisions import (
    Evidence,
    NotOpen,
    accept_revision,
    ask_question,
    decline_revision,
)
from jobs.quotes.customer.models import CustomerQuestion, Decision
from jobs.quotes.models import Revision
from jobs.quotes.rights.cancelling import cancel_contract
from jobs.quotes.rights.early_start import TooLate, ask_early_start
from jobs.quotes.rights.models import Cancellation, EarlyStart
from jobs.quotes.services import NotOnOffer, withdraw_revision
from jobs.works.models import Job

pytestmark = [
    pytest.mark.django_db(transaction=True),
    pytest.mark.skipif(
        connection.vendor == "sqlite", reason="a test's SQLite lies in memory, with one writer"
    ),
]


@pytest.fixture(autouse=True)
def roles(transactional_db):
    """A test of real transactions empties every table before it, the roles too."""
    write_roles()


NOBODY = Evidence(link=None, address=None, browser="")


def both_at_once(*acts: Callable[[], object]) -> list[str]:
    """Press everything at the same moment, each in a transaction of its own; return what each was told."""
    start = Barrier(len(acts))

    def press(act: Callable[[], object]) -> str:
        try:
            start.wait()
            act()
        except (NotOpen, NotOnOffer, TooLate) as refused:
            return str(refused)
        finally:
            connection.close()
        return "done"

    with ThreadPoolExecutor(len(acts)) as hands:
        return list(hands.map(press, acts))


def accept(offer: Revision, name: str = "Odile") -> Decision:
    return accept_revision(
        Revision.objects.get(pk=offer.pk), name_typed=name, statements=[], taken_parts=frozenset(),
        evidence=NOBODY,
    )  # fmt: skip


def test_two_who_accept_at_once_make_one_decision_and_one_job(offer: Revision):
    told = sorted(both_at_once(lambda: accept(offer), lambda: accept(offer, "Ivo")))
    assert told == ["This quote was already accepted. Nothing more is needed.", "done"]
    assert (Decision.objects.count(), Job.objects.count()) == (1, 1)


def test_accepted_and_declined_at_once_it_is_one_of_the_two(offer: Revision):
    told = both_at_once(
        lambda: accept(offer),
        lambda: decline_revision(
            Revision.objects.get(pk=offer.pk), name_typed="Ivo", reason="", evidence=NOBODY
        ),
    )
    assert told.count("done") == 1
    offer.refresh_from_db()
    assert offer.state == Decision.objects.get().kind
    assert Job.objects.count() == (offer.state == Revision.State.ACCEPTED)


def test_accepted_while_it_is_withdrawn_it_is_one_of_the_two(offer: Revision):
    told = both_at_once(lambda: accept(offer), lambda: withdraw_revision(Revision.objects.get(pk=offer.pk)))
    assert told.count("done") == 1
    offer.refresh_from_db()
    assert Decision.objects.exists() is (offer.state == Revision.State.ACCEPTED)


def test_cancelled_twice_at_once_it_is_cancelled_once_and_mailed_once(offer: Revision):
    decision = accept(offer)
    OutgoingMail.objects.all().delete()
    told = both_at_once(
        *(
            lambda name=name: cancel_contract(decision, name_typed=name, evidence=NOBODY)
            for name in ("Odile", "Ivo")
        )
    )
    assert told == ["done", "done"]
    said = Cancellation.objects.get()
    assert said.name_typed in OutgoingMail.objects.get().text


def test_an_early_start_asked_for_twice_at_once_is_kept_once(offer: Revision):
    decision = accept(offer)
    told = both_at_once(
        *(
            lambda name=name: ask_early_start(decision, name_typed=name, evidence=NOBODY)
            for name in ("Odile", "Ivo")
        )
    )
    assert told == ["done", "done"]
    assert EarlyStart.objects.count() == 1


def test_a_question_sent_twice_at_once_is_one_question(offer: Revision):
    quote = offer.quote
    assert both_at_once(*[lambda: ask_question(quote, "When?")] * 2) == ["done", "done"]
    assert CustomerQuestion.objects.count() == 1
