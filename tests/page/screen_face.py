"""Makes ``label.woff``: the Latin letters of the labels' own italic, small enough for a page.

``python -m tests.page.screen_face`` writes it anew; a test holds the file to what this makes.
"""

from __future__ import annotations

import io
from pathlib import Path

import fontpkg_fira_sans_condensed
from fontTools import subset
from fontTools.ttLib import TTFont

from namekeeper.faces import page

FACE = Path(page.__file__).parent / "static" / "label.woff"
_SOURCE = Path(fontpkg_fira_sans_condensed.__file__).parent / "files" / "FiraSansCondensed-MediumItalic.ttf"
# Basic Latin, Latin-1 and Latin Extended-A (Unicode), and the signs that stand in names.
_LETTERS = (*range(0x20, 0x7F), *range(0xA0, 0x180), 0x2013, 0x2014, 0x2018, 0x2019, 0x201C, 0x201D, 0x2020, 0x2026)


def made() -> bytes:
    """The file; the same bytes every time."""
    face = TTFont(_SOURCE, recalcTimestamp=False)
    options = subset.Options(flavor="woff", layout_features=["kern", "liga", "mark"], hinting=False)
    shaper = subset.Subsetter(options)
    shaper.populate(unicodes=_LETTERS)
    shaper.subset(face)
    face.flavor = "woff"
    target = io.BytesIO()
    face.save(target)
    return target.getvalue()


if __name__ == "__main__":
    FACE.write_bytes(made())
    print(f"{FACE}: {FACE.stat().st_size} bytes")
