"""The demo: the whole job once, offline; a second run overwrites nothing; without the HTML engine all works."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path

import pytest

from namekeeper.labels import fonts, render
from namekeeper.words.errors import MissingLibraryError
from tests.conftest import Outcome
from tests.contract.schemas import problems

Command = Callable[..., Outcome]


def test_the_story_is_told_and_the_files_are_there(command: Command, tmp_path: Path) -> None:
    outcome = command("demo")
    assert outcome.code == 0, outcome.err
    folder = tmp_path / "namekeeper-demo"
    assert (folder / "labels.pdf").read_bytes().startswith(b"%PDF")
    assert "Insect room" in (folder / "report.html").read_text(encoding="utf-8")
    headings = [line for line in outcome.out.splitlines() if line[:2] in ("1.", "2.", "3.", "4.", "5.", "6.")]
    assert [line[0] for line in headings] == list("123456")
    assert [line for line in outcome.out.splitlines() if len(line) > 80] == []
    assert "\x1b" not in outcome.out
    history = json.loads(command("history", str(folder), "HW-002", "--json").out)["specimens"][0]["entries"]
    assert [entry["name"] for entry in history] == ["Brachypelma vagans", "Tliltocatl vagans"]
    assert history[1]["according_to"] == "Mendoza & Francke 2020"


def test_a_second_run_overwrites_nothing(command: Command, tmp_path: Path) -> None:
    first = json.loads(command("demo", "--json").out)
    assert problems("demo", first) == []
    (Path(first["path"]) / "report.html").write_text("mine", encoding="utf-8")
    second = json.loads(command("demo", "--json").out)
    assert (first["path"], second["path"]) == (
        str(tmp_path / "namekeeper-demo"),
        str(tmp_path / "namekeeper-demo-2"),
    )
    assert (Path(first["path"]) / "report.html").read_text(encoding="utf-8") == "mine"


def test_without_the_html_engine_the_demo_runs_to_the_pdf(
    command: Command, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def missing() -> object:
        raise MissingLibraryError("Pango is not installed", remedy="apt-get install libpango-1.0-0")

    monkeypatch.setattr(render, "_engine", missing)
    outcome = command("demo")
    assert outcome.code == 0
    assert (tmp_path / "namekeeper-demo" / "labels.pdf").read_bytes().startswith(b"%PDF")
    assert (tmp_path / "namekeeper-demo" / "report.html").exists()


def test_without_type_everything_but_the_labels_works(
    command: Command, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(fonts, "_PACKAGE", "no_such_package_of_fonts")
    outcome = command("demo")
    assert outcome.code == 0
    assert "No labels: the type of the labels is not installed" in outcome.err
    assert not (tmp_path / "namekeeper-demo" / "labels.pdf").exists()
    assert (tmp_path / "namekeeper-demo" / "report.html").exists()


def test_a_place_that_cannot_be_written_is_one_clear_line(command: Command, tmp_path: Path) -> None:
    (tmp_path / "file").write_text("")
    outcome = command("demo", "-o", "file/below")
    assert (outcome.code, outcome.out) == (2, "")
    assert "the demo cannot be written here" in outcome.err
