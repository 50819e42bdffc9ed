"""What all services share: their profile, the way from question to answer, and failures as values."""

from __future__ import annotations

from abc import abstractmethod
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, field, replace
from datetime import timedelta
from enum import StrEnum, unique
from typing import ClassVar, Self

from namekeeper.evidence.interfaces import CommonNameSource, NameCard, NameSource
from namekeeper.evidence.statements import (
    Answer,
    CommonName,
    Edition,
    Failure,
    Reply,
    TaxonName,
)
from namekeeper.sources.desk import ServiceDesk, Told
from namekeeper.sources.http_faults import UnansweredError
from namekeeper.sources.kept_answers import Freshness
from namekeeper.sources.languages import two_letters
from namekeeper.sources.services.weighing import Found, Group, weigh
from namekeeper.words.forms import canonical_of
from namekeeper.words.spelling import plain_key

# For probes only; the first is an accepted species since 1899, the second its common name.
_WELL_KNOWN = "Poecilotheria regalis"
_WELL_KNOWN_COMMON = "Indian ornamental"


@unique
class Job(StrEnum):
    """What a service is fit for."""

    NAMES = "names"
    COMMON_NAMES = "common names"
    DETAILS = "synonyms and range"


@dataclass(frozen=True, slots=True, kw_only=True)
class OwnKey:
    """Where the keeper's own key for one service is looked for, and the part of the query in which it travels.

    ``variable`` of the environment goes before ``setting`` below ``services:`` in ``collection.yaml``.
    """

    variable: str
    setting: str
    parameter: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Profile:
    """The facts of a service that do not change from question to question.

    ``key`` is lower-case letters and digits. ``spacing`` is in seconds. A service with ``own_key`` is switched on by
    that key alone. One with ``identifiers`` is asked by identifiers that begin so, not by names. With
    ``slow_questions`` a question may be too much for a service that is well.
    """

    key: str
    title: str
    base: str
    upstream: str
    link: str
    jobs: tuple[Job, ...]
    spacing: float
    expiry: timedelta
    licence: str | None = None
    citation: str | None = None
    encoding: str = "utf-8"
    own_key: OwnKey | None = None
    identifiers: str = ""
    slow_questions: bool = False

    @property
    def address_variable(self) -> str:
        """The variable of the environment that names another address for this service."""
        return f"NAMEKEEPER_URL_{self.key.upper()}"

    def edition(self) -> Edition:
        return Edition(
            source=self.key,
            title=self.title,
            upstream=self.upstream,
            licence=self.licence,
            citation=self.citation,
            link=self.link,
            by_service=True,
        )


@dataclass(frozen=True, slots=True)
class Vernacular:
    """A common name as a service prints it, with its language in the service's own code."""

    text: str
    language: str
    taxon: TaxonName


def _unknown_identifier(name: str) -> str | None:
    """For keepers whose lists hold no identifiers of a service."""
    return None


def _unknown_authorship(name: str) -> str:
    """For names of which neither a label nor a list tells the author."""
    return ""


