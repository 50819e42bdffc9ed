"""Reading collections: every scalar as text, every problem with file, line and remedy, the healthy ones go on."""

from __future__ import annotations

import os
from contextlib import suppress
from datetime import date
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from namekeeper.records.specimen import Specimen
from namekeeper.storage.collection_folder import load_collection, taken_ids, write_output
from namekeeper.storage.yaml_text import TextFault, compose, decode, line_of_node
from namekeeper.words.errors import FileError, InputError, Place
from tests.storage.malformed import GOOD, malformed

TODAY = date(2026, 11, 25)
MALFORMED = list(malformed())


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    (tmp_path / "specimens").mkdir()
    return tmp_path


def write(folder: Path, **files: str | bytes) -> Path:
    for stem, content in files.items():
        raw = content.encode() if isinstance(content, str) else content
        (folder / "specimens" / f"{stem.replace('_', '-')}.yaml").write_bytes(raw)
    return folder


def test_there_are_at_least_200_malformed_files() -> None:
    assert len({content for _, content, _ in MALFORMED}) >= 200


@pytest.mark.parametrize(("content", "line"), [row[1:] for row in MALFORMED], ids=[row[0] for row in MALFORMED])
def test_a_malformed_file_is_named_with_its_line(folder: Path, content: bytes, line: int) -> None:
    collection = load_collection(write(folder, BAD=content, GOOD=GOOD[0]), TODAY)
    assert [specimen.id for specimen in collection.specimens] == ["GOOD"]
    first = min(collection.problems, key=lambda problem: problem.place.line or 0)
    assert (first.place.file, first.place.line) == ("specimens/BAD.yaml", line), first
    assert first.remedy


def test_the_good_files_are_good(folder: Path) -> None:
    collection = load_collection(write(folder, A=GOOD[0], B=GOOD[1]), TODAY)
    assert collection.problems == ()
    assert [specimen.id for specimen in collection.specimens] == ["A", "B"]


@pytest.mark.parametrize("text", ["1.10", "0012", "NO", "2014", "null", "1e3", "0x1F", "12:30:45", "yes", "1_000"])
def test_a_scalar_is_the_text_that_stands_there(folder: Path, text: str) -> None:
    specimen = load_collection(write(folder, A=f"tag: {text}\nplace: {text}\nfrom: [{text}]\n"), TODAY).specimens[0]
    assert (specimen.tag, specimen.stands_at, specimen.origin) == (text, text, (text,))


def test_values_of_the_contract_are_read(folder: Path) -> None:
    content = '\ufefftag: "Mex red rump 0.1 4cm"\r\nacquired: 2014-05\r\nsex: 1.2\r\nleft: {date: 2021, how: sold}\r\n'
    specimen = load_collection(write(folder, A=content), TODAY).specimens[0]
    assert specimen.tag == "Mex red rump 0.1 4cm"
    assert specimen.acquired is not None
    assert specimen.acquired.earliest == date(2014, 5, 1)
    assert specimen.sex is not None
    assert (specimen.sex.male, specimen.sex.female, specimen.sex.unsexed) == (1, 2, 0)
    assert specimen.left is not None
    assert (str(specimen.left.date), specimen.left.how) == ("2021", "sold")


def test_a_misspelt_key_gets_a_suggestion(folder: Path) -> None:
    (problem,) = load_collection(write(folder, A="tag: x\nacquird: 2014\n"), TODAY).problems
    assert str(problem) == "specimens/A.yaml:2: unknown key 'acquird' (did you mean acquired:?)"


def test_all_problems_come_in_one_go(folder: Path) -> None:
    write(folder, A="tag: x\nsx: 1\nacquired: never\n", B="", C="- x\n", D="acquired: 2014\n")
    (folder / "collection.yaml").write_text("title: T\ntrust: [a]\n")
    lines = [str(problem) for problem in load_collection(folder, TODAY).problems]
    assert [line.split(" (")[0] for line in lines] == [
        "collection.yaml:2: unknown key 'trust'",
        "specimens/A.yaml:2: unknown key 'sx'",
        "specimens/A.yaml:3: acquired: 'never' is not a date like 2014, 2014-05 or 2014-05-03",
        "specimens/B.yaml:1: the file is empty",
        "specimens/C.yaml:1: the file does not consist of keys and values",
        "specimens/D.yaml:1: neither a tag nor a name",
    ]


