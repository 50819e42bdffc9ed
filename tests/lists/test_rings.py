"""Synonyms that lead in circles: each is told, in time that grows with the list and not with its square."""

from __future__ import annotations

import csv
import json
from collections.abc import Callable, Mapping
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from namekeeper.sources.lists.linking import _in_rings
from tests.limited import MB, run_limited

MANY = 20_000
#: Row -> the row it is a synonym of, None if it is accepted.
SHAPES: dict[str, Callable[[int], int | None]] = {
    "one ring of all": lambda row: (row + 1) % MANY,
    "pairs": lambda row: row ^ 1,
    "a chain of all": lambda row: row + 1 if row + 1 < MANY else None,
    "a chain that ends in a ring": lambda row: row + 1 if row + 1 < MANY else MANY - 3,
}
IN_RINGS = {"one ring of all": MANY, "pairs": MANY, "a chain of all": 0, "a chain that ends in a ring": 3}


def epithet(number: int) -> str:
    return "".join(chr(97 + number // 26**place % 26) for place in range(4)) + "us"


@pytest.mark.parametrize("shape", SHAPES)
def test_a_ring_is_told_in_linear_time(shape: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """30 s of processor time for 20,000 rows (they take 1 s); 2,000 rows in one ring once took 43 s."""
    pytest.importorskip("resource", reason="limits of this kind are of POSIX systems")
    monkeypatch.setenv("NAMEKEEPER_HOME", str(tmp_path / "home"))
    table = tmp_path / "ring.csv"
    with table.open("w", newline="", encoding="utf-8") as file:
        writer = csv.writer(file)
        writer.writerow(("id", "name", "status", "accepted_id", "rank"))
        for row in range(MANY):
            target = SHAPES[shape](row)
            status = "accepted" if target is None else "synonym"
            writer.writerow((row, f"Aus {epithet(row)}", status, "" if target is None else target, "species"))
    done = run_limited("namekeeper", "lists", "add", str(table), "--as", "ring", "--json", memory=700 * MB, seconds=30)
    assert done.returncode == 0, done.stderr
    document = json.loads(done.stdout)
    assert document["names"] == MANY
    assert document["faults_count"] == IN_RINGS[shape]
    assert {row["why"] for row in document["faults"]} <= {"leads back to itself"}


def returns(links: Mapping[int, int], start: int) -> bool:
    """The same by the definition: the chain from a name comes back to it."""
    at: int | None = links.get(start)
    for _ in links:
        if at is None or at == start:
            break
        at = links.get(at)
    return at == start


@given(st.dictionaries(st.integers(0, 12), st.integers(0, 14), max_size=13))
def test_who_is_in_a_ring_is_told_by_the_definition(links: dict[int, int]) -> None:
    assert _in_rings(links) == {start for start in links if returns(links, start)}
