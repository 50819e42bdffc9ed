"""The last guard: whatever goes wrong with one name in a source is a failure of that source on that name."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from namekeeper.evidence.interfaces import NameSource
from namekeeper.evidence.statements import Edition, Failure, FailureKind, Reply

#: Namekeeper itself, where it is what failed
SELF = Edition("namekeeper", "namekeeper", "namekeeper")
_MOST_IN_A_ROW = 3


def ask_guarded(source: NameSource, names: Sequence[str]) -> Iterator[Reply]:
    """One reply a name, in order, come what may; a source in which everything goes wrong is not asked on and on."""
    done = in_a_row = 0
    while done < len(names):
        try:
            for reply in source.ask(names[done:]):
                yield reply
                done, in_a_row = done + 1, 0
            return
        except Exception as error:
            in_a_row += 1
            rest = names[done:] if in_a_row >= _MOST_IN_A_ROW else names[done : done + 1]
            yield from (mistake(source.edition, name, error) for name in rest)
            done += len(rest)


def mistake(edition: Edition, asked: str, error: Exception) -> Failure:
    """The failure for an error that nobody foresaw; its text may hold anything, so only its kind is told."""
    return Failure(edition, asked, FailureKind.BROKEN, f"namekeeper made a mistake with it ({type(error).__name__})")