@pytest.mark.parametrize(
    ("name", "words"),
    [
        ("INV-0007 (1).yaml", "looks like a copy of INV-0007"),
        ("INV-0007.sync-conflict-20210203-120000-ABCDEFG.yaml", "looks like a copy of INV-0007"),
        ("INV-0007 (conflicted copy 2021-02-03).yaml", "looks like a copy of INV-0007"),
        ("INV-0007.orig.yaml", "looks like a copy of INV-0007"),
        ("inv-0007.yaml", "ids that differ only in case"),
        ("con.yaml", "kept by Windows"),
        ("LPT1.x.yaml", "kept by Windows"),
        ("a b.yaml", "the file name is no id"),
        ("ä.yaml", "the file name is no id"),
        ("x" * 41 + ".yaml", "the file name is no id"),
        ("INV-0008.yml", "no specimen's file"),
        ("INV-0008.yaml~", "no specimen's file"),
    ],
)
def test_a_stray_file_is_named_and_the_rest_goes_on(folder: Path, name: str, words: str) -> None:
    write(folder, INV_0007="tag: x\n", INV_0009="tag: y\n")
    (folder / "specimens" / name).write_text("tag: z\n")
    collection = load_collection(folder, TODAY)
    assert any(words in problem.what and problem.remedy for problem in collection.problems)
    assert "INV-0009" in [specimen.id for specimen in collection.specimens]
    assert all(specimen.tag != "z" for specimen in collection.specimens)


MACHINES = ("INV-0007-LAPTOP-2", "INV-0007_DESKTOP-4F", "INV-0007.anna")


@pytest.mark.parametrize("stem", MACHINES)
def test_a_copy_named_after_a_machine_is_told_and_nothing_is_lost(folder: Path, stem: str) -> None:
    """Programs that sync name the other version of a file after the machine it came from."""
    animal = "tag: Mex red rump\nacquired: 2014-05-03\nnames:\n  - name: Brachypelma vagans\n    since: 2014-05-03\n"
    write(folder, INV_0007=animal, INV_0008=animal)
    (folder / "specimens" / f"{stem}.yaml").write_text(animal + "note: fed\n")
    collection = load_collection(folder, TODAY)
    (told,) = [problem for problem in collection.problems if "the same animal" in problem.what]
    assert (told.place.specimen, "INV-0007:" in told.what) == (stem, True)
    assert {specimen.id for specimen in collection.specimens} == {"INV-0007", "INV-0008", stem}


@pytest.mark.parametrize("changed", ["tag: Mex red knee\nacquired: 2014\n", "tag: Mex red rump\nacquired: 2015\n"])
def test_two_animals_are_no_copies(folder: Path, changed: str) -> None:
    write(folder, INV_0007="tag: Mex red rump\nacquired: 2014\n", INV_0007_2=changed, INV_00071="tag: Mex red rump\n")
    assert load_collection(folder, TODAY).problems == ()


@pytest.mark.parametrize("name", [".INV-0008.yaml.icloud", ".inv-0008.YAML.icloud"])
def test_a_file_kept_on_a_server_only_is_told_and_its_id_is_taken(folder: Path, name: str) -> None:
    write(folder, INV_0007="tag: x\n")
    (folder / "specimens" / name).write_bytes(b"bplist00")
    (told,) = load_collection(folder, TODAY).problems
    assert (told.what, told.place.file) == (
        "its file is kept on a server only and is not on this machine", f"specimens/{name}",
    )  # fmt: skip
    assert {taken.casefold() for taken in taken_ids(folder)} == {"inv-0007", "inv-0008"}


def test_what_file_managers_leave_is_nobodys_problem(folder: Path) -> None:
    write(folder, INV_0007="tag: x\n")
    for name in ("desktop.ini", "Desktop.ini", "Thumbs.db", "Icon\r", ".DS_Store"):
        (folder / "specimens" / name).write_bytes(b"x")
    assert load_collection(folder, TODAY).problems == ()


def test_a_folder_that_is_none_is_refused(tmp_path: Path) -> None:
    with pytest.raises(FileError, match="no such folder"):
        load_collection(tmp_path / "typo", TODAY)
    with pytest.raises(FileError, match="leave out the backslash in front"):
        load_collection(tmp_path / 'animals" --json', TODAY)  # "animals\\" --json, as Windows cuts it
    (tmp_path / "file").write_text("x")
    with pytest.raises(FileError, match="a file, not a folder"):
        load_collection(tmp_path / "file", TODAY)


