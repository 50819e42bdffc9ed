"""Names that share a word are chosen before their rows are read: the same as when all of them are looked at."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator

import pytest

from namekeeper import resources
from namekeeper.evidence.interfaces import NameSearch
from namekeeper.sources.lists.index_reader import IndexList
from namekeeper.sources.lists.starter import open_starter
from namekeeper.words.spelling import PlainKey


@pytest.fixture(scope="module")
def starter(tmp_path_factory: pytest.TempPathFactory) -> Iterator[IndexList]:
    found = open_starter(resources.data("starter"), tmp_path_factory.mktemp("starter"), print)
    yield found
    found.close()


@pytest.mark.parametrize(
    ("genus", "epithet"),
    [("Brachypelma", "smithi"), ("Poecilotheria", "regalis"), ("Grammostola", "rosea"), ("Nemo", "elegans"), ("", "")],
)
@pytest.mark.parametrize("keep", [lambda name: True, lambda name: len(name) % 2 == 0, lambda name: False])
def test_the_same_as_looking_at_all(starter: IndexList, genus: str, epithet: str, keep: Callable[[str], bool]) -> None:
    def close(names: Iterable[PlainKey]) -> frozenset[PlainKey]:
        return frozenset(filter(keep, names))

    one = list(starter.neighbours(genus, epithet, close))
    assert one == list(NameSearch.neighbours(starter, genus, epithet, close))


@pytest.mark.parametrize("genus", ["Brachypelma", "Poecilotheria", "Nemo"])
@pytest.mark.parametrize("most", [1, 11, 2000])
def test_a_genus_is_counted_the_same(starter: IndexList, genus: str, most: int) -> None:
    assert starter.crowd(genus, most) == NameSearch.crowd(starter, genus, most)
