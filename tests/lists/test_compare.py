"""Two editions compared: every kind of change, with and without identifiers, and the specimens it touches."""

from __future__ import annotations

import json
import shutil
from collections.abc import Callable
from pathlib import Path

import pytest

from namekeeper.sources.lists.compare import EditionChange, compare
from namekeeper.sources.lists.incoming import UsageRow
from tests.conftest import Outcome
from tests.lists.making import written

Command = Callable[..., Outcome]
Row = tuple[str, ...]


def editions(folder: Path, old: list[UsageRow], new: list[UsageRow]) -> list[EditionChange]:
    return list(compare(written(folder / "old", *old), written(folder / "new", *new)))


def row(key: str, name: str, status: str = "", accepted: str = "", author: str = "Roe, 1900") -> UsageRow:
    return UsageRow(0, key, name, author, status=status, accepted_key=accepted)


#: The act behind each pair: Mendoza & Francke 2020 (vagans), Art. 31.2 (albopilosus), the others invented.
ONE_TO_ONE = [
    ("moved", row("1", "Brachypelma vagans"), [row("1", "Tliltocatl vagans")], "Tliltocatl vagans"),
    ("moved", row("1", "Brachypelma albopilosum"), [row("1", "Tliltocatl albopilosus")], "Tliltocatl albopilosus"),
    ("respelled", row("1", "Tliltocatl albopilosum"), [row("1", "Tliltocatl albopilosus")], "Tliltocatl albopilosus"),
    ("merged", row("1", "Aus bus"), [row("1", "Aus bus", "synonym", "2"), row("2", "Aus cus")], "Aus cus"),
    ("renamed", row("1", "Aus bus"), [row("1", "Aus bus", "homonym", "2"), row("2", "Aus novus")], "Aus novus"),
    ("doubtful", row("1", "Aus bus"), [row("1", "Aus bus", "doubtful"), row("2", "Aus cus")], ""),
    ("open", row("1", "Aus bus"), [row("1", "Aus bus", "bare name"), row("2", "Aus cus")], ""),
    ("gone", row("1", "Aus bus"), [row("2", "Aus cus")], ""),
    ("moved", row("1", "Brachypelma vagans"),
     [row("2", "Brachypelma vagans", "synonym", "3"), row("3", "Tliltocatl vagans")], "Tliltocatl vagans"),
]  # fmt: skip


@pytest.mark.parametrize(("kind", "old", "new", "name"), ONE_TO_ONE)
def test_a_change_has_its_kind(kind: str, old: UsageRow, new: list[UsageRow], name: str, tmp_path: Path) -> None:
    changes = editions(tmp_path, [old, row("2", "Aus cus")], new)
    assert EditionChange("1", old.name, name, kind) in changes
    assert [change.kind for change in changes if change.id == "1"] == [kind]


def test_one_identifier_with_two_species_is_a_split(tmp_path: Path) -> None:
    changes = editions(tmp_path, [row("1", "Aus bus")], [row("1", "Aus bus"), row("1", "Aus cus")])
    assert changes == [EditionChange("1", "Aus bus", "Aus bus; Aus cus", "divided")]


def test_a_name_revived_divides_the_one_it_was_sunk_under(tmp_path: Path) -> None:
    old = [row("1", "Aus bus"), row("2", "Aus cus", "synonym", "1")]
    assert editions(tmp_path, old, [row("1", "Aus bus"), row("2", "Aus cus")]) == [
        EditionChange("1", "Aus bus", "Aus bus; Aus cus", "divided")
    ]


def test_a_name_with_several_ends_is_divided(tmp_path: Path) -> None:
    new = [
        row("2", "Aus cus"), row("3", "Aus dus"),
        row("4", "Aus bus", "ambiguous synonym", "2"), row("5", "Aus bus", "ambiguous synonym", "3"),
    ]  # fmt: skip
    changes = editions(tmp_path, [row("1", "Aus bus"), row("2", "Aus cus"), row("3", "Aus dus")], new)
    assert changes == [EditionChange("1", "Aus bus", "Aus cus; Aus dus", "divided")]


