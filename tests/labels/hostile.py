"""Pictures, fonts and names in a template that would harm whoever draws it, and what the command says of each.

``python -m tests.labels.hostile FOLDER HOME [CASE ...]`` makes each below FOLDER, prints labels with it in this process
and writes what came of it as JSON; its limits are set by whoever starts it.
"""

from __future__ import annotations

import io
import json
import os
import socket
import struct
import sys
import zlib
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path
from types import MappingProxyType

from PIL import Image

from tests.conftest import NOWHERE, run_here

Content = Callable[[], bytes]
Maker = Callable[[Path], object]
Files = tuple[tuple[str, bytes], ...]
BLOCKS = "blocks: [{show: [name, id], size: [5, 9]}]\n"
SVG = '<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" width="9" height="9">{}</svg>'
REFUSED, DRAWN = 2, 0


def chunk(kind: bytes, data: bytes) -> bytes:
    """A chunk of a PNG (ISO/IEC 15948, 5.3)."""
    return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))


def header(columns: int, rows: int, depth: int = 1, colour: int = 0) -> bytes:
    return chunk(b"IHDR", struct.pack(">IIBBBBB", columns, rows, depth, colour, 0, 0, 0))


def packed(size: int) -> bytes:
    """So many zeros, packed without ever holding them."""
    work = zlib.compressobj(9)
    block = bytes(1 << 20)
    parts = [work.compress(block) for _ in range(size >> 20)]
    return b"".join([*parts, work.compress(bytes(size & (1 << 20) - 1)), work.flush()])


def png(*chunks: bytes) -> bytes:
    return b"\x89PNG\r\n\x1a\n" + b"".join(chunks) + chunk(b"IEND", b"")


def gigapixel() -> bytes:
    """A white picture of 900 million dots in 110 kB."""
    return png(header(30_000, 30_000), chunk(b"IDAT", packed(30_000 * 3_751)))


def two_headers() -> bytes:
    """A header that is looked at, and a second one that a library obeys."""
    return png(header(8, 8), header(13_000, 13_000), chunk(b"IDAT", packed(13_000 * 1_626)))


def late_header() -> bytes:
    return png(chunk(b"tEXt", b"a\0" + bytes(20)), header(13_000, 13_000), chunk(b"IDAT", packed(13_000 * 1_626)))


def text_bomb() -> bytes:
    return png(header(1, 1), chunk(b"zTXt", b"a\0\0" + packed(300 << 20)), chunk(b"IDAT", zlib.compress(b"\0\0")))


def colour_bomb() -> bytes:
    return png(header(1, 1), chunk(b"iCCP", b"a\0\0" + packed(300 << 20)), chunk(b"IDAT", zlib.compress(b"\0\0")))


def in_format(kind: str) -> bytes:
    target = io.BytesIO()
    Image.new("RGB", (60, 40), "#c00000").save(target, kind)
    return target.getvalue()


def cut(content: bytes, end: float) -> bytes:
    return content[: int(len(content) * end)]


def svg(inner: str, before: str = "") -> bytes:
    return (before + SVG.format(inner)).encode()


def laughs(levels: int = 10) -> str:
    """Ten lines that draw a square 10 to the tenth times."""
    lines = ['<defs><rect id="l0" width="9" height="9"/>']
    lines += [f'<g id="l{level}">' + f'<use href="#l{level - 1}"/>' * 10 + "</g>" for level in range(1, levels + 1)]
    return "".join(lines) + f'</defs><use xlink:href="#l{levels}"/>'


def entities(levels: int = 9) -> bytes:
    """Entities that stand for ten others each (MITRE, CWE-776)."""
    lines = ['<!DOCTYPE svg [<!ENTITY e0 "xxxxxxxxxx">']
    lines += [f'<!ENTITY e{level} "{f"&e{level - 1};" * 10}">' for level in range(1, levels + 1)]
    return svg(f"<text>&e{levels};</text>", "".join(lines) + "]>")


