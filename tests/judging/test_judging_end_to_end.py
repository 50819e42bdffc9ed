"""From tables on disk to verdicts on labels, through the commands: lists that agree, differ, lag and are broken.

All names are invented (Aus, Cus, Dus), as the Code's own examples are; Culex affinis is its example on Art. 57.2.
"""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from tests.conftest import Outcome

Command = Callable[..., Outcome]

HEADER = "id,name,authorship,status,accepted_name,rank\n"
MINE = (
    HEADER
    + """\
1,Aus bus,"Smith, 1900",synonym,Cus bus,species
2,Cus bus,"(Smith, 1900)",accepted,,species
3,Aus circulus,"Smith, 1900",synonym,Aus circus,species
4,Aus circus,"Smith, 1900",synonym,Aus circulus,species
5,Aus lost,"Smith, 1900",synonym,Aus gone,species
6,Aus dubius,"Smith, 1900",doubtful,,species
7,Culex affinis,"Stephens, 1825",accepted,,species
8,Culex affinis,"Adams, 1903",synonym,Culex other,species
9,Culex other,"Theobald, 1910",accepted,,species
10,Aus minor,"Smith, 1900",synonym,Cus major,species
11,Cus major,"(Jones, 1850)",accepted,,species
12,Aus pulcher,"Smith, 1900",synonym,Cus pulchrum,species
13,Cus pulchrum,"Smith, 1900",accepted,,species
14,Aus in,"Smith, 1900",accepted,,species
"""
)
OTHER = HEADER + '1,Aus bus,"Smith, 1900",accepted,,species\n'
COLUMNS = [word for field in HEADER.strip().split(",") for word in ("--column", f"{field}={field}")]

LABELS = {
    "moved": ("Aus bus", "Smith, 1900"),
    "circle": ("Aus circulus", "Smith, 1900"),
    "missing": ("Aus lost", "Smith, 1900"),
    "doubt": ("Aus dubius", "Smith, 1900"),
    "homonym": ("Culex affinis", ""),
    "junior": ("Culex affinis", "Adams, 1903"),
    "merged": ("Aus minor", "Smith, 1900"),
    "brackets": ("Aus pulcher", "Smith, 1900"),
    "nobody": ("Aus nullus", "Smith, 1900"),
    "stranger": ("Xus nullus", "Smith, 1900"),
    "ending": ("Cus pulcher", ""),
}


@pytest.fixture
def checked(command: Command, tmp_path: Path) -> Callable[[], dict[str, Any]]:
    specimens = tmp_path / "animals" / "specimens"
    specimens.mkdir(parents=True)
    for identifier, (name, author) in LABELS.items():
        author_line = f"    authorship: {author}\n" if author else ""
        entry = f"names:\n  - name: {name}\n{author_line}    since: 2010-01-01\n    recorded: 2010-01-01\n"
        (specimens / f"{identifier}.yaml").write_text(
            f"tag: as sold\n{entry}    standing: as-labelled\n", encoding="utf-8"
        )
    (tmp_path / "mine.csv").write_text(MINE, encoding="utf-8")
    (tmp_path / "other.csv").write_text(OTHER, encoding="utf-8")
    added = command("lists", "add", str(tmp_path / "mine.csv"), "--as", "mine", *COLUMNS, "--edition", "2024-01-01",
                    "--complete-for", "Aus")  # fmt: skip
    assert added.code == 0, added.err

    def check() -> dict[str, Any]:
        outcome = command("check", str(tmp_path / "animals"), "--offline", "--json")
        assert outcome.code == 1, outcome.err
        return {row["specimen"]: row for row in json.loads(outcome.out)["results"]}

    return check


def add_other(command: Command, folder: Path, edition: str) -> None:
    added = command("lists", "add", str(folder / "other.csv"), "--as", "other", *COLUMNS, "--edition", edition)
    assert added.code == 0, added.err


def test_each_label_gets_its_standing(checked: Callable[[], dict[str, Any]]) -> None:
    rows = checked()
    told = {name: (row["standing"], (row["proposed"] or {}).get("name"), row["safe"]) for name, row in rows.items()}
    assert told == {
        "moved": ("moved", "Cus bus", True),
        "circle": ("unasked", None, False),
        "missing": ("unasked", None, False),
        "doubt": ("doubtful", None, False),
        "homonym": ("disputed", None, False),
        "junior": ("merged", "Culex other", False),
        "merged": ("merged", "Cus major", False),
        "brackets": ("moved", "Cus pulchrum", True),
        "nobody": ("unknown", None, False),
        "stranger": ("unasked", None, False),
        "ending": ("respelled", "Cus pulchrum", True),
    }
    assert rows["brackets"]["proposed"]["authorship"] == "(Smith, 1900)"  # Art. 51.3, though the list prints none
    assert any("in a circle" in line["says"] for line in rows["circle"]["statements"])
    assert {choice["name"] for choice in rows["homonym"]["choices"]} == {"Culex affinis", "Culex other"}
    assert all(row["why"] and row["statements"] for row in rows.values())


@pytest.mark.parametrize(
    ("edition", "standing", "lagging"),
    [("2020-01-01", "moved", True), ("2025-01-01", "disputed", False), ("2024", "disputed", False)],
)
def test_a_second_list_dissents_or_lags_by_its_edition(
    checked: Callable[[], dict[str, Any]], command: Command, tmp_path: Path, edition: str, standing: str, lagging: bool
) -> None:
    add_other(command, tmp_path, edition)
    row = checked()["moved"]
    assert (row["standing"], row["safe"]) == (standing, standing == "moved")
    assert {line["source"]: line["lagging"] for line in row["statements"]}["other"] is lagging
