"""The sample collection, checked without a network: the contract's JSON, every standing, and what settling leaves."""

from __future__ import annotations

import json
import shutil
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from namekeeper import resources
from tests.conftest import Outcome
from tests.contract.schemas import problems
from tests.contract.shapes import STANDINGS

Command = Callable[..., Outcome]


@pytest.fixture
def sample(tmp_path: Path) -> Path:
    return Path(shutil.copytree(resources.sample_collection(), tmp_path / "animals"))


def check(command: Command, folder: Path, *more: str) -> dict[str, Any]:
    outcome = command("check", str(folder), "--offline", "--json", *more)
    assert outcome.code in (0, 1), outcome.err
    document: dict[str, Any] = json.loads(outcome.out)
    assert problems("check", document) == []
    return document


def test_the_json_keeps_the_contract(command: Command, sample: Path) -> None:
    document = check(command, sample)
    specimens = {path.stem for path in (sample / "specimens").glob("*.yaml")}
    checked = {row["specimen"] for row in document["results"]}
    assert specimens - checked == {"HW-050"}  # sold in 2021
    assert sum(document["summary"].values()) == len(checked)


def test_every_standing_that_can_occur_without_a_network_is_there(command: Command, sample: Path) -> None:
    # The starter list is complete for nothing, so nothing is ever "unknown" without a further list (contract 4).
    assert set(check(command, sample)["summary"]) == set(STANDINGS) - {"unknown"}


def test_safe_is_what_the_contract_calls_safe(command: Command, sample: Path) -> None:
    safe = [row for row in check(command, sample)["results"] if row["safe"]]
    assert len(safe) >= 5
    assert {row["standing"] for row in safe} == {"moved", "respelled"}
    assert all(row["proposed"] and not row["choices"] for row in safe)


def test_taking_the_safe_proposals_leaves_none(command: Command, sample: Path) -> None:
    before = {row["specimen"]: row for row in check(command, sample)["results"]}
    outcome = command("settle", str(sample), "--take-safe", "--write", "--offline", "--json")
    changes = json.loads(outcome.out)["changes"]
    assert {change["specimen"] for change in changes} == {key for key, row in before.items() if row["safe"]}
    after = {row["specimen"]: row for row in check(command, sample)["results"]}
    assert [key for key, row in after.items() if row["safe"]] == []
    for change in changes:
        assert after[change["specimen"]]["standing"] == "current"
        assert after[change["specimen"]]["label"] == before[change["specimen"]]["proposed"]["name"]
        assert after[change["specimen"]]["since"] == "2026-11-25"


def test_one_specimen_alone(command: Command, sample: Path) -> None:
    (row,) = check(command, sample, "--only", "HW-002")["results"]
    assert (row["standing"], row["proposed"]) == (
        "moved",
        {"name": "Tliltocatl vagans", "authorship": "(Ausserer, 1875)"},
    )


def test_an_unknown_specimen_is_one_clear_line(command: Command, sample: Path) -> None:
    outcome = command("check", str(sample), "--offline", "--only", "HW-999")
    assert (outcome.code, outcome.out) == (2, "")
    assert "no animal 'HW-999'" in outcome.err


def test_a_kept_name_comes_back_only_with_news(command: Command, sample: Path) -> None:
    command("settle", str(sample), "--keep", "HW-023", "--offline", "--write")
    shown = command("check", str(sample), "--offline").out
    assert "HW-023" not in shown
    assert "HW-007" in shown


def test_since_last_is_quiet_when_nothing_changed(command: Command, sample: Path) -> None:
    first = command("check", str(sample), "--offline", "--since-last")
    assert "HW-001" in first.out
    second = command("check", str(sample), "--offline", "--since-last")
    assert (second.code, second.out) == (0, "")
    taken = json.loads(command("settle", str(sample), "--take-safe", "--write", "--offline", "--json").out)["changes"]
    third = json.loads(command("check", str(sample), "--offline", "--since-last", "--json").out)["results"]
    assert {row["specimen"] for row in third} == {change["specimen"] for change in taken}


def test_the_page_stands_alone(command: Command, sample: Path, tmp_path: Path) -> None:
    command("check", str(sample), "--offline", "-o", "report.html")
    page = (tmp_path / "report.html").read_text(encoding="utf-8")
    assert "<script" not in page
    assert 'src="' not in page
    assert '<i class="name">Brachypelma smithi</i> (F. O. Pickard-Cambridge, 1897)' in page


def test_a_folder_that_is_not_there(command: Command, tmp_path: Path) -> None:
    outcome = command("check", str(tmp_path / "nowhere"), "--offline")
    assert (outcome.code, outcome.out) == (2, "")
    assert "no such folder" in outcome.err


@pytest.mark.parametrize("more", [(), ("--json",)])
def test_an_unreadable_specimen_is_told_every_time_and_not_gone(
    command: Command, sample: Path, more: tuple[str, ...]
) -> None:
    command("check", str(sample), "--offline", "--since-last")
    spoilt = next((sample / "specimens").iterdir())
    spoilt.write_text("names: [")
    for outcome in (command("check", str(sample), "--offline", "--since-last", *more) for _ in range(2)):
        assert outcome.code == 2
        assert spoilt.name in outcome.err
        assert "no longer" not in outcome.out
