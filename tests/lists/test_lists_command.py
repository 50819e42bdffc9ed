"""``namekeeper lists``: what it prints, its JSON by the contract, and that wrong use changes nothing."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path

import jsonschema
import pytest

from tests.conftest import Outcome
from tests.contract import schemas
from tests.lists.making import TAXA, dwca

Command = Callable[..., Outcome]


def test_add_as_json_keeps_the_contract(tmp_path: Path, command: Command) -> None:
    dwca(tmp_path / "a.zip", taxa=[*TAXA, "9"])
    done = command(
        "lists", "add", "a.zip", "--as", "spiders", "--edition", "2024-05", "--licence", "CC0-1.0",
        "--citation", "Spiders 2024", "--complete-for", "Theraphosidae", "--json",
    )  # fmt: skip
    document = json.loads(done.out)
    jsonschema.validate(document, schemas.DOCUMENTS["lists add"])
    assert (done.code, document["key"], document["names"]) == (1, "spiders", 6)  # one row of seven is much
    assert document["skipped"] == [{"line": 8, "why": "has 1 cells, not 8", "file": "taxon.txt"}]
    assert document["skipped_reasons"] == [{"why": "has … cells, not …", "count": 1}]
    listed = json.loads(command("lists", "--json").out)["lists"]
    assert [(one["key"], one["in_use"]) for one in listed] == [("starter", True), ("spiders", True)]
    spiders = listed[1]
    assert (spiders["licence"], spiders["dated"], spiders["complete_for"]) == ("CC0-1.0", "2024-05", ["Theraphosidae"])


def test_compare_as_json_keeps_the_contract(tmp_path: Path, command: Command) -> None:
    (tmp_path / "old.csv").write_text("id,name\n1,Brachypelma vagans\n2,Aus bus\n", encoding="utf-8")
    (tmp_path / "new.csv").write_text("id,name\n1,Tliltocatl vagans\n3,Aus cus\n", encoding="utf-8")
    document = json.loads(command("lists", "compare", "old.csv", "new.csv", "--json").out)
    jsonschema.validate(document, schemas.DOCUMENTS["lists compare"])
    assert {change["kind"] for change in document["changes"]} == {"moved", "gone", "new"}


def test_an_added_list_answers_lookups(tmp_path: Path, command: Command) -> None:
    (tmp_path / "mine.csv").write_text("name,common\nInventaria nova,Moon spider\n", encoding="utf-8")  # invented
    assert command("lists", "add", "mine.csv", "--as", "mine").code == 0
    for tag in ("Inventaria nova", "moon spiders", "I. nova"):
        done = command("lookup", "--offline", "--json", tag)
        (result,) = json.loads(done.out)["results"]
        assert [candidate["name"] for candidate in result["candidates"]] == ["Inventaria nova"], tag
        assert result["candidates"][0]["sources"] == ["mine"]


def test_columns_are_shown(tmp_path: Path, command: Command) -> None:
    (tmp_path / "t.csv").write_text("Wesen;Status;Notes\nAus bus;valid;x\n", encoding="utf-8")
    refused = command("lists", "add", "t.csv", "--as", "mine")
    assert (refused.code, refused.out) == (2, "")
    assert "no column of names among: Wesen, Status, Notes" in refused.err
    assert "--column name=HEADER" in refused.err
    done = command("lists", "add", "t.csv", "--as", "mine", "--column", "name=Wesen")
    assert "Columns: name = Wesen, remarks = Notes, status = Status" in done.out


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (("add", "t.csv", "--as", "starter"), "cannot be the key of a list"),
        (("add", "t.csv", "--as", "../evil"), "cannot be the key of a list"),
        (("add", "t.csv", "--as", "A"), "cannot be the key of a list"),
        (("add", "t.csv", "--as", "mine", "--column", "name"), "is not FIELD=HEADER"),
        (("add", "t.csv", "--as", "mine", "--column", "nane=Name"), "did you mean 'name'?"),
        (("add", "t.csv", "--as", "mine", "--column", "name=Nothing"), "there is no column 'Nothing'"),
        (("add", "missing.csv", "--as", "mine"), "there is no such file"),
        (("compare", "mine", "other"), "there is no list 'mine'"),
        (("compare", "t.csv", "../../x"), "there is no list '../../x'"),
        (("remove", "mine"), "there is no list 'mine'"),
        (("remove", "../mine"), "there is no list '../mine'"),
        (("use", "mine@1"), "there is no list 'mine@1'"),
        (("add",), "required"),
        (("bogus",), "invalid choice"),
    ],
)
def test_wrong_use_is_explained_and_changes_nothing(
    arguments: tuple[str, ...], words: str, tmp_path: Path, home: Path, command: Command
) -> None:
    (tmp_path / "t.csv").write_text("Name\nAus bus\n", encoding="utf-8")
    done = command("lists", *arguments)
    assert done.code == 2
    assert words in done.err
    assert not (home / "data").exists()


def test_editions_stay_until_removed(tmp_path: Path, command: Command, home: Path) -> None:
    for edition in ("1", "2", "2"):
        (tmp_path / "t.csv").write_text(f"name\nAus bus\nAus c{'u' * int(edition)}s\n", encoding="utf-8")
        assert command("lists", "add", "t.csv", "--as", "mine", "--edition", edition).code == 0
    assert sorted(path.name for path in (home / "data" / "lists" / "mine").iterdir()) == [
        "1.sqlite",
        "2.sqlite",
        "current",
    ]
    assert "no list 'mine@3'" in command("lists", "use", "mine@3").err
    assert command("lists", "remove", "mine", "--yes").code == 0
    assert not (home / "data" / "lists" / "mine").exists()


def test_the_same_in_words(tmp_path: Path, command: Command) -> None:
    (tmp_path / "t.csv").write_text("name,status\nAus bus,\n" + "Aus bus,odd\n" * 12, encoding="utf-8")
    added = command("lists", "add", "t.csv", "--as", "mine", "--edition", "1").out
    assert "mine 1: 1 name from a table" in added
    assert "Left out: 12" in added
    assert "t.csv" not in added.splitlines()[0]
    assert "line 3: status 'odd' is not known" in added
    second = command("lists", "add", "t.csv", "--as", "mine", "--edition", "2", "--keep-current").out
    assert "Not in use yet: namekeeper lists use mine@2" in second
    shown = command("lists").out
    assert "starter" in shown
    assert "mine" in shown
    assert command("lists", "use", "mine@2").out == "In use: mine 2\n"
    assert json.loads(command("lists", "use", "mine@1", "--json").out) == {"version": 1, "key": "mine", "edition": "1"}
    assert command("lists", "remove", "mine@2", "--yes").out == "Removed: mine 2\n"
    assert json.loads(command("lists", "remove", "mine", "--json", "--yes").out) == {
        "version": 1,
        "removed": ["mine@1"],
    }


def test_a_table_without_an_edition_is_named_by_the_day(tmp_path: Path, command: Command) -> None:
    (tmp_path / "t.csv").write_text("name\nAus bus\n", encoding="utf-8")
    command("lists", "add", "t.csv", "--as", "mine")
    (one,) = [one for one in json.loads(command("lists", "--json").out)["lists"] if one["key"] == "mine"]
    # The day of adding is no date of the content (contract section 4).
    assert (one["edition"], one["dated"]) == ("added-2026-11-25", None)
