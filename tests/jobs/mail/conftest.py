"""An outbox, a clock that only the test moves, and a real mail server on loopback to send to."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from datetime import datetime, timedelta

import pytest
from django.utils import timezone

from jobs.documents.models import Paper
from jobs.documents.papers import keep_paper
from jobs.mail.models import OutgoingMail
from jobs.mail.sending import send_waiting
from jobs.mail.services import Recipient, queue_mail
from jobs.quotes.models import Revision
from tests.jobs.mail.peer import Peer, mail_server

PDF = b"%PDF-1.7 an invented paper"


@pytest.fixture(scope="module")
def listening() -> Iterator[tuple[Peer, int]]:
    with mail_server() as found:
        yield found


@pytest.fixture
def peer(listening: tuple[Peer, int], settings) -> Peer:
    """Return the server that the site is set to send to, with nothing in it."""
    peer, port = listening
    settings.EMAIL_BACKEND = "django.core.mail.backends.smtp.EmailBackend"
    settings.EMAIL_HOST, settings.EMAIL_PORT, settings.EMAIL_TIMEOUT = "127.0.0.1", port, 20
    settings.EMAIL_HOST_USER = settings.EMAIL_HOST_PASSWORD = ""
    settings.DEFAULT_FROM_EMAIL = "site@example.com"
    peer.faults, peer.taken, peer.tries, peer.dawdle_seconds = [], [], 0, 0.0
    return peer


class Clock:
    """Hours that pass when a test says so."""

    def __init__(self) -> None:
        self.now = timezone.now() + timedelta(minutes=1)  # what a test queues is due by then

    def __call__(self) -> datetime:
        return self.now

    def passes(self, **time: float) -> None:
        self.now += timedelta(**time)


@pytest.fixture
def clock() -> Clock:
    return Clock()


@pytest.fixture
def send(clock: Clock) -> Callable[[], int]:
    """Return the worker's look into the outbox, at the test's hour."""
    return lambda: send_waiting(clock=clock)


@pytest.fixture
def queue(firm, office) -> Callable[..., OutgoingMail]:
    """Put a message into the outbox: `queue(subject="Another")`."""

    def put(**changes: object) -> OutgoingMail:
        whole = {
            "to": Recipient("Odile Pemberwick", "odile@example.org"),
            "subject": "Your loft",
            "text": "Good day.\n.A line that begins with a dot.\n£40 at Tŷ Mawr.\n",
            "by": office,
        }
        return queue_mail(**{**whole, **changes})

    return put


@pytest.fixture
def paper(settings, tmp_path) -> Paper:
    settings.PAPERS_DIR = tmp_path / "papers"
    return keep_paper(PDF, kind=Paper.Kind.QUOTE, title="Quote")


@pytest.fixture
def on_paper(offer: Revision, paper: Paper) -> Revision:
    """Return the offer with a paper that lies in the data folder, and a customer who has an address."""
    offer.paper_sha256 = paper.sha256
    offer.save(update_fields=["paper_sha256"])
    customer = offer.quote.property.customer
    customer.email = "odile@example.org"
    customer.save()
    return offer
