"""A real mail server that takes, refuses, dawdles and hangs up (RFC 5321, 4.2.1: what 4xx and 5xx mean)."""

from __future__ import annotations

from datetime import timedelta

import pytest

from jobs.mail import smtp_line
from jobs.mail.models import OutgoingMail
from jobs.mail.sending import CUT_SHORT, LEASE, MOST_ATTEMPTS, RETRY_AFTER, _take, mail_not_gone, send_waiting
from jobs.mail.services import Attachment, MailRefused, note_arrival, try_again, withdraw_mail
from tests.jobs.mail import peer as does
from tests.jobs.mail.conftest import PDF

pytestmark = pytest.mark.django_db
State = OutgoingMail.State


def test_a_message_goes_once_and_says_when(peer, queue, send, clock):
    mail = queue()
    assert send() == 1
    assert send() == 0
    mail.refresh_from_db()
    assert (mail.state, mail.sent_at, mail.attempts, mail.last_error) == (State.SENT, clock.now, 1, "")
    [(recipients, message)] = peer.taken
    assert recipients == ["odile@example.org"]
    assert message["Message-ID"] == mail.message_id
    assert message["From"] == "Quillfeather Lofts <site@example.com>"
    assert message["Reply-To"] == "Quillfeather Lofts <office@example.com>"
    assert message.get_content() == mail.text.replace("\n", "\r\n")
    assert not message.is_multipart()


def test_each_recipient_gets_a_message_of_their_own(peer, queue, send):
    queue()
    queue()
    assert send() == 2
    assert [len(recipients) for recipients, _ in peer.taken] == [1, 1]
    assert len({message["Message-ID"] for _, message in peer.taken}) == 2


def test_a_kept_paper_goes_with_it_as_it_was_kept(peer, queue, send, paper):
    queue(attachments=[Attachment("Quote Q-1A.pdf", paper.sha256)])
    send()
    [attached] = peer.taken[0][1].iter_attachments()
    assert (attached.get_content(), attached.get_content_type()) == (PDF, "application/pdf")
    assert attached.get_filename() == "Quote Q-1A.pdf"


def test_a_missing_paper_holds_the_message_back_and_says_so(peer, queue, send, paper, settings):
    mail = queue(attachments=[Attachment("Quote Q-1A.pdf", paper.sha256)])
    settings.PAPERS_DIR = settings.PAPERS_DIR / "empty"
    send()
    mail.refresh_from_db()
    assert mail.state == State.WAITING
    assert "missing: restore it from a backup" in mail.last_error
    assert not peer.tries


@pytest.mark.parametrize("fault", [does.BUSY_AT_RECIPIENT, does.BUSY_AT_TEXT, does.HANGS_UP_BEFORE])
def test_what_the_server_cannot_take_now_goes_later(peer, queue, send, clock, fault):
    mail = queue()
    peer.faults = [fault]
    send()
    mail.refresh_from_db()
    assert (mail.state, mail.next_try_at) == (State.WAITING, clock.now + RETRY_AFTER[0])
    assert mail.last_error
    assert send() == 0
    clock.passes(minutes=1)
    assert send() == 1
    mail.refresh_from_db()
    assert (mail.state, mail.attempts, mail.answers_lost) == (State.SENT, 2, 0)
    assert len(peer.taken) == 1


@pytest.mark.parametrize(
    "refusal",
    [
        (does.REFUSES_RECIPIENT, "refused the recipient: 550 5.1.1 No such box here"),
        (does.REFUSES_TEXT, "refused the message: 554 5.7.1 Not taken"),
    ],
)
def test_what_the_server_will_never_take_fails_with_its_words(peer, queue, send, clock, refusal):
    mail, (fault, said) = queue(), refusal
    peer.faults = [fault]
    send()
    clock.passes(days=9)
    assert send() == 0
    mail.refresh_from_db()
    assert (mail.state, mail.attempts) == (State.FAILED, 1)
    assert said in mail.last_error
    assert not peer.taken


