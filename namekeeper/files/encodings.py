"""In which encoding a text without a mark is written: UTF-8 and UTF-16 are seen, the others guessed by their words.

The encodings of one letter a byte differ in which letter a byte is. Read in the wrong one, a name becomes a word that
no language writes ("Řezáč" in cp1250 is "Øezáè" in cp1252), breaks off in a sign or changes case within. So each is
tried, the words that cannot be are counted, and the fewest win; a tie goes to the encoding that is met more often.
Guessers made for whole pages fail on lists, where a letter beyond ASCII comes once a line (tests/files/measure.py).
"""

from __future__ import annotations

import codecs
import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from types import MappingProxyType
from typing import BinaryIO

_MARKS = ((codecs.BOM_UTF8, "utf-8"), (codecs.BOM_UTF16_LE, "utf-16-le"), (codecs.BOM_UTF16_BE, "utf-16-be"))
#: In the order in which a tie is decided: what spreadsheet programs of the last thirty years have written.
_TRIED = ("cp1252", "mac_roman", "cp1250", "iso8859_15", "iso8859_2", "cp850", "cp1251")
_CHUNK = 1 << 18
#: Bytes of lines beyond ASCII that are looked at.
_LOOK_AT = 1 << 16
_LONGEST_LINE = 1 << 20
_HEAD = 1000

# Letters beyond ASCII of the languages of these encodings, behind a bar those whose place in a word tells, as regular
# expressions (the letters are those of CLDR's exemplar characters; all of this is from memory).
_LETTERS = MappingProxyType(
    {
        "German": "äöüß",
        "French": "àâçéèêëîïôùüÿ|û(?=[tlrm]|ch|$)|œ(?=[uti])",
        "Spanish": "áéíóúü|ñ(?=[aeiouáéíóú])",
        "Portuguese": "áàâçéêíóôú|ã(?=[oe]|s?$)|õ(?=e)",
        "Italian": "àéèìîòóù",
        "Catalan": "àçéèíïóòúü",
        "Danish": "åøé|æ(?=.)",
        "Swedish": "åäöé",
        "Icelandic": "áðéíóúýþö|æ(?=.)",
        "Dutch": "éëïöü",
        "Czech": "áčďéěíňóšťúůýž|ř(?!r)",
        "Slovak": "áäčďéíľňóôšťúýž|(?<=[bcdfghjkmnpstvzž])[ĺŕ](?=[bcdfghjkmnpstvzž])",
        "Polish": "ąćęłńóśźż",
        "Hungarian": "áéíóöőúüű",
        "Romanian": "âăîșțşţ",
        "Croatian": "čćđšž",
        "Russian": "а-яё",
        "Ukrainian": "а-щьюяєіїґ",
    }
)


_WORD = re.compile(r"[A-Za-z\x80-\U0010ffff]+")
#: Signs that stand at the ends of words or alone, also those between words.
_OUTER = "’‘‚“”„‹›«»–—…•·°±×µ€£¥§©®™²³¹½¼¾¿¡\xa0\xad"
_BETWEEN = re.compile(r"(?<=^[^\W\d_])[’‘]|[’‘](?=[st]$)|[–—](?=[A-ZÀ-Þ])|\xa0")
_UPPER = "A-ZÀ-ÖØ-ÞŒŠŽŸĆČŃŘŮ"
_CASE_BREAKS = re.compile(rf"[a-zß-öø-ÿœšžćčńřů][{_UPPER}]|[{_UPPER}]{{2}}[a-zß-ÿ]")
_LONG_RUN = re.compile(r"[bcdfghjklmnpqrstvwxzçčćďđľłĺňńñřŕšśşșťţțžźżßðþ]{5}")


def _words_in(letters: str) -> re.Pattern[str]:
    """What a word of these letters, in small ones, matches as a whole."""
    plain, *placed = letters.split("|")
    if plain[0] >= "а":
        return re.compile(f"[{plain}]+")
    return re.compile("(?:" + "|".join([f"[a-z{plain}]", *placed]) + ")+")


