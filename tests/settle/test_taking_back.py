"""Prints and mistakes that can be taken back, who decided, and undoing that stops at what was printed."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path

import pytest

from namekeeper.labels.content import LabelWishes, SpeciesFacts, make_content
from namekeeper.records.specimen import Specimen, dated_entries
from namekeeper.storage.collection_folder import load_collection
from namekeeper.tasks.label_memory import status_of
from tests.conftest import NOW, Outcome

Command = Callable[..., Outcome]

MOVED = """\
tag: Mex red rump 0.1
acquired: 2014-05-03
names:
  - name: Brachypelma vagans
    since: 2014-05-03
    recorded: 2014-05-04
  - name: Tliltocatl vagans
    since: 2021-02-11
    recorded: 2021-02-11
    standing: moved
"""
PRINTED = "decisions:\n  - kind: printed\n    recorded: 2021-02-12\n    name: Tliltocatl vagans\n"


@pytest.fixture
def settle(command: Command, tmp_path: Path) -> Command:
    folder = tmp_path / "animals" / "specimens"
    folder.mkdir(parents=True)
    (folder / "A1.yaml").write_text(MOVED)
    return lambda *words: command("settle", "animals", "--offline", "--write", *words)


def text(tmp_path: Path) -> str:
    return (tmp_path / "animals" / "specimens" / "A1.yaml").read_text()


def animal(tmp_path: Path) -> Specimen:
    collection = load_collection(tmp_path / "animals", NOW.date())
    assert collection.problems == ()
    return collection.specimens[0]


class TestPrints:
    def test_a_print_that_did_not_come_out_is_taken_back_and_stays_written(
        self, settle: Command, tmp_path: Path
    ) -> None:
        (tmp_path / "animals" / "specimens" / "A1.yaml").write_text(MOVED + PRINTED)
        assert not status_of(animal(tmp_path)).stale
        assert settle("--undo-print", "A1").code == 0
        assert text(tmp_path).startswith(MOVED + PRINTED)
        assert "  - kind: unprinted\n" in text(tmp_path)
        assert 'undoes: "1"\n' in text(tmp_path)
        assert status_of(animal(tmp_path)).printed is None
        assert status_of(animal(tmp_path)).stale
        none = settle("--undo-print", "A1")
        assert (none.code, "A1: no print is recorded" in none.err) == (2, True)

    def test_undo_after_a_print_does_not_undo_the_name(self, settle: Command, tmp_path: Path) -> None:
        (tmp_path / "animals" / "specimens" / "A1.yaml").write_text(MOVED + PRINTED)
        refused = settle("--undo", "A1")
        assert refused.code == 2
        assert "a label with Tliltocatl vagans was printed since" in refused.err
        assert "--undo-print A1" in refused.err
        assert text(tmp_path) == MOVED + PRINTED
        settle("--undo-print", "A1")
        assert settle("--undo", "A1", "--json").code in (0, 1)
        entry = animal(tmp_path).entry_in_force()
        assert entry is not None
        assert entry.name == "Brachypelma vagans"

    def test_the_print_before_stands_again(self, settle: Command, tmp_path: Path) -> None:
        twice = PRINTED.replace("Tliltocatl", "Brachypelma") + PRINTED.removeprefix("decisions:\n")
        (tmp_path / "animals" / "specimens" / "A1.yaml").write_text(MOVED + twice)
        settle("--undo-print", "A1")
        assert status_of(animal(tmp_path)).printed == "Brachypelma vagans"


class TestCorrected:
    def test_a_name_that_was_wrong_from_the_start_is_no_history_of_the_animal(
        self, settle: Command, command: Command, tmp_path: Path
    ) -> None:
        done = settle("--correct", "A1=Brachypelma boehmei", "--note", "seen grown up", "--json")
        (change,) = json.loads(done.out)["changes"]
        assert (change["old"], change["new"], change["standing"], change["written"]) == (
            "Tliltocatl vagans", "Brachypelma boehmei", "corrected", True,
        )  # fmt: skip
        assert text(tmp_path).startswith(MOVED)
        specimen = animal(tmp_path)
        entry = specimen.entry_in_force()
        assert entry is not None
        assert (entry.form, entry.standing, str(entry.since)) == ("", "corrected", "2014-05-03")
        fields = make_content(specimen, SpeciesFacts(), LabelWishes()).fields
        assert {"former", "form"} & fields.keys() == set()
        assert [dated.corrected for dated in dated_entries(specimen)] == [True, True, False]
        assert status_of(specimen).stale, "the enclosure says what it came with"
        for day, name in (("2014-05-02", None), ("2015-01-01", entry.name), ("2026-11-25", entry.name)):
            (told,) = json.loads(command("history", "animals", "A1", "--on", day, "--json").out)["specimens"]
            assert told["on"]["name"] == name
            assert [e["standing"] for e in told["entries"]] == ["as-labelled", "moved", "corrected"]
        (known,) = json.loads(
            command("history", "animals", "A1", "--on", "2022-01-01", "--known", "2022-01-01", "--json").out
        )["specimens"]
        assert known["on"]["name"] == "Tliltocatl vagans", "what was known then is not rewritten"
        assert "corrected" in command("history", "animals", "A1").out

    def test_a_later_day_corrects_only_what_came_since(self, settle: Command, tmp_path: Path) -> None:
        settle("--correct", "A1=Tliltocatl albopilosus", "--on", "2021-02-11")
        assert [dated.corrected for dated in dated_entries(animal(tmp_path))] == [False, True, False]

    def test_a_correction_is_undone_like_any_name(self, settle: Command, tmp_path: Path) -> None:
        settle("--correct", "A1=Brachypelma boehmei")
        settle("--undo", "A1")
        entry = animal(tmp_path).entry_in_force()
        assert entry is not None
        assert entry.name == "Tliltocatl vagans"

    def test_the_same_correction_twice_is_written_once(self, settle: Command, tmp_path: Path) -> None:
        settle("--correct", "A1=Brachypelma boehmei")
        once = text(tmp_path)
        again = settle("--correct", "A1=Brachypelma boehmei")
        assert (
            "A1: that is so already (corrected: the name before was wrong from the start); there is nothing to write"
            in again.err
        )
        assert text(tmp_path) == once

    def test_a_tag_is_no_name_to_correct(self, settle: Command, tmp_path: Path) -> None:
        (tmp_path / "animals" / "specimens" / "A1.yaml").write_text("tag: GBB\n")
        refused = settle("--correct", "A1=Brachypelma boehmei")
        assert (refused.code, "has no name yet that could be wrong" in refused.err) == (2, True)

    def test_a_table_that_repeats_the_mistake_is_corrected_by_the_id(
        self, settle: Command, command: Command, tmp_path: Path
    ) -> None:
        settle("--correct", "A1=Brachypelma boehmei")
        (tmp_path / "feeding.csv").write_text("id,animal\nA1,Tliltocatl vagans\n,Tliltocatl vagans\n")
        told = json.loads(command("tables", "animals", "feeding.csv", "--json").out)
        assert [(one["row"], one["new"]) for one in told["changes"]] == [(2, "Brachypelma boehmei")]


class TestBy:
    @pytest.mark.parametrize(
        ("orders", "words"),
        [
            (("--take", "A1=Brachypelma boehmei"), "decided_by: A. Keeper\n"),
            (("--correct", "A1=Brachypelma boehmei"), "decided_by: A. Keeper\n"),
            (("--undo", "A1"), "decided_by: A. Keeper\n"),
            (("--later", "A1"), "decided_by: A. Keeper\n"),
        ],
    )
    def test_who_decided_is_written(self, settle: Command, tmp_path: Path, orders: tuple[str, ...], words: str) -> None:
        settle(*orders, "--by", "A. Keeper")
        assert words in text(tmp_path).removeprefix(MOVED)

    def test_the_collection_may_say_who(self, settle: Command, tmp_path: Path) -> None:
        (tmp_path / "animals" / "collection.yaml").write_text("by: B. Keeper\n")
        (tmp_path / "animals" / "specimens" / "A1.yaml").write_text(
            "tag: x\nnames:\n- name: Brachypelma vagans\n  since: 2010\n  recorded: 2010\n"
        )
        settle("--take-safe")
        assert "decided_by: B. Keeper, as a safe proposal\n" in text(tmp_path)

    def test_nothing_said_is_the_keeper(self, settle: Command, tmp_path: Path) -> None:
        settle("--take", "A1=Brachypelma boehmei")
        assert "decided_by: keeper\n" in text(tmp_path)