def test_a_sender_refused_is_the_sites_matter_and_tried_again(peer, queue, send):
    mail = queue()
    peer.faults = [does.REFUSES_SENDER]
    send()
    mail.refresh_from_db()
    assert (mail.state, "refused the sender: 550" in mail.last_error) == (State.WAITING, True)


def test_tries_come_at_growing_distances_and_end_after_three_days(peer, queue, send, clock):
    mail = queue()
    peer.faults = [does.BUSY_AT_RECIPIENT] * MOST_ATTEMPTS
    begun = clock.now
    for wait in RETRY_AFTER:
        assert send() == 1
        mail.refresh_from_db()
        assert mail.next_try_at - clock.now == wait
        clock.now = mail.next_try_at - timedelta(seconds=1)
        assert send() == 0
        clock.now = mail.next_try_at
    assert send() == 1
    mail.refresh_from_db()
    assert mail.state == State.FAILED
    assert mail.last_error.endswith(f"Greylisted, come again. Given up after {MOST_ATTEMPTS} tries.")
    assert timedelta(days=3) <= clock.now - begun < timedelta(days=4)


def test_a_server_that_dawdles_before_the_text_is_left(peer, queue, send, settings):
    mail = queue()
    settings.EMAIL_TIMEOUT, peer.dawdle_seconds, peer.faults = 0.5, 1.0, [does.DAWDLES_BEFORE]
    send()
    mail.refresh_from_db()
    assert (mail.state, mail.answers_lost, peer.taken) == (State.WAITING, 0, [])


def test_a_server_may_look_through_a_message_for_longer_than_it_may_dawdle(peer, queue, send, settings):
    mail = queue()
    settings.EMAIL_TIMEOUT, peer.dawdle_seconds, peer.faults = 1.0, 1.5, [does.DAWDLES_AFTER]
    send()
    mail.refresh_from_db()
    assert (mail.state, len(peer.taken)) == (State.SENT, 1)


def test_an_answer_that_never_comes_is_an_answer_lost(peer, queue, send, settings, monkeypatch):
    mail = queue()
    monkeypatch.setattr(smtp_line, "PATIENCE_AFTER_THE_DOT", 1)
    settings.EMAIL_TIMEOUT, peer.dawdle_seconds, peer.faults = 0.5, 1.0, [does.DAWDLES_AFTER]
    send()
    mail.refresh_from_db()
    assert mail.state == State.ANSWER_LOST


def test_after_a_lost_answer_only_the_office_lets_it_go_again(peer, queue, send, clock):
    mail = queue()
    peer.faults = [does.HANGS_UP_AFTER]
    send()
    mail.refresh_from_db()
    assert (mail.state, mail.answers_lost) == (State.ANSWER_LOST, 1)
    assert mail.last_error == "The mail server had the whole message, but its answer was lost."
    clock.passes(days=30)
    assert send() == 0
    assert list(mail_not_gone(clock.now)) == [mail]
    try_again(mail)
    clock.passes(minutes=1)
    send()
    mail.refresh_from_db()
    assert (mail.state, mail.attempts, mail.answers_lost) == (State.SENT, 2, 1)
    first, second = peer.messages(mail.message_id)
    assert first.as_bytes() == second.as_bytes()


def test_what_is_known_to_have_arrived_is_sent(peer, queue, send, clock):
    lost, refused = queue(), queue()
    peer.faults = [does.HANGS_UP_AFTER, does.REFUSES_RECIPIENT]
    send()
    note_arrival(lost)
    lost.refresh_from_db()
    assert (lost.state, lost.last_error) == (State.SENT, "")
    with pytest.raises(MailRefused, match="can have arrived"):
        note_arrival(refused)


def test_nobody_listening_is_tried_again(peer, queue, send, settings):
    mail = queue()
    settings.EMAIL_PORT = does.free_port()
    send()
    mail.refresh_from_db()
    assert (mail.state, mail.last_error) == (
        State.WAITING,
        "Nothing takes mail at the host and port in EMAIL_URL.",
    )


