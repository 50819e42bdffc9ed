"""One specimen's trouble is one specimen's problem, whatever goes wrong, in our own code too."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterator, Sequence
from pathlib import Path

import pytest

from namekeeper.evidence.statements import Reply
from namekeeper.judging.question import Question
from namekeeper.judging.verdict import judge as judged
from namekeeper.sources.lists.index_reader import IndexList
from namekeeper.tasks import judge_labels
from tests.conftest import Outcome

Command = Callable[..., Outcome]
NAMES = {"A": "Tliltocatl vagans", "B": "Brachypelma smithi", "C": "Avicularia avicularia"}


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    specimens = tmp_path / "animals" / "specimens"
    specimens.mkdir(parents=True)
    for key, name in NAMES.items():
        text = f"tag: x\nnames:\n- name: {name}\n  since: 2022-01-01\n  recorded: 2022-01-01\n"
        (specimens / f"{key}.yaml").write_text(text, encoding="utf-8")
    return tmp_path / "animals"


def standings(outcome: Outcome) -> dict[str, str]:
    return {one["specimen"]: one["standing"] for one in json.loads(outcome.out)["results"]}


def test_a_mistake_in_judging_one_label(command: Command, folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    before = standings(command("check", "--offline", "--json", str(folder)))

    def mistaken(question: Question, *others: object) -> object:
        if question.name == NAMES["B"]:
            raise ZeroDivisionError("secret text")
        return judged(question, *others)  # type: ignore[arg-type]

    monkeypatch.setattr(judge_labels, "judge", mistaken)
    for path in folder.glob("specimens/*.yaml"):  # so that no verdict of before is at hand
        path.write_text(path.read_text(encoding="utf-8") + "note: changed\n", encoding="utf-8")
    outcome = command("check", "--offline", "--json", str(folder))
    assert outcome.code == 3
    assert standings(outcome) == before | {"B": "unasked"}
    assert "namekeeper made a mistake with it (ZeroDivisionError)" in outcome.out
    assert "secret text" not in outcome.out + outcome.err


def test_a_mistake_in_a_list_on_one_name(command: Command, folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    before = standings(command("check", "--offline", "--json", str(folder)))
    ask = IndexList.ask

    def mistaken(self: IndexList, names: Sequence[str]) -> Iterator[Reply]:
        for reply in ask(self, names):
            if reply.asked == NAMES["C"]:
                raise KeyError("secret text")
            yield reply

    monkeypatch.setattr(IndexList, "ask", mistaken)
    for path in folder.glob("specimens/*.yaml"):
        path.write_text(path.read_text(encoding="utf-8") + "note: changed\n", encoding="utf-8")
    outcome = command("check", "--offline", "--json", str(folder))
    assert outcome.code == 3
    assert standings(outcome) == before | {"C": "unasked"}
