"""Builds an index: rows are streamed into a file beside the place, which takes the place only when all is well."""

from __future__ import annotations

import json
import sqlite3
from collections.abc import Iterable, Iterator
from contextlib import suppress
from pathlib import Path
from types import TracebackType
from typing import Self, TypeVar

from namekeeper.evidence.statements import Edition
from namekeeper.files.file_layer import part_of, put_in_place, remove_own
from namekeeper.sources.lists import linking, schema
from namekeeper.sources.lists.folding import common_words, folded
from namekeeper.sources.lists.incoming import ActRow, AreaRow, CommonRow, FactRow, RelationRow, UsageRow
from namekeeper.sources.lists.list_file import Skips
from namekeeper.sources.lists.name_rows import NameRows, Progress
from namekeeper.words.errors import FileError, InputError, Place

_BATCH = 10_000
_LOOK_UP_AFTER = 1_000_000  # steps of the database's machine between two looks at whether the keeper wishes to stop
_LINKING = "names, linking and indexing"
_Row = TypeVar("_Row")


def no_progress(done: int, total: int | None, note: str = "") -> None:
    """Progress for those who do not watch."""


class IndexWriter:
    """A context: rows go in, :meth:`finish` puts the index in place. Whatever ends the block before leaves no trace.

    :raises FileError: if the folder cannot be written or the disk is full.
    """

    def __init__(self, place: Path, skips: Skips | None = None, progress: Progress = no_progress) -> None:
        self.place = place
        self.skips = Skips() if skips is None else skips
        self._progress = progress
        self._part = part_of(place)
        self._done = 0
        self._stopped: BaseException | None = None

    def __enter__(self) -> Self:
        try:
            self.place.parent.mkdir(parents=True, exist_ok=True)
            self._database = sqlite3.connect(self._part, isolation_level=None)
            self._database.execute("PRAGMA journal_mode = OFF")
            self._database.execute("PRAGMA synchronous = OFF")
            self._database.execute("PRAGMA locking_mode = EXCLUSIVE")
            self._database.execute("PRAGMA cache_size = -32768")
            self._database.set_progress_handler(self._still_wished, _LOOK_UP_AFTER)
            self._database.execute("BEGIN")
            for statement in filter(str.strip, schema.TABLES.split(";\n")):
                self._database.execute(statement)
        except (OSError, sqlite3.Error) as error:
            self._discard()
            raise self._not_written(error) from error
        self._sources = schema.Interned(self._database, "INSERT INTO source (id, citation, link) VALUES (?, ?, ?)")
        self._names = NameRows(self._database, self._sources, self.skips)
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self._discard()
        if isinstance(error, sqlite3.Error) and (self._stopped or str(error) == "interrupted"):
            raise self._stopped or KeyboardInterrupt from None
        if isinstance(error, sqlite3.Error | OSError):
            raise self._not_written(error) from error

    def usages(self, rows: Iterable[UsageRow]) -> None:
        """Names with their standing."""
        self._names.insert(rows, self._progress)

    def commons(self, rows: Iterable[CommonRow]) -> None:
        """Common names; of taxa that are not in the list they are left out when the index is finished."""
        self._database.executemany(
            "INSERT INTO common (text, language, kind, sorted, joined, key, taxon, source, memory, line, usual)"
            " VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)",
            self._common_values(self._watched(rows, "common names")),
        )

    def areas(self, rows: Iterable[AreaRow]) -> None:
        """Native areas, by identifier."""
        self._database.executemany(
            "INSERT INTO area (key, area, line) VALUES (?, ?, ?)",
            ((row.key, row.area, row.line) for row in self._watched(rows, "areas") if row.key and row.area),
        )

    def acts(self, rows: Iterable[ActRow]) -> None:
        """Published acts between names."""
        self._database.executemany(
            "INSERT INTO act (old, new, kind, year, source, memory) VALUES (?, ?, ?, ?, ?, ?)",
            (
                (
                    folded(row.old), folded(row.new), row.kind, row.year,
                    self._sources.of(row.citation, row.link), int(row.confidence == "memory"),
                )
                for row in rows
            ),
        )  # fmt: skip

    def relations(self, rows: Iterable[RelationRow]) -> None:
        """Relations of names by identifier."""
        self._database.executemany(
            "INSERT INTO relation (key, related, kind, source) VALUES (?, ?, ?, ?)",
            (
                (row.key, row.related, row.kind, self._sources.of(row.citation, ""))
                for row in self._watched(rows, "relations of names")
            ),
        )

    def facts(self, rows: Iterable[FactRow]) -> None:
        """Everything else."""
        self._database.executemany(
            "INSERT INTO fact (kind, key, content, source, memory) VALUES (?, ?, ?, ?, ?)",
            (
                (
                    row.kind, row.key, json.dumps(row.values, ensure_ascii=False),
                    self._sources.of(row.citation, row.link), int(row.confidence == "memory"),
                )
                for row in rows
            ),
        )  # fmt: skip

    def finish(self, edition: Edition, origin: str = "", *, similar: bool = True) -> int:
        """Link, index, check and put in place; returns the number of names.

        :param origin: digest or description of what the index was built from.
        :param similar: False leaves out what only similar spelling needs.
        :raises InputError: if nothing in the list can be used.
        """
        self._done = self._names.count
        self._progress(self._done, None, _LINKING)
        count = linking.link(self._database, self.skips, self._names.columns, similar=similar)
        self._require_animals(count)
        self._database.executemany("INSERT INTO meta VALUES (?, ?)", _meta(edition, origin, count))
        self._database.execute(f"PRAGMA application_id = {schema.APPLICATION}")
        self._database.execute(f"PRAGMA user_version = {schema.FORMAT}")
        self._database.execute("COMMIT")
        self._database.close()
        put_in_place(self._part, self.place)
        return count

    def _require_animals(self, count: int) -> None:
        if not count:
            raise InputError(
                "no usable name in it",
                remedy=_first_of(self.skips),
                place=Place(self.place.name.removesuffix(".sqlite")),
            )
        if self._names.kingdoms and not self._names.kingdoms & {"animalia", "metazoa"}:
            kingdoms = ", ".join(sorted(self._names.kingdoms))
            message = f"no animal in it: all its names are of {kingdoms}"
            raise InputError(message, remedy="choose a list of animals")

    def _common_values(self, rows: Iterable[CommonRow]) -> Iterator[tuple[object, ...]]:
        for row in rows:
            words = common_words(row.text)
            if not words:
                self.skips.add(row.line, f"common name {row.text!r} holds no word")
                continue
            yield (
                " ".join(row.text.split()), row.language or "und", row.kind, " ".join(sorted(words)), "".join(words),
                row.key, folded(row.taxon), self._sources.of(row.citation, row.link),
                int(row.confidence == "memory"), row.line, int(row.usual),
            )  # fmt: skip

    def _watched(self, rows: Iterable[_Row], what: str) -> Iterator[_Row]:
        done = 0
        for done, row in enumerate(rows, 1):
            yield row
            if done % _BATCH == 0:
                self._progress(done, None, what)

    def _still_wished(self) -> int:
        """Asked by the database amid a long statement; anything but 0 ends it, and what is raised here it swallows."""
        try:
            if self._done:
                self._progress(self._done, None, _LINKING)
        except BaseException as stop:
            self._stopped = stop
            return 1
        return 0

    def _discard(self) -> None:
        if hasattr(self, "_database"):
            self._database.close()
        with suppress(OSError):
            remove_own(self._part)

    def _not_written(self, error: Exception) -> FileError:
        return FileError(
            f"the index cannot be written: {error}",
            remedy="make room on the disk or check the rights of the folder",
            place=Place(str(self.place)),
        )


def _first_of(skips: Skips) -> str:
    if not skips.listed:
        return "the file holds no rows"
    first = skips.listed[0]
    return f"{skips.count} left out, the first: line {first.line}: {first.why}"


def _meta(edition: Edition, origin: str, count: int) -> list[tuple[str, str]]:
    texts = {
        "source": edition.source,
        "title": edition.title,
        "upstream": edition.upstream,
        "edition": edition.edition,
        "dated": None if edition.dated is None else str(edition.dated),
        "licence": edition.licence,
        "citation": edition.citation,
        "link": edition.link,
        "complete_for": "\n".join(edition.complete_for),
        "origin": origin,
        "names": str(count),
    }
    return [(name, value) for name, value in texts.items() if value]
