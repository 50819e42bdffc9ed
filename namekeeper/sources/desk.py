"""Where an adapter puts its questions: kept answers first, then the network, then kept answers past their time."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from contextlib import suppress
from dataclasses import dataclass, field, replace
from datetime import datetime, timedelta
from typing import Generic, TypeVar

from namekeeper.evidence.statements import FailureKind
from namekeeper.sources.http import Http, WebQuestion
from namekeeper.sources.http_faults import UnansweredError
from namekeeper.sources.kept_answers import AnswerCache, Freshness, KeptUse, decide_reading
from namekeeper.sources.replies import NO_MARKS, Held, Marks, WebReply

T = TypeVar("T")
U = TypeVar("U")

# These tell of the one question, and come from a service that is well; many in a row tell of a wrong address.
_ABOUT_ONE = frozenset({400, 404, 422})
_PATIENCE_WITH_SLOW = 5
# How a query service says that a query ran out of its time: 500 with a trace, or a gateway that gave up waiting.
_TOO_MUCH = frozenset({500, 504})


@dataclass(frozen=True, slots=True)
class Told(Generic[T]):
    """What a reply was read to, when it came from the service, and whether it is past its time."""

    value: T
    retrieved: datetime
    stale: bool = False

    def of(self, value: U) -> Told[U]:
        """Another value read from the same reply."""
        return Told(value, self.retrieved, self.stale)


@dataclass(frozen=True, slots=True)
class _Kept(Generic[T]):
    """A kept answer that its reader accepts, what it was read to, and whether it is good enough."""

    held: Held
    told: Told[T]
    reading: KeptUse


@dataclass(slots=True)
class Health:
    """How a service fares in this run.

    ``closed`` once it is left alone, ``last`` what went wrong last, ``one_by_one`` once it refused many at once,
    ``hopeless`` the questions that would fail again.
    """

    in_a_row: int = 0
    one_by_one: bool = False
    closed: UnansweredError | None = None
    last: UnansweredError | None = None
    hopeless: dict[WebQuestion, UnansweredError] = field(default_factory=dict)

    def failed(self, question: WebQuestion, fault: UnansweredError, *, about_one: bool = False) -> None:
        """``about_one`` if the fault may be that of the question alone."""
        self.last = fault
        if about_one or not fault.passing:
            self.hopeless[question] = fault
        self.in_a_row += 1
        if self.in_a_row >= max(_patience(fault), _PATIENCE_WITH_SLOW if about_one else 0):
            self.closed = fault

    def answered(self) -> None:
        self.in_a_row = 0


def _patience(fault: UnansweredError) -> int:
    """After so many such failures in a row a service is left alone for the rest of the run."""
    if fault.status in _ABOUT_ONE:
        return 10
    if fault.kind is FailureKind.BAD_REPLY:
        return 3
    # A refusal is enough by itself; so is silence, which costs the keeper half a minute each time.
    return 2 if fault.kind is FailureKind.UNREACHABLE and fault.status is not None else 1


@dataclass(frozen=True, slots=True)
class Batch:
    """How a service takes many questions in one POST to ``endpoint``: the item of a question, and whose an answer is.

    ``pair`` is given as many documents as questions and leaves out those of which it does not know.
    """

    endpoint: WebQuestion
    item: Callable[[WebQuestion], object]
    pair: Callable[[Sequence[WebQuestion], Sequence[object]], Mapping[WebQuestion, object]]


@dataclass(frozen=True, slots=True)
class ServiceDesk:
    """Asks one service on behalf of its adapter.

    Only a reply that its reader accepts is kept. ``secret`` goes to the service and nowhere else; where one is needed
    and there is none, nothing is asked and nothing kept is shown. With ``slow_questions`` one that runs out of time
    closes itself and not the service.
    """

    http: Http
    cache: AnswerCache
    clock: Callable[[], datetime]
    expiry: timedelta
    wish: Freshness = field(default_factory=Freshness)
    secret: tuple[tuple[str, str], ...] = ()
    needs_secret: bool = False
    slow_questions: bool = False
    health: Health = field(default_factory=Health)

    @property
    def lacks_secret(self) -> bool:
        """Whether the service cannot be asked for want of a key."""
        return self.needs_secret and not self.secret

    def under(self, wish: Freshness) -> ServiceDesk:
        """The same desk for another wish."""
        return replace(self, wish=wish)

    def kept_since(self, question: WebQuestion) -> datetime | None:
        """When the kept answer to a question came from the service, None if none is kept."""
        kept = self.cache.get(self._key(question))
        return None if kept is None else kept.retrieved

    def ask(self, question: WebQuestion, read: Callable[[object], T]) -> Told[T]:
        """One question, read by ``read``, which raises :class:`UnansweredError` for a reply of another shape.

        :raises UnansweredError: if neither the service nor the cache has a usable answer.
        """
        if self.lacks_secret:
            raise UnansweredError(FailureKind.REFUSED, "it needs the keeper's own free key")
        kept = self._kept(question, read)
        if kept is not None and kept.reading.use:
            return replace(kept.told, stale=kept.reading.stale)
        # Who wishes a fresh answer may distrust the kept one: it is asked for whole.
        known = NO_MARKS if kept is None or self.wish.refresh else kept.held.marks
        try:
            reply = self._send(question, known=known)
            if reply.unchanged and kept is not None:
                return self._confirmed(question, kept)
            return self._keep(question, reply, read)
        except UnansweredError as fault:
            if kept is not None:
                return replace(kept.told, stale=True)
            raise fault from None

    def ask_many(
        self, questions: Mapping[WebQuestion, Callable[[object], T]], batch: Batch
    ) -> dict[WebQuestion, Told[T] | UnansweredError]:
        """Many questions, each with its reader, in one POST, which answers with a list.

        Every answer is kept under its own question. A service that does not take the POST is asked one by one, and so
        is every question whose answer cannot be told from the others.
        """
        if self.lacks_secret:
            return {question: self._asked(question, read) for question, read in questions.items()}
        told: dict[WebQuestion, Told[T] | UnansweredError] = {}
        waiting: list[WebQuestion] = []
        for question, read in questions.items():
            kept = self._kept(question, read)
            if kept is not None and kept.reading.use:
                told[question] = replace(kept.told, stale=kept.reading.stale)
            else:
                waiting.append(question)
        together = len(waiting) > 1 and not (self.wish.offline or self.health.one_by_one)
        answers = self._send_many(waiting, batch) if together else {}
        for question in waiting:
            read = questions[question]
            if question in answers:
                with suppress(UnansweredError):
                    told[question] = self._keep(question, WebReply(answers[question]), read)
            if question not in told:
                told[question] = self._asked(question, read)
        return told

    def _asked(self, question: WebQuestion, read: Callable[[object], T]) -> Told[T] | UnansweredError:
        try:
            return self.ask(question, read)
        except UnansweredError as fault:
            return fault

    def _send_many(self, questions: Sequence[WebQuestion], batch: Batch) -> Mapping[WebQuestion, object]:
        """The answers that are known to belong to a question."""
        try:
            documents = self._send(batch.endpoint, [batch.item(question) for question in questions]).document
        except UnansweredError:
            documents = None
        if isinstance(documents, list) and len(documents) == len(questions):
            return batch.pair(questions, documents)
        self.health.one_by_one = True
        return {}

    def _send(self, question: WebQuestion, body: object = None, known: Marks = NO_MARKS) -> WebReply:
        if self.wish.offline:
            raise UnansweredError(FailureKind.OFFLINE, "working offline, and nothing is kept for this name")
        if self.health.closed is not None:
            fault = self.health.closed
            raise UnansweredError(fault.kind, f"{fault.why}; not asked again in this run", status=fault.status)
        if question in self.health.hopeless:
            raise self.health.hopeless[question]
        try:
            return self.http.send(question, body, self.secret, known)
        except UnansweredError as fault:
            slow = self.slow_questions and (fault.timed_out or fault.status in _TOO_MUCH)
            self.health.failed(question, fault, about_one=slow)
            raise

    def _keep(self, question: WebQuestion, reply: WebReply, read: Callable[[object], T]) -> Told[T]:
        try:
            value = read(reply.document)
        except UnansweredError as fault:
            self.health.failed(question, fault)
            raise
        return Told(value, self._store(question, reply.document, reply.marks))

    def _confirmed(self, question: WebQuestion, kept: _Kept[T]) -> Told[T]:
        """The kept answer, which the service says still holds: as good as asked now (RFC 9111, 4.3.4)."""
        return Told(kept.told.value, self._store(question, kept.held.document, kept.held.marks))

    def _store(self, question: WebQuestion, document: object, marks: Marks) -> datetime:
        """Note that the service answered, and when."""
        self.health.answered()
        now = self.clock()
        self.cache.put(self._key(question), document, now, marks)
        return now

    def _kept(self, question: WebQuestion, read: Callable[[object], T]) -> _Kept[T] | None:
        held = self.cache.get(self._key(question))
        if held is None:
            return None
        try:
            told = Told(read(held.document), held.retrieved)
        except UnansweredError:
            self.cache.drop(self._key(question))
            return None
        return _Kept(held, told, decide_reading(self.clock() - held.retrieved, self.expiry, self.wish))

    def _key(self, question: WebQuestion) -> str:
        return f"{self.http.base}/{question}"
