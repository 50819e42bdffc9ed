"""Common names in a list: equal after folding, in part, and spelt similarly."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import closing
from pathlib import Path

import pytest

from namekeeper.sources.lists.folding import common_words
from namekeeper.sources.lists.index_reader import IndexList
from tests.lists.making import COMMON, Read, dwca, read_list

ReadList = Callable[..., Read]

#: Common practice, no source: names of the trade for these two species.
EXTRA = [
    "2\tMexican Redrump",
    "2\tVogelspinne, Rotfuß-",
    "5\tHonduran curly-hair tarantulas",
    "5\tKraushaarvogelspinne",
]


@pytest.fixture(scope="module")
def listed(tmp_path_factory: pytest.TempPathFactory) -> Iterator[IndexList]:
    rows = [*COMMON, *(f"{row}\ten" for row in EXTRA)]
    with closing(read_list(dwca(tmp_path_factory.mktemp("common") / "a.zip", common=rows)).index) as found:
        yield found


def texts(found: tuple[object, ...]) -> list[str]:
    return sorted(str(common.text) for common in found)  # type: ignore[attr-defined]


@pytest.mark.parametrize(
    ("asked", "found"),
    [
        ("mexican RED rump", ["Mexican Redrump", "Mexican red rump"]),
        ("Mexican red-rump", ["Mexican Redrump", "Mexican red rump"]),
        ("red rump, mexican", ["Mexican red rump"]),
        ("Mexican red rumps", ["Mexican Redrump", "Mexican red rump"]),
        ("mexican  redrump", ["Mexican Redrump", "Mexican red rump"]),
        ("Rotfuß-Vogelspinne", ["Vogelspinne, Rotfuß-"]),
        ("rotfuss vogelspinnen", ["Vogelspinne, Rotfuß-"]),
        ("curly hair tarantula honduran", ["Honduran curly-hair tarantulas"]),
        ("mexican", []),
        ("", []),
    ],
)
def test_equal_after_folding(asked: str, found: list[str], listed: IndexList) -> None:
    assert texts(listed.common(asked)) == found


@pytest.mark.parametrize(
    ("words", "found"),
    [
        (["red", "rump"], ["Mexican Redrump", "Mexican red rump"]),
        (["redrump"], ["Mexican Redrump", "Mexican red rump"]),
        (["curlyhair"], ["Curlyhair tarantula", "Honduran curly-hair tarantulas"]),
        (["curly", "hair", "honduran"], ["Honduran curly-hair tarantulas"]),
        (["rump", "honduran"], []),
        ([], []),
    ],
)
def test_names_that_hold_all_words(words: list[str], found: list[str], listed: IndexList) -> None:
    assert set(found) <= set(texts(listed.common_with(words)))
    assert bool(found) == bool(listed.common_with(words))


def test_similar_common_names_best_first(listed: IndexList) -> None:
    found = listed.similar_common("mexcan red rmup")
    assert found[0][0].text == "Mexican red rump"
    assert [score for _, score in found] == sorted((score for _, score in found), reverse=True)
    assert all(0.6 <= score <= 1 for _, score in found)
    assert listed.similar_common("something else") == ()


def test_an_ambiguous_common_name_has_all_its_taxa(tmp_path: Path, read: ReadList) -> None:
    found = read(dwca(tmp_path / "a.zip", common=["id\tname\tlang", "2\tBush spider\ten", "5\tBush spider\ten"])).index
    assert {common.taxon.name for common in found.common("bush spider")} == {
        "Tliltocatl vagans",
        "Tliltocatl albopilosus",
    }


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("Emperor scorpions", ("emperor", "scorpion")),
        ("Goliath birdeater's", ("goliath", "birdeater")),
        ("Giant cockroaches", ("giant", "cockroach")),
        ("Bodies", ("body",)),
        ("Vogelspinnen", ("vogelspinne",)),
        ("Grass", ("grass",)),
        ("Mantis", ("mantis",)),
        ("GBB", ("gbb",)),
    ],
)
def test_words_are_folded(text: str, words: tuple[str, ...]) -> None:
    assert common_words(text) == words
