"""What stands in the head of a message, and who can write there (RFC 5322, 2.2; other letters: RFC 2047)."""

from __future__ import annotations

from email import message_from_bytes
from email.policy import default

import pytest
from hypothesis import HealthCheck, given
from hypothesis import settings as hypothesis_settings
from hypothesis import strategies as st

from jobs.firm.models import Firm
from jobs.mail.messages import message_of
from jobs.mail.models import OutgoingMail
from jobs.mail.services import Attachment, MailRefused, Recipient

pytestmark = pytest.mark.django_db

BREAKS = [
    "\r\nBcc: eve@example.org",
    "\nBcc: eve@example.org",
    "\rX: y",
    "\x00",
    "\u2028Bcc: a",
    "\x85Bcc: a",
]
LINES = st.text(st.characters(exclude_categories=("Cc", "Cs", "Zl", "Zp")), min_size=1, max_size=110).filter(
    lambda line: line.strip()
)


def squeezed(line: str) -> str:
    """Return a line but for its blanks, which folding may change."""
    return "".join(line.split())


@pytest.mark.parametrize("added", BREAKS)
def test_a_name_or_subject_cannot_begin_another_header(queue, added):
    for changes in (
        {"to": Recipient(f"Odile{added}z", "odile@example.org")},
        {"to": Recipient("Odile", f"odile@example.org{added}z")},
        {"subject": f"Your loft{added}z"},
    ):
        with pytest.raises(MailRefused):
            queue(**changes)
    assert not OutgoingMail.objects.exists()


@pytest.mark.parametrize(
    "address",
    ["", "odile", "odile@", "@example.org", "odile@example.org, ivo@example.org", "Odile <odile@example.org>",
     "odile@example.org ivo@example.org", "ŵil@example.org"],
)  # fmt: skip
def test_a_message_goes_to_one_address_that_every_server_takes(queue, address):
    with pytest.raises(MailRefused, match="one e-mail address"):
        queue(to=Recipient("Odile", address))


def test_a_domain_in_other_letters_is_written_as_the_wire_has_it(queue):
    assert queue(to=Recipient("", "odile@bücher.example")).to_address == "odile@xn--bcher-kva.example"


@pytest.mark.parametrize("field", ["subject", "text"])
def test_nothing_goes_without_subject_or_words(queue, field):
    with pytest.raises(MailRefused, match="is missing"):
        queue(**{field: " \n"} if field == "text" else {field: "  "})


def test_a_paper_that_is_not_kept_is_found_out_before_anything_is_queued(queue):
    with pytest.raises(MailRefused, match="missing"):
        queue(attachments=[Attachment("Quote.pdf", "0" * 64)])


def test_welsh_names_and_pounds_arrive_as_written(peer, queue, send):
    Firm.objects.update(name="Llofftydd Tŷ Gŵyl, Cyf")
    mail = queue(to=Recipient("Siân Ŵyn-Pŷs", "sian@example.org"), subject="Dyfynbris £1,250 i Dŷ Mawr – ŵŷ")
    send()
    [(_, message)] = peer.taken
    assert str(message["To"]) == "Siân Ŵyn-Pŷs <sian@example.org>"
    assert message["From"].addresses[0].display_name == "Llofftydd Tŷ Gŵyl, Cyf"
    assert message["Subject"] == mail.subject
    assert "£40 at Tŷ Mawr." in message.get_content()
    assert message.as_bytes().isascii()


@hypothesis_settings(max_examples=60, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(name=LINES, subject=LINES)
def test_any_name_and_subject_stay_in_their_own_headers(queue, name, subject):
    mail = queue(to=Recipient(name, "odile@example.org"), subject=subject)
    message = message_of(mail)
    head = message.as_bytes().partition(b"\r\n\r\n")[0]
    assert head.isascii()
    unfolded = head.replace(b"\r\n ", b" ").split(b"\r\n")
    names = [line.partition(b":")[0].decode() for line in unfolded]
    assert sorted(names) == sorted(
        ["From", "To", "Reply-To", "Subject", "Date", "Message-ID", "Content-Type",
         "Content-Transfer-Encoding", "MIME-Version"]
    )  # fmt: skip
    read = message_from_bytes(message.as_bytes(), policy=default)
    assert squeezed(str(read["Subject"])) == squeezed(subject)
    assert squeezed(read["To"].addresses[0].display_name) == squeezed(name)
    assert read["To"].addresses[0].addr_spec == "odile@example.org"
    assert all(len(line) <= 998 for line in head.split(b"\r\n"))


def test_nothing_in_a_message_follows_its_reader(queue):
    message = message_of(queue())
    assert message.get_content_type() == "text/plain"
    assert "Disposition-Notification-To" not in message
    assert "Return-Receipt-To" not in message
