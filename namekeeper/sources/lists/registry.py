"""Which lists stand on this machine, and which edition of each is in use: a file beside the editions names it."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import ExitStack, closing, contextmanager, suppress
from pathlib import Path

from namekeeper import resources
from namekeeper.evidence.interfaces import NameList
from namekeeper.files.places import Places
from namekeeper.files.reading import read_file
from namekeeper.sources.lists.index_reader import IndexList
from namekeeper.sources.lists.starter import open_starter
from namekeeper.words.dates import PartialDate
from namekeeper.words.errors import FileError

POINTER = "current"
SUFFIX = ".sqlite"


@contextmanager
def open_lists(places: Places, notice: Callable[[str], None]) -> Iterator[tuple[NameList, ...]]:
    """The starter list and every added list, each in the edition in use, open until the block ends.

    A list that cannot be read says so when asked.

    :raises FileError: if the starter list is missing: the installation is broken.
    """
    with ExitStack() as opened:
        lists: list[NameList] = [opened.enter_context(closing(starter(places, notice)))]
        for key, place in indexes_in_use(places.data):
            try:
                lists.append(opened.enter_context(closing(IndexList.open(place))))
            except FileError as error:
                from namekeeper.sources.lists.unreadable import UnreadableList

                notice(str(error))
                lists.append(UnreadableList(key, error))
        yield tuple(lists)


@contextmanager
def earlier_editions(places: Places) -> Iterator[tuple[NameList, ...]]:
    """Dated editions of added lists that are older than the one in use: evidence for names that this one lacks.

    An edition that cannot be read is left out: it is not in use.
    """
    with ExitStack() as opened:
        found: list[NameList] = []
        for key, current in indexes_in_use(places.data):
            others = sorted((places.data / "lists" / key).glob(f"*{SUFFIX}"))
            others = [place for place in others if place != current and not place.name.startswith(".")]
            with suppress(FileError):
                dated = _dated(current) if others else None
                for place in others if dated else ():
                    earlier = _dated(place)
                    if dated and earlier and earlier.latest < dated.earliest:
                        found.append(opened.enter_context(closing(IndexList.open(place))))
        yield tuple(found)


def _dated(index: Path) -> PartialDate | None:
    with closing(IndexList.open(index)) as opened:
        return opened.edition.dated


def starter(places: Places, notice: Callable[[str], None]) -> IndexList:
    """The list that comes with the program.

    :raises FileError: if it is missing: the installation is broken.
    """
    return open_starter(resources.data("starter"), places.cache, notice)


def indexes_in_use(data: Path) -> Iterator[tuple[str, Path]]:
    """Key and index of every added list, by key; the pointer where that cannot be read, so that the list is told."""
    folder = data / "lists"
    if folder.is_dir():
        for own in sorted(folder.iterdir()):
            try:
                slug = slug_in_use(own)
            except OSError:
                yield own.name, own / POINTER
                continue
            if slug:
                yield own.name, own / f"{slug}{SUFFIX}"


def slug_in_use(folder: Path) -> str | None:
    """The edition that the pointer in a list's folder names; None if there is none.

    :raises OSError: if it cannot be read, since without it a list would be left out of every answer in silence.
    """
    try:
        return read_file(folder / POINTER).decode(errors="replace").strip() or None  # no such edition is told
    except (FileNotFoundError, NotADirectoryError):
        return None
