"""Pictures in a PDF: each embedded once, with its mask (ISO 32000-2, 8.9.5 and 11.6.5.2)."""

from __future__ import annotations

from typing import Any

import pydyf

from namekeeper.labels.drawing import Dots, Shown
from namekeeper.labels.layout import PT


class PictureCase:
    """The pictures of a document by the names they have in it."""

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
