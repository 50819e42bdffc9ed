"""The same labels drawn directly and by way of HTML: every glyph's place, and the picture."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass, replace
from io import BytesIO
from typing import Any

import numpy as np
import pdfplumber
from pdfminer.layout import LTChar

from namekeeper import resources
from namekeeper.labels.fonts import font_files
from namekeeper.labels.text import Face
from namekeeper.tasks.label_plan import LabelPlan
from tests.labels.pdf_reading import MM, raster

#: Far less than an eye sees or a printer keeps.
NEAR = 0.05  # mm
#: The engine cuts every kerning to whole thousandths of an em as it writes; what it laid out is not cut.
_CUT = 0.001
_OWN_NAMES = {
    path.stem.replace("-", "").casefold(): face for face, path in font_files(resources.label_templates()).items()
} | {"namekeepersignsregular": Face.SIGNS}
_FAR_OFF = 96  # of 255 grey values
_ALLOWED = 0.005  # share of inked pixels
_STEP = 4  # pixels averaged each way


@dataclass(frozen=True)
class _Glyph:
    """A character with its place on the page in mm, and its type."""

    page: int
    text: str
    x: float
    baseline: float
    size: float
    face: Face
    cuts: int  # glyphs before it on its line that are kerned


def check_both_ways(plan: LabelPlan) -> int:
    """Both drawings have the same glyphs at the same places, and look alike; how many glyphs there are."""
    direct, html = replace(plan, html=False).pdf(), replace(plan, html=True).pdf()
    ours = list(_glyphs(direct))
    theirs: dict[tuple[int, str, Face], list[_Glyph]] = defaultdict(list)
    for other in _glyphs(html):
        theirs[other.page, other.text, other.face].append(other)
    for one in ours:
        alike = theirs[one.page, one.text, one.face]
        found = next((number for number, other in enumerate(alike) if _same(one, other)), None)
        assert found is not None, f"not drawn by way of HTML: {one}"
        del alike[found]
    assert not any(theirs.values()), "not drawn directly"
    for page in range(plan.pages):
        _check_pictures(direct, html, page)
    return len(ours)


def _same(one: _Glyph, other: _Glyph) -> bool:
    return (
        abs(one.size - other.size) < 0.01
        and abs(one.x - other.x) <= NEAR + _CUT * one.cuts * one.size * MM
        and abs(one.baseline - other.baseline) <= NEAR
    )


def _glyphs(pdf: bytes) -> Iterator[_Glyph]:
    with pdfplumber.open(BytesIO(pdf)) as document:
        for page in document.pages:
            end, baseline, cuts = 0.0, 0.0, 0
            for char in (one for one in page.layout if isinstance(one, LTChar)):
                *_, x, y = char.matrix
                if abs(y - baseline) > 0.01 or x < end - char.size:
                    cuts = 0
                elif abs(char.x0 - end) > 0.0005 * char.size:
                    cuts += 1
                end, baseline = char.x1, y
                if char.get_text().strip():
                    face = _face(char.fontname)
                    yield _Glyph(page.page_number, char.get_text(), x * MM, y * MM, char.size, face, cuts)


def _face(title: str) -> Face:
    """The face by its own name, or by the family that the style gives it with what the engine adds."""
    name = title.partition("+")[2].replace("-", "").casefold()
    if name in _OWN_NAMES:
        return _OWN_NAMES[name]
    return max((face for face in Face if name.startswith(face.value)), key=len)


def _check_pictures(direct: bytes, html: bytes, page: int) -> None:
    """Alike at arm's length: the drawing library sets every glyph to whole pixels, so fine ones are averaged first."""
    ours, theirs = (_averaged(raster(pdf, page, dpi=360)) for pdf in (direct, html))
    inked = int((theirs < 200).sum())
    assert int((np.abs(ours - theirs) > _FAR_OFF).sum()) <= _ALLOWED * inked


def _averaged(picture: Any) -> Any:
    height, width = (side // _STEP * _STEP for side in picture.shape)
    return picture[:height, :width].reshape(height // _STEP, _STEP, width // _STEP, _STEP).mean(axis=(1, 3))
