"""Speak to the mail server about one message, and tell apart what its answers mean."""

from __future__ import annotations

import re
import smtplib
import socket
import ssl
from collections.abc import Callable
from contextlib import suppress
from dataclasses import dataclass
from email.message import EmailMessage
from enum import Enum

from django.conf import settings
from django.core.mail import EmailMessage as DjangoMessage
from django.core.mail import get_connection
from django.core.mail.backends.console import EmailBackend as Console
from django.core.mail.backends.smtp import EmailBackend as Smtp

PATIENCE_AFTER_THE_DOT = 5
"""Times EMAIL_TIMEOUT: servers look through a message before they answer for it, and whoever hangs up
meanwhile sends it twice (RFC 5321, 4.5.3.2.6, would wait ten minutes)."""
GOODBYE_SECONDS = 2
LONGEST_WORDS = 300


class Kind(Enum):
    SENT = "sent"
    TRY_AGAIN = "try again"
    FAILED = "failed"
    ANSWER_LOST = "answer lost"


@dataclass(frozen=True, slots=True)
class Outcome:
    """What became of one try, in words for the office."""

    kind: Kind
    words: str = ""


def server_is_set() -> bool:
    """Tell whether mail leaves this site at all; without EMAIL_URL it waits."""
    return not isinstance(get_connection(), Console)


def deliver(
    message: EmailMessage,
    *,
    sender: str,
    to: str,
    begin_text: Callable[[], bool],
    keep: Callable[[Outcome], None],
) -> None:
    """Send a message and hand what became of it to `keep`, before a word more is said to the server.

    `begin_text` is asked right before the text goes: who lost the message to another worker sends nothing.
    """
    connection = get_connection()
    if not isinstance(connection, Smtp):  # a test's, or one that a developer chose
        if begin_text():
            connection.send_messages([_AsItIs(message, to)])
            keep(Outcome(Kind.SENT))
        return
    try:
        connection.open()
    except OSError as trouble:
        keep(Outcome(Kind.TRY_AGAIN, _trouble_in_words(trouble)))
        return
    try:
        if _offer(connection.connection, sender, to, begin_text):
            keep(_hand_over(connection.connection, message.as_bytes()))
    except _NotTaken as refused:
        keep(refused.outcome)
    except OSError as trouble:  # also what smtplib raises
        keep(Outcome(Kind.TRY_AGAIN, _trouble_in_words(trouble)))
    finally:
        _say_goodbye(connection)


class _NotTaken(Exception):
    """The server said no, for now or for good."""

    def __init__(self, code: int, answer: bytes, what: str, *, ever: bool = True) -> None:
        super().__init__(what)
        kind = Kind.FAILED if ever and 500 <= code < 600 else Kind.TRY_AGAIN
        self.outcome = Outcome(kind, f"The mail server refused the {what}: {_said(code, answer)}")


def _offer(line: smtplib.SMTP, sender: str, to: str, begin_text: Callable[[], bool]) -> bool:
    """Name sender and recipient and ask to send the text; return False if it is not ours any more."""
    line.ehlo_or_helo_if_needed()
    code, answer = line.mail(sender)
    if code != 250:  # about the site and not about this recipient: somebody puts it right
        raise _NotTaken(code, answer, "sender", ever=False)
    code, answer = line.rcpt(to)
    if code not in (250, 251):
        raise _NotTaken(code, answer, "recipient")
    if not begin_text():
        return False
    code, answer = line.docmd("DATA")
    if code != 354:
        raise _NotTaken(code, answer, "message")
    return True


def _hand_over(line: smtplib.SMTP, content: bytes) -> Outcome:
    """Send the text and return what the server made of it."""
    line.send(_with_final_dot(content))  # until its final dot, which goes last, no server may deliver it
    try:
        line.sock.settimeout((settings.EMAIL_TIMEOUT or GOODBYE_SECONDS) * PATIENCE_AFTER_THE_DOT)
        code, answer = line.getreply()
    except OSError:
        code, answer = -1, b""
    if code == 250:
        return Outcome(Kind.SENT)
    if 400 <= code < 600:
        raise _NotTaken(code, answer, "message")
    return Outcome(Kind.ANSWER_LOST, "The mail server had the whole message, but its answer was lost.")


def _with_final_dot(content: bytes) -> bytes:
    """Double the dots that begin a line, and end with the line that is only a dot (RFC 5321, 4.5.2)."""
    lines = re.sub(rb"\r\n|\r|\n", b"\r\n", content)
    ended = lines if lines.endswith(b"\r\n") else lines + b"\r\n"
    return re.sub(rb"(?m)^\.", b"..", ended) + b".\r\n"


def _say_goodbye(connection: Smtp) -> None:
    """End politely, without waiting long: what became of the message is kept already."""
    with suppress(OSError):
        if connection.connection.sock:
            connection.connection.sock.settimeout(GOODBYE_SECONDS)
        connection.close()


def _said(code: int, answer: bytes) -> str:
    words = " ".join(answer.decode("utf-8", "replace").split())
    return f"{code} {''.join(sign for sign in words if sign.isprintable())}"[:LONGEST_WORDS].rstrip()


_TROUBLES: tuple[tuple[type[OSError], str], ...] = (
    (smtplib.SMTPServerDisconnected, "The mail server ended the connection before it had the message."),
    (smtplib.SMTPException, "The mail server does not offer what EMAIL_URL asks for: look at how it begins."),
    (ssl.SSLCertVerificationError, "The mail server's certificate is not one that this machine trusts."),
    (ssl.SSLError, "The mail server and this machine agreed on no encryption: look at how EMAIL_URL begins."),
    (TimeoutError, "The mail server did not answer in time."),
    (socket.gaierror, "The mail server in EMAIL_URL was not found by its name."),
    (ConnectionRefusedError, "Nothing takes mail at the host and port in EMAIL_URL."),
    (OSError, "The connection to the mail server broke before it had the message."),
)


def _trouble_in_words(trouble: OSError) -> str:
    """Say what hindered the talk with the server; an answer to a log-in is not repeated, it may name it."""
    if isinstance(trouble, smtplib.SMTPAuthenticationError):
        return f"The mail server refused the name or password in EMAIL_URL ({trouble.smtp_code})."
    if isinstance(trouble, smtplib.SMTPResponseException):
        return f"The mail server is not ready: {_said(trouble.smtp_code, _bytes(trouble.smtp_error))}"
    return next(words for kind, words in _TROUBLES if isinstance(trouble, kind))


def _bytes(said: bytes | str) -> bytes:
    return said if isinstance(said, bytes) else said.encode()


class _AsItIs(DjangoMessage):
    """The same message for a backend of Django's that is not SMTP."""

    def __init__(self, message: EmailMessage, to: str) -> None:
        super().__init__(subject=str(message["Subject"]), to=[to])
        self._written = message

    def message(self) -> EmailMessage:
        return self._written
