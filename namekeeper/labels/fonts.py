"""The faces of type that ship, and what they say of widths and heights."""

from __future__ import annotations

from importlib.util import find_spec
from pathlib import Path
from typing import Any

from namekeeper.files.reading import LARGEST_OWN, read_file
from namekeeper.labels.text import Face
from namekeeper.words.errors import MissingLibraryError

_PACKAGE = "fontpkg_fira_sans_condensed"  # Fira Sans Condensed, SIL Open Font License
_FILES = {
    Face.REGULAR: "FiraSansCondensed-Regular.ttf",
    Face.REGULAR_ITALIC: "FiraSansCondensed-Italic.ttf",
    Face.MEDIUM: "FiraSansCondensed-Medium.ttf",
    Face.MEDIUM_ITALIC: "FiraSansCondensed-MediumItalic.ttf",
    Face.BOLD: "FiraSansCondensed-SemiBold.ttf",
    Face.BOLD_ITALIC: "FiraSansCondensed-SemiBoldItalic.ttf",
}


def font_files(templates: Path) -> dict[Face, Path]:
    """The file of every face; ``templates`` is the folder of shipped templates.

    :raises MissingLibraryError: if the package of fonts is not installed.
    """
    found = find_spec(_PACKAGE)
    if found is None or found.origin is None:
        what = "the type of the labels is not installed"
        raise MissingLibraryError(what, remedy="pip install fontpkg-fira-sans-condensed")
    folder = Path(found.origin).parent / "files"
    return {face: folder / name for face, name in _FILES.items()} | {Face.SIGNS: templates / "fonts" / "signs.ttf"}


def _whole(path: Path) -> bytes:
    """A font's file, not cut short: every table that its directory names lies within (OpenType, table directory).

    :raises ValueError: if it is no such font. The shaping library takes anything, and draws blanks.
    :raises OSError: if it cannot be read.
    """
    content = read_file(path, LARGEST_OWN)
    tables = range(12, 12 + 16 * int.from_bytes(content[4:6], "big"), 16)
    ends = [sum(int.from_bytes(content[at + part : at + part + 4], "big") for part in (8, 12)) for at in tables]
    if content[:4] not in (b"\0\1\0\0", b"OTTO", b"true") or not ends or max(ends) > len(content):
        message = f"{path} is no whole font"
        raise ValueError(message)
    return content


class Measure:
    """Widths as text is set, in em; every string is measured once.

    ``drop`` is how far a baseline lies below the middle of its line, in em.
    """

    def __init__(self, files: dict[Face, Path]) -> None:
        """:raises MissingLibraryError: if the shaping library or a font is missing."""
        try:
            import uharfbuzz

            self._fonts = {face: uharfbuzz.Font(uharfbuzz.Face(_whole(path))) for face, path in files.items()}
        except (ImportError, OSError, ValueError) as fault:
            what = f"type cannot be measured: {fault}"
            raise MissingLibraryError(what, remedy="install namekeeper again, with all it depends on") from None
        self._shape: Any = uharfbuzz.shape
        self._buffer: Any = uharfbuzz.Buffer
        self._widths: dict[tuple[str, Face], float] = {}
        self._per_em = {face: font.face.upem for face, font in self._fonts.items()}
        extents = self._fonts[Face.REGULAR].get_font_extents("ltr")
        # All faces agree in these; where they did not, the engine would set the lines of one block apart.
        self.drop = (extents.ascender + extents.descender) / 2 / self._per_em[Face.REGULAR]

    def width(self, text: str, face: Face) -> float:
        """Advance width in em, kerned."""
        known = self._widths.get((text, face))
        if known is not None:
            return known
        buffer = self.shaped(text, face)
        width: float = sum(position.x_advance for position in buffer.glyph_positions) / self._per_em[face]
        self._widths[(text, face)] = width
        return width

    def shaped(self, text: str, face: Face) -> Any:
        """The shaping library's buffer: glyphs with their places, a cluster for every character where it can."""
        buffer = self._buffer()
        buffer.cluster_level = 1  # characters, so that letters can be copied from a PDF one by one
        buffer.add_str(text)
        buffer.guess_segment_properties()
        self._shape(self._fonts[face], buffer)
        return buffer

    def font(self, face: Face) -> Any:
        """The shaping library's font of a face."""
        return self._fonts[face]

    def missing(self, text: str, face: Face) -> str:
        """Characters of the text that the face cannot draw, each once."""
        font = self._fonts[face]
        return "".join(dict.fromkeys(char for char in text if font.get_nominal_glyph(ord(char)) is None))

    def x_height(self, face: Face) -> float:
        """Height of the letter x in em."""
        font = self._fonts[face]
        extents = font.get_glyph_extents(font.get_nominal_glyph(ord("x")))
        bearing: float = extents.y_bearing
        return bearing / int(self._per_em[face])
