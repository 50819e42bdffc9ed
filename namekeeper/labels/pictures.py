"""A picture of a keeper's own beside the text of a label: which may be shown, how large, and its dots.

Nothing but PNG and SVG files of the template's own folder, of a sensible size. SVG is left to the HTML engine.
"""

from __future__ import annotations

import re
import warnings
from collections.abc import Mapping
from dataclasses import dataclass
from io import BytesIO
from pathlib import Path

from namekeeper.files.reading import read_file
from namekeeper.labels.drawing import Dots
from namekeeper.labels.vectors import check_vector
from namekeeper.labels.yaml_texts import LayoutError, check_keys, line_of, list_of, mapping, number

SCHEME = "picture:"
KINDS = {".png": "image/png", ".svg": "image/svg+xml"}
_NAME = re.compile(r"[A-Za-z0-9_-][A-Za-z0-9._-]{0,59}\.(?:png|svg)", re.ASCII)
_MOST_BYTES = 500_000
PICTURE_REMEDY = "put a plain PNG or SVG of 500 kB at most beside layout.yaml"
_MOST_DOTS = 4_000_000
_AT_MOST = f"{_MOST_DOTS // 1_000_000} million at most can be shown"


@dataclass(frozen=True, slots=True)
class Picture:
    """A picture at the left of a label, as large as a box of ``width`` x ``height`` mm allows, ``gap`` mm of white."""

    name: str
    width: float
    height: float
    gap: float
    line: int | None = None  # of the layout, where it is asked for

    @property
    def vector(self) -> bool:
        """Whether it is drawn by the HTML engine."""
        return self.name.endswith(".svg")


def read_picture(document: Mapping[str, object], bars: float) -> Picture | None:
    """The key ``picture`` of a layout whose bars reach ``bars`` mm to the left of the text.

    :raises LayoutError: naming what cannot be read.
    """
    value = document.get("picture")
    if value is None:
        return None
    fields = mapping(value, "picture")
    check_keys(fields, {"file", "size", "gap"}, "picture")
    name = fields.get("file")
    if not isinstance(name, str) or not _NAME.fullmatch(name):
        message = f"the file of picture should be a PNG or SVG beside layout.yaml, such as mark.png, not '{name}'"
        raise LayoutError(message, line_of(name, value))
    sides = [number(side, "size of picture", 2, 200) for side in list_of(fields.get("size"), "size of picture")]
    if len(sides) != 2:
        message = "size of picture should be [width, height] in mm"
        raise LayoutError(message, line_of(fields["size"]))
    gap = number(fields.get("gap", "2"), "gap of picture", 0, 30)
    if gap < bars:
        message = f"the gap of picture is less than the {bars:g} mm that a bar takes in it"
        raise LayoutError(message, line_of(fields.get("gap"), value))
    if "tick" in document:
        message = "a picture and a box to tick do not stand on one label"
        raise LayoutError(message, line_of(value))
    return Picture(name, sides[0], sides[1], gap, line_of(value))


def picture_content(folder: Path, name: str) -> bytes:
    """A picture in the template's own folder that may be drawn, as it stands in its file.

    :raises ValueError: with the reason, if it is none.
    """
    return _read(folder, name)[0]


def dots_of(folder: Path, picture: Picture) -> Dots | None:
    """The dots of a picture; None for one that the HTML engine draws.

    :raises LayoutError: if there is no such file there, or none that may be drawn.
    """
    try:
        return _read(folder, picture.name)[1]
    except ValueError as fault:
        raise LayoutError(str(fault), picture.line) from None


def _read(folder: Path, name: str) -> tuple[bytes, Dots | None]:
    try:
        if not _NAME.fullmatch(name) or (folder / name).is_symlink():
            message = "it is a link, or no PNG or SVG of the template's own folder"
            raise ValueError(message)
        content = read_file(folder / name, _MOST_BYTES)
        if name.endswith(".png"):
            return content, _dots(content)
        check_vector(content)
    except (OSError, ValueError, SyntaxError) as fault:
        why = fault.strerror if isinstance(fault, OSError) and fault.strerror else str(fault)
        message = f"the picture '{name}' cannot be shown: {why}"
        raise ValueError(message) from None
    return content, None


def _dots(png: bytes) -> Dots:
    # Only now: few labels show a picture.
    from PIL import Image

    # The first chunk tells before anything is unpacked (ISO/IEC 15948, 11.2.1).
    if png[:16] != b"\x89PNG\r\n\x1a\n\0\0\0\rIHDR" or b"IEND" not in png:
        message = "it is no whole PNG"
        raise ValueError(message)
    _check_size(*(int.from_bytes(png[at : at + 4], "big") for at in (16, 20)))
    try:
        # It only warns of less than twice as many dots as it takes.
        with warnings.catch_warnings(action="error"), Image.open(BytesIO(png), formats=("PNG",)) as image:
            _check_size(*image.size)  # of its last header, if there are several
            full = image.convert("RGBA")
    except (Image.DecompressionBombError, Warning) as fault:
        message = f"it has too many dots, {_AT_MOST}" if "bomb" in str(fault) else str(fault)
        raise ValueError(message) from None
    cover = full.getchannel("A").tobytes()
    return Dots(*full.size, full.convert("RGB").tobytes(), b"" if min(cover) == 255 else cover)


def _check_size(columns: int, rows: int) -> None:
    if not 0 < columns * rows <= _MOST_DOTS:
        message = f"it has {columns} x {rows} dots, {_AT_MOST}"
        raise ValueError(message)
