"""What is said of a source itself: how old the starter list is, and that one could not be asked."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import date, timedelta
from types import MappingProxyType

from namekeeper.evidence.statements import Edition, Failure, FailureKind

#: Its key; every other list is the keeper's own, who knows how it came.
_STARTER = "starter"
_FRESH = timedelta(days=365)
_NEWER = (
    "It is older than a year: a newer version of Namekeeper brings a newer one, and any checklist can be added beside"
    " it (namekeeper lists add, namekeeper lists fetch)."
)

_FAILURES = MappingProxyType(
    {
        FailureKind.OFFLINE: "not asked, working offline",
        FailureKind.UNREACHABLE: "could not be reached",
        FailureKind.REFUSED: "refused the question",
        FailureKind.BAD_REPLY: "sent a reply that cannot be read",
        FailureKind.BROKEN: "cannot be read on this machine",
    }
)


def ages(editions: Iterable[Edition], today: date) -> Iterator[str]:
    """One line on the starter list if it is among ``editions``; nothing where it says no date."""
    for edition in editions:
        if edition.source == _STARTER and edition.dated is not None:
            told = f"Starter list: edition {edition.edition} of {edition.dated}."
            yield f"{told} {_NEWER}" if today - edition.dated.latest > _FRESH else told


def failed(failure: Failure) -> str:
    """What a source does that cannot be asked, and why."""
    return _FAILURES[failure.kind] + (f": {failure.why}" if failure.why else "")


def unreached(failure: Failure) -> str:
    """A source that was meant to be asked and could not be."""
    return f"{failure.edition.title} could not be asked: {failure.why}"
