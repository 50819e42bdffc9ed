"""The terminal: reports to one stream, talk to another, plain tables that fit the width."""

from __future__ import annotations

import unicodedata
from collections.abc import Iterable, Iterator, Sequence
from contextlib import contextmanager
from functools import lru_cache, partial
from itertools import chain, zip_longest
from operator import le
from typing import NamedTuple, TextIO

from namekeeper.faces.telling.parts import Folded, Grid, Heading, NameItem, Numbered, Part, TextLine
from namekeeper.faces.telling.remarks import remark_line
from namekeeper.outside import Progress, Remark, Work

_RESET = "\x1b[0m"
_STYLES = {"strong": "\x1b[1m", "faint": "\x1b[2m", "name": "\x1b[3m"}
_UTF_8 = frozenset({"utf-8", "utf8", "cp65001"})
_GAP = "  "
_MAY_SHRINK_TO = 8
_FOLDS_TO = 15  # a column that gives way first
_READABLE = 100
_FIRST_COMBINING = "\u0300"  # every letter before it takes one column


def printable(text: str) -> str:
    """``text`` with control and bidirectional override characters made visible, so that no tag steers a terminal."""
    if text.isascii() and text.isprintable():
        return text
    return "".join(_shown(letter) for letter in text)


def _shown(letter: str) -> str:
    if letter == "\n" or (letter.isprintable() and unicodedata.bidirectional(letter) not in _OVERRIDES):
        return letter
    return letter if letter == "\u00a0" else f"\\u{ord(letter):04x}"


_OVERRIDES = frozenset({"LRE", "RLE", "LRO", "RLO", "PDF", "LRI", "RLI", "FSI", "PDI"})


def width_of(text: str) -> int:
    """Columns that ``text`` takes on a terminal."""
    if text.isascii() or max(text) < _FIRST_COMBINING:
        return len(text)
    return sum(
        0 if unicodedata.combining(letter) else 2 if unicodedata.east_asian_width(letter) in "WF" else 1
        for letter in text
    )


