"""The network rim: asks one host, slowly, with limits on everything, and turns every failure into a reason.

``requests`` is imported by the first question only, so that work from lists and kept answers starts fast.
"""

from __future__ import annotations

import random
import threading
import time
from collections.abc import Callable
from dataclasses import dataclass, field
from ipaddress import ip_address
from queue import Empty, SimpleQueue
from typing import TYPE_CHECKING
from urllib.parse import urlencode, urljoin, urlsplit

from namekeeper.evidence.statements import FailureKind
from namekeeper.sources.http_faults import UnansweredError, refused, unreachable
from namekeeper.sources.http_limits import HttpSettings, Pacer, decide
from namekeeper.sources.json_text import document_of
from namekeeper.sources.replies import NO_MARKS, Marks, WebReply
from namekeeper.words.errors import InputError

if TYPE_CHECKING:
    import requests

_CHUNK = 65_536
_BREATH = 0.2  # seconds of waiting between two looks at whether the keeper wishes to stop


@dataclass(frozen=True, slots=True)
class WebQuestion:
    """A path below a service's address and its query, without anything secret."""

    path: str
    params: tuple[tuple[str, str], ...] = ()

    def __str__(self) -> str:
        query = urlencode(self.params, errors="replace")
        return f"{self.path}?{query}" if query else self.path


def is_loopback(base: str) -> bool:
    """Whether the host of an address is this machine by its name or number."""
    host = urlsplit(base).hostname or ""
    try:
        return host == "localhost" or ip_address(host).is_loopback
    except ValueError:
        return False


def checked_base(base: str, variable: str) -> str:
    """``base`` without a slash at its end.

    :raises InputError: unless it is an https address, or plain http to this machine, without user name and query.
    """
    remedy = f"set {variable} to an https address, or leave it out"
    try:
        parts = urlsplit(base)
        port_is_fine = parts.port is None or parts.port > 0
    except ValueError:
        what = f"{variable} is not a web address"
        raise InputError(what, remedy=remedy) from None
    safe = parts.scheme == "https" or (parts.scheme == "http" and is_loopback(base))
    if not (safe and parts.hostname and port_is_fine) or "@" in parts.netloc or parts.query or parts.fragment:
        what = f"{variable} must be https, or http to this machine only, without user name and query"
        raise InputError(what, remedy=remedy)
    return base.rstrip("/")


