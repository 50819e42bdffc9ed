"""Damaged and hostile files of a keeper's tables: refused in words, never a traceback (contract section 0)."""

from __future__ import annotations

import csv
import io
import json
import zipfile
from collections.abc import Callable
from datetime import date
from pathlib import Path
from random import Random

import pytest

from namekeeper.tables import packed, xml_parts
from namekeeper.tables.delimited import plain_csv
from namekeeper.tables.dwca import as_archive, own_records
from namekeeper.tables.exports import as_csv, from_csv
from namekeeper.tables.open_table import read_table
from namekeeper.tables.published import PRIVATE, Publication
from namekeeper.tables.xml_parts import Element, each, text_edits
from namekeeper.words.errors import InputError
from tests.conftest import Outcome
from tests.tables.samples import ods, xlsx
from tests.tables.test_transfer import described

Command = Callable[..., Outcome]
DEEP = "[" * 100_000  # deeper than the reader of JSON goes
TODAY = date(2026, 11, 25)
#: Everything goes out, so that everything comes back.
ALL = Publication(TODAY, shared=frozenset(PRIVATE))


def damaged(content: bytes, seed: int) -> bytes:
    """Up to three bytes are others."""
    random, altered = Random(seed), bytearray(content)
    for _ in range(random.randint(1, 3)):
        altered[random.randrange(len(altered))] = random.randrange(256)
    return bytes(altered)


def own_or_other(content: bytes) -> object:
    """As an import reads a zip file."""
    return own_records(content) or read_table(content)


@pytest.mark.parametrize(
    ("whole", "read"),
    [
        (as_archive(described(), ALL), own_or_other),
        (ods(), read_table),
        (xlsx(), read_table),
    ],
    ids=["archive", "ods", "xlsx"],
)
def test_single_bytes_that_are_others(whole: bytes, read: Callable[[bytes], object]) -> None:
    refused = 0
    for seed in range(120):
        try:
            read(damaged(whole, seed))
        except InputError as error:
            refused += bool(error.what)
    assert read(whole)
    assert refused > 20, "most damage is seen, and all of it is told in words"


def test_a_directory_that_points_before_the_file_or_asks_for_a_later_version() -> None:
    whole = ods()
    entry = whole.index(b"PK\x01\x02", whole.rindex(b"content.xml") - 60)
    far = whole[: entry + 42] + b"\xff\xff\xff\x7f" + whole[entry + 46 :]  # APPNOTE 4.3.12: offset of local header
    later = whole[: entry + 6] + b"\xff\x00" + whole[entry + 8 :]  # version needed to extract
    for content in (far, later):
        with pytest.raises(InputError):
            read_table(content)


def test_an_archive_that_unpacks_to_too_much_is_refused(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(xml_parts, "_LARGEST_PART", 1 << 20)
    monkeypatch.setattr(packed, "_LARGEST", 1 << 20)
    target = io.BytesIO()
    with zipfile.ZipFile(target, "w", zipfile.ZIP_DEFLATED) as archive:
        archive.writestr("occurrence.csv", "dynamicProperties\n" + "{}\n" * (1 << 20))
    with pytest.raises(InputError, match="unpacks to more than 1 MB"):
        own_or_other(target.getvalue())


def test_json_deeper_than_any_reader_goes_is_a_row_left() -> None:
    header, *rows = csv.reader(io.StringIO(as_csv(described()).decode()))
    rows[0][header.index("names")] = DEEP
    written = io.StringIO()
    csv.writer(written).writerows([header, *rows])
    (sheet,) = read_table(written.getvalue().encode()).sheets
    first, *others = [made for _, made in from_csv(sheet)]
    assert "recursion" in str(first)
    assert not any(isinstance(made, str) for made in others)


def test_a_damaged_memory_of_columns_is_none(tmp_path: Path, command: Command) -> None:
    command("collection", "new", "animals")
    (tmp_path / "t.csv").write_text("tag\nGBB\n", encoding="utf-8")
    for text in ("{", "5", '{"a": 5}', DEEP):
        (tmp_path / "animals" / ".namekeeper-columns").write_text(text, encoding="utf-8")
        assert command("collection", "import", "animals", "t.csv").code == 0


@pytest.mark.parametrize(
    ("inner", "old", "new"), [("A &amp; B", "A & B", "A + B"), ("&#65;us bus", "Aus bus", "Cus bus")]
)
def test_what_stands_there_as_an_entity_is_not_rewritten(inner: str, old: str, new: str) -> None:
    found: list[Element] = []
    part = f"<r><t>{inner}</t></r>".encode()
    each(part, frozenset({"t"}), found.append)
    assert text_edits(part, found, old, new) is None


def test_blanks_at_the_ends_of_a_cell_are_part_of_it() -> None:
    # RFC 4180, 2.4: "Spaces are considered part of a field"
    assert plain_csv(("a",), [(" x ",)]) == b'a\n" x "\n'


def test_a_name_that_is_set_otherwise_than_written_keeps_what_was_written(tmp_path: Path, command: Command) -> None:
    command("collection", "new", "animals")
    (tmp_path / "t.csv").write_text("Species\nBRACHYPELMA vagans\n", encoding="utf-8")
    assert command("collection", "import", "animals", "t.csv", "--write").code == 0
    (made,) = (tmp_path / "animals" / "specimens").iterdir()
    assert "name: Brachypelma vagans\n" in made.read_text()
    assert "as written in the table: BRACHYPELMA vagans" in made.read_text()


def test_a_column_told_now_is_not_also_what_it_was_before(tmp_path: Path, command: Command) -> None:
    command("collection", "new", "animals")
    (tmp_path / "t.csv").write_text("Species,One,Two\nAus bus,x,y\n", encoding="utf-8")
    first = ("--column", "name=Species", "--column", "tag=One", "--column", "note=Two", "--write")
    assert command("collection", "import", "animals", "t.csv", *first).code == 0
    again = command("collection", "import", "animals", "t.csv", "--column", "note=One", "--json")
    assert json.loads(again.out)["columns"] == {"name": "Species", "note": "One"}