class Console(NamedTuple):
    """Writes reports to ``out`` and talk to ``err``."""

    out: TextIO
    err: TextIO
    width: int = 80
    styled: bool = False
    lively: bool = False  # whether progress may be redrawn on one line of err

    @classmethod
    def of(cls, out: TextIO, err: TextIO, *, styled: bool, lively: bool) -> Console:
        """A console as wide as the terminal behind ``out``."""
        return cls(out, err, max(_width(out), 40), styled, lively)

    def show(self, parts: Iterable[Part]) -> None:
        """A report, each part as it comes."""
        for part in parts:
            match part:
                case Heading(text):
                    self.heading(text)
                case TextLine(text):
                    self.put(text)
                case Folded(text, indent):
                    self.put_folded(text, indent)
                case NameItem(name, authorship):
                    self.out.write("\n")
                    self._named("  * ", name, authorship)
                case Numbered(number, name, authorship):
                    self._named(f"  {number}  ", name, authorship)
                case Grid(headers, rows, folds_first):
                    self.table(headers, rows, folds_first)

    def put(self, text: str = "") -> None:
        """A line of the report."""
        self.out.write(printable(text) + "\n")

    def put_folded(self, text: str, indent: int = 0) -> None:
        """A paragraph of the report, folded to the width."""
        for line in fold(printable(text), min(self.width, _READABLE) - indent):
            self.out.write(" " * indent + line + "\n")

    def say(self, text: str) -> None:
        """A line of talk; on a terminal one that is too long is folded between words."""
        lines = printable(text).split("\n")
        if self.err.isatty():
            lines = [part for line in lines for part in self._folded_talk(line)]
        self.err.write("\n".join(lines) + "\n")

    def _folded_talk(self, line: str) -> list[str]:
        """The line in parts; as it is where a word, such as a link to be copied, is wider than the terminal."""
        room = min(self.width, _READABLE)
        if width_of(line) <= self.width or max(map(width_of, line.split()), default=0) > room:
            return [line]
        return fold(line, room)

    def notice(self, said: str | Remark) -> None:
        """What a job says on its way."""
        self.say(remark_line(said))

    def say_all(self, texts: Iterable[object]) -> None:
        """Lines of talk: sentences, problems."""
        for text in texts:
            self.say(str(text))

    def json(self, document: dict[str, object]) -> None:
        """The one JSON document of a command, version first; laid out for eyes only where eyes may read it.

        In UTF-8 (RFC 8259, 8.1), or where the stream has another encoding with every letter beyond ASCII escaped, which
        is the same in all of them. A part that is an iterator is a list, written as it goes.
        """
        import json

        plain = (self.out.encoding or "utf-8").lower().replace("_", "-") not in _UTF_8
        whole = {"version": 1, **document}
        if self.out.isatty():
            listed = {key: list(part) if isinstance(part, Iterator) else part for key, part in whole.items()}
            self.out.write(json.dumps(listed, ensure_ascii=plain, indent=2) + "\n")
            return
        # Laying out is done in Python, not in C: a seventh of a check of 1,000 animals with all services.
        write = partial(json.dumps, ensure_ascii=plain)
        for number, (key, part) in enumerate(whole.items()):
            self.out.write(f"{', ' if number else '{'}{write(key)}: ")
            if isinstance(part, Iterator):
                self.out.write("[")
                self.out.writelines(f"{', ' if place else ''}{write(item)}" for place, item in enumerate(part))
                self.out.write("]")
            else:
                self.out.write(write(part))
        self.out.write("}\n")

    def style(self, text: str, kind: str) -> str:
        """``text``, printable already, marked for the terminal; the same text elsewhere."""
        return f"{_STYLES[kind]}{text}{_RESET}" if self.styled else text

    def heading(self, text: str) -> None:
        """A heading with air above it."""
        self.out.write("\n" + self.style(printable(text), "strong") + "\n")

    def _named(self, mark: str, name: str, authorship: str) -> None:
        """An item of a list, the name marked."""
        lines = fold(printable(f"{name} {authorship}".strip()), min(self.width, _READABLE) - len(mark))
        lines[0] = lines[0].replace(printable(name), self.style(printable(name), "name"), 1)
        self.out.write(mark + ("\n" + " " * len(mark)).join(lines) + "\n")

    def table(self, headers: Sequence[str], rows: Sequence[Sequence[str]], folds_first: int | None = None) -> None:
        """Columns that fit the width: ``folds_first`` and the widest are folded between words, and no cell is cut."""
        if not rows:
            return
        head, *cells = map(_printable_row, (headers, *rows))
        room = self.width - len(_GAP) * (len(headers) - 1)
        measure = len if all(map(str.isascii, chain(head, *cells))) else width_of
        widths = [max(map(measure, column)) for column in zip(head, *cells, strict=True)]
        if folds_first is not None:
            own = widths[folds_first]
            widths[folds_first] = max(min(own, _FOLDS_TO), min(own, own + room - sum(widths)))
        widths = _fitted(widths, room)
        *titles, rule = _head(tuple(head), tuple(widths))
        lines = [line for row in cells for line in _lines(row, widths)]
        self.out.write("\n".join([*(self.style(title, "strong") for title in titles), rule, *lines, ""]))

    @contextmanager
    def progress(self, work: Work) -> Iterator[Progress]:
        """Progress on the talk stream; on a terminal one line that is redrawn, elsewhere nothing."""
        drawn = 0

        def show(done: int, total: int | None, note: str = "") -> None:
            nonlocal drawn
            if not self.lively:
                return
            bar = "" if not total else "[" + "=" * (20 * done // total) + " " * (20 - 20 * done // total) + "] "
            line = printable(f"{work} {bar}{done}{'/' + str(total) if total else ''} {note}".replace("\n", " "))
            self.err.write("\r" + line.ljust(drawn))
            self.err.flush()
            drawn = len(line)

        try:
            yield show
        finally:
            if drawn:
                self.err.write("\r" + " " * drawn + "\r")
                self.err.flush()


def _width(out: TextIO) -> int:
    if not out.isatty():
        return 80
    import shutil

    return shutil.get_terminal_size((80, 24)).columns


def _fitted(widths: list[int], room: int) -> list[int]:
    """The widest column gives way first, down to the next, then both in turn."""
    widths = list(widths)
    while (excess := sum(widths) - room) > 0:
        widest = widths.index(max(widths))
        if widths[widest] <= _MAY_SHRINK_TO:
            break
        next_widest = max((*widths[:widest], *widths[widest + 1 :], _MAY_SHRINK_TO))
        widths[widest] -= min(excess, max(widths[widest] - next_widest, 1))
    return widths


@lru_cache(maxsize=256)
def _head(headers: tuple[str, ...], widths: tuple[int, ...]) -> tuple[str, ...]:
    """The lines of the headers and the rule; tables of one report, such as one an animal, share most of them."""
    return (*_lines(headers, widths), _GAP.join("-" * width for width in widths))


def _printable_row(row: Sequence[str]) -> Sequence[str]:
    text = "".join(row)  # asked once for all cells: reports have very many, and nearly all are plain
    return row if text.isascii() and text.isprintable() else [printable(cell) for cell in row]


def _lines(row: Sequence[str], widths: Sequence[int]) -> Iterator[str]:
    plain = all(map(str.isascii, row))
    if plain and all(map(le, map(len, row), widths)):  # one line, as for most rows
        yield _GAP.join([" ".join(cell.split()).ljust(width) for cell, width in zip(row, widths, strict=True)]).rstrip()
        return
    folded = [fold(cell, width) for cell, width in zip(row, widths, strict=True)]
    padded = str.ljust if plain else _padded
    for parts in zip_longest(*folded, fillvalue=""):
        yield _GAP.join(map(padded, parts, widths)).rstrip()


def _padded(text: str, width: int) -> str:
    return text + " " * (width - width_of(text))


def fold(text: str, width: int) -> list[str]:
    """``text`` in lines of at most ``width`` columns, broken between words, and inside a word only if it is longer."""
    measure = len if text.isascii() else width_of
    if measure(text) <= width:
        return [" ".join(text.split())]
    lines: list[str] = [""]
    for word in text.split():
        rest = word
        if lines[-1] and measure(lines[-1]) + 1 + measure(rest) > width:
            lines.append("")
        while measure(rest) > width:
            head = _beginning(rest, width)
            lines[-1], rest = head, rest[len(head) :]
            lines.append("")
        lines[-1] = f"{lines[-1]} {rest}".strip()
    return lines


def _beginning(word: str, width: int) -> str:
    """The longest beginning of ``word`` that takes at most ``width`` columns."""
    taken = 0
    for place, letter in enumerate(word):
        taken += width_of(letter)
        if taken > width:
            return word[:place]
    return word
