"""HTML to PDF: the only module that knows the layout engine, which is not thread-safe.

Laid-out pages are looked at before they become a PDF.
"""

from __future__ import annotations

import gc
import io
import logging
import re
import warnings
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from contextlib import contextmanager, redirect_stdout
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from namekeeper.files.reading import LARGEST_OWN, read_file
from namekeeper.labels.drawing import Square
from namekeeper.labels.drawn_text import MeantLabel, check_drawn
from namekeeper.labels.markup import FONT_SCHEME
from namekeeper.labels.pages import VIEWER_WISHES
from namekeeper.labels.pictures import KINDS, PICTURE_REMEDY, SCHEME, picture_content
from namekeeper.labels.qr import square_operators
from namekeeper.labels.text import Face
from namekeeper.outside import Progress, unwatched
from namekeeper.words.errors import InputError, MissingLibraryError, Place

_SHOWN = 80  # characters of an address in a message: one may hold a whole file
_AT_LINE = re.compile(r",? at (\d+):\d+(?=[,.]|$)")
_REMEDY = (
    "Debian or Ubuntu: apt install libpango-1.0-0 libpangoft2-1.0-0 libharfbuzz-subset0; macOS: brew install pango; "
    "Windows: install Pango with MSYS2 (pacman -S mingw-w64-x86_64-pango) and set WEASYPRINT_DLL_DIRECTORIES to its "
    "bin folder; or leave label.html and SVG pictures away, the rest of layout.yaml needs none of this"
)


@dataclass(frozen=True, slots=True)
class RenderJob:
    """All that is needed to draw a document, in parts of whole pages."""

    parts: tuple[str, ...]
    css: str
    fonts: Mapping[Face, Path]
    squares: tuple[Square, ...] = ()
    meant: tuple[MeantLabel, ...] = ()
    place: Place = field(default_factory=Place)  # of the file that arranges the labels
    style: Place = field(default_factory=Place)  # of the template's own style, which begins on this line of ``css``
    pictures: Path | None = None  # the folder whose pictures the markup may show


@contextmanager
def frugal_collection() -> Iterator[Callable[[], None]]:
    """The cyclic collector off while we work, since it walks the growing tree of boxes again and again.

    What it yields is called when a part is laid out: it frees what that part no longer needs, and puts the rest by so
    that it is not walked again.
    """
    was_on = gc.isenabled()
    gc.disable()

    def put_by() -> None:
        gc.collect()
        gc.freeze()

    try:
        yield put_by
    finally:
        gc.unfreeze()
        if was_on:
            gc.enable()


def render_pdf(job: RenderJob, step: Progress = unwatched) -> bytes:
    """The PDF of a document; the same bytes for the same input.

    :raises MissingLibraryError: if a library of the system is missing.
    :raises InputError: if the document asks for a file, the network, or a character no face can draw.
    """
    with _complaints() as complaints, frugal_collection() as put_by:
        engine = _engine()
        refused: list[InputError] = []
        misdrawn: InputError | None = None
        fetcher = _fonts_only(job, engine, refused)
        try:
            pdf = _drawn_by(engine, job, fetcher, put_by, step)
        except InputError as fault:
            misdrawn = fault
        except Exception as fault:  # a template of the keeper's own can make the engine fail in any way
            complaints.append(str(fault) if type(fault) is ValueError else f"{type(fault).__name__}: {fault}")
    if refused:
        raise refused[0]
    if complaints:
        raise _complaint(complaints[0], job)
    if misdrawn:
        raise misdrawn
    return pdf


def _drawn_by(engine: Any, job: RenderJob, fetcher: Any, put_by: Callable[[], None], step: Progress) -> bytes:
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")  # of no fonts on this system: ours are all we use
        configuration = engine.text.fonts.FontConfiguration()
    documents: list[Any] = []
    misdrawn: InputError | None = None
    checked = 0
    for number, html in enumerate(job.parts):
        step(number, len(job.parts))
        style = engine.CSS(string=job.css, font_config=configuration, url_fetcher=fetcher)
        page = engine.HTML(string=html, url_fetcher=fetcher)
        documents.append(page.render(font_config=configuration, stylesheets=[style]))
        try:
            checked += check_drawn(documents[-1].pages, job.meant[checked:], job.place)
        except InputError as fault:
            misdrawn = misdrawn or fault  # told only if nothing worse is found while the rest is drawn
            break
        del page
        if len(job.parts) > 1:
            put_by()
    whole = documents[0].copy([page for document in documents for page in document.pages])
    pdf: bytes = whole.write_pdf(finisher=lambda _, pdf: _finish(pdf, job.squares))
    if foreign := _foreign_font(whole.fonts.values()):
        message = f"a character comes from the system's font {foreign}"
        raise ValueError(message)
    if misdrawn:
        raise misdrawn
    return pdf


