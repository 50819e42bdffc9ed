"""Where elements and their texts stand in an XML part, in bytes, so that one cell can be changed and nothing else.

The standard parser underneath is used directly because only it tells byte positions. As ``defusedxml`` does, it
refuses declarations of entities, and with them every attack by expansion or by reading elsewhere.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from xml.parsers import expat

from namekeeper.words.errors import InputError

_TAG = re.compile(rb"""<(?:[^>"']|"[^"]*"|'[^']*')*>""")  # an attribute may hold ">"
_DAMAGED = "a part of the table cannot be read as XML"


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
        raise InputError(what, remedy="open the table, save it again and try once more") from None


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
