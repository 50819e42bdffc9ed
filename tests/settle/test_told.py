"""What commands that change a collection say beside what they do: rehearsals, remarks, the name as the label has it."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path

import pytest

from tests.conftest import Outcome

Command = Callable[..., Outcome]


@pytest.fixture
def specimen(tmp_path: Path) -> Path:
    """The one animal of a collection."""
    (tmp_path / "animals" / "specimens").mkdir(parents=True)
    path = tmp_path / "animals" / "specimens" / "A.yaml"
    path.write_text(
        "tag: x\nacquired: 2021\nsex: 0.0.3\nnames:\n- name: Pamphobeteus nigricolor\n  qualifier: cf.\n  since: 2021\n"
    )
    return path


@pytest.mark.parametrize("write", [(), ("--write",)])
def test_a_rehearsal_refuses_what_writing_would(command: Command, specimen: Path, write: tuple[str, ...]) -> None:
    before = specimen.read_text(encoding="utf-8")
    outcome = command("collection", "left", "animals", "A", "--how", "died", "--on", "2019", *write)
    assert (outcome.code, outcome.out) == (2, "")
    assert "left 2019, before it was acquired 2021" in outcome.err
    assert specimen.read_text(encoding="utf-8") == before


def test_a_rehearsal_shows_what_would_stand_there(command: Command, specimen: Path) -> None:
    before = specimen.read_text(encoding="utf-8")
    outcome = command("collection", "count", "animals", "A", "1.2.0")
    assert outcome.out == "Would be counted: A. Nothing is written without --write.\n  A: sex: 1.2.0\n"
    assert command("collection", "left", "animals", "A", "--how", "sold", "--on", "2022").out.endswith(
        "  A: left: {date: 2022, how: sold}\n"
    )
    assert specimen.read_text(encoding="utf-8") == before


@pytest.mark.parametrize(
    ("name", "said"),
    [
        (
            "Brachypelma hamorri",
            (
                "A: no list here has Brachypelma hamorri (spelt similarly there: Brachypelma hamorii);"
                " it is taken as you wrote it\n"
            ),
        ),
        ("Brachypelma hamorii", ""),
        ("Brachypelma sp.", ""),
    ],
)
def test_a_name_that_no_list_has_is_taken_with_a_remark(command: Command, specimen: Path, name: str, said: str) -> None:
    outcome = command("settle", "animals", "--offline", "--take", f"A={name}", "--json", "--write")
    (change,) = json.loads(outcome.out)["changes"]
    assert (change["written"], outcome.err) == (True, said)
    assert f"name: {name.removesuffix(' sp.')}" in specimen.read_text(encoding="utf-8")


def test_history_shows_the_name_as_the_label_has_it(command: Command, specimen: Path) -> None:
    assert "Pamphobeteus cf. nigricolor" in " ".join(command("history", "animals", "A").out.split())
    (told,) = json.loads(command("history", "animals", "A", "--json").out)["specimens"]
    assert (told["entries"][0]["name"], told["entries"][0]["qualifier"]) == ("Pamphobeteus nigricolor", "cf.")
