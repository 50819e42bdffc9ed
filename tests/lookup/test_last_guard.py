"""One tag's trouble is one tag's problem, whatever goes wrong: the others are answered, and it is told."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path

import pytest

from namekeeper.reading.tag import read_tag
from namekeeper.sources.lists.index_reader import IndexList
from tests.conftest import Outcome

Command = Callable[..., Outcome]
GOOD, BAD = ("Brachypelma hamorii 0.1", "OBT sling"), "Poecilotheria metallica flamingo"
BEFORE = dict.fromkeys((*GOOD, BAD), "one")
#: Everything that a list is asked for a tag
ASKED = sorted(
    name
    for name in ("named", "genus", "prefixed", "with_epithet", "similar", "similar_genus", "common", "common_with",
                 "similar_common", "abbreviated", "clipped", "knows_epithet", "ask_firmly")
    if hasattr(IndexList, name)
)  # fmt: skip


def answers(command: Command, tmp_path: Path) -> tuple[int, dict[str, str], str]:
    file = tmp_path / "tags.txt"
    file.write_text("\n".join((GOOD[0], BAD, GOOD[1])), encoding="utf-8")
    outcome = command("lookup", "--offline", "--json", "--from", str(file))
    return outcome.code, {one["tag"]: one["answer"] for one in json.loads(outcome.out)["results"]}, outcome.err


def test_a_mistake_with_one_tag(command: Command, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def mistaken(tag: str, *others: object) -> object:
        if tag == BAD:
            raise ZeroDivisionError("secret text")
        return read_tag(tag, *others)  # type: ignore[arg-type]

    monkeypatch.setattr("namekeeper.tasks.lookup.read_tag", mistaken)
    code, now, said = answers(command, tmp_path)
    assert (code, now) == (3, BEFORE | {BAD: "unasked"})
    text = command("lookup", "--offline", BAD)
    assert "Not looked up: namekeeper made a mistake with it (ZeroDivisionError)." in text.out
    assert "secret text" not in text.out + text.err + said


@pytest.mark.parametrize("asked", ASKED)
def test_a_mistake_in_a_list(command: Command, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, asked: str) -> None:
    """Whatever a list is asked: a tag that meets the mistake is unasked, and never none; the others are as before."""
    ask, met = getattr(IndexList, asked), []

    def mistaken(self: IndexList, *words: object, **more: object) -> object:
        if any(part in repr(words).lower() for part in ("metallica", "flamingo")):
            met.append(words)
            raise KeyError("secret text")
        return ask(self, *words, **more)

    monkeypatch.setattr(IndexList, asked, mistaken)
    code, now, _ = answers(command, tmp_path)
    assert now == BEFORE | ({BAD: "unasked"} if met else {})
    assert code == (3 if met else 0)


def test_an_animal_is_added_though_its_tag_cannot_be_read(
    command: Command, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    assert command("collection", "new", "animals").code == 0
    monkeypatch.setattr("namekeeper.tasks.lookup.find_candidates", lambda *_: 1 / 0)
    assert command("collection", "add", "animals", "--tag", BAD).code == 0
    assert BAD in next((tmp_path / "animals" / "specimens").iterdir()).read_text(encoding="utf-8")