@dataclass(frozen=True, slots=True)
class Encoding:
    """How bytes become letters: the byte-order mark that stands in front, Python's name, whether that is a guess."""

    name: str
    mark: bytes = b""
    guessed: bool = False

    def __str__(self) -> str:
        return f"{self.name} (guessed)" if self.guessed else self.name

    @property
    def guess(self) -> str | None:
        """The name if it is a guess, which the keeper is told."""
        return self.name if self.guessed else None


def encoding_of(stream: BinaryIO) -> Encoding:
    """The encoding of a text from its beginning to its end; memory does not grow with it.

    A text of which some line only is no UTF-8 is UTF-8 with damage: the line is for the reader to refuse.

    :raises ValueError: if it holds zeros and is no UTF-16: it is no text.
    """
    head = stream.read(_CHUNK)
    for mark, name in _MARKS:
        if head.startswith(mark):
            return Encoding(name, mark)
    even, odd = head[:_HEAD:2].count(0), head[1:_HEAD:2].count(0)
    if max(even, odd) * 4 > len(head[:_HEAD]):  # Latin letters in UTF-16: every other byte is nought
        return Encoding("utf-16-le" if odd > even else "utf-16-be", guessed=True)
    if b"\x00" in head.partition(b"\n")[0]:
        raise ValueError("a zero in the first line")
    sound, damaged, sample = _lines_beyond_ascii(head, stream)
    if damaged <= sound:
        return Encoding("utf-8")
    return Encoding(_likeliest(sample), guessed=True)


def _lines_beyond_ascii(head: bytes, stream: BinaryIO) -> tuple[int, int, bytes]:
    """Lines that are UTF-8 with letters beyond ASCII, lines that are not UTF-8, and the first of the latter.

    A piece that is UTF-8 throughout counts with all its lines, for speed.
    """
    sound, damaged, sample, held = 0, 0, b"", b""
    chunk = head
    while chunk:
        whole, _, held = (held + chunk).rpartition(b"\n")
        if not whole.isascii():
            if _is_utf8(whole):
                sound += whole.count(b"\n") + 1
            else:
                others = [line for line in whole.splitlines() if not line.isascii()]
                bad = [line for line in others if not _is_utf8(line)]
                sound, damaged = sound + len(others) - len(bad), damaged + len(bad)
                sample += b"\n".join(bad)[: _LOOK_AT - len(sample)]
        if len(held) > _LONGEST_LINE:
            break  # no table: its reader says so
        chunk = stream.read(_CHUNK)
    if not held.isascii():
        good = _is_utf8(held)
        sound, damaged, sample = sound + good, damaged + (not good), sample + b"\n" + held[:_LOOK_AT]
    return sound, damaged, sample


def _is_utf8(line: bytes) -> bool:
    try:
        line.decode("utf-8")
    except UnicodeDecodeError:
        return False
    return True


def _likeliest(sample: bytes) -> str:
    languages = [_words_in(letters) for letters in _LETTERS.values()]
    best, fewest = _TRIED[0], len(sample) + 1
    for name in _TRIED:
        try:
            text = sample.decode(name)
        except UnicodeDecodeError:
            continue
        odd = sum(_oddness(word, languages) for word in _words(text))
        if odd < fewest:
            best, fewest = name, odd
    return best


def _words(text: str) -> Iterator[str]:
    """Words with letters beyond ASCII, without the signs around and between them."""
    for word in _WORD.findall(text):
        if not word.isascii():
            yield from (part for part in _BETWEEN.split(word.strip(_OUTER)) if not part.isascii())


def _oddness(word: str, languages: Sequence[re.Pattern[str]]) -> int:
    """0 for a word that some language may write; else 1, and 2 for one with a sign or a change of case within."""
    if not word.isalpha() or _CASE_BREAKS.search(word):
        return 2
    small = word.lower()
    return 0 if any(each.fullmatch(small) for each in languages) and not _LONG_RUN.search(small) else 1