def patterns() -> str:
    """Patterns that are filled with the one before, ten times each."""
    shape = '<rect width="9" height="9" fill="url(#p{})"/>'
    made = "".join(
        f'<pattern id="p{level}" width="1" height="1">{shape.format(level - 1) * 10}</pattern>' for level in range(1, 9)
    )
    return made + shape.format(8)


def itself(kind: str, key: str) -> str:
    """A shape that is shown by something that is shown by itself."""
    shape = f'<rect width="9" height="9" {key}="url(#x)"/>'
    return f'<{kind} id="x">{shape}</{kind}>{shape}'


def markers() -> str:
    """A hundred thousand corners with a hundred shapes at each."""
    corners = "M0 0" + "L1 1" * 100_000
    return f'<marker id="m">{SHAPE * 100}</marker><path d="{corners}" style="marker-mid: url(#m)"/>'


SHAPE = '<rect width="9" height="9"/>'
STOPS = '<stop/><stop offset="1" stop-color="red"/>'
FADE = f'<linearGradient id="f" x2="0.0000000001" spreadMethod="repeat">{STOPS}</linearGradient>'
RING = '<g id="a"><use href="#b"/></g><g id="b"><use href="#a"/></g>'
PICTURE = "data:image/png;base64," + "A" * 400_000


@dataclass(frozen=True)
class Case:
    """A picture of a layout, or the files of a template with markup of its own; and what is said."""

    words: str
    picture: Maker | None = None
    suffix: str = ".png"
    files: Files = ()
    code: int = REFUSED

    def make(self, folder: Path) -> None:
        folder.mkdir(parents=True)
        layout = BLOCKS
        if self.picture:
            path = folder / f"mark{self.suffix}"
            layout += f"picture: {{file: {path.name}, size: [5, 5]}}\n"
            self.picture(path)
        (folder / "layout.yaml").write_text(layout, encoding="utf-8")
        for name, content in self.files:
            (folder / name).write_bytes(content)


def holding(content: Content) -> Maker:
    return lambda path: path.write_bytes(content())


def of(words: str, content: Content, suffix: str = ".png") -> Case:
    return Case(words, holding(content), suffix)


def vector(words: str, inner: str, before: str = "", code: int = REFUSED) -> Case:
    return Case(words, holding(lambda: svg(inner, before)), ".svg", code=code)


def markup(words: str, html: str = "", style: str = "", code: int = REFUSED, more: Files = ()) -> Case:
    """A template that draws its blocks and something more."""
    page = '{{ zone("head") }}{{ zone("body") }}{{ zone("foot") }}' + html
    files = (("label.html", page.encode()), ("label.css", style.encode()), *more)
    return Case(words, files=files, code=code)


def type_from(source: str, more: Files = ()) -> Case:
    """A template that brings type of its own."""
    words = ELSEWHERE if source.startswith("url") else ""  # what the system has of its own is refused in other words
    return markup(
        words, "<p style='font-family: x'>A</p>", f"@font-face {{ font-family: x; src: {source} }}", more=more
    )


def sparse(path: Path) -> None:
    with path.open("wb") as file:
        file.truncate(100 << 20)


