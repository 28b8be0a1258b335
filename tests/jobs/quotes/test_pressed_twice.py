"""Two people pressing at once: one of them accepts."""

from __future__ import annotations

from concurrent.futures import ThreadPoolExecutor
from threading import Barrier

import pytest
from django.db import connection

from jobs.firm.write_roles import write_roles
from jobs.quotes.customer.decisions import Evidence, NotOpen, accept_revision
from jobs.quotes.models import Decision, Revision
from jobs.works.models import Job

pytestmark = pytest.mark.django_db(transaction=True)


@pytest.fixture(autouse=True)
def roles(transactional_db):
    """A test of real transactions empties every table before it, the roles too."""
    write_roles()


@pytest.mark.skipif(connection.vendor == "sqlite", reason="a test's SQLite lies in memory, with one writer")
def test_two_who_accept_at_once_make_one_decision_and_one_job(offer: Revision):
    start = Barrier(2)

    def accept(name: str) -> str:
        try:
            start.wait()
            accept_revision(
                Revision.objects.get(pk=offer.pk), name_typed=name, statements=[], taken_parts=frozenset(),
                evidence=Evidence(link=None, address=None, browser=""),
            )  # fmt: skip
        except NotOpen as refused:
            return str(refused)
        finally:
            connection.close()
        return "accepted"

    with ThreadPoolExecutor(2) as both:
        told = sorted(both.map(accept, ("Odile", "Ivo")))
    assert told == ["This quote was already accepted. Nothing more is needed.", "accepted"]
    assert (Decision.objects.count(), Job.objects.count()) == (1, 1)
