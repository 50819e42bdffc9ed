"""Makes a tag's text plain and remembers where each letter stood."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterator

#: Characters and what they stand for: quotation marks, dashes, strokes and blanks of every kind.
SIGNS = {
    **dict.fromkeys("“”„‟«»❝❞＂″‶", '"'),
    **dict.fromkeys("‘’‚‛`´＇′", "'"),
    **dict.fromkeys("‐‑‒–—―−﹣－", "-"),
    **dict.fromkeys("⁄∕／", "/"),
    **dict.fromkeys("_・･\u00a0\u2009\u202f\u3000\t\r\n\f\v", " "),  # the dots part words in katakana
}
#: Vowels and tones above and below the letters of Thai, Lao and the scripts of India: writing, but no letters to ``\w``
MARKS = "\u0900-\u0903\u093a-\u094f\u0e31\u0e34-\u0e3a\u0e47-\u0e4e\u0eb1\u0eb4-\u0ebc\u0ec8-\u0ecd"
_OF_A_SCRIPT = re.compile(f"[{MARKS}]")
_ENTITY = re.compile(r"&(?:#\d{1,6}|#[xX][0-9a-fA-F]{1,5}|[a-zA-Z][a-zA-Z0-9]{1,20});")
_MARKUP = re.compile(r"</?[a-zA-Z][^<>]{0,60}>")
_MOST_MARKS = 8  # combining marks read with one letter; more is no writing


class PlainTag:
    """Plain quotes, dashes, blanks and composed letters; ``starts[i]`` and ``ends[i]`` place letter i in the tag."""

    def __init__(self, tag: str) -> None:
        self.tag = tag
        self.letters: list[str] = []
        self.starts: list[int] = []
        self.ends: list[int] = []

    @property
    def text(self) -> str:
        return "".join(self.letters)

    def add(self, text: str, start: int, end: int) -> None:
        for letter in text:
            self.letters.append(letter)
            self.starts.append(start)
            self.ends.append(end)


def plain_tag(tag: str) -> PlainTag:
    """Entities and markup resolved, letters composed (NFC), signs that look alike made one, controls made blanks."""
    plain = PlainTag(tag)
    place = 0
    for start, end, resolved in _resolved(tag):
        while place < start:
            place = _add_letter(plain, place, start)
        plain.add(resolved, start, end)
        place = end
    return plain


def _unescaped(entity: str) -> str:
    import html

    return html.unescape(entity)


def _resolved(tag: str) -> Iterator[tuple[int, int, str]]:
    """Entities and markup in ``tag`` with what they stand for; last the end of the tag."""
    found = [(m.start(), m.end(), text) for m in _ENTITY.finditer(tag) if (text := _unescaped(m[0])) != m[0]]
    found += [(m.start(), m.end(), " ") for m in _MARKUP.finditer(tag)]
    last = 0
    for start, end, text in sorted(found):
        if start >= last:
            yield start, end, "".join(SIGNS.get(letter, letter) for letter in text)
            last = end
    yield len(tag), len(tag), ""


def _add_letter(plain: PlainTag, place: int, limit: int) -> int:
    """Adds the letter at ``place`` with the marks behind it; returns the place behind both."""
    tag, letter, end = plain.tag, plain.tag[place], place + 1
    if letter.isascii() or letter in SIGNS:
        plain.add(SIGNS.get(letter, letter if letter.isprintable() else " "), place, end)
        if end == limit or not unicodedata.combining(tag[end]):
            return end
        plain.letters.pop(), plain.starts.pop(), plain.ends.pop()
    while end < limit and end - place <= _MOST_MARKS and unicodedata.combining(tag[end]):
        end += 1
    composed = unicodedata.normalize("NFC", tag[place:end])
    kind = unicodedata.category(composed[0])
    if kind in ("Cf", "Mn", "Me") and not _OF_A_SCRIPT.match(composed):
        # Joiners, variation signs and stray marks belong to the letter before them and say nothing.
        if plain.ends:
            plain.ends[-1] = end
        return end
    if kind[0] in "CZ":
        composed = " "
    elif "\uff01" <= composed[0] <= "\uff5e":
        composed = unicodedata.normalize("NFKC", composed)  # full-width Latin
    plain.add(composed, place, end)
    return end
