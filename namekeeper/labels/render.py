"""HTML to PDF: the only module that knows the layout engine.

The engine is not thread-safe: callers that could ask at once use :mod:`namekeeper.labels.render_process`.
"""

from __future__ import annotations

import logging
import warnings
from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from namekeeper.labels.fitted import QUIET
from namekeeper.labels.garbage import frugal_collection
from namekeeper.labels.inspection import foreign_font, strayed_text
from namekeeper.labels.layout import PT
from namekeeper.labels.markup import FONT_SCHEME, Correction, Placed
from namekeeper.labels.qr import Symbol, operators
from namekeeper.labels.sheets import StickerSheet
from namekeeper.labels.text import Face
from namekeeper.words.errors import InputError, MissingLibraryError

_REMEDY = (
    "Debian or Ubuntu: apt install libpango-1.0-0 libpangoft2-1.0-0 libharfbuzz-subset0; macOS: brew install pango; "
    "Windows: install Pango with MSYS2 (pacman -S mingw-w64-x86_64-pango) and set WEASYPRINT_DLL_DIRECTORIES to its "
    "bin folder; everything but PDF labels works without it"
)


@dataclass(frozen=True, slots=True)
class Square:
    """A QR code on its page: left and top of its dark modules and its module in mm."""

    page: int
    left: float
    top: float
    module: float
    symbol: Symbol


@dataclass(frozen=True, slots=True)
class RenderJob:
    """All that is needed to draw a document, in parts of whole pages; it can be sent to another process."""

    parts: tuple[str, ...]
    css: str
    fonts: Mapping[Face, Path]
    squares: tuple[Square, ...] = ()


def squares(
    placed: Sequence[Placed],
    sheet: StickerSheet,
    pads: tuple[float, float],
    correction: Correction,
    symbols: Mapping[str, Symbol],
) -> tuple[Square, ...]:
    """Where the QR codes stand: at the lower right, their dark modules ending where the text would."""
    found = []
    for one in placed:
        fitted = one.fitted
        if not fitted.square:
            continue
        quiet = QUIET * fitted.module
        left, top = correction.apply(sheet.corner(one.place))
        inset_x, inset_y = (max(pad, quiet) for pad in pads)
        side = fitted.square - 2 * quiet
        x = float(left + sheet.width) - inset_x - side
        y = float(top + sheet.height) - inset_y - side
        found.append(Square(one.page, x, y, fitted.module, symbols[fitted.content.square]))
    return tuple(found)


def render_pdf(job: RenderJob) -> bytes:
    """The PDF of a document; the same bytes for the same input.

    :raises MissingLibraryError: if a library of the system is missing.
    :raises InputError: if the document asks for a file, the network, or a character no face can draw.
    """
    with _complaints() as complaints, frugal_collection() as put_by:
        engine = _engine()
        refused: list[str] = []
        fetcher = _fonts_only(job.fonts, engine, refused)
        try:
            pdf = _drawn_by(engine, job, fetcher, put_by)
        except Exception as fault:  # a template of the keeper's own can make the engine fail in any way
            complaints.append(str(fault) if type(fault) is ValueError else f"{type(fault).__name__}: {fault}")
    _judge(refused, complaints)
    return pdf


def _drawn_by(engine: Any, job: RenderJob, fetcher: Any, put_by: Callable[[], None]) -> bytes:
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")  # of no fonts on this system: ours are all we use
        configuration = engine.text.fonts.FontConfiguration()
    documents = []
    for html in job.parts:
        style = engine.CSS(string=job.css, font_config=configuration, url_fetcher=fetcher)
        page = engine.HTML(string=html, url_fetcher=fetcher)
        documents.append(page.render(font_config=configuration, stylesheets=[style]))
        if strayed := strayed_text(documents[-1].pages):
            message = f"'{strayed}' would stand outside its label"
            raise ValueError(message)
        del page
        if len(job.parts) > 1:
            put_by()
    whole = documents[0].copy([page for document in documents for page in document.pages])
    pdf: bytes = whole.write_pdf(finisher=lambda _, pdf: _finish(pdf, job.squares))
    if foreign := foreign_font(whole.fonts.values()):
        message = f"a character comes from the system's font {foreign}"
        raise ValueError(message)
    return pdf


def _engine() -> Any:
    try:
        with warnings.catch_warnings():
            # Older systems lack one library that speeds up subsets, or have no fonts: neither matters here.
            warnings.simplefilter("ignore")
            import weasyprint
            import weasyprint.text.fonts
            import weasyprint.urls
    except (ImportError, OSError) as fault:
        what = f"PDFs cannot be made here, a library is missing: {str(fault).splitlines()[0]}"
        raise MissingLibraryError(what, remedy=_REMEDY) from None
    return weasyprint


def _fonts_only(fonts: Mapping[Face, Path], engine: Any, refused: list[str]) -> Any:
    """A fetcher that opens the shipped faces and nothing else; what else is asked for goes into ``refused``."""

    class FontsOnly(engine.urls.URLFetcher):  # type: ignore[misc]
        def fetch(self, url: str, headers: object = None) -> Any:
            del headers
            name = url.removeprefix(FONT_SCHEME)
            if name == url or name not in set(fonts):
                refused.append(url)
                message = f"not one of the shipped fonts: {url}"
                raise ValueError(message)
            return engine.urls.URLFetcherResponse(url, fonts[Face(name)].read_bytes(), {"Content-Type": "font/ttf"})

    return FontsOnly()


def _judge(refused: Sequence[str], complaints: Sequence[str]) -> None:
    if refused:
        what = f"the template asks for '{refused[0]}', and may open nothing but the shipped fonts"
        raise InputError(what, remedy="remove images, imports and links to files from the template")
    if complaints:
        what = f"the labels cannot be drawn: {' '.join(complaints[0].split())}"
        raise InputError(what, remedy="compare the template with a shipped one")


@contextmanager
def _complaints() -> Iterator[list[str]]:
    """What the engine warns about while it works; a glyph that is missing is such a warning."""
    found: list[str] = []

    class Collect(logging.Handler):
        def emit(self, record: logging.LogRecord) -> None:
            found.append(record.getMessage())

    handler = Collect(logging.WARNING)
    logger = logging.getLogger("weasyprint")
    before = logger.handlers[:], logger.propagate
    logger.handlers, logger.propagate = [handler], False
    try:
        yield found
    finally:
        logger.handlers, logger.propagate = before


def _finish(pdf: Any, squares: Sequence[Square]) -> None:
    import pydyf

    # ISO 32000-2 table 147: asks the print dialog for actual size; the person at the dialog may still change it.
    wishes = pdf.catalog.setdefault("ViewerPreferences", pydyf.Dictionary())
    wishes.update({"PrintScaling": "/None", "PickTrayByPDFSize": "true"})
    wishes.update({"Duplex": "/Simplex", "DisplayDocTitle": "true"})
    pages = [pdf.objects[number] for number in pdf.pages["Kids"][::3]]
    for number in sorted({square.page for square in squares}):
        page = pages[number]
        drawn = [_drawn(square, page["MediaBox"][3]) for square in squares if square.page == number]
        stream = pydyf.Stream(drawn, compress=True)
        pdf.add_object(stream)
        # Before the page's own content, so that the page's coordinates are still the plain ones.
        page["Contents"] = pydyf.Array([stream.reference, page["Contents"]])


def _drawn(square: Square, page_height: float) -> bytes:
    top = page_height - square.top / PT
    return operators(square.symbol, square.left / PT, top, square.module / PT).encode("ascii")
