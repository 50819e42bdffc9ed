"""Where SQLite finds an index: on this machine, on a share of a network, below folders of any name."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from pathlib import Path, PureWindowsPath

import pytest

from namekeeper.sources.lists.schema import address_of


@pytest.mark.parametrize(
    ("path", "address"),
    [
        (r"\\server\animals\1.sqlite", "file:////server/animals/1.sqlite?mode=ro&immutable=1"),
        (r"C:\My animals\Ä#1.sqlite", "file:///C:/My%20animals/%C3%84%231.sqlite?mode=ro&immutable=1"),
    ],
)
def test_paths_of_windows(path: str, address: str) -> None:
    """A host in the address is refused by SQLite (sqlite.org/uri.html, 3.1): a share stands behind an empty one."""
    assert address_of(PureWindowsPath(path)) == address


@pytest.mark.parametrize("name", ["a b", "x#y", "50%", "ä?", "'quoted'", "&mode=rwc"])
def test_a_file_of_any_name_is_opened_and_not_written(name: str, tmp_path: Path) -> None:
    (tmp_path / name).mkdir()
    place = tmp_path / name / "1.sqlite"
    with closing(sqlite3.connect(place)) as database:
        database.execute("CREATE TABLE t (x)")
    with closing(sqlite3.connect(address_of(place), uri=True)) as database:
        assert database.execute("SELECT count(*) FROM t").fetchone() == (0,)
        with pytest.raises(sqlite3.OperationalError, match="readonly"):
            database.execute("INSERT INTO t VALUES (1)")