def _foreign_font(fonts: Iterable[Any]) -> str | None:
    """The first font that is none of the shipped faces."""
    shipped = {face.value for face in Face}
    return next((str(font.family) for font in fonts if font.family not in shipped), None)


def _engine() -> Any:
    try:
        # Where a library is missing the engine prints advice of its own: stdout is for what was asked for.
        with warnings.catch_warnings(), redirect_stdout(io.StringIO()):
            # Older systems lack one library that speeds up subsets, or have no fonts: neither matters here.
            warnings.simplefilter("ignore")
            import weasyprint
            import weasyprint.text.fonts
            import weasyprint.urls
            from PIL import ImageFile
    except (ImportError, OSError) as fault:
        what = (
            f"this template is drawn by way of HTML, for which a library is missing here: {str(fault).splitlines()[0]}"
        )
        raise MissingLibraryError(what, remedy=_REMEDY) from None
    ImageFile.LOAD_TRUNCATED_IMAGES = False  # the engine sets it; a torn picture is told, and not shown
    return weasyprint


def _fonts_only(job: RenderJob, engine: Any, refused: list[InputError]) -> Any:
    """A fetcher that opens the shipped faces and pictures of the template; what else is asked for is ``refused``."""
    known: dict[str, tuple[bytes, str]] = {}  # read once, so that all labels show the same

    class FontsOnly(engine.urls.URLFetcher):  # type: ignore[misc]
        def fetch(self, url: str, headers: object = None) -> Any:
            del headers
            try:
                content, kind = known[url] if url in known else known.setdefault(url, _asked_for(url, job))
            except InputError as fault:
                refused.append(fault)
                raise
            return engine.urls.URLFetcherResponse(url, content, {"Content-Type": kind})

    return FontsOnly()


def _asked_for(url: str, job: RenderJob) -> tuple[bytes, str]:
    """What stands at an address that a document asks for, and of which kind it is.

    :raises InputError: if that is no shipped face, and no picture of the template that may be shown.
    """
    if url.startswith(SCHEME) and job.pictures:
        name = url.removeprefix(SCHEME)
        try:
            return picture_content(job.pictures, name), KINDS[Path(name).suffix]
        except ValueError as fault:
            raise InputError(str(fault), remedy=PICTURE_REMEDY, place=job.place) from None
    if url in {f"{FONT_SCHEME}{face}" for face in job.fonts}:
        return read_file(job.fonts[Face(url.removeprefix(FONT_SCHEME))], LARGEST_OWN), "font/ttf"
    asked = url if len(url) <= _SHOWN else f"{url[:_SHOWN]}..."
    what = f"the template asks for '{asked}', and may open nothing but the shipped fonts"
    remedy = "remove images, imports and links to files; pictures are picture:NAME.png"
    raise InputError(what, remedy=remedy, place=job.place)


def _complaint(words: str, job: RenderJob) -> InputError:
    """What the engine could not do, with the place in the template's own style if that is known."""
    words, place = _placed(" ".join(words.split()), job)
    what = f"the labels cannot be drawn: {words}"
    return InputError(what, remedy="compare the template with a shipped one", place=place)


def _placed(complaint: str, job: RenderJob) -> tuple[str, Place]:
    """A complaint of the engine's without its line, and where that is in the template's own style, if it is there."""
    found = _AT_LINE.search(complaint)
    line = int(found[1]) - (job.style.line or 1) + 1 if found else 0
    if found is None or line < 1 or not job.style.file:
        return complaint, job.place
    return _AT_LINE.sub("", complaint), Place(job.style.file, line)


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

    pdf.catalog.setdefault("ViewerPreferences", pydyf.Dictionary()).update(VIEWER_WISHES)
    pages = [pdf.objects[number] for number in pdf.pages["Kids"][::3]]
    for number in sorted({square.page for square in squares}):
        page = pages[number]
        drawn = [square_operators(square, page["MediaBox"][3]) for square in squares if square.page == number]
        stream = pydyf.Stream(drawn, compress=True)
        pdf.add_object(stream)
        # Before the page's own content, so that the page's coordinates are still the plain ones.
        page["Contents"] = pydyf.Array([stream.reference, page["Contents"]])
