"""What is packed in another way is told by name, and never taken for damaged or for a table of odd letters."""

from __future__ import annotations

import bz2
import gzip
import lzma
import zipfile
from collections.abc import Callable
from pathlib import Path

import pytest

from namekeeper.files.packing import METHODS
from tests.conftest import Outcome

Command = Callable[..., Outcome]
TABLE = b"name\nTliltocatl vagans\n"
#: RFC 8878, 3.1.1: a frame of one raw block; 7-Zip and RAR by their first bytes alone.
PACKED = {
    "gzip": gzip.compress(TABLE),
    "bzip2": bz2.compress(TABLE),
    "xz": lzma.compress(TABLE),
    "zstd": b"\x28\xb5\x2f\xfd\x20" + bytes([len(TABLE), 1 | len(TABLE) << 3 & 255, len(TABLE) >> 5, 0]) + TABLE,
    "7z": b"7z\xbc\xaf\x27\x1c\x00\x04xxxxxxxxxxxxxxxx",
    "RAR": b"Rar!\x1a\x07\x01\x00xxxxxxxxxxxxxxxx",
}


@pytest.mark.parametrize("packer", PACKED)
def test_a_packed_table_is_told_by_its_packer(packer: str, tmp_path: Path, command: Command) -> None:
    (tmp_path / "names.csv").write_bytes(PACKED[packer])
    command("collection", "new", "animals")
    for words in (
        ("lists", "add", "names.csv", "--as", "x"),
        ("collection", "import", "animals", "names.csv"),
        ("tables", "animals", "names.csv"),
    ):
        done = command(*words)
        assert (done.code, done.out) == (2, "")
        assert f"packed by {packer}, which is not unpacked here" in done.err
        assert "unpack it first" in done.err


def by_another_method(path: Path, method: int) -> None:
    """An archive whose members say that they are packed in this way (PKWARE APPNOTE.TXT, 4.3.7 and 4.3.12)."""
    with zipfile.ZipFile(path, "w") as archive:
        archive.writestr("names.csv", TABLE)
    content = bytearray(path.read_bytes())
    for signature, offset in ((b"PK\x03\x04", 8), (b"PK\x01\x02", 10)):
        at = content.find(signature) + offset
        content[at : at + 2] = method.to_bytes(2, "little")
    path.write_bytes(content)


@pytest.mark.parametrize("method", [9, 95, 98])
def test_a_member_packed_in_a_way_without_a_library_is_told(method: int, tmp_path: Path, command: Command) -> None:
    by_another_method(tmp_path / "a.zip", method)
    command("collection", "new", "animals")
    for words in (("lists", "add", "a.zip", "--as", "x"), ("collection", "import", "animals", "a.zip")):
        done = command(*words)
        assert (done.code, done.out) == (2, "")
        assert f"names.csv is packed by {METHODS[method]}, which is not unpacked here" in done.err


@pytest.mark.skipif(hasattr(zipfile, "ZIP_ZSTANDARD"), reason="this Python unpacks zstd")
def test_zstd_in_an_archive_is_told_where_there_is_no_library(tmp_path: Path, command: Command) -> None:
    by_another_method(tmp_path / "a.zip", 93)
    done = command("lists", "add", "a.zip", "--as", "x")
    assert (done.code, done.out) == (2, "")
    assert "names.csv is packed by zstd, which is not unpacked here: pack it anew as an ordinary zip" in done.err


def test_zstd_in_an_archive_is_read_where_there_is_one(tmp_path: Path, command: Command) -> None:
    pytest.importorskip("compression.zstd", reason="comes with Python 3.14")
    with zipfile.ZipFile(tmp_path / "a.zip", "w", vars(zipfile)["ZIP_ZSTANDARD"]) as archive:
        archive.writestr("names.csv", TABLE)
    assert command("lists", "add", "a.zip", "--as", "x").code == 0
