"""Nothing opens a file but by the guarded reading (``files/reading.py``): the code is read for whatever else could."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from types import MappingProxyType

from tests.test_layers import PACKAGE, modules

#: Who else opens something, what, and why that is no file which somebody may have put there.
OPENS = MappingProxyType(
    {
        "files/reading": {"os.open"},
        "files/file_layer": {"os.open", "os.fdopen"},  # writes a file that was not there; reads through files/reading
        "files/zipped": {"zipfile.ZipFile"},  # of bytes, or of a file that is known to be a regular one
        "files/processes": {".read_text"},  # what the system tells of its processes
        "tables/xml_parts": {"zipfile.ZipFile"},  # in memory
        "tables/dwca": {"zipfile.ZipFile"},  # in memory
        "labels/pictures": {".open"},  # in memory
        "tasks/tags": {".open"},  # lookup --from: a pipe is welcome, and what it brings is limited
        "tasks/demo": {"shutil.copytree"},  # our own sample
        "sources/lists/index_writer": {"sqlite3.connect"},  # makes one under a name of its own
        "sources/lists/index_reader": {"sqlite3.connect"},  # a regular file, and nothing beside it
        "sources/lists/compare": {"sqlite3.connect"},  # the same, already open as a list
        "sources/lists/coldp_entities": {"sqlite3.connect"},  # no file
        "faces/terminal": {"os.open", "io.FileIO"},  # the null device
        "faces/cli/main": {"os.open"},  # the null device
        # What comes with the package.
        "labels/sheet_list": {".read_text"},
        "sources/lists/starter": {".read_bytes"},
        "sources/lists/starter_rows": {".read_text", ".open"},
        "faces/cli/completion": {".read_text"},
        "faces/telling/pages": {".read_text", ".read_bytes"},
        "faces/telling/pocket": {".read_text"},
    }
)
#: Things of ours, of a zip archive and of the browser that are opened, and are no paths.
NO_PATHS = frozenset({"IndexList", "TagDesk", "SettleDesk", "LabelDesk", "KeptVerdicts", "desk", "keep", "keeping"}) | {
    "archive", "_archive", "zip", "self", "webbrowser"
}  # fmt: skip
MODULES = frozenset({"os", "io", "shutil", "zipfile", "sqlite3", "tarfile", "gzip", "bz2", "lzma", "codecs", "mmap"})
OPENERS = frozenset({"open", "fdopen", "FileIO", "ZipFile", "connect", "copytree", "copyfile", "copy", "copy2", "mmap"})
OF_PATHS = frozenset({"open", "read_text", "read_bytes", "write_text", "write_bytes"})


def openings(tree: ast.AST) -> Iterator[str]:
    """Every call by which a file could be opened: ``open``, those of the standard library, those of paths."""
    for node in ast.walk(tree):
        if not isinstance(node, ast.Call):
            continue
        called = node.func
        if isinstance(called, ast.Name) and called.id == "open":
            yield "open"
        if not isinstance(called, ast.Attribute):
            continue
        owner = called.value
        name = owner.id if isinstance(owner, ast.Name) else owner.attr if isinstance(owner, ast.Attribute) else ""
        if name in MODULES:
            if called.attr in OPENERS:
                yield f"{name}.{called.attr}"
        elif called.attr in OF_PATHS and not (called.attr == "open" and name in NO_PATHS):
            yield f".{called.attr}"


def test_nothing_else_opens_a_file() -> None:
    found = {}
    for path in modules():
        opened = set(openings(ast.parse(path.read_text(encoding="utf-8"))))
        if opened:
            found[path.relative_to(PACKAGE).with_suffix("").as_posix()] = opened
    assert found == dict(OPENS)


def test_an_opening_is_seen() -> None:
    """The walk itself: each of these would be one more way in."""
    ways = (
        *("open(p)", "io.open(p)", "os.open(p, 0)", "Path(p).open()", "(a / b).read_text()", "self.place.read_bytes()"),
        *("codecs.open(p)", "gzip.open(p)", "shutil.copyfile(a, b)", "a.path.open('rb')", "made().open()"),
    )
    assert [way for way in ways if not list(openings(ast.parse(way)))] == []
    assert [way for way in ("desk.open()", "IndexList.open(p)") if list(openings(ast.parse(way)))] == []
