"""Whatever a server does: a message ends sent, perhaps sent or failed with words, and none goes twice."""

from __future__ import annotations

from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from threading import Barrier

import pytest
from django.db import connection, transaction
from hypothesis import HealthCheck, given
from hypothesis import settings as hypothesis_settings
from hypothesis import strategies as st

from jobs.firm.write_roles import write_roles
from jobs.mail.models import OutgoingMail
from jobs.mail.sending import LEASE, MOST_ATTEMPTS, _take, send_waiting
from jobs.mail.services import MailRefused, try_again, withdraw_mail
from tests.jobs.mail import peer as does
from tests.jobs.mail.conftest import Clock

State = OutgoingMail.State
KILLED, KILLED_AFTER = "worker killed", "worker killed after the text"
FAULTS = [
    does.TAKES, does.BUSY_AT_RECIPIENT, does.BUSY_AT_TEXT, does.REFUSES_SENDER, does.REFUSES_RECIPIENT,
    does.REFUSES_TEXT, does.HANGS_UP_BEFORE, does.HANGS_UP_AFTER, KILLED, KILLED_AFTER,
]  # fmt: skip
FINAL = (State.SENT, State.ANSWER_LOST, State.FAILED)


class Killed(BaseException):
    """The worker ends in the middle of its work."""


@pytest.mark.django_db
@hypothesis_settings(max_examples=40, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(faults=st.lists(st.sampled_from(FAULTS), max_size=2 * MOST_ATTEMPTS), count=st.integers(1, 3))
def test_nothing_vanishes_and_nothing_goes_twice(peer, queue, faults, count):
    clock, left = Clock(), list(faults)
    peer.faults, peer.taken = [], []
    mails = [queue() for _ in range(count)]
    for _ in range(len(faults) + count * MOST_ATTEMPTS + 1):
        _work_once(left, peer, clock)
        clock.passes(days=1, seconds=1)
    for mail in mails:
        mail.refresh_from_db()
        arrived = len(peer.messages(mail.message_id))
        assert mail.state in FINAL
        assert mail.state == State.SENT or mail.last_error
        assert arrived == 1 or mail.state in (State.FAILED, State.ANSWER_LOST)
        assert arrived <= 1
        assert mail.state == State.FAILED or arrived == 1 or mail.answers_lost
        assert not arrived or mail.state != State.FAILED
    assert {message["Message-ID"] for _, message in peer.taken} <= {mail.message_id for mail in mails}
    assert all(len(recipients) == 1 for recipients, _ in peer.taken)


def _work_once(left: list[str], peer: does.Peer, clock: Clock) -> None:
    """Send one message, met by the next fault."""
    fault = left.pop(0) if left else does.TAKES
    if fault == KILLED:
        _take(clock)
        return
    peer.faults = [fault]
    if fault != KILLED_AFTER:
        send_waiting(at_most=1, clock=clock)
        return
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr("jobs.mail.sending._Try.keep", _die)
        try:
            send_waiting(at_most=1, clock=clock)
        except Killed:
            return


def _die(*_: object) -> None:
    raise Killed


@pytest.mark.django_db
def test_what_is_queued_once_is_queued_once(queue):
    assert queue(once="acceptance 1 to the customer") == queue(once="acceptance 1 to the customer")
    assert queue() != queue()
    assert OutgoingMail.objects.count() == 3


@pytest.mark.django_db
@pytest.mark.parametrize("act", [try_again, withdraw_mail])
@pytest.mark.parametrize("state", [State.SENDING, State.SENT, State.WITHDRAWN])
def test_what_goes_or_went_is_left_alone(queue, clock, act, state):
    mail = queue()
    OutgoingMail.objects.update(state=state, sent_at=clock.now, claimed_until=clock.now + LEASE)
    with pytest.raises(MailRefused, match="nothing was done"):
        act(mail)
    mail.refresh_from_db()
    assert mail.state == state


@pytest.mark.django_db
def test_a_message_is_queued_only_if_what_it_tells_of_holds(queue):
    with transaction.atomic():
        queue()
        transaction.set_rollback(True)
    assert not OutgoingMail.objects.exists()


@pytest.mark.django_db(transaction=True)
def test_two_workers_at_once_send_each_message_once(transactional_db, request):
    write_roles()  # a test of real transactions empties every table before it
    peer: does.Peer = request.getfixturevalue("peer")
    queue: Callable[..., OutgoingMail] = request.getfixturevalue("queue")
    for _ in range(8):
        queue()
    clock, start = Clock(), Barrier(2)

    def work(_: int) -> int:
        try:
            start.wait()
            return send_waiting(clock=clock)
        finally:
            connection.close()

    with ThreadPoolExecutor(2) as both:
        taken = list(both.map(work, range(2)))
    assert sum(taken) == 8
    sent = OutgoingMail.objects.values_list("state", "attempts", "answers_lost")
    assert set(sent) == {(State.SENT, 1, 0)}
    assert len({message["Message-ID"] for _, message in peer.taken}) == len(peer.taken) == 8
