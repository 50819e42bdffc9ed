"""The XML parts of a zipped table: where elements and texts stand, in bytes, so that one cell changes and nothing else.

The standard parser underneath is used directly because only it tells byte positions. As ``defusedxml`` does, it
refuses declarations of entities, and with them every attack by expansion or by reading elsewhere.
"""

from __future__ import annotations

import io
import re
import zipfile
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import NoReturn
from xml.parsers import expat
from xml.sax.saxutils import escape

from namekeeper.files.zipped import ZipLimits, ZipReader
from namekeeper.words.errors import InputError

_TAG = re.compile(rb"""<(?:[^>"']|"[^"]*"|'[^']*')*>""")  # an attribute may hold ">"
_DAMAGED = "a part of the table cannot be read as XML"
_SAVE_AGAIN = "open the table, save it again and try once more"
_LARGEST_PART = 400 * 1024 * 1024  # bytes unpacked; a sheet of a million rows takes about a tenth
#: A sheet that says one thing a million times packs to a thousandth, and is no bomb: the size of a part is the limit.
_LIMITS = ZipLimits(growth=10_000)


@dataclass(slots=True)
class Chunk:
    """A run of character data as it stands in the part: no entity in it."""

    start: int
    text: str


@dataclass(slots=True)
class Element:
    """An element with its attributes, span in bytes, and what the reader put into it."""

    name: str
    attributes: Mapping[str, str]
    start: int
    end: int = 0
    inner: int = 0  # where the content begins; equal to ``end`` for an element without content
    chunks: list[Chunk] = field(default_factory=list)
    children: list[Element] = field(default_factory=list)

    def text(self) -> str:
        """All character data below, in order."""
        return "".join(chunk.text for chunk in sorted(self.all_chunks(), key=lambda chunk: chunk.start))

    def all_chunks(self) -> list[Chunk]:
        """Character data of the element and of those below."""
        return [*self.chunks, *(chunk for child in self.children for chunk in child.all_chunks())]

    def find(self, name: str) -> list[Element]:
        """Elements of that local name anywhere below, in order."""
        return [found for child in self.children for found in ([child] if child.name == name else child.find(name))]


def each(part: bytes, names: frozenset[str], take: Callable[[Element], None]) -> None:
    """Call ``take`` with every outermost element whose local name is in ``names``, complete, in order.

    :raises InputError: if the part is damaged, not UTF-8, or declares entities.
    """
    parser = expat.ParserCreate()
    parser.buffer_text = False
    open_elements: list[Element] = []

    def starts(name: str, attributes: dict[str, str]) -> None:
        local = name.rpartition(":")[2]
        if open_elements or local in names:
            element = Element(local, attributes, parser.CurrentByteIndex)
            if open_elements:
                open_elements[-1].children.append(element)
            open_elements.append(element)

    def ends(_name: str) -> None:
        if open_elements:
            element = open_elements.pop()
            element.inner = _end_of_tag(part, element.start)
            alone = part.endswith(b"/>", element.start, element.inner)
            element.end = element.inner if alone else part.index(b">", parser.CurrentByteIndex) + 1
            if not open_elements:
                take(element)

    def chars(text: str) -> None:
        if open_elements:
            open_elements[-1].chunks.append(Chunk(parser.CurrentByteIndex, text))

    parser.StartElementHandler, parser.EndElementHandler, parser.CharacterDataHandler = starts, ends, chars
    _guard(parser, part)
    try:
        parser.Parse(part, True)
    except expat.ExpatError as error:
        what = f"{_DAMAGED}: {error}"
        raise InputError(what, remedy=_SAVE_AGAIN) from None


def _guard(parser: expat.XMLParserType, part: bytes) -> None:
    head = part[:200].lower()
    if part.startswith((b"\xff\xfe", b"\xfe\xff")) or (b"encoding=" in head and b"utf-8" not in head):
        raise InputError("a part of the table is not in UTF-8", remedy="save the table again with another program")

    def refuse(*_arguments: object) -> int:
        raise InputError("the table declares XML entities, which no spreadsheet does", remedy="do not trust this file")

    parser.EntityDeclHandler = refuse
    parser.UnparsedEntityDeclHandler = refuse
    parser.ExternalEntityRefHandler = refuse


