"""Ask many names of many services: each name once a service, no service waiting for another, progress on the way."""

from __future__ import annotations

import time
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from typing import TypeVar

from namekeeper.evidence.interfaces import CommonNameSource, NameCard, NameSource, ScientificNames
from namekeeper.evidence.statements import CommonName, Failure, Match, Reply, TaxonName
from namekeeper.judging.change import same_author
from namekeeper.outside import Progress
from namekeeper.sources.services.service import DetailService, Service
from namekeeper.tasks.guarded import ask_guarded, mistake

_Said = TypeVar("_Said")


def no_progress(done: int, total: int | None, note: str = "") -> None:
    """For callers without a terminal."""


def ask_services(
    services: Sequence[NameSource],
    names: Iterable[str],
    progress: Progress = no_progress,
    monotonic: Callable[[], float] = time.monotonic,
) -> Mapping[str, tuple[Reply, ...]]:
    """What every service says of every distinct name, in the order of ``services``.

    The services are asked in turn, so the pause that one wishes between questions is used for the others, and a dead
    one costs its own few attempts only. Every answer is kept as it comes: after an interruption the next run goes on
    where this one stopped. ``KeyboardInterrupt`` passes through.
    """
    distinct = tuple(dict.fromkeys(name for name in names if name))
    asked = services if distinct else ()
    replies: dict[str, dict[int, Reply]] = {name: {} for name in distinct}
    tally = _Tally([_Count(source.edition.source, len(distinct)) for source in asked], monotonic)
    progress(0, tally.total, tally.note())
    for number, reply in _in_turn([ask_guarded(source, distinct) for source in asked]):
        name = distinct[tally.counts[number].done]
        replies[name][number] = reply
        tally.counts[number].add(_trouble(asked[number]))
        progress(tally.done, tally.total, tally.note())
    return {name: tuple(own[number] for number in sorted(own)) for name, own in replies.items()}


@dataclass(frozen=True, slots=True)
class CommonAnswers:
    """Taxa that carry a common name, and the services that could not be asked."""

    names: tuple[CommonName, ...]
    failures: tuple[Failure, ...]


def ask_common_names(services: Sequence[CommonNameSource], words: str) -> CommonAnswers:
    """What every service knows of a common name; the same taxon of two services stays twice, each with its source."""
    names: list[CommonName] = []
    failures: list[Failure] = []
    for service in services:
        answer = _guarded(service, words, service.ask_common)
        if isinstance(answer, Failure):
            failures.append(answer)
        else:
            names += answer
    return CommonAnswers(tuple(names), tuple(failures))


@dataclass(frozen=True, slots=True)
class CardAnswers:
    """What services list of one species, and those that could not be asked."""

    cards: tuple[NameCard, ...]
    failures: tuple[Failure, ...]


def ask_cards(services: Sequence[NameSource], name: str) -> CardAnswers:
    """Synonyms, common names and range by every service that lists them; ``name`` is canonical."""
    answers = [_guarded(service, name, service.about) for service in services if isinstance(service, DetailService)]
    return CardAnswers(
        tuple(one for one in answers if isinstance(one, NameCard)),
        tuple(one for one in answers if isinstance(one, Failure)),
    )


@dataclass(slots=True)
class NamesAtHand:
    """What labels and lists know of a name spelt just so; ``labelled`` holds the authorship on labels by name."""

    lists: Sequence[ScientificNames]
    labelled: dict[str, str] = field(default_factory=dict)

    def identifier(self, prefix: str, name: str) -> str | None:
        """The identifier that begins with ``prefix``, None where no list has one."""
        identifiers = (taxon.identifier or "" for taxon in self._listed(name))
        return next((one for one in identifiers if one.startswith(prefix)), None)

    def authorship(self, name: str) -> str:
        """The authorship on the label, else that of the lists, "" where they have none or differ in it."""
        if self.labelled.get(name):
            return self.labelled[name]
        told = {taxon.authorship: None for taxon in self._listed(name) if taxon.authorship}
        first = next(iter(told), "")
        return "" if any(same_author(first, other) is False for other in told) else first

    def _listed(self, name: str) -> Iterator[TaxonName]:
        for listed in self.lists:
            yield from (said.subject for said in listed.named(name) if said.match is Match.SAME)


def _guarded(source: NameSource | CommonNameSource, asked: str, ask: Callable[[str], _Said]) -> _Said | Failure:
    try:
        return ask(asked)
    except Exception as error:
        return mistake(source.edition, asked, error)


def _trouble(source: NameSource) -> str | None:
    return source.trouble if isinstance(source, Service) else None


def _in_turn(streams: Sequence[Iterator[Reply]]) -> Iterator[tuple[int, Reply]]:
    """One reply of each stream after the other, with the number of its stream, until all have run dry."""
    running = dict(enumerate(streams))
    while running:
        for number in tuple(running):
            reply = next(running[number], None)
            if reply is None:
                del running[number]
            else:
                yield number, reply


@dataclass(slots=True)
class _Count:
    key: str
    total: int
    done: int = 0
    trouble: str | None = None

    def add(self, trouble: str | None) -> None:
        self.done += 1
        self.trouble = trouble

    def __str__(self) -> str:
        state = f"{self.key} {self.done}/{self.total}"
        return f"{state} (left alone: {self.trouble})" if self.trouble else state


class _Tally:
    """Counts answers and reckons the time left from the pace so far."""

    def __init__(self, counts: list[_Count], monotonic: Callable[[], float]) -> None:
        self.counts = counts
        self._monotonic = monotonic
        self._started = monotonic()

    @property
    def total(self) -> int:
        return sum(count.total for count in self.counts)

    @property
    def done(self) -> int:
        return sum(count.done for count in self.counts)

    def note(self) -> str:
        """The state of each service, and how long the rest takes."""
        states = ", ".join(str(count) for count in self.counts)
        left = self.total - self.done
        if not self.done or not left:
            return states
        seconds = (self._monotonic() - self._started) / self.done * left
        return f"{states}; about {_span(seconds)} left"


def _span(seconds: float) -> str:
    return f"{seconds / 60:.0f} min" if seconds >= 90 else f"{seconds:.0f} s"
