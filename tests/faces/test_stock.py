"""What a collection held on a day; the animals are invented, the move is that of Mendoza & Francke (2020)."""

from __future__ import annotations

import csv
import io
import json
from collections.abc import Callable
from pathlib import Path

import pytest

from tests.conftest import Outcome

Command = Callable[..., Outcome]

MOVED = "names:\n- {name: Brachypelma vagans, since: 2014}\n- {name: Tliltocatl vagans, since: 2021-02-11}\n"
FILES = {
    "A2": f"tag: a\nacquired: 2014-05-03\nsex: 1.2.5\n{MOVED}",
    "A10": f"tag: b\nacquired: 2019\n{MOVED}left: {{date: 2023-06-01, how: sold}}\n",
    "B1": "tag: GBB\nacquired: 2020\nsex: 0.0.3\n",
    "C1": "tag: c\nnames:\n- {name: Tliltocatl vagans, qualifier: cf., since: 2022-05}\n",
    "D1": "tag: d\nacquired: 2015\nleft: {how: died}\nnames:\n- {name: Grammostola pulchra, since: 2015}\n",
}
Row = tuple[str | None, str | None, list[str], int, list[str]]


@pytest.fixture
def animals(tmp_path: Path) -> Path:
    (tmp_path / "animals" / "specimens").mkdir(parents=True)
    for identifier, text in FILES.items():
        (tmp_path / "animals" / "specimens" / f"{identifier}.yaml").write_text(text)
    return tmp_path


VAGANS = "Tliltocatl vagans"
OLD = "Brachypelma vagans"
CF = "Tliltocatl cf. vagans"


@pytest.mark.parametrize(
    ("day", "expected"),
    [
        (None, [(CF, CF, ["C1"], 1, []), (VAGANS, VAGANS, ["A2"], 8, []), (None, None, ["B1"], 3, [])]),
        ("2014-05-02", [(CF, None, ["C1"], 1, ["C1"])]),
        ("2014-05-03", [(CF, None, ["C1"], 1, ["C1"]), (VAGANS, OLD, ["A2"], 8, [])]),
        (
            "2019-07",
            [
                ("Grammostola pulchra", "Grammostola pulchra", ["D1"], 1, ["D1"]), (CF, None, ["C1"], 1, ["C1"]),
                (VAGANS, OLD, ["A2", "A10"], 9, ["A10"]),
            ],
        ),
        (
            "2022",
            [
                ("Grammostola pulchra", "Grammostola pulchra", ["D1"], 1, ["D1"]), (CF, CF, ["C1"], 1, ["C1"]),
                (VAGANS, VAGANS, ["A2", "A10"], 9, []), (None, None, ["B1"], 3, []),
            ],
        ),
    ],
)  # fmt: skip
def test_stock_on_a_day(command: Command, animals: Path, day: str | None, expected: list[Row]) -> None:
    when = ("--on", day) if day else ()
    outcome = command("collection", "stock", "animals", *when, "--json")
    rows = json.loads(outcome.out)["species"]
    found = [(row["name"], row["then"], row["animals"], row["count"], row["uncertain"]) for row in rows]
    assert (outcome.code, found) == (0, expected)
    assert json.loads(outcome.out)["count"] == sum(row[3] for row in expected)


def test_a_table_for_a_spreadsheet(command: Command, animals: Path) -> None:
    outcome = command("collection", "stock", "animals", "--on", "2019-07", "-o", "stock.csv")
    assert outcome.out == "11 animals under 4 labels on 2019-07-31: stock.csv\n"
    rows = list(csv.DictReader(io.StringIO((animals / "stock.csv").read_text(encoding="utf-8-sig"))))
    assert rows[2] == {
        "name": VAGANS, "name then": OLD, "labels": "A2 A10", "animals": "9", "male": "1", "female": "2",
        "unsexed": "6", "not certain": "A10",
    }  # fmt: skip


def test_the_screen_says_what_is_not_known(command: Command, animals: Path) -> None:
    said = " ".join(command("collection", "stock", "animals", "--on", "2014-05-03").out.split())
    assert "On 2014-05-03: 9 animals under 2 labels, 2 names." in said
    assert "earlier counts are not kept" in said
    assert "Perhaps not there that day, since the dates do not say: C1." in said
    assert "earlier counts" not in command("collection", "stock", "animals").out


def test_files_that_cannot_be_read_are_told(command: Command, animals: Path) -> None:
    (animals / "animals" / "specimens" / "E1.yaml").write_text("tag: [\n")
    outcome = command("collection", "stock", "animals")
    assert (outcome.code, "specimens/E1.yaml" in outcome.err) == (2, True)