@dataclass(frozen=True, slots=True)
class Service:
    """An adapter of one service at its desk.

    ``identifier_of`` gives the service's identifier of a name where a list has it, ``authorship_of`` the authorship
    where a label or a list tells one, else "".  ``by_updates`` if the keeper only wants to know what is new: a service
    that tells what it changed is then asked that, and not every name again.
    """

    profile: ClassVar[Profile]
    desk: ServiceDesk
    group: Group = field(default_factory=Group)
    identifier_of: Callable[[str], str | None] = _unknown_identifier
    authorship_of: Callable[[str], str] = _unknown_authorship
    by_updates: bool = False

    @property
    def edition(self) -> Edition:
        """The service as far as it is known without asking."""
        return self.profile.edition()

    @property
    def trouble(self) -> str | None:
        """Why this service is left alone for the rest of the run, or None."""
        return self.desk.health.closed.why if self.desk.health.closed else None

    def under(self, wish: Freshness) -> Self:
        """The same service for another wish."""
        return replace(self, desk=self.desk.under(wish))

    def failure(self, asked: str, fault: UnansweredError) -> Failure:
        return Failure(self.edition, asked, fault.kind, fault.why, self.profile.link)

    def probe(self) -> Failure | None:
        """Put one question now, whatever is kept; what went wrong, or None if the service answers."""
        service = self.under(Freshness(refresh=True))
        try:
            service.put_one()
        except UnansweredError as fault:
            return self.failure("", fault)
        last = self.desk.health.last
        return None if last is None else self.failure("", last)

    @abstractmethod
    def put_one(self) -> None:
        """Put a question that the service should be able to answer.

        :raises UnansweredError: if it gives no usable answer.
        """

    def same_common(self, names: Iterable[Vernacular], words: str, edition: Edition) -> tuple[CommonName, ...]:
        """Those of ``names`` that are ``words`` but for capitals, marks, hyphens, spaces and a plural s."""
        wanted = common_key(words)
        found = (
            CommonName(name.text, two_letters(name.language), name.taxon, "common", edition, citation=edition.title)
            for name in names
            if common_key(name.text) == wanted and canonical_of(name.taxon.name)
        )
        return tuple({(name.taxon.name, name.language): name for name in found}.values())


class NameService(Service, NameSource):
    """A service that is asked scientific names."""

    __slots__ = ()

    @abstractmethod
    def look_up(self, name: str) -> Told[tuple[Found, ...]]:
        """What the service has for a name.

        :raises UnansweredError: if it gives no usable answer.
        """

    def put_one(self) -> None:
        self.look_up(_WELL_KNOWN)

    def current_edition(self) -> Edition:
        """The edition in use, by asking where the service tells one."""
        return self.edition

    def ask(self, names: Sequence[str]) -> Iterator[Reply]:
        """One reply a name; a name that gets no answer does not spoil the next."""
        edition = self.current_edition()
        for name in names:
            try:
                yield self.reply(name, self.look_up(name), edition)
            except UnansweredError as fault:
                yield self.failure(name, fault)

    def reply(self, name: str, told: Told[tuple[Found, ...]], edition: Edition) -> Answer:
        """What was found in the group, parted into statements that speak and hints that never do."""
        weighed = [
            weigh(found, name, self.group, edition)._replace(retrieved=told.retrieved, stale=told.stale)
            for found in told.value
            if not self.group.excludes(found)
        ]
        statements = tuple(statement for statement in weighed if statement.match.speaks)
        return Answer(
            statements[0].edition if statements else edition,
            name,
            statements=statements,
            hints=tuple(statement for statement in weighed if not statement.match.speaks),
            retrieved=told.retrieved,
            stale=told.stale,
        )


class DetailService(NameService):
    """A service that also lists the synonyms, common names and range of a species."""

    __slots__ = ()

    @abstractmethod
    def card(self, name: str) -> NameCard | None:
        """All about the accepted species of that name, None if the service has no such name.

        :raises UnansweredError: if it gives no usable answer.
        """

    def about(self, name: str) -> NameCard | Failure | None:
        """Like :meth:`card`, a failure as a value."""
        try:
            return self.card(name)
        except UnansweredError as fault:
            return self.failure(name, fault)


class CommonNameService(Service, CommonNameSource):
    """A service that is asked common names."""

    __slots__ = ()

    @abstractmethod
    def vernaculars(self, words: str) -> Told[tuple[Vernacular, ...]]:
        """Common names of the group that resemble ``words``.

        :raises UnansweredError: if the service gives no usable answer.
        """

    def put_one(self) -> None:
        self.vernaculars(_WELL_KNOWN_COMMON)

    def ask_common(self, words: str) -> tuple[CommonName, ...] | Failure:
        """Taxa that carry exactly the common name ``words``, after folding."""
        try:
            return self.same_common(self.vernaculars(words).value, words, self.edition)
        except UnansweredError as fault:
            return self.failure(words, fault)


def common_key(words: str) -> str:
    """Equal for common names that differ in capitals, marks, hyphens, spaces or a plural s."""
    letters = "".join(letter for letter in plain_key(words) if letter.isalnum())
    return letters[:-1] if len(letters) > 3 and letters.endswith("s") and not letters.endswith("ss") else letters
