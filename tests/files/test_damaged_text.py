"""Texts that were cut short or damaged (RFC 3629; Unicode, 3.9): the right file and line, and the others go on.

Whatever a file is: a specimen, the settings, a table, a list, tags.
"""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path

import pytest

from tests.conftest import Outcome

Command = Callable[..., Outcome]
SPECIMEN = "tag: x\nnames:\n- name: Brachypelma smithi\nnote: kä\nplace: a\n"
SETTINGS = "title: x\nby: k\n# z\nlocality: kä\n"
ROWS = "id,name,note\nA1,Brachypelma smithi,kä\nA2,Tliltocatl vagans,b\n"
LETTER = "ä".encode()


def whole(text: str) -> bytes:
    return text.encode()


#: What is done to a text, and how many lines of it can be read before that.
DAMAGE: dict[str, tuple[Callable[[str], bytes], int]] = {
    "UTF-16, odd": (lambda text: text.encode("utf-16")[:-1], 1),
    "UTF-16, a mark alone": (lambda _text: b"\xff\xfe", 1),
    "UTF-16 of the other order, a mark alone": (lambda _text: b"\xfe\xff", 1),
    "half a mark of UTF-8": (lambda _text: b"\xef\xbb", 1),
    "cut within a letter": (lambda text: whole(text)[: whole(text).index(LETTER) + 1], 4),
    "half a letter": (lambda text: whole(text).replace(LETTER, b"\xc3"), 4),
    "a surrogate": (lambda text: whole(text).replace(LETTER, b"\xed\xa0\x80"), 4),
    "a letter too long": (lambda text: whole(text).replace(LETTER, b"\xc0\xaf"), 4),
    "NUL": (lambda text: whole(text).replace(LETTER, b"\0"), 4),
    "a surrogate by its number": (lambda text: whole(text).replace("kä".encode(), b'"\\ud800"'), 4),
    "two surrogates by their numbers": (lambda text: whole(text).replace("kä".encode(), b'"\\ud83d\\ude00"'), 4),
    "a number beyond all": (lambda text: whole(text).replace("kä".encode(), b'"\\UFFFFFFFF"'), 4),
}
WHAT = ("this is not UTF-8 text", "has no place in this file", "found invalid Unicode character escape code")


@pytest.fixture
def animals(tmp_path: Path) -> Path:
    folder = tmp_path / "c"
    (folder / "specimens").mkdir(parents=True)
    (folder / "specimens" / "A1.yaml").write_text("names:\n- name: Brachypelma smithi\n", encoding="utf-8")
    return folder


@pytest.mark.parametrize("damage", DAMAGE)
@pytest.mark.parametrize(("name", "text"), [("specimens/BAD.yaml", SPECIMEN), ("collection.yaml", SETTINGS)])
def test_a_damaged_file_of_a_collection_is_told_with_its_line(
    name: str, text: str, damage: str, animals: Path, command: Command
) -> None:
    spoil, line = DAMAGE[damage]
    (animals / name).write_bytes(spoil(text))
    done = command("check", "c", "--offline", "--json")
    assert done.code == 2
    assert [row["specimen"] for row in json.loads(done.out)["results"]] == ["A1"]
    assert done.err.startswith(f"{name}:{line}: "), done.err
    assert any(words in done.err for words in WHAT), done.err


@pytest.mark.parametrize("escape", ["\\0", "\\e[31m", "\\x07", "\\u202e"])
def test_what_is_written_as_an_escape_is_kept_and_never_steers_a_terminal(
    escape: str, animals: Path, command: Command
) -> None:
    """A seller's text may hold anything, and is kept to the letter."""
    (animals / "specimens" / "B.yaml").write_text(f'tag: "Brachypelma{escape} smithi"\n', encoding="utf-8")
    for words in (("check", "c", "--offline"), ("history", "c"), ("labels", "c", "-o", "l.pdf", "--no-record")):
        done = command(*words)
        assert done.code in (0, 1), done.err
        assert not set("\0\x1b\x07\u202e") & {*done.out, *done.err}


TABLES: dict[str, tuple[bytes, str]] = {
    "UTF-16, odd": (ROWS.encode("utf-16")[:-1], "line 3 of the table is no text in utf-16"),
    "UTF-16, half a pair": (
        b"\xff\xfe" + ROWS.encode("utf-16-le").replace("ä".encode("utf-16-le"), b"\x00\xd8"),
        "line 2 of the table is no text in utf-16",
    ),
}


@pytest.mark.parametrize("damage", TABLES)
@pytest.mark.parametrize(
    "words", [("tables", "c", "t.csv", "--write"), ("collection", "import", "c", "t.csv", "--write")]
)
def test_a_table_that_is_damaged_as_a_whole_is_refused_with_its_line(
    words: tuple[str, ...], damage: str, animals: Path, command: Command, tmp_path: Path
) -> None:
    content, told = TABLES[damage]
    (tmp_path / "t.csv").write_bytes(content)
    done = command(*words)
    assert (done.code, told in done.err) == (2, True), done.err
    assert sorted(path.name for path in tmp_path.iterdir() if path.suffix == ".csv") == ["t.csv"]
    assert [path.name for path in (animals / "specimens").iterdir()] == ["A1.yaml"]


@pytest.mark.parametrize("damage", ["half a letter", "a surrogate", "NUL"])
def test_a_damaged_row_is_left_out_and_the_others_come_in(
    damage: str, animals: Path, command: Command, tmp_path: Path
) -> None:
    (tmp_path / "t.csv").write_bytes(DAMAGE[damage][0](ROWS))
    done = command("collection", "import", "c", "t.csv", "--write", "--json")
    document = json.loads(done.out)
    assert [row["row"] for row in document["left"]] == [2]
    assert [row["specimen"] for row in document["imported"]] == ["A2"]


@pytest.mark.parametrize("damage", [*TABLES, "NUL"])
def test_a_damaged_row_of_a_list_is_told_with_its_line(damage: str, command: Command, tmp_path: Path) -> None:
    rows = ROWS.replace("smithi,kä", "smithä,k")
    lone = b"\xff\xfe" + rows.encode("utf-16-le").replace("ä".encode("utf-16-le"), b"\x00\xd8")
    odd = rows.encode("utf-16")[:-3]
    content = {"UTF-16, odd": odd, "UTF-16, half a pair": lone}.get(damage) or DAMAGE[damage][0](rows)
    (tmp_path / "t.csv").write_bytes(content)
    done = command("lists", "add", "t.csv", "--as", "mine", "--json")
    document = json.loads(done.out)
    assert done.code == 1, done.err
    assert [row["line"] for row in document["skipped"]] == [3 if damage == "UTF-16, odd" else 2]
    assert document["names"] == 1


@pytest.mark.parametrize("damage", ["UTF-16, odd", "UTF-16, half a pair"])
def test_tags_in_a_damaged_text_are_refused(damage: str, command: Command, tmp_path: Path) -> None:
    (tmp_path / "tags.txt").write_bytes(TABLES[damage][0])
    done = command("lookup", "--offline", "--from", "tags.txt")
    assert (done.code, "tags.txt: not a text file" in done.err) == (2, True), done.err
