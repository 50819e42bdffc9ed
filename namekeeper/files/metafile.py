"""The metafile of a Darwin Core archive (Darwin Core text guide, 2023-09-13): its tables, and where each term stands.

Read leniently where a dialect can be understood in one way only: terms in other capitals, row types of before the
standard, an extension without a column for the record it belongs to, files that are described and not there.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any

from namekeeper.files.archive import Archive
from namekeeper.files.columns import Column
from namekeeper.files.delimited import Dialect

#: Row types of archives from before the standard named classes (GBIF's first publishing tools).
_ANY_RECORD = frozenset({"", "darwincore", "simpledarwincore", "simpledarwinrecord", "darwinrecord"})


@dataclass(frozen=True, slots=True)
class DescribedTable:
    """A core or extension of the metafile.

    :param row_type: last word of its class, as it stands; empty where none was usual yet.
    :param members: its files that are in the archive; ``missing`` those that are not.
    :param id: column of the record's identifier; ``assumed`` if the metafile does not say which it is.
    :param terms: columns by term in lower case.
    """

    row_type: str
    members: tuple[str, ...]
    missing: tuple[str, ...]
    dialect: Dialect
    id: int | None
    assumed: bool = False
    terms: dict[str, Column] = field(default_factory=dict)
    names: dict[str, str] = field(default_factory=dict)  # terms as they stand, by the same in lower case

    def is_of(self, row_type: str) -> bool:
        """Whether its rows are of that class, in any capitals."""
        return self.row_type.casefold() == row_type.casefold()

    @property
    def is_of_anything(self) -> bool:
        """Whether the class says nothing: what it is of, its terms tell."""
        return self.row_type.casefold() in _ANY_RECORD

    def column(self, *terms: str) -> Column | None:
        """The column of the first of the terms that is there."""
        return next((self.terms[key] for term in terms if (key := term.casefold()) in self.terms), None)

    @property
    def width(self) -> int:
        """Cells of a whole row, as far as the metafile tells."""
        places = [column.index for column in self.terms.values() if column.index is not None]
        return max([*places, -1 if self.id is None else self.id]) + 1


@dataclass(frozen=True, slots=True)
class Metafile:
    """What a metafile describes; ``metadata`` names the document that describes the whole, if any."""

    core: DescribedTable
    extensions: tuple[DescribedTable, ...]
    metadata: str | None


def read_metafile(archive: Archive, member: str) -> Metafile:
    """The tables that the member describes.

    :raises InputError: if it is malformed or dangerous, has not exactly one core, or the core's file is not there.
    """
    root = archive.xml(member)
    cores = children(root, "core")
    if len(cores) != 1:
        archive.refuse(f"{member} describes {len(cores)} cores, not one")
    core = _table(archive, member, cores[0], "id")
    if core.missing:
        archive.refuse(f"{member} names {core.missing[0]!r}, which is not in the archive")
    extensions = tuple(_table(archive, member, each, "coreid") for each in children(root, "extension"))
    return Metafile(core, extensions, root.get("metadata"))


def _table(archive: Archive, meta: str, element: Any, id_tag: str) -> DescribedTable:
    locations = [
        (location.text or "").strip()
        for files in children(element, "files")
        for location in children(files, "location")
    ]
    if not locations:
        archive.refuse(f"{meta} names no file for one of its tables")
    named = [(location, archive.named(meta, location)) for location in locations]
    try:
        fields = [
            (local_word(each.get("term", "")), Column(_index(each), each.get("default", "")))
            for each in children(element, "field")
        ]
        ids = [_index(each) for each in children(element, id_tag)]
        dialect = _dialect(element)
    except ValueError as error:
        archive.refuse(f"{meta} holds a number that is none: {error}", error)
    terms: dict[str, Column] = {}
    for term, column in fields:
        terms.setdefault(term.casefold(), column)
    # A term without a column and without a value says nothing, and must not hide one that stands behind it.
    said = {term.casefold(): column for term, column in reversed(fields) if column.index is not None or column.default}
    terms |= said
    index, assumed = _id_column(ids, terms, id_tag)
    return DescribedTable(
        local_word(element.get("rowType", "")),
        tuple(member for _, member in named if member in archive.members),
        tuple(location for location, member in named if member not in archive.members),
        dialect,
        index,
        assumed,
        terms,
        {term.casefold(): term for term, _ in fields},
    )


def _id_column(ids: list[int | None], terms: dict[str, Column], id_tag: str) -> tuple[int | None, bool]:
    """The column of the identifier; where an extension does not say which, the first that no term stands for."""
    if ids and ids[0] is not None:
        return ids[0], False
    named = next((terms[term] for term in ("coreid", "taxonid") if term in terms), None)
    if named is not None and named.index is not None:
        return named.index, id_tag == "coreid"
    if id_tag == "coreid" and all(column.index != 0 for column in terms.values()):
        return 0, True
    return None, False


def children(element: Any, tag: str) -> list[Any]:
    """Child elements of that local name."""
    return [child for child in element if local_word(child.tag) == tag]


def local_word(name: str) -> str:
    """The last word of an IRI or of a term with a prefix, or of a tag with its namespace."""
    return name.strip().rstrip("/").replace("}", "/").replace("#", "/").replace(":", "/").rpartition("/")[2]


def _index(element: Any) -> int | None:
    text = element.get("index")
    if text is None:
        return None
    number = int(text)
    if not 0 <= number < 10_000:
        raise ValueError(text)
    return number


def _dialect(element: Any) -> Dialect:
    """Attributes of a table with the defaults of the text guide, section 2.2."""
    return Dialect(
        separator=_character(element.get("fieldsTerminatedBy", ",")),
        quote=_character(element.get("fieldsEnclosedBy", '"'))[:1],
        line_end=_character(element.get("linesTerminatedBy", "\n")).replace("\r\n", "\n") or "\n",
        encoding=element.get("encoding", "utf-8"),
        skipped_lines=int(element.get("ignoreHeaderLines", "0") or "0"),
    )


def _character(text: str) -> str:
    return text.replace("\\t", "\t").replace("\\n", "\n").replace("\\r", "\r").replace("&quot;", '"')
