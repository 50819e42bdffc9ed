"""What is drawn on a page, as values: lines of type, filled boxes, QR codes. Lengths in mm from the top left corner."""

from __future__ import annotations

from dataclasses import dataclass

from namekeeper.labels.text import Face

BLACK = "#000000"


@dataclass(frozen=True, slots=True)
class Box:
    """A filled rectangle."""

    x: float
    y: float
    width: float
    height: float
    colour: str = BLACK


@dataclass(frozen=True, slots=True)
class Letters:
    """A line of type: where it begins on its baseline, its size in pt, and its parts in one face each.

    ``language`` (BCP 47) where it is another than the document's.
    """

    x: float
    baseline: float
    size: float
    parts: tuple[tuple[str, Face], ...]
    colour: str = BLACK
    language: str = ""


@dataclass(frozen=True, slots=True)
class Symbol:
    """A QR symbol (ISO/IEC 18004, error correction M): its width in modules, and its dark modules as a PDF path."""

    payload: str
    modules: int
    path: str


@dataclass(frozen=True, slots=True)
class Square:
    """A QR code on its page: left and top of its dark modules and its module in mm."""

    page: int
    left: float
    top: float
    module: float
    symbol: Symbol


@dataclass(frozen=True, slots=True)
class Dots:
    """A picture: red, green and blue of every dot, row by row, and how far each covers (empty: all of them whole)."""

    columns: int
    rows: int
    colours: bytes
    cover: bytes = b""


@dataclass(frozen=True, slots=True)
class Shown:
    """A picture on its page."""

    x: float
    y: float
    width: float
    height: float
    dots: Dots


@dataclass(frozen=True, slots=True)
class LabelDrawing:
    """One label: its rules and bars, its blocks of text in reading order, its QR code, its picture."""

    boxes: tuple[Box, ...]
    blocks: tuple[tuple[Letters, ...], ...]
    square: Square | None = None
    picture: Shown | None = None


@dataclass(frozen=True, slots=True)
class PageDrawing:
    """A page of labels with what stands around them, which is no part of any text."""

    width: float
    height: float
    labels: tuple[LabelDrawing, ...]
    boxes: tuple[Box, ...] = ()
    letters: tuple[Letters, ...] = ()
