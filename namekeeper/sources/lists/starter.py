"""The starter list: compiled from the package's tables into the keeper's cache, again whenever the tables change."""

from __future__ import annotations

import sys
from collections.abc import Callable
from functools import partial
from pathlib import Path

from namekeeper.sources.lists import schema
from namekeeper.sources.lists.index_reader import IndexList
from namekeeper.words.errors import FileError, Place


def open_starter(tables: Path, cache: Path, notice: Callable[[str], None]) -> IndexList:
    """The starter list as an index.

    The index is named by a digest of the tables, so an index of other tables is never opened, two processes that
    compile at once replace each other's file by an equal one, and a change of the tables needs no clock. Where the
    cache cannot be written, the index is built in a temporary folder that goes with the process.

    :raises FileError: if the tables are missing or broken.
    """
    name = f"starter-{digest(tables)}.sqlite"
    place = cache / "lists" / name
    try:
        return IndexList.open(place)
    except FileError:
        pass
    try:
        _compile(tables, place)
        _forget_others(place)
        return IndexList.open(place)
    except FileError as error:
        if not _is_about(error, cache):
            raise
        notice(f"{error.what}; the starter list is made ready for this run alone")
    import shutil
    import tempfile

    folder = tempfile.mkdtemp(prefix="namekeeper-")
    place = Path(folder) / name
    _compile(tables, place)
    return IndexList.open(place, partial(shutil.rmtree, folder, ignore_errors=True))


def digest(tables: Path) -> str:
    """Check sums of the tables, of the index format and of the Unicode data that the keys depend on.

    It tells changes apart, not attacks, so it is made of sums that cost no start-up time.
    """
    import unicodedata
    import zlib

    parts = [zlib.crc32(f"{schema.FORMAT} {unicodedata.unidata_version} {sys.version_info[:2]}".encode())]
    try:
        for path in sorted(tables.iterdir()):
            if path.suffix in (".csv", ".yaml"):
                content = path.read_bytes()
                parts += (zlib.crc32(path.name.encode()), len(content), zlib.crc32(content))
    except OSError as error:
        message = f"the starter list cannot be read: {error}"
        raise FileError(message, remedy="install namekeeper again", place=Place(str(tables))) from error
    whole = repr(parts).encode()
    return f"{zlib.crc32(whole):08x}{zlib.adler32(whole):08x}"


def _compile(tables: Path, place: Path) -> None:
    from namekeeper.sources.lists.index_writer import IndexWriter
    from namekeeper.sources.lists.starter_rows import StarterTables

    starter = StarterTables(tables)
    with IndexWriter(place) as writer:
        writer.usages(starter.usages())
        writer.commons(starter.commons())
        writer.acts(starter.acts())
        writer.facts(starter.facts())
        writer.finish(starter.edition(), place.stem)


def _forget_others(place: Path) -> None:
    """Indexes of earlier tables; one that is still open elsewhere goes when it is closed."""
    for other in place.parent.glob("starter-*.sqlite"):
        if other != place:
            try:
                other.unlink()  # at once: it can wait until the next tables come
            except OSError:
                return


def _is_about(error: FileError, folder: Path) -> bool:
    return str(error.place).startswith(str(folder))
