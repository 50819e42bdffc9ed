"""A real HTTP server on this machine that answers as told, well or badly, and counts what it was asked."""

from __future__ import annotations

import json
import ssl
import threading
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass, field
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from urllib.parse import parse_qsl, urlsplit


@dataclass(frozen=True)
class Asked:
    """One request as it arrived."""

    method: str
    path: str
    query: Mapping[str, str]
    body: object
    headers: Mapping[str, str]


@dataclass(frozen=True)
class Canned:
    """An answer; ``manner`` takes over the writing of the body, or of all of it if ``status`` is 0."""

    status: int = 200
    body: bytes = b""
    headers: Mapping[str, str] = field(default_factory=dict)
    manner: Callable[[BaseHTTPRequestHandler, threading.Event], None] | None = None

    @classmethod
    def json(cls, document: object, encoding: str = "utf-8") -> Canned:
        text = json.dumps(document, ensure_ascii=False)
        return cls(body=text.encode(encoding), headers={"Content-Type": "application/json"})


class LocalServer:
    """``answer`` may be changed at any time; ``asked`` grows by every request."""

    def __init__(self, answer: Callable[[Asked], Canned], port: int) -> None:
        self.answer = answer
        self.asked: list[Asked] = []
        self.port = port
        self.scheme = "http"
        self.release = threading.Event()  # lets answers that hang come to an end

    @property
    def base(self) -> str:
        return f"{self.scheme}://127.0.0.1:{self.port}"


class _Quiet(ThreadingHTTPServer):
    daemon_threads = True

    def handle_error(self, request: object, client_address: object) -> None:
        """A client that goes away is what these tests are about."""


@contextmanager
def serving(answer: Callable[[Asked], Canned], tls: ssl.SSLContext | None = None) -> Iterator[LocalServer]:
    """A server that runs until the block ends."""
    server: LocalServer

    class Handler(BaseHTTPRequestHandler):
        protocol_version = "HTTP/1.1"
        disable_nagle_algorithm = True  # else every answer in two pieces waits 40 ms

        def do_GET(self) -> None:
            self._serve(None)

        def do_POST(self) -> None:
            self._serve(json.loads(self.rfile.read(int(self.headers["Content-Length"]))))

        def _serve(self, body: object) -> None:
            parts = urlsplit(self.path)
            asked = Asked(self.command, parts.path, dict(parse_qsl(parts.query)), body, dict(self.headers))
            server.asked.append(asked)
            canned = server.answer(asked)
            self.close_connection = canned.manner is not None
            if canned.status:
                self.send_response(canned.status)
                for name, value in canned.headers.items():
                    self.send_header(name, value)
                if canned.manner is None:
                    self.send_header("Content-Length", str(len(canned.body)))
                self.end_headers()
                self.wfile.write(canned.body)
            if canned.manner is not None:
                canned.manner(self, server.release)

        def log_message(self, *args: object) -> None:
            """Silent."""

    with _Quiet(("127.0.0.1", 0), Handler) as http:
        server = LocalServer(answer, http.server_address[1])
        if tls is not None:
            http.socket = tls.wrap_socket(http.socket, server_side=True)
            server.scheme = "https"
        thread = threading.Thread(target=http.serve_forever, kwargs={"poll_interval": 0.01})
        thread.start()
        try:
            yield server
        finally:
            server.release.set()
            http.shutdown()
            thread.join()


def silence(handler: BaseHTTPRequestHandler, release: threading.Event) -> None:
    """Never answers."""
    release.wait(30)


def drip(handler: BaseHTTPRequestHandler, release: threading.Event) -> None:
    """A byte at a time, each well within any read timeout, without end."""
    while not release.wait(0.02):
        handler.wfile.write(b" ")
        handler.wfile.flush()


def slow_headers(handler: BaseHTTPRequestHandler, release: threading.Event) -> None:
    """Header lines without end, each well within any read timeout."""
    handler.wfile.write(b"HTTP/1.1 200 OK\r\nX-Slow: ")
    drip(handler, release)


def flood(handler: BaseHTTPRequestHandler, release: threading.Event) -> None:
    """50 MB in pieces, as long as somebody reads."""
    piece = b" " * 1_000_000
    for _ in range(50):
        handler.wfile.write(piece)
