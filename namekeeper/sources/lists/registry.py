"""Which lists stand on this machine, and which edition of each is in use."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Protocol

from namekeeper import resources
from namekeeper.evidence.interfaces import NameList
from namekeeper.sources.lists.in_use import indexes_in_use
from namekeeper.sources.lists.index_reader import IndexList
from namekeeper.sources.lists.starter import open_starter
from namekeeper.words.errors import FileError


class ListPlaces(Protocol):
    """The folders that lists need of ``storage.places.Places``."""

    @property
    def cache(self) -> Path: ...

    @property
    def data(self) -> Path: ...


def open_lists(places: ListPlaces, notice: Callable[[str], None]) -> tuple[NameList, ...]:
    """The starter list and every added list, each in the edition in use; a list that cannot be read says so when asked.

    :raises FileError: if the starter list is missing: the installation is broken.
    """
    lists: list[NameList] = [starter(places, notice)]
    for key, place in indexes_in_use(places.data):
        try:
            lists.append(IndexList.open(place))
        except FileError as error:
            from namekeeper.sources.lists.unreadable import UnreadableList

            notice(str(error))
            lists.append(UnreadableList(key, error))
    return tuple(lists)


def starter(places: ListPlaces, notice: Callable[[str], None]) -> IndexList:
    """The list that comes with the program.

    :raises FileError: if it is missing: the installation is broken.
    """
    return open_starter(resources.data("starter"), places.cache, notice)
