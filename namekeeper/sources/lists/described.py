"""What a list file says of itself, and the shape that every reader of list files has."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Protocol

from namekeeper.sources.lists.incoming import AreaRow, CommonRow, RelationRow, UsageRow


@dataclass(frozen=True, slots=True)
class Described:
    """Title, edition and terms as the file gives them; None where it is silent."""

    title: str | None = None
    edition: str | None = None
    dated: str | None = None
    licence: str | None = None
    citation: str | None = None
    link: str | None = None


class ListFile(Protocol):
    """A list in a file, streamed in any order and as often as asked; what cannot be used goes to its skips."""

    def described(self) -> Described:
        """What the file says of itself."""

    def usages(self) -> Iterator[UsageRow]:
        """Names."""

    def commons(self) -> Iterator[CommonRow]:
        """Common names."""

    def areas(self) -> Iterator[AreaRow]:
        """Native areas."""

    def relations(self) -> Iterator[RelationRow]:
        """Relations of names."""
