"""Pages to PDF: text, boxes and QR codes as operators, with tags that give the order of reading (ISO 32000-2, 14.7).

The same pages give the same bytes: no dates, and nothing of this machine.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from io import BytesIO
from typing import Any

import pydyf

from namekeeper.labels.drawing import BLACK, Box, Dots, LabelDrawing, Letters, PageDrawing, Shown
from namekeeper.labels.fonts import Measure
from namekeeper.labels.layout import PT
from namekeeper.labels.pages import VIEWER_WISHES, Markings
from namekeeper.labels.pdf_tags import TagTree
from namekeeper.labels.pdf_type import TypeCase
from namekeeper.labels.qr import square_operators


class _PictureCase:
    """The pictures of a document, by their names in it: each embedded once, with its mask (8.9.5, 11.6.5.2)."""

    def __init__(self) -> None:
        self._names: dict[Dots, str] = {}

    @property
    def filled(self) -> bool:
        return bool(self._names)

    def operators(self, shown: Shown, top: float) -> bytes:
        """A picture on a page that is ``top`` mm high."""
        name = self._names.setdefault(shown.dots, f"P{len(self._names)}")
        across, down, left, up = (
            round(side / PT, 3) for side in (shown.width, shown.height, shown.x, top - shown.y - shown.height)
        )
        return f"q {across:g} 0 0 {down:g} {left:g} {up:g} cm /{name} Do Q\n".encode("ascii")

    def resources(self, pdf: Any) -> Any:
        """Embeds all of them; their names with references."""
        return pydyf.Dictionary({name: self._added(dots, pdf).reference for dots, name in self._names.items()})

    def _added(self, dots: Dots, pdf: Any) -> Any:
        size = {"Type": "/XObject", "Subtype": "/Image", "Width": dots.columns, "Height": dots.rows}
        size["BitsPerComponent"] = 8
        picture = pydyf.Stream([dots.colours], extra={**size, "ColorSpace": "/DeviceRGB"}, compress=True)
        if dots.cover:
            mask = pydyf.Stream([dots.cover], extra={**size, "ColorSpace": "/DeviceGray"}, compress=True)
            pdf.add_object(mask)
            picture.extra["SMask"] = mask.reference
        pdf.add_object(picture)
        return picture


@dataclass(frozen=True, slots=True)
class _Cases:
    """What pages share: type, tags and pictures."""

    type: TypeCase
    tags: TagTree
    pictures: _PictureCase


def pages_to_pdf(pages: Iterable[PageDrawing], measure: Measure, markings: Markings) -> bytes:
    """The document; pages are taken one after the other, so that they need not all be held at once."""
    pdf = pydyf.PDF()
    cases = _Cases(TypeCase(measure), TagTree(pdf), _PictureCase())
    resources = pydyf.Dictionary()
    pdf.add_object(resources)
    for page in pages:
        _add(page, pdf, cases, resources)
    resources["Font"] = cases.type.resources(pdf)
    if cases.pictures.filled:
        resources["XObject"] = cases.pictures.resources(pdf)
    pdf.info["Title"] = pydyf.String(markings.title)
    pdf.catalog["Lang"] = pydyf.String(markings.language)
    pdf.catalog["ViewerPreferences"] = pydyf.Dictionary(VIEWER_WISHES)
    pdf.catalog["MarkInfo"] = "<</Marked true>>"
    pdf.catalog["StructTreeRoot"] = cases.tags.finished().reference
    target = BytesIO()
    pdf.write(target, compress=True)
    return target.getvalue()


def _add(page: PageDrawing, pdf: Any, cases: _Cases, resources: Any) -> None:
    drawn = pydyf.Dictionary(
        {
            "Type": "/Page",
            "Parent": pdf.pages.reference,
            "MediaBox": pydyf.Array([0, 0, page.width / PT, page.height / PT]),
            "Resources": resources.reference,
        }
    )
    pdf.add_page(drawn)
    cases.tags.begin_page(drawn)
    stream = pydyf.Stream([b"".join(_operators(page, cases))], compress=True)
    pdf.add_object(stream)
    drawn["Contents"] = stream.reference


def _operators(page: PageDrawing, cases: _Cases) -> Iterator[bytes]:
    top = page.height
    boxes = [*page.boxes, *(box for label in page.labels for box in label.boxes)]
    if boxes:
        yield b"/Artifact BMC\n"
        for colour in sorted({box.colour for box in boxes}):
            yield _fill(colour)
            yield b"".join(_rectangle(box, top) for box in boxes if box.colour == colour)
            yield b"f\n"
        yield b"EMC\n"
    if shown := [label.picture for label in page.labels if label.picture]:
        yield b"/Artifact BMC\n"
        yield from (cases.pictures.operators(one, top) for one in shown)
        yield b"EMC\n"
    for label in page.labels:
        yield from _label(label, top, cases.type, cases.tags)
    if page.letters:
        yield b"/Artifact BMC\nBT\n"
        yield from _text(page.letters, top, cases.type)
        yield b"ET\nEMC\n"


def _label(label: LabelDrawing, top: float, case: TypeCase, tags: TagTree) -> Iterator[bytes]:
    tags.begin_label()
    for block in label.blocks:
        yield f"/P<</MCID {tags.paragraph(block[0].language)}>>BDC\nBT\n".encode("ascii")
        yield from _text(block, top, case)
        yield b"ET\nEMC\n"
    if label.square:
        yield f"/Figure<</MCID {tags.figure(label.square.symbol.payload)}>>BDC\n".encode("ascii")
        yield square_operators(label.square, top / PT)
        yield b"\nEMC\n"
    tags.end_label()


def _text(lines: Sequence[Letters], top: float, case: TypeCase) -> Iterator[bytes]:
    """Lines one after the other; every move is from the beginning of the line before."""
    x = y = 0.0
    colour = font = ""
    for line in lines:
        if line.colour != colour:
            colour = line.colour
            yield _fill(colour)
        left, up = line.x / PT, (top - line.baseline) / PT
        yield f"{_number(left - x)} {_number(up - y)} Td\n".encode("ascii")
        # What was written is rounded; going on from there keeps roundings from adding up.
        x, y = x + round(left - x, 3), y + round(up - y, 3)
        for text, face in line.parts:
            wanted = f"/{case.name(face)} {_number(line.size)} Tf\n"
            if wanted != font:
                font = wanted
                yield font.encode("ascii")
            yield case.operators(text, face, line.size)


def _rectangle(box: Box, top: float) -> bytes:
    x, y, width, height = box.x / PT, (top - box.y - box.height) / PT, box.width / PT, box.height / PT
    return f"{_number(x)} {_number(y)} {_number(width)} {_number(height)} re\n".encode("ascii")


def _fill(colour: str) -> bytes:
    if colour == BLACK:
        return b"0 g\n"
    parts = (int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5))
    return f"{' '.join(_number(part) for part in parts)} rg\n".encode("ascii")


def _number(value: float) -> str:
    return f"{value:.3f}".rstrip("0").rstrip(".")