def test_new_names_and_equal_editions(tmp_path: Path) -> None:
    assert editions(tmp_path, [row("1", "Aus bus")], [row("1", "Aus bus"), row("2", "Aus cus")]) == [
        EditionChange("2", "", "Aus cus", "new")
    ]
    assert editions(tmp_path, [row("1", "Aus bus")], [row("1", "Aus bus", author="(Roe, 1900)")]) == []


def test_lists_without_identifiers_compare_by_name_and_author(tmp_path: Path) -> None:
    old = [UsageRow(0, "", "Brachypelma vagans", "(Ausserer, 1875)"), UsageRow(0, "", "Aus bus", "Roe, 1900")]
    new = [
        UsageRow(0, "", "Tliltocatl vagans", "(Ausserer, 1875)"),
        UsageRow(0, "", "Brachypelma vagans", "(Ausserer, 1875)", accepted_name="Tliltocatl vagans"),
        UsageRow(0, "", "Aus bus", "Roe, 1900"),
    ]
    assert editions(tmp_path, old, new) == [EditionChange("", "Brachypelma vagans", "Tliltocatl vagans", "moved")]


OLD = "id,name,accepted_id\n1,Brachypelma vagans,\n2,Grammostola rosea,\n"
NEW = "id,name,accepted_id\n1,Tliltocatl vagans,\n3,Brachypelma vagans,1\n2,Grammostola rosea,\n"


@pytest.fixture
def two(tmp_path: Path, command: Command) -> Command:
    (tmp_path / "old.csv").write_text(OLD, encoding="utf-8")
    (tmp_path / "new.csv").write_text(NEW, encoding="utf-8")
    animals = tmp_path / "animals" / "specimens"
    animals.mkdir(parents=True)
    for key, name in (("A-1", "Brachypelma vagans"), ("A-2", "Grammostola rosea")):
        (animals / f"{key}.yaml").write_text(f"tag: x\nnames:\n  - name: {name}\n    since: 2015\n", encoding="utf-8")
    assert command("lists", "add", "old.csv", "--as", "mine", "--edition", "1").code == 0
    return command


def test_what_a_new_edition_touches_is_known_before_switching(two: Command) -> None:
    done = two("lists", "compare", "mine", "new.csv", "--collection", "animals", "--json")
    document = json.loads(done.out)
    assert done.code == 1
    assert document["changes"] == [
        {"id": "1", "old": "Brachypelma vagans", "new": "Tliltocatl vagans", "kind": "moved"}
    ]
    assert document["specimens"] == [
        {"specimen": "A-1", "label": "Brachypelma vagans", "old": "Brachypelma vagans", "new": "Tliltocatl vagans",
         "kind": "moved"}
    ]  # fmt: skip


def test_the_same_as_table_and_page(two: Command, tmp_path: Path) -> None:
    done = two("lists", "compare", "mine@1", "new.csv", "--collection", "animals", "-o", "page.html")
    assert "1 change: 1 moved" in done.out
    assert "Tliltocatl vagans" in done.out
    page = (tmp_path / "page.html").read_text(encoding="utf-8")
    assert '<td class="name">Tliltocatl vagans</td>' in page
    assert "A-1" in page


def test_the_starter_list_is_compared_where_the_cache_cannot_be_written(two: Command, home: Path) -> None:
    shutil.rmtree(home / "cache", ignore_errors=True)
    (home / "cache").write_text("a file stands in the way", encoding="utf-8")
    done = two("lists", "compare", "starter", "starter", "--json")
    assert (done.code, json.loads(done.out)["changes"]) == (0, [])


