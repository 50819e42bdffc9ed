"""The animals of a collection in view: which of them are meant, in which order."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from enum import StrEnum, unique
from types import MappingProxyType

from namekeeper.evidence.verdicts import Verdict
from namekeeper.tasks.check import Finding
from namekeeper.tasks.watch import CollectionView


@unique
class Show(StrEnum):
    """Which animals are looked at."""

    ALL = "all"
    WAITING = "waiting"  # something is for the keeper to do about the name
    NEWER = "newer"  # a newer name may be taken unseen
    QUIET = "quiet"  # nothing to do
    TAG_ONLY = "tag"  # no name yet
    PRINT = "print"  # the label is to be printed


@unique
class AnimalOrder(StrEnum):
    """By what animals are ordered; those that are alike in it by their id."""

    WAITING = "waiting"
    NAME = "name"
    PLACE = "place"
    ID = "id"


def shown(view: CollectionView, show: Show) -> tuple[Finding, ...]:
    """The animals of that kind, as the collection orders them."""
    if show is Show.NEWER:
        return view.report.safe
    if show is Show.WAITING:
        return tuple(sorted(view.waiting, key=_number))
    if show is Show.QUIET:
        return view.report.quiet
    if show is Show.TAG_ONLY:
        return tuple(found for found in view.report.findings if not found.named)
    if show is Show.PRINT:
        due = frozenset(view.due)
        return tuple(found for found in view.report.findings if found.specimen.id in due)
    return view.report.findings


def counts(view: CollectionView) -> Mapping[Show, int]:
    """How many animals there are of each kind."""
    return MappingProxyType({show: len(shown(view, show)) for show in Show})


def select(view: CollectionView, show: Show, order: AnimalOrder, query: str = "") -> tuple[Finding, ...]:
    """The animals of that kind that have every word of ``query`` in a name (former ones too), their number or place."""
    words = query.casefold().split()
    found = [one for one in shown(view, show) if not words or _has_all(one, words)]
    waits = {one.specimen.id: place for place, one in enumerate(view.waiting)}
    keys: Mapping[AnimalOrder, Callable[[Finding], tuple[int, str]]] = {
        AnimalOrder.WAITING: lambda one: (waits.get(one.specimen.id, len(waits)), ""),
        AnimalOrder.NAME: lambda one: (0, one.label.casefold()),
        AnimalOrder.PLACE: lambda one: (not one.specimen.stands_at, one.specimen.stands_at.casefold()),
        AnimalOrder.ID: lambda one: (0, ""),
    }
    return tuple(sorted(found, key=lambda one: (keys[order](one), _number(one))))


def _number(found: Finding) -> str:
    return found.specimen.id.casefold()


def _has_all(found: Finding, words: list[str]) -> bool:
    text = "\n".join(_texts(found)).casefold()
    return all(word in text for word in words)


def _texts(found: Finding) -> Iterator[str]:
    one = found.specimen
    yield from (one.id, one.tag, one.common, one.stands_at, one.locality, one.note)
    yield from (f"{entry.name} {entry.trade_form} {entry.form}" for entry in one.names)
    yield from _offered(found.verdict)


def _offered(verdict: Verdict) -> Iterator[str]:
    if verdict.proposed:
        yield verdict.proposed.name
    yield from (choice.name for choice in verdict.choices)
