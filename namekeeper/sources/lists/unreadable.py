"""A list that cannot be read: it has no answers, and says why when asked."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from namekeeper.evidence.interfaces import NameCard, NameList, Near
from namekeeper.evidence.statements import (
    Caution,
    CommonName,
    Edition,
    Failure,
    FailureKind,
    GenusRecord,
    Reply,
    Statement,
    TradeForm,
)
from namekeeper.words.errors import NamekeeperError


class UnreadableList(NameList):
    """Stands in for a damaged index, so that "could not ask" never looks like "not found"."""

    def __init__(self, key: str, error: NamekeeperError) -> None:
        self._edition = Edition(source=key, title=key, upstream=key)
        self._why = str(error)

    @property
    def edition(self) -> Edition:
        return self._edition

    def ask(self, names: Sequence[str]) -> Iterator[Reply]:
        for name in names:
            yield Failure(self._edition, name, FailureKind.BROKEN, self._why)

    def named(self, name: str) -> tuple[Statement, ...]:
        return ()

    def abbreviated(self, genus_start: str, epithet: str) -> tuple[Statement, ...]:
        return ()

    def with_epithet(self, epithet: str) -> tuple[Statement, ...]:
        return ()

    def prefixed(self, start: str, limit: int = 20) -> tuple[Statement, ...]:
        return ()

    def genus(self, genus: str) -> GenusRecord | None:
        return None

    def common(self, words: str) -> tuple[CommonName, ...]:
        return ()

    def common_with(self, words: Iterable[str]) -> tuple[CommonName, ...]:
        return ()

    def similar(self, name: str, limit: int = 8) -> tuple[Near, ...]:
        return ()

    def similar_genus(self, genus: str, limit: int = 8) -> tuple[tuple[GenusRecord, int], ...]:
        return ()

    def similar_common(self, words: str, limit: int = 8) -> tuple[tuple[CommonName, float], ...]:
        return ()

    def forms(self, genus: str | None, words: str) -> tuple[TradeForm, ...]:
        return ()

    def cautions(self, taxa: Iterable[str]) -> tuple[Caution, ...]:
        return ()

    def card(self, name: str) -> NameCard | None:
        return None
