"""Changes that were not made, since the animal or its names are not what was decided on."""

from __future__ import annotations

from collections.abc import Iterable
from types import MappingProxyType

from namekeeper.faces.telling.documents import Rows, code
from namekeeper.records.differences import DifferenceKind, Outdated

#: One sentence a kind; ``{0}`` stands for what there is now.
SENTENCES = MappingProxyType(
    {
        DifferenceKind.GONE: "its file is gone",
        DifferenceKind.UNREADABLE: "its file cannot be read as it is now",
        DifferenceKind.LEFT: "it left the collection meanwhile ({0})",
        DifferenceKind.NAME: "its label says {0} by now",
        DifferenceKind.DECIDED: "something was decided of it meanwhile ({0})",
        DifferenceKind.FACTS: "its file was changed meanwhile ({0})",
        DifferenceKind.TEXT: "its file was edited meanwhile",
        DifferenceKind.VERDICT: "the sources say something else of its name by now",
        DifferenceKind.UNHEARD: "what a service said of it is not kept here, so it cannot be looked at once more",
    }
)
_REMEDIES = MappingProxyType(
    {DifferenceKind.UNHEARD: "make room for kept answers, or decide by the lists alone: --offline"}
)


def outdated_line(change: Outdated) -> str:
    """What was left as it is, why, and what to do."""
    remedy = _REMEDIES.get(change.difference.kind, "check again and decide anew")
    return f"{change.specimen}: not written: {why_outdated(change)} ({remedy})"


def why_outdated(change: Outdated) -> str:
    """Why alone."""
    return SENTENCES[change.difference.kind].format(change.difference.now)


def outdated_rows(changes: Iterable[Outdated]) -> Rows:
    """The same for programs."""
    return [
        {
            "specimen": one.specimen,
            "reason": code(one.difference.kind),
            "now": one.difference.now or None,
            "why": why_outdated(one),
        }
        for one in changes
    ]
