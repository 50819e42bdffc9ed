"""What is said of a source itself: how old the starter list is, and that one could not be asked."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import date, timedelta

from namekeeper.evidence.statements import Edition, Failure

#: Its key; every other list is the keeper's own, who knows how it came.
_STARTER = "starter"
_FRESH = timedelta(days=365)
_NEWER = (
    "It is older than a year: a newer version of Namekeeper brings a newer one, and any checklist can be added beside"
    " it (namekeeper lists add, namekeeper lists fetch)."
)


def ages(editions: Iterable[Edition], today: date) -> Iterator[str]:
    """One line on the starter list if it is among ``editions``; nothing where it says no date."""
    for edition in editions:
        if edition.source == _STARTER and edition.dated is not None:
            told = f"Starter list: edition {edition.edition} of {edition.dated}."
            yield f"{told} {_NEWER}" if today - edition.dated.latest > _FRESH else told


def unreached(failure: Failure) -> str:
    """A source that was meant to be asked and could not be."""
    return f"{failure.edition.title} could not be asked: {failure.why}"