NO_PICTURE, TOO_MUCH, ELSEWHERE = "cannot be shown", "more than a picture on a label has", "may open nothing but"
CASES: MappingProxyType[str, Case] = MappingProxyType(
    {
        "png: gigapixel": of("4 million at most", gigapixel),
        "png: two headers": of("4 million at most", two_headers),
        "png: late header": of("no whole PNG", late_header),
        "png: packed text": of(NO_PICTURE, text_bomb),
        "png: packed colours": of(NO_PICTURE, colour_bomb),
        "png: cut": of("no whole PNG", lambda: cut(in_format("PNG"), 0.8)),
        "png: empty": of(NO_PICTURE, lambda: b""),
        "png: a JPEG": of(NO_PICTURE, lambda: in_format("JPEG")),
        "png: a WebP": of(NO_PICTURE, lambda: in_format("WEBP")),
        "png: a GIF": of(NO_PICTURE, lambda: in_format("GIF")),
        "png: an SVG": of(NO_PICTURE, lambda: svg(SHAPE)),
        "png: pipe": Case("a pipe or device", os.mkfifo),
        "png: device": Case("a link", lambda path: path.symlink_to("/dev/zero")),
        "png: folder": Case("Is a directory", Path.mkdir),
        "png: ring of links": Case("a link", lambda path: path.symlink_to(path.name)),
        "png: sparse": Case("500 kB", sparse),
        "svg: entities": of("entities", entities, ".svg"),
        "svg: entity of a file": vector(
            "entities", "<text>&e;</text>", '<!DOCTYPE svg [<!ENTITY e SYSTEM "file:///etc/passwd">]>'
        ),
        "svg: doctype elsewhere": vector("", SHAPE, '<!DOCTYPE svg SYSTEM "{address}/svg.dtd">', DRAWN),
        "svg: style elsewhere": vector("", SHAPE, '<?xml-stylesheet href="{address}/a.css" type="text/css"?>', DRAWN),
        "svg: style imports": vector("elsewhere", "<style>@import '{address}/a.css';</style>" + SHAPE),
        "svg: style shows": vector("elsewhere", "<style>rect { fill: url({address}/a.svg#p) }</style>" + SHAPE),
        "svg: script": vector("<script>", "<script>while (true) {}</script>" + SHAPE),
        "svg: web page": vector("<foreignObject>", "<foreignObject><p>x</p></foreignObject>" + SHAPE),
        "svg: picture of a file": vector("<image>", '<image href="file:///etc/passwd" width="9" height="9"/>'),
        "svg: picture of the net": vector("<image>", '<image xlink:href="{address}/a.png" width="9" height="9"/>'),
        "svg: packed picture": vector("<image>", f'<image href="{PICTURE}" width="9" height="9"/>'),
        "svg: use of a file": vector("elsewhere", '<use href="file:///etc/passwd#x"/>' + SHAPE),
        "svg: use of the net": vector("elsewhere", '<use xlink:href="{address}/a.svg#x"/>' + SHAPE),
        "svg: use of itself": vector(TOO_MUCH, '<g id="a"><use href="#a"/></g>'),
        "svg: ring of uses": vector(TOO_MUCH, RING),
        "svg: laughs": vector(TOO_MUCH, laughs()),
        "svg: patterns": vector(TOO_MUCH, patterns()),
        "svg: pattern of itself": vector(TOO_MUCH, itself("pattern", "fill")),
        "svg: clip of itself": vector(TOO_MUCH, itself("clipPath", "clip-path")),
        "svg: mask of itself": vector(TOO_MUCH, itself("mask", "mask")),
        "svg: markers": vector(TOO_MUCH, markers()),
        "svg: fade without end": vector("spreadMethod", FADE + '<rect width="9" height="9" fill="url(#f)"/>'),
        "svg: depth": vector(TOO_MUCH, "<g>" * 60_000 + "</g>" * 60_000),
        "svg: many shapes": vector(TOO_MUCH, "<rect/>" * 60_000),
        "svg: long path": vector(TOO_MUCH, f'<path d="M0 0{"L1 1" * 110_000}"/>'),
        "svg: long text": vector(TOO_MUCH, f"<text>{'x' * 40_000}</text>"),
        "svg: cut": of(NO_PICTURE, lambda: cut(svg(SHAPE), 0.8), ".svg"),
        "svg: packed": of(NO_PICTURE, lambda: zlib.compress(svg(SHAPE)), ".svg"),
        "svg: a PNG": of(NO_PICTURE, lambda: in_format("PNG"), ".svg"),
        "svg: another document": of("it is no SVG", lambda: b"<html/>", ".svg"),
        "svg: pipe": Case("a pipe or device", os.mkfifo, ".svg"),
        "html: packed picture": markup(ELSEWHERE, f"<img src='{PICTURE}'>"),
        "html: gigapixel": markup("4 million at most", "<img src='picture:big.png'>", more=(("big.png", gigapixel()),)),
        "html: laughs": markup(TOO_MUCH, "<img src='picture:big.svg'>", more=(("big.svg", svg(laughs())),)),
        "html: laughs within": markup("", f"<div style='position: absolute'>{svg(laughs()).decode()}</div>"),
        "html: file": markup(ELSEWHERE, "<img src='file:///etc/passwd'>"),
        "html: net": markup(ELSEWHERE, "<img src='{address}/a.png'>"),
        "html: page within": markup("", code=DRAWN, html= "<iframe src='{address}/a.html'></iframe>"),
        "html: object": markup(ELSEWHERE, "<object data='{address}/a.svg'></object>"),
        "css: font of the net": type_from("url('{address}/x.ttf')"),
        "css: font of its own": type_from("url('label-font:x.ttf')", (("x.ttf", b"x" * 50_000_000),)),
        "css: packed font": type_from(f"url('data:font/ttf;base64,{'A' * 400_000}')"),
        "css: font of the system": type_from("local('DejaVu Sans')"),
    }
)  # fmt: skip


