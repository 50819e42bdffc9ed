"""A kept verdict equals a fresh one, whatever changed in between, and a damaged memory of them is none."""

from __future__ import annotations

import json
from collections.abc import Callable, Sequence
from datetime import UTC, date, datetime
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from namekeeper.files.kept_values import keep_values, recall_values
from namekeeper.outside import Outside
from namekeeper.sources.lists.registry import open_lists
from namekeeper.tasks.check import Finding, check_collection, check_folder
from namekeeper.tasks.desk import CollectionDesk
from namekeeper.tasks.online import ServiceWishes
from namekeeper.words.dates import PartialDate
from tests.conftest import NOW, NOWHERE, Outcome

Command = Callable[..., Outcome]

NAMES = ("Brachypelma vagans", "Tliltocatl vagans", "Achrioptera fallax", "Avicularia sp.", "Haplopelma lividum",
         "Aus bus", "Poecilotheria bara", "Brachypelma boehmei x Brachypelma vagans", "Euathlus sp. red")  # fmt: skip
TAGS = ("Mex red knee 0.1", "GBB", "B. vagans / albopilosum?", "Achrioptera fallax 2cm")
named = st.builds(
    "tag: x\nlocality: {}\nnames:\n- name: {}\n  since: {}\n  recorded: 2024\n".format,
    st.sampled_from(["", "Campeche"]), st.sampled_from(NAMES), st.sampled_from(["1990", "2018", "2022-05"]),
)  # fmt: skip
tagged = st.builds("tag: {}\nacquired: {}\n".format, st.sampled_from(TAGS), st.sampled_from(["1990", "2022"]))
files = st.lists(named | tagged, min_size=1, max_size=4)
settings_text = st.sampled_from(["", "trust_order: [starter]\n", "title: mine\n"])


def desk_in(root: Path, home: Path, day: datetime = NOW) -> CollectionDesk:
    environ = {"NAMEKEEPER_HOME": str(home), **NOWHERE}
    return CollectionDesk.at(root / "animals", Outside.of(root, environ, lambda: day, lambda _text: None))


def write(root: Path, texts: Sequence[str], said: str) -> None:
    folder = root / "animals" / "specimens"
    folder.mkdir(parents=True, exist_ok=True)
    (root / "animals" / "collection.yaml").write_text(said)
    for path in folder.iterdir():
        path.unlink()
    for number, text in enumerate(texts):
        (folder / f"A{number}.yaml").write_text(text)


def fresh(desk: CollectionDesk) -> tuple[Finding, ...]:
    with open_lists(desk.outside.places, print) as lists:
        return check_collection(desk.load(), lists, desk.today).findings


def again(desk: CollectionDesk, only: Sequence[str] = ()) -> tuple[Finding, ...]:
    return check_folder(desk, ServiceWishes(offline=True), only).findings


@pytest.fixture(scope="module")
def shared_home(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return tmp_path_factory.mktemp("home")


@given(
    looks=st.lists(st.tuples(files, settings_text, st.booleans(), st.sampled_from([25, 26])), min_size=2, max_size=4)
)
@settings(max_examples=25)
def test_a_kept_verdict_equals_a_fresh_one(looks: list[tuple[list[str], str, bool, int]], shared_home: Path) -> None:
    with TemporaryDirectory() as root:
        for texts, said, partly, day in looks:
            desk = desk_in(Path(root), shared_home, datetime(2026, 11, day, 12, tzinfo=UTC))
            write(Path(root), texts, said)
            if partly:
                again(desk, ["A0"])
            expected = fresh(desk)
            assert again(desk) == expected
            assert again(desk) == expected


def test_the_second_look_asks_no_list(tmp_path: Path, home: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    write(tmp_path, ["tag: GBB\n", "tag: x\nnames: [{name: Brachypelma vagans, since: 2010, recorded: 2010}]\n"], "")
    desk = desk_in(tmp_path, home)
    first = again(desk)

    calls: list[object] = []

    def asked(*words: object) -> object:
        calls.append(words)
        raise AssertionError("asked")

    monkeypatch.setattr("namekeeper.sources.lists.index_reader.IndexList.ask", asked)
    monkeypatch.setattr("namekeeper.tasks.check.look_up", asked)
    assert again(desk) == first
    assert calls == []
    write(tmp_path, ["tag: GBB 0.1\n"], "")
    assert [str(one.verdict.standing) for one in again(desk)][:1] == ["unasked"], "a mistake with it, as made here"
    assert len(calls) == 1


def test_a_list_that_was_added_is_heard(tmp_path: Path, home: Path, command: Command) -> None:
    write(tmp_path, ["tag: x\nnames: [{name: Aus bus, since: 2010, recorded: 2010}]\n"], "")
    desk = desk_in(tmp_path, home)
    assert [str(one.verdict.standing) for one in again(desk)] == ["unasked"]
    (tmp_path / "mine.csv").write_text('name,authorship\nAus bus,"Author, 1900"\n')
    assert command("lists", "add", "mine.csv", "--as", "mine", "--edition", "1").code == 0
    assert [str(one.verdict.standing) for one in again(desk)] == ["current"]
    (tmp_path / "mine.csv").write_text('name,authorship\nAus cus,"Author, 1900"\n')
    assert command("lists", "add", "mine.csv", "--as", "mine", "--edition", "1").code == 0
    assert again(desk) == fresh(desk), "another content under the same edition"


@pytest.mark.parametrize("content", [b"", b"\x80", b"no JSON", b"[1, 2, 3]", b'{"state": 1}', b"{" * 5000])
def test_a_damaged_memory_is_none(tmp_path: Path, home: Path, content: bytes) -> None:
    write(tmp_path, ["tag: GBB\n"], "")
    desk = desk_in(tmp_path, home)
    first = again(desk)
    (place,) = (home / "cache" / "verdicts").iterdir()
    place.write_bytes(content)
    assert again(desk) == first
    assert place.read_bytes() != content


def test_only_named_classes_are_read_back(tmp_path: Path) -> None:
    day = PartialDate.parse("2014-05")
    values = {"a": (day, "text"), "b": (day, 1, None, 0.1, ())}
    keep_values(tmp_path / "kept", "now", values, (PartialDate, date))
    assert recall_values(tmp_path / "kept", "now", (PartialDate, date)) == values
    assert recall_values(tmp_path / "kept", "then", (PartialDate, date)) == {}
    assert recall_values(tmp_path / "kept", "now", (PartialDate,)) == {}
    with pytest.raises(KeyError):
        keep_values(tmp_path / "kept", "now", {"a": {1}}, ())


def test_what_several_values_hold_stands_once_and_is_plain_text(tmp_path: Path) -> None:
    day = PartialDate.parse("2014-05")
    keep_values(tmp_path / "kept", "now", {str(n): (day, n) for n in range(100)}, (PartialDate, date))
    text = (tmp_path / "kept").read_text()
    assert json.loads(text)["state"] == "now"
    assert text.count("2014-05-01") == 1
    found = recall_values(tmp_path / "kept", "now", (PartialDate, date))
    assert len({id(kept[0]) for kept in found.values() if isinstance(kept, tuple)}) == 1


def test_what_cannot_be_written_is_not_kept(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("in the way")
    keep_values(tmp_path / "file" / "kept", "now", {"a": (1,)}, ())
    assert recall_values(tmp_path / "file" / "kept", "now", ()) == {}
