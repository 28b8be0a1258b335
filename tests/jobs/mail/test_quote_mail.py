"""A quote by mail: its link opens, nobody finds it here, and no second press sends another."""

from __future__ import annotations

import re
from collections.abc import Callable
from datetime import timedelta

import pytest
from django.db import connection
from django.test import Client
from django.utils import timezone

from jobs.mail.models import OutgoingMail
from jobs.mail.quote_mail import mail_quote, suggested_subject, suggested_text
from jobs.mail.services import MailRefused, Recipient, withdraw_mail
from jobs.quotes.customer.links import make_link, open_link
from jobs.quotes.customer.models import CustomerLink
from jobs.quotes.models import Revision
from jobs.quotes.services import NotOnOffer, withdraw_revision
from tests.jobs.mail.conftest import PDF

pytestmark = pytest.mark.django_db
State = OutgoingMail.State
ODILE, IVO = Recipient("Odile Pemberwick", "odile@example.org"), Recipient("", "ivo@example.org")


@pytest.fixture
def mail_it(on_paper: Revision, firm, office) -> Callable[..., list[OutgoingMail]]:
    def put(*to: Recipient, once: str = "first", **changes: str) -> list[OutgoingMail]:
        words = {
            "subject": suggested_subject(on_paper, firm),
            "text": suggested_text(on_paper, firm, by=office),
        }
        return mail_quote(on_paper.quote, to=to or (ODILE,), by=office, once=once, **{**words, **changes})

    return put


def token_in(message) -> str:
    text = message.get_body().get_content()
    return re.search(r"http://127\.0\.0\.1:8000/q/([\w-]+)/", text)[1]


def test_the_mailed_link_opens_and_the_paper_is_beside_it(peer, mail_it, send, on_paper, firm):
    mail_it()
    send()
    [(_, message)] = peer.taken
    [paper] = message.iter_attachments()
    assert Client().get(f"/q/{token_in(message)}/").url == f"/your-quote/{on_paper.quote.number}/"
    assert (paper.get_content(), paper.get_filename()) == (PDF, f"Quote {on_paper}.pdf")
    assert message["Subject"] == f"Your quote {on_paper} from {firm.name}"
    assert "Dear Odile Pemberwick," in message.get_body().get_content()


def test_the_mailed_token_stands_nowhere_in_the_database_nor_in_the_log(peer, mail_it, send, caplog, capsys):
    caplog.set_level("DEBUG", logger="eavesbook")
    mail_it()
    rows = _every_row()
    send()
    token = token_in(peer.taken[0][1])
    assert not any(token in row for row in rows + _every_row())
    assert token not in caplog.text
    assert token not in capsys.readouterr().out


def _every_row() -> list[str]:
    with connection.cursor() as cursor:
        found = []
        for table in connection.introspection.table_names():
            cursor.execute(f'SELECT * FROM "{table}"')  # noqa: S608 - the names are the database's own
            found += [str(row) for row in cursor.fetchall()]
    return found


def test_the_token_is_not_found_without_the_secret_key(peer, mail_it, send, settings):
    [mail] = mail_it()
    settings.SECRET_KEY = "another"
    send()
    mail.refresh_from_db()
    assert (mail.state, peer.tries) == (State.FAILED, 0)
    assert "secret key has changed" in mail.last_error


def test_two_people_get_a_message_each_with_one_link(peer, mail_it, send):
    mail_it(ODILE, IVO)
    send()
    assert [recipients for recipients, _ in peer.taken] == [[ODILE.address], [IVO.address]]
    assert len({token_in(message) for _, message in peer.taken}) == 1
    assert open_link(token_in(peer.taken[0][1]))


def test_pressed_twice_it_goes_once_and_its_link_still_opens(peer, mail_it, send):
    assert mail_it() == mail_it()
    send()
    assert len(peer.taken) == 1
    assert open_link(token_in(peer.taken[0][1]))
    assert CustomerLink.objects.count() == 1


def test_a_newer_message_takes_the_place_of_one_that_has_not_gone(peer, mail_it, send):
    [earlier] = mail_it()
    mail_it(once="second")
    send()
    earlier.refresh_from_db()
    assert (earlier.state, earlier.last_error) == (State.WITHDRAWN, "A newer message took its place.")
    assert len(peer.taken) == 1
    assert open_link(token_in(peer.taken[0][1]))


def test_a_message_whose_link_has_ended_does_not_go(peer, mail_it, send, on_paper, office):
    [mail] = mail_it()
    make_link(on_paper, by=office)
    send()
    mail.refresh_from_db()
    assert (mail.state, peer.tries) == (State.WITHDRAWN, 0)
    assert mail.last_error == "The link in it had ended before it went."


def test_a_quote_withdrawn_meanwhile_does_not_go(peer, mail_it, send, on_paper):
    [mail] = mail_it()
    withdraw_revision(on_paper)
    send()
    mail.refresh_from_db()
    assert (mail.state, peer.tries) == (State.WITHDRAWN, 0)
    assert mail.last_error == f"Quote {on_paper} was withdrawn before it went."


def test_withdrawing_the_last_message_ends_the_link_that_nobody_has(mail_it):
    first, second = mail_it(ODILE, IVO)
    withdraw_mail(first)
    assert CustomerLink.objects.get().revoked_at is None
    withdraw_mail(second)
    assert CustomerLink.objects.get().revoked_at is not None


@pytest.mark.parametrize("text", ["No address in it.", "[link] and again [link]"])
def test_the_address_stands_once_in_the_words(mail_it, text):
    with pytest.raises(MailRefused, match="once"):
        mail_it(text=text)
    assert not CustomerLink.objects.exists()


def test_only_a_quote_on_offer_is_mailed(mail_it, on_paper):
    Revision.objects.update(state=Revision.State.LAPSED, valid_until=timezone.localdate() - timedelta(days=1))
    with pytest.raises(NotOnOffer):
        mail_it()
    assert not OutgoingMail.objects.exists()
