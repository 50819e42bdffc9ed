"""Rows on their way into an index: what every reader of a list hands over."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from typing import NamedTuple


class UsageRow(NamedTuple):
    """One name as a list prints it; every field is text as it stands there, empty where it says nothing.

    ``key`` is the list's own identifier. An accepted name is found by ``accepted_key``, else by ``accepted_name``.
    ``status`` is any of the words that Darwin Core, ColDP and zoologists use; empty means accepted.
    """

    line: int
    key: str
    name: str
    authorship: str = ""
    rank: str = ""
    status: str = ""
    accepted_key: str = ""
    accepted_name: str = ""
    parent_key: str = ""
    original_genus: str = ""
    original_key: str = ""  # the usage of the original combination (basionym)
    range: str = ""
    family: str = ""
    order: str = ""
    class_: str = ""
    kingdom: str = ""
    code: str = ""  # nomenclatural code
    name_status: str = ""  # status by the Code, such as "nomen dubium"
    remarks: str = ""
    citation: str = ""
    link: str = ""
    confidence: str = "verified"
    as_of: str = ""  # year up to which the source of the status was followed
    revised: str = ""  # year of a newer revision of the genus that the list knows


#: Makes a usage of a tuple of its fields, without the checks of ``_make``: this runs once for every name.
usage_row: Callable[[tuple[str | int, ...]], UsageRow] = partial(tuple.__new__, UsageRow)


class CommonRow(NamedTuple):
    """A common name of the usage ``key``, or of the taxon named ``taxon``."""

    line: int
    key: str
    text: str
    language: str
    taxon: str = ""
    kind: str = "common"
    citation: str = ""
    link: str = ""
    confidence: str = "verified"
    usual: bool = False  # the one that most people say, of those of its taxon in its language


class AreaRow(NamedTuple):
    """An area in which the usage ``key`` occurs naturally."""

    line: int
    key: str
    area: str


class ActRow(NamedTuple):
    """A published act between two names, both canonical."""

    old: str
    new: str
    kind: str  # a word of evidence.ActKind
    year: str = ""
    citation: str = ""
    link: str = ""
    confidence: str = "verified"


class RelationRow(NamedTuple):
    """A relation of names by identifier (ColDP NameRelation): ``key`` is or does ``kind`` to ``related``."""

    line: int
    key: str
    related: str
    kind: str
    citation: str = ""


class FactRow(NamedTuple):
    """Any other fact: ``kind`` is one of schema.FACTS, ``key`` the name it is found by, ``values`` its columns."""

    kind: str
    key: str
    values: dict[str, str]
    citation: str = ""
    link: str = ""
    confidence: str = "verified"
