"""Type in a PDF: text as strings of glyphs, and the faces used as embedded subsets (ISO 32000-2, 9.7 to 9.10)."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from hashlib import sha256
from typing import Any

import pydyf

from namekeeper.labels.fonts import Measure
from namekeeper.labels.text import Face

_KEPT_TABLES = {"glyf", "loca", "head", "hhea", "hmtx", "maxp", "cvt ", "fpgm", "prep", "OS/2", "post", "CFF "}
_AT_ONCE = 100  # entries of a block in a character map, the most that is allowed


@dataclass(frozen=True, slots=True)
class _Glyph:
    """A glyph by its number, with the text it stands for and its place, in thousandths of an em.

    ``before`` and ``after`` are moved to the right before it and after its own width, ``rise`` is moved up.
    """

    number: int
    text: str
    before: float
    after: float
    rise: float


@dataclass(slots=True)
class _Used:
    """Of a face in use: its name in the pages' resources, and what every glyph drawn stands for."""

    name: str
    glyphs: dict[int, str] = field(default_factory=dict)


class TypeCase:
    """The faces of one document: sets text, remembers what it set, and embeds that at the end."""

    def __init__(self, measure: Measure) -> None:
        self._measure = measure
        self._used: dict[Face, _Used] = {}
        self._set: dict[tuple[str, Face], bytes] = {}

    def name(self, face: Face) -> str:
        """What the face is called in the pages' resources."""
        return self._use(face).name

    def operators(self, text: str, face: Face, size: float) -> bytes:
        """Operators that show a text at the current place in the current font."""
        known = self._set.get((text, face))
        if known is not None:
            return known
        glyphs = self._glyphs(text, face)
        self._use(face).glyphs.update((one.number, one.text) for one in reversed(glyphs))
        if any(one.rise for one in glyphs):
            return b"".join(_raised(glyphs, size))
        self._set[text, face] = made = _array(glyphs)
        return made

    def resources(self, pdf: Any) -> Any:
        """The subsets as objects of the document, by their names."""
        return pydyf.Dictionary(
            {used.name: self._embedded(face, used, pdf).reference for face, used in sorted(self._used.items())}
        )

    def _use(self, face: Face) -> _Used:
        if face not in self._used:
            self._used[face] = _Used(f"F{len(self._used)}")
        return self._used[face]

    def _glyphs(self, text: str, face: Face) -> tuple[_Glyph, ...]:
        font, buffer = self._measure.font(face), self._measure.shaped(text, face)
        scale = 1000 / font.face.upem
        infos = buffer.glyph_infos
        ends = {
            one.cluster: later
            for one, later in zip(infos, [*(one.cluster for one in infos[1:]), len(text)], strict=True)
        }
        found, seen = [], set()
        for info, place in zip(infos, buffer.glyph_positions, strict=True):
            # Of several glyphs for one character the first stands for it.
            stands_for = "" if info.cluster in seen else text[info.cluster : ends[info.cluster]]
            seen.add(info.cluster)
            own = font.get_glyph_h_advance(info.codepoint)
            after = place.x_advance - own - place.x_offset
            found.append(
                _Glyph(info.codepoint, stands_for, place.x_offset * scale, after * scale, place.y_offset * scale)
            )
        return tuple(found)

    def _embedded(self, face: Face, used: _Used, pdf: Any) -> Any:
        font = self._measure.font(face)
        scale = 1000 / font.face.upem
        program = _subset(font.face, used.glyphs)
        tag = "".join(chr(ord("A") + byte % 26) for byte in sha256(program).digest()[:6])
        title = f"/{tag}+{font.face.get_name(6).replace(' ', '')}"  # name 6 is the PostScript name
        widths = (f"{number}[{font.get_glyph_h_advance(number) * scale:g}]" for number in sorted(used.glyphs))
        descriptor = _added(pdf, _descriptor(font, title, _stream(pdf, program, {"Length1": len(program)}), scale))
        descendant = pydyf.Dictionary(
            {
                "Type": "/Font",
                "Subtype": "/CIDFontType2",
                "BaseFont": title,
                "CIDSystemInfo": "<</Registry(Adobe)/Ordering(Identity)/Supplement 0>>",
                "CIDToGIDMap": "/Identity",
                "DW": 0,
                "W": f"[{''.join(widths)}]",
                "FontDescriptor": descriptor.reference,
            }
        )
        whole = {
            "Type": "/Font",
            "Subtype": "/Type0",
            "BaseFont": title,
            "Encoding": "/Identity-H",
            "DescendantFonts": pydyf.Array([_added(pdf, descendant).reference]),
            "ToUnicode": _stream(pdf, _character_map(used.glyphs), {}).reference,
        }
        return _added(pdf, pydyf.Dictionary(whole))


