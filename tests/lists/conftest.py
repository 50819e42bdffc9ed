"""Lists made for one test, and closed at its end."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import ExitStack, closing
from pathlib import Path

import pytest

from namekeeper.evidence.statements import Edition
from namekeeper.sources.lists.incoming import UsageRow
from namekeeper.sources.lists.index_reader import IndexList
from tests.lists.making import Read, bare, read_list, written


@pytest.fixture
def at_end() -> Iterator[ExitStack]:
    """Closes at the end of the test what it was given."""
    with ExitStack() as stack:
        yield stack


@pytest.fixture
def index(at_end: ExitStack) -> Callable[..., IndexList]:
    """Makes an index of these names: ``index(place, UsageRow(...), ...)``."""

    def make(place: Path, *rows: UsageRow, edition: Edition | None = None) -> IndexList:
        return at_end.enter_context(closing(IndexList.open(written(place, *rows, edition=edition))))

    return make


@pytest.fixture
def names(index: Callable[..., IndexList]) -> Callable[..., IndexList]:
    """Makes an index of accepted names without anything else: ``names(place, "Brachypelma smithi", ...)``."""
    return lambda place, *listed: index(place, *bare(*listed))


@pytest.fixture
def read(at_end: ExitStack) -> Callable[..., Read]:
    """Reads a list file into an index: ``read(path, name="Species")``."""

    def make(path: Path, **columns: str) -> Read:
        found = read_list(path, **columns)
        at_end.callback(found.index.close)
        return found

    return make