def nobody_stops() -> None:
    """For questions that nobody wishes to stop."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Wire:
    """Limits, clock and chance of all questions of a run; tests hand in a clock that does not wait.

    ``breathe`` is called several times a second while a reply is waited for, and raises what ends the wait.
    """

    settings: HttpSettings = field(default_factory=HttpSettings)
    monotonic: Callable[[], float] = time.monotonic
    sleep: Callable[[float], None] = time.sleep
    chance: Callable[[], float] = random.random
    breathe: Callable[[], None] = nobody_stops


class Http:
    """Asks one service at ``base``, with ``spacing`` seconds from question to question.

    One attempt runs in a thread of its own, because neither name resolution nor slow headers obey a timeout; an
    attempt that takes too long is left behind and its answer ignored. There is never more than one that is waited for.
    """

    def __init__(self, base: str, wire: Wire, *, spacing: float, encoding: str = "utf-8") -> None:
        self.base = base
        self._wire = wire
        self._settings = wire.settings
        self._encoding = encoding
        # To this machine (a test, a mirror of one's own) nobody needs sparing.
        self._pacer = Pacer(0.0 if is_loopback(base) else spacing, wire.monotonic, wire.sleep)
        self._session: requests.Session | None = None

    def send(
        self,
        question: WebQuestion,
        body: object = None,
        secret: tuple[tuple[str, str], ...] = (),
        known: Marks = NO_MARKS,
    ) -> WebReply:
        """What the service replies; ``body`` makes it a POST, ``secret`` joins the query and is told nowhere.

        :param known: of a reply at hand, which the service may say is unchanged (HTTP 304).
        :raises UnansweredError: for everything that is not a JSON document of status 200, or unchanged.
        """
        wire = self._wire
        attempt = 0
        spent = 0.0
        while True:
            attempt += 1
            # Made before the wait: loading what it needs takes so long that the first two questions would come closer.
            self._session = self._session or self._new_session()
            self._pacer.wait()  # for the sake of others, so it is no time of this question
            started = wire.monotonic()
            try:
                return self._attempt(question, body, secret, known)
            except UnansweredError as fault:
                retry = decide(fault, attempt, spent + wire.monotonic() - started, wire.settings, wire.chance())
                # Many names in one question that runs out of time would most likely do so again.
                if not retry.again or (body is not None and fault.timed_out):
                    raise
                wire.sleep(retry.wait)
                spent += wire.monotonic() - started

    def _attempt(
        self, question: WebQuestion, body: object, secret: tuple[tuple[str, str], ...], known: Marks
    ) -> WebReply:
        box: SimpleQueue[WebReply | BaseException] = SimpleQueue()
        left_behind = threading.Event()
        session = self._session = self._session or self._new_session()
        address = f"{self.base}/{WebQuestion(question.path, question.params + secret)}"

        def job() -> None:
            try:
                box.put(self._fetch(session, address, body, known, left_behind))
            except BaseException as error:  # whatever happens there is told here
                box.put(error)

        threading.Thread(target=job, name="namekeeper-question", daemon=True).start()
        try:
            outcome = self._outcome(box)
        except Empty:
            self._session = None  # still in use by the attempt that is left behind
            why = "it did not answer in time"
            raise UnansweredError(FailureKind.UNREACHABLE, why, passing=True, timed_out=True) from None
        finally:
            left_behind.set()
        if isinstance(outcome, BaseException):
            raise outcome
        return outcome

    def _outcome(self, box: SimpleQueue[WebReply | BaseException]) -> WebReply | BaseException:
        """What the attempt came to.

        :raises Empty: if it takes too long.
        """
        left = self._settings.attempt_seconds
        while left > _BREATH:
            self._wire.breathe()
            try:
                return box.get(timeout=_BREATH)
            except Empty:
                left -= _BREATH
        return box.get(timeout=left)

    def _new_session(self) -> requests.Session:
        import requests

        session = requests.Session()
        session.headers.update({"User-Agent": self._settings.user_agent, "Accept": "application/json"})
        session.trust_env = not is_loopback(self.base)
        session.auth = lambda request: request  # else a password for this host in ~/.netrc would be sent
        return session

    def _fetch(
        self, session: requests.Session, address: str, body: object, known: Marks, left_behind: threading.Event
    ) -> WebReply:
        import requests
        import urllib3

        try:
            raw, marks = self._body(session, address, body, known, left_behind)
        except (requests.RequestException, urllib3.exceptions.HTTPError, OSError, ValueError) as error:
            # The text of these errors holds the whole address: only its kind is told.
            raise unreachable(error) from None
        return WebReply(None, known, unchanged=True) if raw is None else WebReply(self._document(raw), marks)

    def _body(
        self, session: requests.Session, address: str, body: object, known: Marks, left_behind: threading.Event
    ) -> tuple[bytes | None, Marks]:
        """The body and its marks; no body if the known reply still holds."""
        for _ in range(self._settings.max_redirects + 1):
            response = session.request(
                "GET" if body is None else "POST",
                address,
                json=body,
                headers=known.conditions(),
                timeout=(self._settings.connect_seconds, self._settings.read_seconds),
                stream=True,
                allow_redirects=False,
            )
            with response:
                if response.is_redirect:
                    address = self._redirected(address, response.headers["location"])
                    continue
                if response.status_code == 304 and known != NO_MARKS:
                    return None, known
                if response.status_code != 200:
                    raise refused(response.status_code, response.headers.get("Retry-After"))
                return self._limited(response, left_behind), Marks.among(response.headers)
        raise UnansweredError(FailureKind.BAD_REPLY, "it sends from address to address without end")

    def _redirected(self, address: str, location: str) -> str:
        target = urljoin(address, location)
        old, new = urlsplit(address), urlsplit(target)
        if (old.scheme, old.hostname, old.port) != (new.scheme, new.hostname, new.port):
            raise UnansweredError(FailureKind.BAD_REPLY, "it sends to another host, which is not followed")
        return target

    def _limited(self, response: requests.Response, left_behind: threading.Event) -> bytes:
        limit = self._settings.max_bytes
        declared = response.headers.get("Content-Length", "")
        too_big = UnansweredError(FailureKind.BAD_REPLY, f"its reply is larger than {limit // 1_000_000 or 1} MB")
        if declared.isdecimal() and int(declared) > limit:
            raise too_big
        parts: list[bytes] = []
        size = 0
        while chunk := response.raw.read1(_CHUNK, decode_content=True):
            parts.append(chunk)
            size += len(chunk)
            if size > limit:
                raise too_big
            if left_behind.is_set():
                raise UnansweredError(FailureKind.UNREACHABLE, "it did not answer in time")
        return b"".join(parts)

    def _document(self, raw: bytes) -> object:
        try:
            text = raw.decode(self._encoding)
        except UnicodeDecodeError:
            raise UnansweredError(FailureKind.BAD_REPLY, "its reply is in another encoding than it promises") from None
        try:
            return document_of(text)
        except ValueError as error:
            start = text.lstrip("\ufeff \r\n\t")[:1]
            kinds = {"": "it sent nothing", "<": "it sent a web page instead of data (a login page of this network?)"}
            unusable = f"its reply {error}" if str(error) else "it sent data that are cut off or damaged"
            raise UnansweredError(FailureKind.BAD_REPLY, kinds.get(start, unusable)) from None
