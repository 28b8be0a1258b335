"""A mail server on loopback that takes, refuses, dawdles and hangs up, as a test tells it."""

from __future__ import annotations

import asyncio
import socket
from collections.abc import Iterator
from contextlib import contextmanager
from email import message_from_bytes
from email.message import EmailMessage
from email.policy import default
from typing import Any

from aiosmtpd.controller import Controller
from aiosmtpd.smtp import SMTP, Envelope, Session

TAKES = "takes"
BUSY_AT_RECIPIENT, BUSY_AT_TEXT = "busy at recipient", "busy at text"
REFUSES_SENDER, REFUSES_RECIPIENT, REFUSES_TEXT = "refuses sender", "refuses recipient", "refuses text"
HANGS_UP_BEFORE, HANGS_UP_AFTER = "hangs up before the text", "hangs up after the text"
DAWDLES_BEFORE, DAWDLES_AFTER = "dawdles before the text", "dawdles after the text"


class Peer:
    """What the server does next, one fault for each try, and what it took; with none left it takes all."""

    def __init__(self) -> None:
        self.faults: list[str] = []
        self.taken: list[tuple[list[str], EmailMessage]] = []
        self.tries = 0
        self.dawdle_seconds = 0.0
        self._now = TAKES

    def messages(self, message_id: str) -> list[EmailMessage]:
        return [message for _, message in self.taken if message["Message-ID"] == message_id]

    async def handle_MAIL(
        self, server: SMTP, session: Session, envelope: Envelope, address: str, options: list[str]
    ) -> str:
        self.tries += 1
        self._now = self.faults.pop(0) if self.faults else TAKES
        if self._now == REFUSES_SENDER:
            return "550 5.7.1 Sender not known here"
        envelope.mail_from = address
        return "250 OK"

    async def handle_RCPT(
        self, server: SMTP, session: Session, envelope: Envelope, address: str, options: list[str]
    ) -> str:
        if self._now == HANGS_UP_BEFORE:
            server.transport.abort()
        if self._now == DAWDLES_BEFORE:
            await asyncio.sleep(self.dawdle_seconds)
        if self._now == BUSY_AT_RECIPIENT:
            return "450 4.2.0 Greylisted, come again"
        if self._now == REFUSES_RECIPIENT:
            return "550 5.1.1 No such box here"
        envelope.rcpt_tos.append(address)
        return "250 OK"

    async def handle_DATA(self, server: SMTP, session: Session, envelope: Envelope) -> str:
        if self._now == BUSY_AT_TEXT:
            return "451 4.3.0 Try later"
        if self._now == REFUSES_TEXT:
            return "554 5.7.1 Not taken"
        content: Any = envelope.original_content
        self.taken.append((list(envelope.rcpt_tos), message_from_bytes(content, policy=default)))
        if self._now == HANGS_UP_AFTER:
            server.transport.abort()
        if self._now == DAWDLES_AFTER:
            await asyncio.sleep(self.dawdle_seconds)
        return "250 OK"


def free_port() -> int:
    """Return a port of loopback that nobody listens on."""
    with socket.socket() as found:
        found.bind(("127.0.0.1", 0))
        return found.getsockname()[1]


@contextmanager
def mail_server() -> Iterator[tuple[Peer, int]]:
    """Run a peer for as long as it is wanted, and tell its port."""
    peer, port = Peer(), free_port()
    controller = Controller(peer, hostname="127.0.0.1", port=port)
    controller.start()
    try:
        yield peer, port
    finally:
        controller.stop()