def test_an_empty_folder_is_one_problem(tmp_path: Path) -> None:
    (problem,) = load_collection(tmp_path, TODAY).problems
    assert "no folder specimens" in problem.what


def test_deep_nesting_is_a_problem_and_no_crash(folder: Path) -> None:
    collection = load_collection(write(folder, A="tag: " + "[" * 100_000), TODAY)
    assert len(collection.problems) == 1


@given(st.binary(max_size=200) | st.text("ab:-[]{}\"'|>&*!%@#,? \n\t", max_size=60).map(str.encode))
def test_any_bytes_are_a_node_or_a_fault(content: bytes) -> None:
    with suppress(TextFault):
        node = compose(decode(content)[1])
        assert node is None or line_of_node(node) >= 1


@pytest.mark.parametrize(
    ("path", "words"),
    [
        ("specimens/DIR.yaml", "specimens/DIR.yaml: cannot be read: Is a directory"),
        ("collection.yaml", "collection.yaml: cannot be read: Is a directory"),
        (".namekeeper-digests", ".namekeeper-digests: cannot be read: Is a directory"),
    ],
)
def test_what_cannot_be_read_is_told_and_the_rest_goes_on(folder: Path, path: str, words: str) -> None:
    write(folder, INV_0001="tag: x\n")
    (folder / path).mkdir()
    collection = load_collection(folder, TODAY)
    assert [str(problem).split(" (")[0] for problem in collection.problems] == [words]
    assert len(collection.specimens) == 1


def test_settings_that_are_no_text_are_told(folder: Path) -> None:
    (folder / "collection.yaml").write_bytes(b"title: ok\nlocality: \xff\n")
    (problem,) = load_collection(folder, TODAY).problems
    assert str(problem) == "collection.yaml:2: this is not UTF-8 text (save the file as UTF-8)"


VALUES = {
    "list for date": "tag: x\nacquired: [2014]\n",
    "mapping for entry": "tag: x\nnames: [A b]\n",
    "text for left": "tag: x\nleft: sold\n",
    "list within list": "tag: x\nfrom: [[a]]\n",
    "key that is a list": "tag: x\n[a]: b\n",
    "key of an entry twice": "tag: x\nnames: [{name: a, name: b}]\n",
    "list in an entry": "tag: x\nnames: [{name: [a]}]\n",
    "names as mapping": "tag: x\nnames: {name: a}\n",
}


@pytest.mark.parametrize("text", VALUES.values(), ids=VALUES.keys())
def test_a_value_of_the_wrong_shape_is_one_problem_in_its_line(folder: Path, text: str) -> None:
    (problem,) = load_collection(write(folder, A=text), TODAY).problems
    assert problem.place.line == 2
    assert problem.remedy


def test_empty_values_are_as_if_left_out(folder: Path) -> None:
    text = "tag: x\nacquired:\nsex:\nleft:\nfrom: []\nnames:\ndecisions:\nnote:\n"
    (specimen,) = load_collection(write(folder, A=text), TODAY).specimens
    assert specimen == Specimen("A", Place("specimens/A.yaml", 1, "A"), "x")


@pytest.mark.parametrize("name", ["collection.yaml", "specimens/A.yaml", ".namekeeper-digests"])
def test_a_page_or_sheet_is_never_written_over_a_file_of_a_collection(name: str, tmp_path: Path) -> None:
    own = tmp_path / name
    own.parent.mkdir(exist_ok=True)
    own.write_text("tag: x\n", encoding="utf-8")
    link = tmp_path / "link.pdf"
    link.symlink_to(own)
    for path in (own, link):
        with pytest.raises(InputError, match="own files"):
            write_output(path, b"%PDF")
    assert own.read_text(encoding="utf-8") == "tag: x\n"
    write_output(tmp_path / "labels.pdf", b"%PDF")
    assert (tmp_path / "labels.pdf").read_bytes() == b"%PDF"


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="needs named pipes")
def test_a_named_pipe_among_the_specimens_is_not_waited_for(tmp_path: Path) -> None:
    (tmp_path / "specimens").mkdir()
    os.mkfifo(tmp_path / "specimens" / "A.yaml")
    collection = load_collection(tmp_path, date(2026, 11, 25))
    assert [problem.place.file for problem in collection.problems] == ["specimens/A.yaml"]
