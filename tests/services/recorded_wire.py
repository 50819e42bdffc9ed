"""Replies at the wire, without a server: every service is asked at its own address and nothing goes out.

For what the replies say. Faults on the wire itself (silence, cut bodies, wrong certificates) need ``local_server``.
"""

from __future__ import annotations

import json
import re
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from urllib.parse import parse_qsl, urlsplit

import responses
from requests import PreparedRequest

from namekeeper.sources.services.registry import SERVICES
from tests.services.local_server import Asked, Canned

_BASES = {service.profile.key: service.profile.base for service in SERVICES}


class RecordedWire:
    """``answer`` may be changed at any time and sees paths below the service's address; ``asked`` grows by requests."""

    def __init__(self, answer: Callable[[Asked], Canned]) -> None:
        self.answer = answer
        self.asked: list[Asked] = []

    def at(self, key: str) -> str:
        """The service's own address."""
        return _BASES[key]

    def reply(self, request: PreparedRequest) -> tuple[int, dict[str, str], bytes]:
        """To a request of any service."""
        url = str(request.url)
        base = next(base for base in _BASES.values() if url.startswith(base))
        parts = urlsplit(url.removeprefix(base))
        body = json.loads(request.body) if request.body else None
        asked = Asked(str(request.method), parts.path, dict(parse_qsl(parts.query)), body, request.headers)
        self.asked.append(asked)
        canned = self.answer(asked)
        return canned.status, dict(canned.headers), canned.body


@contextmanager
def on_record(answer: Callable[[Asked], Canned]) -> Iterator[RecordedWire]:
    """All services reply from the table until the block ends; a request to any other address fails."""
    wire = RecordedWire(answer)
    with responses.RequestsMock(assert_all_requests_are_fired=False) as mock:
        for base in _BASES.values():
            for method in ("GET", "POST"):
                mock.add_callback(method, re.compile(re.escape(base)), callback=wire.reply)
        yield wire
