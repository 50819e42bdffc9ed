"""What a command writes for the keeper to take away: nothing that is there is replaced but what it wrote there itself.

What was written is remembered in the state folder, by path, kind and digest; a file that was changed since is the
keeper's.
"""

from __future__ import annotations

import hashlib
import os
from dataclasses import dataclass
from enum import StrEnum, unique
from pathlib import Path

from namekeeper.files.memory import recall, remember
from namekeeper.files.reading import LARGEST, read_file
from namekeeper.outside import Outside, Remark, RemarkKind
from namekeeper.storage import collection_folder
from namekeeper.words.errors import FileError, InputError, Place

_MEMORY = "outputs.json"  # in the state folder: kind and digest of what was written, by real path
_REMEMBERED = 1000  # files at most, the newest


@unique
class OutputKind(StrEnum):
    """What a file is; one kind never takes the place of another unasked."""

    LABELS = "labels"
    PICTURE = "picture of labels"
    TEST_PAGE = "test page"
    REPORT = "report"
    COMPARISON = "comparison of lists"
    EXPORT = "export"
    STOCK = "stock"
    POCKET = "pocket file"


@dataclass(frozen=True, slots=True)
class Output:
    """A place for what a command writes; with ``replace`` whatever is there may go."""

    path: Path
    kind: OutputKind
    outside: Outside
    replace: bool = False

    @property
    def place(self) -> Path:
        """The path from the folder in which the keeper is."""
        return self.outside.folder / self.path

    def check(self) -> None:
        """To be called before the work that leads to the file.

        :raises InputError: if a file is there that is not this command's own earlier output, or if the place belongs to
            a collection.
        """
        place = self.place
        collection_folder.refuse_own_place(place)
        if self.replace or not os.path.lexists(place):
            return
        if place.is_dir():
            raise InputError("this is a folder", remedy="give the name of a file in it", place=Place(str(self.path)))
        written = _remembered(self.outside).get(_key(place))
        what = "there is a file already, which was not written by this command"
        if written is not None and written[0] == self.kind:
            if written[1] == _digest_of(place):
                return
            what = "this was written by this command, and changed since"
        raise InputError(what, remedy="give another name, or --replace", place=Place(str(self.path)))

    def write(self, content: bytes | str) -> None:
        """Write the file, whole or not at all, and remember that it is ours.

        :raises InputError: as :meth:`check`.
        :raises FileError: if it cannot be written.
        """
        self.check()
        raw = content.encode() if isinstance(content, str) else content
        collection_folder.write_output(self.place, raw)
        known = {key: said for key, said in _remembered(self.outside).items() if os.path.exists(key)}  # noqa: PTH110
        known.pop(_key(self.place), None)
        known[_key(self.place)] = (str(self.kind), hashlib.sha256(raw).hexdigest())
        try:
            remember(self.outside.places.state / _MEMORY, dict(list(known.items())[-_REMEMBERED:]))
        except FileError as fault:
            self.outside.notice(Remark(RemarkKind.NOT_KEPT_AS_OURS, (str(fault),)))


def _key(place: Path) -> str:
    return os.path.realpath(place)


def _digest_of(place: Path) -> str:
    try:
        return hashlib.sha256(read_file(place, LARGEST)).hexdigest()
    except OSError:
        return ""


def _remembered(outside: Outside) -> dict[str, tuple[str, str]]:
    """Kind and digest by path; nothing where the memory is damaged."""
    try:
        known = recall(outside.places.state / _MEMORY)
    except FileError:
        return {}
    rows = known.items() if isinstance(known, dict) else ()
    return {key: (str(row[0]), str(row[1])) for key, row in rows if isinstance(row, list) and len(row) == 2}
