"""A line between the browser and the site that loses requests, loses answers, and breaks in the middle.

A small proxy on the loopback address. Each connection carries one request, so that what a fault does to it is
plain: it is not passed on; it is passed on and its answer is not; it is passed on twice; it is cut after some
of its bytes.
"""

from __future__ import annotations

import socket
import socketserver
import threading
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from enum import StrEnum

HEAD_END = b"\r\n\r\n"
SOME_BYTES = 2000


class Fault(StrEnum):
    NONE = "none"
    NO_LINE = "no line"
    LOST_REQUEST = "lost request"
    LOST_ANSWER = "lost answer"
    TWICE = "twice"
    CUT_SHORT = "cut short"


@dataclass
class FaultyLine:
    """What happens to each request next: `choose` is asked with its method and path."""

    site: tuple[str, int]
    choose: Callable[[str, str], Fault] = lambda _method, _path: Fault.NONE
    done: list[tuple[str, str, Fault]] = field(default_factory=list)

    def carry(self, browser: socket.socket) -> None:
        """Carry one request to the site, and its answer back."""
        request = _whole_message(browser)
        if not request:
            return
        method, path = request.split(b" ", 2)[:2]
        fault = self.choose(method.decode(), path.decode())
        self.done.append((method.decode(), path.decode(), fault))
        if fault in {Fault.NO_LINE, Fault.LOST_REQUEST}:
            return
        if fault is Fault.CUT_SHORT:
            self._ask(request[: len(request.split(HEAD_END, 1)[0]) + SOME_BYTES], wait=False)
            return
        if fault is Fault.TWICE:
            self._ask(request)
        answer = self._ask(request)
        if fault is not Fault.LOST_ANSWER:
            browser.sendall(answer)

    def _ask(self, request: bytes, *, wait: bool = True) -> bytes:
        with socket.create_connection(self.site, timeout=30) as site:
            site.sendall(request)
            if not wait:
                site.shutdown(socket.SHUT_WR)
            return b"".join(iter(lambda: site.recv(65536), b""))


@contextmanager
def faulty_line(site: tuple[str, int]) -> Iterator[tuple[str, FaultyLine]]:
    """Give the address to open in place of the site's, and the line."""
    line = FaultyLine(site)

    class Handler(socketserver.BaseRequestHandler):
        def handle(self) -> None:
            try:
                line.carry(self.request)
            except OSError:
                return  # the browser went away first

    class Server(socketserver.ThreadingTCPServer):
        daemon_threads = True
        allow_reuse_address = True

    with Server(("127.0.0.1", 0), Handler) as server:
        thread = threading.Thread(target=server.serve_forever, kwargs={"poll_interval": 0.05}, daemon=True)
        thread.start()
        try:
            yield f"http://localhost:{server.server_address[1]}", line
        finally:
            server.shutdown()
            thread.join()


def _whole_message(browser: socket.socket) -> bytes:
    """Read one request with its body, and ask the site to close after its answer."""
    read = b""
    while HEAD_END not in read:
        piece = browser.recv(65536)
        if not piece:
            return b""
        read += piece
    head, body = read.split(HEAD_END, 1)
    lines = [each for each in head.split(b"\r\n") if not each.lower().startswith(b"connection:")]
    length = next((int(each[15:]) for each in lines if each.lower().startswith(b"content-length:")), 0)
    while len(body) < length:
        piece = browser.recv(65536)
        if not piece:
            return b""
        body += piece
    return b"\r\n".join([*lines, b"Connection: close"]) + HEAD_END + body