def test_what_a_killed_worker_left_is_taken_up_after_its_lease(peer, queue, send, clock):
    mail = queue()
    assert _take(clock)  # and the worker is gone
    assert send() == 0
    clock.passes(seconds=LEASE.total_seconds() + 1)
    assert send() == 1
    mail.refresh_from_db()
    assert (mail.state, mail.attempts, mail.answers_lost) == (State.SENT, 2, 0)


def test_what_a_worker_was_killed_over_after_its_text_began_is_left_to_the_office(peer, queue, send, clock):
    mail = queue()
    assert _take(clock).begin_text()  # and the worker is gone
    clock.passes(seconds=LEASE.total_seconds() + 1)
    assert send() == 0
    mail.refresh_from_db()
    assert (mail.state, mail.answers_lost, mail.last_error) == (State.ANSWER_LOST, 1, CUT_SHORT)
    assert not peer.tries


def test_whoever_lost_a_message_to_another_worker_sends_and_keeps_nothing(peer, queue, send, clock):
    mail = queue()
    late = _take(clock)
    clock.passes(seconds=LEASE.total_seconds() + 1)
    other = _take(clock)
    assert not late.begin_text()
    assert other.begin_text()
    late.keep(smtp_line.Outcome(smtp_line.Kind.FAILED, "Nothing of this."))
    mail.refresh_from_db()
    assert (mail.state, mail.last_error) == (State.SENDING, "")


def test_a_message_that_kills_its_worker_each_time_is_given_up(peer, queue, send, clock):
    mail = queue()
    for _ in range(MOST_ATTEMPTS):
        assert _take(clock)
        clock.passes(seconds=LEASE.total_seconds() + 1)
    send()
    mail.refresh_from_db()
    assert mail.state == State.FAILED
    assert "cut short" in mail.last_error
    assert not peer.tries


def test_one_message_that_cannot_be_written_holds_up_no_other(peer, queue, send, caplog):
    broken, whole = queue(), queue()
    OutgoingMail.objects.filter(pk=broken.pk).update(to_name="a\r\nBcc: eve@example.org")
    assert send() == 2
    broken.refresh_from_db()
    whole.refresh_from_db()
    assert (broken.state, whole.state, len(peer.taken)) == (State.WAITING, State.SENT, 1)
    assert [record.getMessage() for record in caplog.records if record.levelname == "ERROR"] == [
        "mail failed"
    ]


def test_the_office_may_try_a_failed_message_again(peer, queue, send, clock):
    mail = queue()
    peer.faults = [does.REFUSES_RECIPIENT]
    send()
    mail.refresh_from_db()
    try_again(mail)
    clock.passes(minutes=1)
    send()
    mail.refresh_from_db()
    assert (mail.state, mail.attempts) == (State.SENT, 1)


def test_what_was_withdrawn_never_goes(peer, queue, send):
    withdraw_mail(queue())
    assert send() == 0
    assert not peer.tries


def test_without_a_mail_server_everything_waits(settings, queue):
    settings.EMAIL_BACKEND = "django.core.mail.backends.console.EmailBackend"
    mail = queue()
    assert send_waiting() == 0
    mail.refresh_from_db()
    assert (mail.state, mail.attempts) == (State.WAITING, 0)


def test_logs_hold_neither_words_nor_addresses(peer, queue, send, caplog):
    caplog.set_level("DEBUG")
    mail = queue()
    peer.faults = [does.REFUSES_RECIPIENT]
    send()
    tried = [record for record in caplog.records if record.name == "eavesbook.mail"]
    assert [record.figures for record in tried] == [{"mail": mail.pk, "attempt": 1, "outcome": "failed"}]
    ours = " ".join(record.getMessage() for record in caplog.records if "eavesbook" in record.name)
    assert "odile" not in ours


def test_what_did_not_go_is_told_apart_from_what_waits_its_turn(peer, queue, send, clock):
    failed, waiting = queue(), queue()
    peer.faults = [does.REFUSES_RECIPIENT, does.BUSY_AT_RECIPIENT]
    send()
    assert list(mail_not_gone(clock.now)) == [failed]
    clock.passes(hours=2)
    assert set(mail_not_gone(clock.now)) == {failed, waiting}
