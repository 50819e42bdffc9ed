"""The server: on the loopback of this machine only, told by its start link, ended by Ctrl-C or by the page."""

from __future__ import annotations

import socket
import threading
import time
from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Any

from waitress import wasyncore
from waitress.channel import HTTPChannel
from waitress.parser import HTTPRequestParser, ParsingError
from waitress.server import create_server

from namekeeper.faces.page.app import create_app
from namekeeper.faces.page.keeping import Keeping
from namekeeper.faces.page.safety import LOOPBACK, Guard
from namekeeper.outside import Outside

MOST_BYTES = 64 * 1024 * 1024
_THREADS = 6
_LAST_WORDS = 0.3  # seconds in which the last page goes out
_GRACE = 2.0  # seconds in which a job that is stopped may end


class _Parser(HTTPRequestParser):
    """Refuses a body of unknown length before it comes: browsers always say how long theirs is."""

    def parse_header(self, header_plus: bytes) -> None:
        super().parse_header(header_plus)
        if self.chunked:
            raise ParsingError("a body needs its length")


class _Channel(HTTPChannel):
    parser_class = _Parser


@dataclass(slots=True)
class PageServer:
    """One server with its app; ``port`` 0 takes a free one."""

    outside: Outside
    port: int = 0
    keeping: Keeping = field(init=False)
    guard: Guard = field(init=False)
    _ending: threading.Event = field(default_factory=threading.Event, init=False)

    def __post_init__(self) -> None:
        self.keeping = Keeping.of(self.outside)

    def end(self) -> None:
        """Let :meth:`serve` return once the last page is out."""
        self._ending.set()

    def serve(self, ready: Callable[[str], None]) -> None:
        """Answer until the page is closed or Ctrl-C is pressed; ``ready`` is given the start link.

        :raises OSError: if the port is taken.
        """
        listening = socket.create_server((LOOPBACK, self.port))
        self.guard = Guard(listening.getsockname()[1])
        server = create_server(
            create_app(self.keeping, self.guard, self.end),
            sockets=[listening],
            threads=_THREADS,
            ident=None,
            max_request_body_size=MOST_BYTES,
            clear_untrusted_proxy_headers=True,
        )
        server.channel_class = _Channel  # type: ignore[union-attr]
        answering = threading.Thread(target=server.run, name="page", daemon=True)
        answering.start()
        try:
            ready(self.guard.start_link)
            self._ending.wait()
            time.sleep(_LAST_WORDS)
        finally:
            self.keeping.end(_GRACE)
            server.task_dispatcher.shutdown()
            # Those lines that browsers hold open, too; by the thread that listens, which ends when none is left.
            lines = server._map  # type: ignore[union-attr]  # the stubs leave it out
            trigger: Any = server.trigger  # type: ignore[union-attr]  # and have it as a number, too
            # That thread closes the trigger's own pipe, and may wake by itself: not before it was written to.
            with trigger.lock:
                trigger.thunks.append(lambda: wasyncore.close_all(lines, ignore_all=True))
                trigger.pull_trigger()
            answering.join(_GRACE)
