"""A picture of a keeper's own beside the text of a label: which may be shown, how large, and its dots.

Nothing but PNG and SVG files of the template's own folder, of a sensible size. SVG is left to the HTML engine.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from io import BytesIO
from pathlib import Path

from namekeeper.files.reading import read_file
from namekeeper.labels.drawing import Dots
from namekeeper.labels.yaml_texts import LayoutError, check_keys, line_of, list_of, mapping, number

SCHEME = "picture:"
KINDS = {".png": "image/png", ".svg": "image/svg+xml"}
_NAME = re.compile(r"[A-Za-z0-9_-][A-Za-z0-9._-]{0,59}\.(?:png|svg)", re.ASCII)
MOST_BYTES = 500_000
_MOST_DOTS = 4_000_000


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


def picture_file(folder: Path | None, name: str) -> Path | None:
    """A picture in the template's own folder, of a sensible size; None for anything else."""
    if folder is None or not _NAME.fullmatch(name):
        return None
    path = folder / name
    return path if path.is_file() and not path.is_symlink() and path.stat().st_size <= MOST_BYTES else None


def dots_of(folder: Path, picture: Picture) -> Dots | None:
    """The dots of a picture; None for one that the HTML engine draws.

    :raises LayoutError: if there is no such file there, or it is no picture, or too large.
    """
    path = picture_file(folder, picture.name)
    if path is None:
        message = f"'{picture.name}' is no file of this template's folder, or larger than {MOST_BYTES // 1000} kB"
        raise LayoutError(message, picture.line)
    if picture.vector:
        return None
    try:
        return _dots(read_file(path, MOST_BYTES))
    except (OSError, ValueError, SyntaxError) as fault:
        message = f"the picture '{picture.name}' cannot be read: {fault}"
        raise LayoutError(message, picture.line) from None


def _dots(png: bytes) -> Dots:
    # Only now: few labels show a picture.
    from PIL import Image

    # Its header tells before anything is unpacked (ISO/IEC 15948, 11.2.1).
    columns, rows = (int.from_bytes(png[at : at + 4], "big") for at in (16, 20))
    if png.startswith(b"\x89PNG") and columns * rows > _MOST_DOTS:
        message = f"it has {columns} x {rows} dots, {_MOST_DOTS // 1_000_000} million at most can be shown"
        raise ValueError(message)
    if b"IEND" not in png:  # once the HTML engine is loaded, the library reads on over a torn end
        message = "it is no whole PNG"
        raise ValueError(message)
    try:
        with Image.open(BytesIO(png), formats=("PNG",)) as image:
            full = image.convert("RGBA")
    except Image.DecompressionBombError as fault:  # its header lied
        raise ValueError(str(fault)) from None
    cover = full.getchannel("A").tobytes()
    return Dots(*full.size, full.convert("RGB").tobytes(), b"" if min(cover) == 255 else cover)