def _end_of_tag(part: bytes, start: int) -> int:
    """Position behind the ``>`` of the tag that begins at ``start``."""
    found = _TAG.match(part, start)
    return found.end() if found else start


def text_edits(
    part: bytes, text_elements: Sequence[Element], old: str, new: str
) -> list[tuple[int, int, bytes]] | None:
    """Spans of ``part`` and new bytes that turn the elements' text from ``old`` into ``new``; None if not safe.

    What differs between the old and the new text must lie within one run of characters, so that the formats of the
    other runs stay where they are. The common beginning and end are not touched.
    """
    chunks = sorted((chunk for each in text_elements for chunk in each.all_chunks()), key=lambda chunk: chunk.start)
    if old == new or old != "".join(chunk.text for chunk in chunks):
        return None
    head, tail = _common(old, new)
    position = 0
    for chunk in chunks:
        end = position + len(chunk.text)
        if position <= head and len(old) - tail <= end and _is_literal(part, chunk):
            replaced = chunk.text[: head - position] + new[head : len(new) - tail] + old[len(old) - tail : end]
            start = chunk.start
            return [(start, start + len(chunk.text.encode("utf-8")), escape(replaced).encode("utf-8"))]
        position = end
    return None


def apply_edits(part: bytes, edits: Sequence[tuple[int, int, bytes]]) -> bytes:
    """``part`` with spans replaced."""
    pieces, position = [], 0
    for start, end, new in sorted(edits):
        pieces += [part[position:start], new]
        position = end
    return b"".join((*pieces, part[position:]))


def _common(old: str, new: str) -> tuple[int, int]:
    """Lengths of the common beginning and of the common end, which do not overlap."""
    shorter = min(len(old), len(new))
    head = next((i for i in range(shorter) if old[i] != new[i]), shorter)
    tail = next((i for i in range(shorter - head) if old[-1 - i] != new[-1 - i]), shorter - head)
    return head, tail


def _is_literal(part: bytes, chunk: Chunk) -> bool:
    """Whether the run stands in the part as it reads, without entities or CDATA around it."""
    raw = chunk.text.encode("utf-8")
    return part.startswith(raw, chunk.start) and b"&" not in raw and b"<" not in raw


@dataclass(frozen=True, slots=True)
class Zipped:
    """A zipped table by its bytes."""

    content: bytes

    def names(self) -> tuple[str, ...]:
        """Names of the parts.

        :raises InputError: if it is no zip file.
        """
        with self._open() as archive:
            return archive.members

    def part(self, name: str) -> bytes:
        """One part unpacked.

        :raises InputError: if it is missing, damaged, locked with a password or unreasonably large.
        """
        with self._open() as archive:
            if name not in archive.zip.namelist():
                what = f"the table lacks its part {name}"
                raise InputError(what, remedy=_SAVE_AGAIN)
            try:
                content = archive.read(name, _LARGEST_PART)
            except InputError:
                what = f"the part {name} of the table cannot be unpacked"
                raise InputError(what, remedy="take its password off, or save it again") from None
        if content is None:
            what = f"{name} unpacks to more than {_LARGEST_PART >> 20} MB"
            raise InputError(what, remedy="split the table")
        return content

    def with_parts(self, parts: Mapping[str, bytes]) -> bytes:
        """The same file with some parts replaced; order, dates, comments and the other parts' content stay."""
        target = io.BytesIO()
        with self._open() as archive, zipfile.ZipFile(target, "w") as made:
            made.comment = archive.zip.comment
            for info in archive.zip.infolist():
                made.writestr(info, parts.get(info.filename) or self.part(info.filename), info.compress_type)
        return target.getvalue()

    def _open(self) -> ZipReader:
        return ZipReader(self.content, _refuse, _LIMITS)


def _refuse(_what: str, cause: Exception | None) -> NoReturn:
    raise InputError("the table is no readable XLSX or ODS file", remedy=_SAVE_AGAIN) from cause