def _array(glyphs: Iterable[_Glyph]) -> bytes:
    """Glyphs with their moves as one operator; a move to the right is negative there (ISO 32000-2, table 107)."""
    parts: list[str] = []
    run: list[str] = []
    moved = 0.0

    def flush() -> None:
        if run:
            parts.append(f"<{''.join(run)}>")
            run.clear()

    for one in glyphs:
        moved += one.before
        if moved:
            flush()
            parts.append(f"{-moved:g}")
        run.append(f"{one.number:04x}")
        moved = one.after
    flush()
    if moved:
        parts.append(f"{-moved:g}")
    return f"[{''.join(parts)}]TJ\n".encode("ascii")


def _raised(glyphs: Sequence[_Glyph], size: float) -> Iterable[bytes]:
    for one in glyphs:
        yield f"{one.rise * size / 1000:g} Ts".encode("ascii")
        yield _array([one])
    yield b"0 Ts\n"


def _subset(face: Any, glyphs: Iterable[int]) -> bytes:
    """The face with these glyphs only, under their old numbers."""
    import uharfbuzz

    wanted = uharfbuzz.SubsetInput()
    wanted.glyph_set.update(glyphs)
    wanted.flags = uharfbuzz.SubsetFlags.RETAIN_GIDS | uharfbuzz.SubsetFlags.NOTDEF_OUTLINE
    wanted.drop_table_tag_set.update(
        int.from_bytes(tag.encode("ascii"), "big") for tag in face.table_tags if tag not in _KEPT_TABLES
    )
    program: bytes = uharfbuzz.subset(face, wanted).blob.data
    return program


def _descriptor(font: Any, title: str, program: Any, scale: float) -> Any:
    import uharfbuzz

    extents = font.get_font_extents("ltr")
    italic = font.get_style_value(uharfbuzz.StyleTag.ITALIC) > 0
    capital = font.get_glyph_extents(font.get_nominal_glyph(ord("H")) or 0)
    values = {
        "Type": "/FontDescriptor",
        "FontName": title,
        "Flags": 4 | (64 if italic else 0),
        "FontBBox": f"[-1000 {extents.descender * scale:g} 2000 {extents.ascender * scale:g}]",
        "ItalicAngle": f"{font.get_style_value(uharfbuzz.StyleTag.SLANT_ANGLE):g}",
        "Ascent": f"{extents.ascender * scale:g}",
        "Descent": f"{extents.descender * scale:g}",
        "CapHeight": f"{capital.y_bearing * scale:g}",
        "StemV": 80,
        "FontFile2": program.reference,
    }
    return pydyf.Dictionary(values)


def _character_map(glyphs: dict[int, str]) -> bytes:
    """What every glyph stands for (ISO 32000-2, 9.10.3)."""
    entries = [f"<{number:04x}><{text.encode('utf-16-be').hex()}>" for number, text in sorted(glyphs.items()) if text]
    blocks = [entries[at : at + _AT_ONCE] for at in range(0, len(entries), _AT_ONCE)]
    body = "\n".join(f"{len(block)} beginbfchar\n" + "\n".join(block) + "\nendbfchar" for block in blocks)
    head = (
        "/CIDInit /ProcSet findresource begin\n12 dict begin\nbegincmap\n"
        "/CIDSystemInfo <</Registry(Adobe)/Ordering(UCS)/Supplement 0>> def\n"
        "/CMapName /Adobe-Identity-UCS def\n/CMapType 2 def\n1 begincodespacerange\n<0000><ffff>\nendcodespacerange\n"
    )
    return f"{head}{body}\nendcmap\nCMapName currentdict /CMap defineresource pop\nend\nend".encode("ascii")


def _stream(pdf: Any, content: bytes, extra: dict[str, object]) -> Any:
    return _added(pdf, pydyf.Stream([content], pydyf.Dictionary(extra), compress=True))


def _added(pdf: Any, made: Any) -> Any:
    pdf.add_object(made)
    return made
