"""The starter list, compiled for tests into a folder of their own."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from namekeeper import resources
from namekeeper.evidence.interfaces import NameList
from namekeeper.sources.lists.starter import open_starter


@contextmanager
def opened_starter(cache: Path) -> Iterator[tuple[NameList, ...]]:
    """The lists that a fresh installation asks."""
    starter = open_starter(resources.data("starter"), cache, lambda words: None)
    try:
        yield (starter,)
    finally:
        starter.close()
