"""Which lists and services a job uses."""

from __future__ import annotations

from collections.abc import Callable

from namekeeper.evidence.interfaces import NameList
from namekeeper.files.places import Places
from namekeeper.sources.lists.registry import open_lists


def local_lists(places: Places, notice: Callable[[str], None]) -> tuple[NameList, ...]:
    """The starter list and every list that was added, ready to be asked."""
    return open_lists(places, notice)
