"""A list in a file, whatever its format: what every reader of list files has, is given, and leaves out."""

from __future__ import annotations

import re
from abc import ABC, abstractmethod
from collections import Counter
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

from namekeeper.sources.lists.incoming import AreaRow, CommonRow, RelationRow, UsageRow

if TYPE_CHECKING:  # a look-up reads this module and opens no file of a list
    from namekeeper.files.archive import Archive
    from namekeeper.files.delimited import TableStyle

#: Enough to see what is wrong with a file; a file of a million bad lines must not fill memory.
LISTED = 1000
#: What tells one row from another in a reason: texts in quotes, and numbers.
_OF_THE_ROW = re.compile(r"'[^']*'|\"[^\"]*\"|\b\d+\b")


class Skip(NamedTuple):
    """One thing left out: ``line`` from 1 in ``file``, 0 where no line can be named."""

    line: int
    why: str
    file: str = ""


@dataclass(slots=True)
class Skips:
    """Collects what a reader and the writer leave out, counted in full and listed up to a bound."""

    count: int = 0
    listed: list[Skip] = field(default_factory=list)
    fault_count: int = 0
    faults: list[Skip] = field(default_factory=list)  # of rows that are kept
    reasons: Counter[str] = field(default_factory=Counter)  # of what is left out, alike but for the row
    fault_reasons: Counter[str] = field(default_factory=Counter)

    def add(self, line: int, why: str, file: str = "") -> None:
        self.count += 1
        self.reasons[_OF_THE_ROW.sub("…", why)] += 1
        if len(self.listed) < LISTED:
            self.listed.append(Skip(line, why, file))

    def tell(self, line: int, fault: str) -> None:
        """A fault of the list's own in a row that is kept all the same."""
        self.fault_count += 1
        self.fault_reasons[_OF_THE_ROW.sub("…", fault)] += 1
        if len(self.faults) < LISTED:
            self.faults.append(Skip(line, fault))


@dataclass(frozen=True, slots=True)
class Described:
    """Title, edition and terms as the file gives them; None where it is silent."""

    title: str | None = None
    edition: str | None = None
    dated: str | None = None
    licence: str | None = None
    citation: str | None = None
    link: str | None = None


class ListFile(ABC):
    """A list in a file, streamed in any order and as often as asked; what cannot be used goes to its skips."""

    #: How a table was understood: header by field, and how it is written; nothing for what declares itself.
    shown_columns: Mapping[str, str] = {}
    style: TableStyle | None = None

    @abstractmethod
    def usages(self) -> Iterator[UsageRow]:
        """Names."""

    def described(self) -> Described:
        """What the file says of itself."""
        return Described()

    def commons(self) -> Iterator[CommonRow]:
        """Common names."""
        return iter(())

    def areas(self) -> Iterator[AreaRow]:
        """Native areas."""
        return iter(())

    def relations(self) -> Iterator[RelationRow]:
        """Relations of names."""
        return iter(())

    def close(self) -> None:  # noqa: B027 - most keep nothing
        """Let go of what was kept at hand beside the file."""


@dataclass(frozen=True, slots=True)
class FileAtHand:
    """The file a reader is asked about; ``archive`` is open if it is a zip archive.

    ``encoding`` is that of a table, where the keeper names it.
    """

    path: Path
    archive: Archive | None
    encoding: str = ""


@dataclass(frozen=True, slots=True)
class ListReader:
    """A format in which lists come; each is one module and one line in ``adding.READERS``.

    :param key: names its example, tests/lists/examples/KEY (a folder, to be packed) or KEY.SUFFIX.
    :param kind: what a list of it is called: "ColDP archive"; ``called`` is the same where the files are named that it
        takes: "a ColDP archive".
    :param opened: the list in a file, or None if the file is of another format; given the headers by field that the
        keeper named (none unless ``takes_columns``). Raises InputError if it is of this format and broken or dangerous.
    :param sign: of an archive, what the others lack: "no meta.xml".
    """

    key: str
    kind: str
    called: str
    opened: Callable[[FileAtHand, Mapping[str, str], Skips], ListFile | None]
    sign: str = ""
    takes_columns: bool = False