def test_an_edition_waits_until_it_is_used(two: Command) -> None:
    assert two("lists", "add", "new.csv", "--as", "mine", "--edition", "2", "--keep-current").code == 0
    assert json.loads(two("lists", "--json").out)["lists"][1]["in_use"] is True
    assert two("lists", "compare", "mine@1", "mine@2").code == 1
    assert two("lists", "compare", "mine@2", "mine@2").code == 0
    assert two("lists", "use", "mine@2").code == 0
    listed = {one["edition"]: one["in_use"] for one in json.loads(two("lists", "--json").out)["lists"]}
    assert listed["1"] is False
    assert listed["2"] is True
    assert two("lists", "remove", "mine@2", "--yes").code == 2
    assert two("lists", "remove", "mine@1", "--yes").code == 0
    assert two("lists", "remove", "mine", "--yes").code == 0
    assert two("lists", "remove", "mine").code == 2


def family(*names: str) -> list[UsageRow]:
    return [UsageRow(0, "", name, family="Exemplidae") for name in names]


OTHERS = [f"Genus{letter} {word}us" for letter in "abcdefgh" for word in ("alb", "nigr", "ruf", "flav", "virid")]
#: Names of 60 species that stay, so that an epithet which one in three of them bears is common.
STAYING = [*(name.capitalize() for name in OTHERS), *(f"Staying{letter} vulgaris" for letter in "abcdefghijklmnopqrst")]


@pytest.mark.parametrize(
    ("old", "new", "moves"),
    [
        # a lone species of a common epithet, in a genus that was there, while its own goes on: chance
        (["Aus vulgaris"], ["Bus vulgaris"], {}),
        # the same with an epithet that nobody else bears
        (["Aus singularis"], ["Bus singularis"], {"Aus singularis": "Bus singularis"}),
        # another species went the same way
        (["Aus vulgaris", "Aus singularis"], ["Bus vulgaris", "Bus singularis"],
         {"Aus vulgaris": "Bus vulgaris", "Aus singularis": "Bus singularis"}),
        # the genus was made for it
        (["Aus vulgaris"], ["Novus vulgaris"], {"Aus vulgaris": "Novus vulgaris"}),
        # the genus was made for others: *Thorybes diversus* did not follow *Vettius marcus* into *Troyus*
        (["Aus vulgaris", "Dus singularis"], ["Novus vulgaris", "Novus singularis"],
         {"Dus singularis": "Novus singularis"}),
        # a name of the same genus and another rank goes before chance: *Burnsius communis albescens*
        (["Aus vulgaris"], ["Bus vulgaris", "Aus manens vulgaris"], {"Aus vulgaris": "Aus manens vulgaris"}),
    ],
)  # fmt: skip
def test_an_epithet_alone_proves_no_move_where_it_may_be_chance(
    old: list[str], new: list[str], moves: dict[str, str], tmp_path: Path
) -> None:
    stay = [*STAYING, "Aus manens", "Bus manens", "Dus manens"]
    changes = editions(tmp_path, family(*stay, *old), family(*stay, *new))
    assert {change.old: change.new for change in changes if change.kind == "moved"} == moves
    gone = {change.old for change in changes if change.kind == "gone"}
    assert gone == set(old) - set(moves)


def test_an_author_proves_or_denies_it(tmp_path: Path) -> None:
    stay = family(*STAYING, "Aus manens", "Bus manens")
    for author, kind in (("(Roe, 1900)", "moved"), ("Doe, 1950", "gone")):
        folder = tmp_path / kind
        folder.mkdir()
        old = [*stay, UsageRow(0, "", "Aus vulgaris", "Roe, 1900", family="Exemplidae")]
        new = [*stay, UsageRow(0, "", "Bus vulgaris", author, family="Exemplidae")]
        assert [change.kind for change in editions(folder, old, new) if change.old] == [kind]


def test_a_slip_mended_under_one_identifier_is_no_merger(tmp_path: Path) -> None:
    """*Euphausia tricantha* became *E. triacantha* in the NCBI Taxonomy between 2021 and 2024."""
    changes = editions(tmp_path, [row("1", "Euphausia tricantha")], [row("1", "Euphausia triacantha")])
    assert changes == [EditionChange("1", "Euphausia tricantha", "Euphausia triacantha", "respelled")]