class Listening:
    """A place of this machine that should never hear of anybody: how often it did."""

    def __init__(self) -> None:
        self._socket = socket.create_server(("127.0.0.1", 0))
        self._socket.settimeout(0)
        self.address = f"http://127.0.0.1:{self._socket.getsockname()[1]}"

    def callers(self) -> int:
        count = 0
        while True:
            try:
                self._socket.accept()[0].close()
            except BlockingIOError:
                return count
            count += 1


def told(root: Path, home: Path, names: list[str]) -> Iterator[tuple[str, object]]:
    """Of every case: exit code, document, talk, what was left in the folder; then of labels without it; who called."""
    folder = root / "c"
    (folder / "specimens").mkdir(parents=True)
    for identifier in ("A1", "A2"):
        (folder / "specimens" / f"{identifier}.yaml").write_text(
            "names:\n- name: Brachypelma smithi\n", encoding="utf-8"
        )
    environ = {"NAMEKEEPER_HOME": str(home), **NOWHERE}
    run_here(("labels", "c", "-o", "l.pdf", "--no-record"), root, environ, io.StringIO())  # makes what is ours
    (root / "l.pdf").unlink()
    listening = Listening()
    for number, name in enumerate(names):
        mine = folder / "label_templates" / f"t{number}"
        CASES[name].make(mine)
        for file in mine.iterdir():
            if file.suffix in (".html", ".css", ".svg") and file.is_file():
                file.write_bytes(file.read_bytes().replace(b"{address}", listening.address.encode()))
        before = sorted(root.rglob("*"))
        done = run_here(
            ("labels", "c", "-o", "l.pdf", "--no-record", "--template", mine.name), root, environ, io.StringIO()
        )
        left = [path.name for path in sorted(root.rglob("*")) if path not in before]
        whole = (root / "l.pdf").exists() and (root / "l.pdf").read_bytes().rstrip().endswith(b"%%EOF")
        (root / "l.pdf").unlink(missing_ok=True)
        yield name, [done.code, mine.name, done.err, left, whole]
    done = run_here(("labels", "c", "-o", "others.pdf", "--no-record", "--json"), root, environ, io.StringIO())
    templates = run_here(("labels", "c", "--templates"), root, environ, io.StringIO())
    yield "others", [done.code, done.out, templates.err, listening.callers()]


def main(root: Path, home: Path, *names: str) -> None:
    print(json.dumps(dict(told(root, home, list(names) or list(CASES)))))


if __name__ == "__main__":
    main(Path(sys.argv[1]), Path(sys.argv[2]), *sys.argv[3:])
