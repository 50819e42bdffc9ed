"""What a command made of the files below its folder and home, told so that a difference can be read."""

from __future__ import annotations

import difflib
import hashlib
import io
import re
import zipfile
from collections.abc import Callable, Iterator, Mapping
from functools import cache
from importlib.metadata import version
from pathlib import Path

from tests.recorded.sections import Section

Steady = Callable[[str], str]
_MM = 25.4 / 72
_MOST = 16_000
_DIGEST = re.compile(r"[0-9a-f]{32,64}(?=[./]|$)")


def tree(folder: Path) -> dict[str, bytes]:
    """Every file below ``folder`` by its relative path; links as what they point to."""
    return {
        path.relative_to(folder).as_posix(): path.read_bytes()
        for path in sorted(folder.rglob("*"))
        if path.is_file() and not path.is_symlink()
    }


def changes(before: Mapping[str, bytes], after: Mapping[str, bytes], steady: Steady, prefix: str = "") -> list[Section]:
    """A section for each file that was made, changed or removed."""
    found: list[Section] = []
    for path in sorted({*before, *after}, key=lambda path: (shown(path), after.get(path, b""))):
        name = prefix + shown(path)
        if path not in after:
            found.append(Section(f"removed {name}"))
        elif path not in before:
            found += described(f"made {name}", after[path], steady)
        elif before[path] != after[path]:
            found += _changed(name, before[path], after[path], steady)
    return found


def shown(path: str) -> str:
    """A path in which the digest of a folder's place, another on every machine, is a word."""
    return _DIGEST.sub("DIGEST", path)


def _changed(name: str, before: bytes, after: bytes, steady: Steady) -> list[Section]:
    old, new = _text(before), _text(after)
    if old is None or new is None or name.endswith((".html", ".pdf")):
        return list(described(f"changed {name}", after, steady))
    lines = difflib.unified_diff(
        steady(old).splitlines(keepends=True), steady(new).splitlines(keepends=True), n=0, lineterm="\n"
    )
    body = "".join(line if line.endswith("\n") else f"{line}\\ no newline\n" for line in list(lines)[2:])
    return [Section(f"changed {name}", body)]


def described(what: str, content: bytes, steady: Steady) -> Iterator[Section]:
    """Text as it is, or by length and digest if long or a page; archives by their members; PDFs by text and place."""
    text = _text(content)
    if content.startswith(b"%PDF"):
        yield Section(f"{what}: a PDF; x and y in mm, size in pt", "\n".join(pdf_lines(content)) + "\n")
        yield Section(f"sha256 of {what.split()[1]}", _digest(content) + "\n", engine())
    elif content.startswith(b"\x89PNG"):
        yield Section(f"{what}: a picture of {_pixels(content)} pixels")
    elif content.startswith(b"SQLite format 3"):
        yield Section(f"{what}: a database")
    elif content.startswith(b"PK\x03\x04"):
        yield from _archive(what, content, steady)
    elif text is None:
        yield Section(f"{what}: {len(content)} bytes, sha256 {_digest(content)}")
    elif len(text) > _MOST or what.endswith(".html"):
        plain = steady(text)
        yield Section(f"{what}: {len(plain)} characters, sha256 {_digest(plain.encode())}")
    else:
        yield Section(what, steady(text))


def _archive(what: str, content: bytes, steady: Steady) -> Iterator[Section]:
    with zipfile.ZipFile(io.BytesIO(content)) as archive:
        yield Section(f"{what}: an archive", "".join(f"{name}\n" for name in archive.namelist()))
        for name in archive.namelist():
            yield from described(f"in it {name}", archive.read(name), steady)


def _text(content: bytes) -> str | None:
    try:
        text = content.decode("utf-8")
    except UnicodeDecodeError:
        return None
    return None if "\x00" in text else text


def _digest(content: bytes) -> str:
    return hashlib.sha256(content).hexdigest()


def _pixels(content: bytes) -> str:
    width, height = (int.from_bytes(content[at : at + 4], "big") for at in (16, 20))  # PNG (ISO/IEC 15948), IHDR
    return f"{width} x {height}"


def pdf_lines(content: bytes) -> Iterator[str]:
    """Each page's size, then its words with place, size of type and slant, to a tenth."""
    import pdfplumber

    with pdfplumber.open(io.BytesIO(content)) as pdf:
        for number, page in enumerate(pdf.pages, 1):
            yield f"page {number}: {page.width * _MM:.1f} x {page.height * _MM:.1f}"
            for word in page.extract_words(keep_blank_chars=True, extra_attrs=["fontname", "size"]):
                slant = "/" if "Italic" in word["fontname"] else " "
                yield f"{word['x0'] * _MM:6.1f} {word['top'] * _MM:6.1f} {word['size']:5.1f} {slant} {word['text']}"


@cache
def engine() -> str:
    """The versions of all that has a hand in the bytes of a PDF."""
    import zlib

    packages = ("weasyprint", "pydyf", "uharfbuzz", "fontpkg-fira-sans-condensed", "fonttools", "segno")
    versions = [f"{name} {version(name)}" for name in packages]
    return ", ".join([*versions, f"pango {_pango()}", f"zlib {zlib.ZLIB_RUNTIME_VERSION}"])


def _pango() -> str:
    from weasyprint.text.ffi import pango

    number = int(pango.pango_version())
    return f"{number // 10000}.{number // 100 % 100}.{number % 100}"
