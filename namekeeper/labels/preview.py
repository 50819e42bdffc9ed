"""A page of a PDF as a picture: the only module that knows the library that draws pages, loaded for a look only."""

from __future__ import annotations

from io import BytesIO

from namekeeper.words.errors import InputError, MissingLibraryError


def page_png(pdf: bytes, page: int = 1, dpi: int = 150) -> bytes:
    """The page, counted from 1, as PNG.

    :raises InputError: if there is no such page.
    :raises MissingLibraryError: if the library that draws pages is missing.
    """
    try:
        import pypdfium2
    except (ImportError, OSError) as fault:
        what = f"previews cannot be made here: {fault}"
        raise MissingLibraryError(what, remedy="pip install pypdfium2 pillow") from None
    document = pypdfium2.PdfDocument(pdf)
    try:
        if not 1 <= page <= len(document):
            what = f"there is no page {page}"
            raise InputError(what, remedy=f"pages count from 1 to {len(document)}")
        target = BytesIO()
        document[page - 1].render(scale=dpi / 72).to_pil().convert("RGB").save(target, format="PNG", optimize=False)
        return target.getvalue()
    finally:
        document.close()
