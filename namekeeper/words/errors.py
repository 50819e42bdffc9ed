"""What went wrong, where, and what to do: one root exception, and the same three facts as a value."""

from __future__ import annotations

import os
from typing import NamedTuple


class Place(NamedTuple):
    """Where something stands: a file, a line in it (from 1), a specimen; each may be unknown."""

    file: str | None = None
    line: int | None = None
    specimen: str | None = None

    def __str__(self) -> str:
        if self.file is None:
            return self.specimen or ""
        return self.file if self.line is None else f"{self.file}:{self.line}"


NOWHERE = Place()


class Problem(NamedTuple):
    """Something wrong that does not stop the rest: what, where, and the remedy."""

    what: str
    remedy: str
    place: Place = NOWHERE

    def __str__(self) -> str:
        return line_of(self.what, self.place, self.remedy)


class NamekeeperError(Exception):
    """Root of all errors that a user may see; carries what, where and what to do. Exit code 2."""

    exit_code = 2

    def __init__(self, what: str, *, remedy: str = "", place: Place = NOWHERE) -> None:
        super().__init__(what)
        self.what = what
        self.remedy = remedy
        self.place = place

    def __str__(self) -> str:
        return line_of(self.what, self.place, self.remedy)

    def as_problem(self) -> Problem:
        return Problem(self.what, self.remedy, self.place)


class InputError(NamekeeperError):
    """What the user typed or a file they gave is wrong."""


class FileError(NamekeeperError):
    """A file or folder cannot be read or written."""


def file_error(error: OSError) -> FileError:
    """What a system says of a file that no job expected to fail, with the file where it names one."""
    name = error.filename
    place = NOWHERE if name is None or isinstance(name, int) else Place(os.fsdecode(name))
    what = f"a file cannot be read or written: {error.strerror or error}"
    remedy = "see that it and its folder may be read and written, and that the disk is well"
    return FileError(what, remedy=remedy, place=place)


class MissingLibraryError(NamekeeperError):
    """A library of the system or of Python that this one job needs is not installed."""


def line_of(what: str, place: Place, remedy: str) -> str:
    """One line: ``place: what. Remedy.`` with the parts that are known."""
    head = f"{place}: " if str(place) else ""
    if place.file is not None and place.specimen and place.specimen not in place.file:
        head += f"{place.specimen}: "
    return f"{head}{what}" + (f" ({remedy})" if remedy else "")
