"""A page of a PDF as a picture: the only module that knows the library that draws pages, loaded for a look only."""

from __future__ import annotations

from io import BytesIO

from namekeeper.words.errors import InputError, MissingLibraryError


def page_png(
    pdf: bytes, page: int = 1, dpi: int = 150, colours: int | None = None, cut: tuple[float, ...] = (0, 0, 0, 0)
) -> bytes:
    """The page, counted from 1, as PNG; with ``colours`` of at most so many, which makes it small.

    ``cut`` is what is left away at the left, bottom, right and top, in mm.

    :raises InputError: if there is no such page.
    :raises MissingLibraryError: if the library that draws pages is missing.
    """
    try:
        import pypdfium2
        from PIL.Image import Dither
    except (ImportError, OSError) as fault:
        what = f"previews cannot be made here: {fault}"
        raise MissingLibraryError(what, remedy="pip install pypdfium2 pillow") from None
    document = pypdfium2.PdfDocument(pdf)
    try:
        if not 1 <= page <= len(document):
            what = f"there is no page {page}"
            raise InputError(what, remedy=f"pages count from 1 to {len(document)}")
        target = BytesIO()
        drawn = (
            document[page - 1]
            .render(scale=dpi / 72, crop=tuple(side * 72 / 25.4 for side in cut))
            .to_pil()
            .convert("RGB")
        )
        if colours is not None:
            drawn = drawn.quantize(colours, dither=Dither.NONE)
        drawn.save(target, format="PNG", optimize=colours is not None)
        return target.getvalue()
    finally:
        document.close()
