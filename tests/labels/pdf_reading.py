"""Reads PDFs back, by libraries that did not make them; lengths in mm from the top left corner."""

from __future__ import annotations

import ctypes
from collections.abc import Iterator
from dataclasses import dataclass
from io import BytesIO
from typing import Any

import numpy as np
import pypdf
import pypdfium2
import pypdfium2.raw
from fontTools.ttLib import TTFont

MM = 25.4 / 72


@dataclass(frozen=True)
class Box:
    """Left, top, right, bottom in mm."""

    left: float
    top: float
    right: float
    bottom: float


@dataclass(frozen=True)
class Letter:
    """A character and the box of its ink."""

    text: str
    box: Box


def filled_boxes(pdf: bytes, page: int = 0) -> list[Box]:
    """Boxes of all filled paths of a page, in drawing order."""
    document = pypdfium2.PdfDocument(pdf)
    sheet = document[page]
    height = sheet.get_height()
    found = []
    for one in sheet.get_objects(filter=[pypdfium2.raw.FPDF_PAGEOBJ_PATH]):
        left, bottom, right, top = one.get_bounds()
        found.append(Box(left * MM, (height - top) * MM, right * MM, (height - bottom) * MM))
    document.close()
    return found


def letters(pdf: bytes, page: int = 0) -> Iterator[Letter]:
    """Every character that is drawn, in order."""
    document = pypdfium2.PdfDocument(pdf)
    sheet = document[page]
    height = sheet.get_height()
    text = sheet.get_textpage()
    left, right, bottom, top = (ctypes.c_double() for _ in range(4))
    for index in range(text.count_chars()):
        char = chr(pypdfium2.raw.FPDFText_GetUnicode(text, index))
        if char.isspace() or pypdfium2.raw.FPDFText_IsGenerated(text, index):
            continue
        pypdfium2.raw.FPDFText_GetCharBox(text, index, left, right, bottom, top)
        box = Box(left.value * MM, (height - top.value) * MM, right.value * MM, (height - bottom.value) * MM)
        yield Letter(char, box)
    document.close()


def raster(pdf: bytes, page: int = 0, dpi: int = 100) -> Any:
    """The page as an array of grey values."""
    document = pypdfium2.PdfDocument(pdf)
    picture = document[page].render(scale=dpi / 72, grayscale=True).to_numpy()
    document.close()
    return np.squeeze(np.array(picture))


def embedded_fonts(pdf: bytes) -> dict[str, TTFont]:
    """The font programs inside the PDF by the name they have there."""
    found = {}
    for item in pypdf.PdfReader(BytesIO(pdf)).pages[0]["/Resources"]["/Font"].values():  # type: ignore[index]
        descriptor = item.get_object()["/DescendantFonts"][0].get_object()["/FontDescriptor"]
        program = descriptor.get("/FontFile2") or descriptor["/FontFile3"]
        found[str(descriptor["/FontName"])] = TTFont(BytesIO(program.get_object().get_data()))
    return found


def outlines(font: TTFont) -> set[tuple[object, ...]]:
    """The outlines of all glyphs that draw something, as coordinates."""
    table = font["glyf"]
    found: set[tuple[object, ...]] = set()
    for name in font.getGlyphOrder():
        coordinates, ends, _ = table[name].getCoordinates(table)
        if len(coordinates):
            found.add((tuple(coordinates), tuple(ends)))
    return found
