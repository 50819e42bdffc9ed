"""In which encoding a text without a mark is written: UTF-8 and UTF-16 are seen, the others guessed by their words.

The encodings of one letter a byte differ in which letter a byte is. Read in the wrong one, a name becomes a word that
no language writes ("Řezáč" in cp1250 is "Øezáè" in cp1252), breaks off in a sign or changes case within. So each is
tried, the words that cannot be are counted, and the fewest win; a tie goes to this system's own, then to the encoding
that is met more often. A Spanish table is no Polish one for want of a better guess: of the encodings of central Europe
and of Cyrillic letters, one language at a time must explain the words. What was read, and what another encoding that
fits as well would make of it, is told to the keeper, who may name the encoding.
Guessers made for whole pages fail on lists, where a letter beyond ASCII comes once a line (tests/files/measure.py).
"""

from __future__ import annotations

import codecs
import locale
import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from types import MappingProxyType
from typing import BinaryIO

from namekeeper.words.errors import InputError

_MARKS = ((codecs.BOM_UTF8, "utf-8"), (codecs.BOM_UTF16_LE, "utf-16-le"), (codecs.BOM_UTF16_BE, "utf-16-be"))
#: In the order in which a tie is decided: what spreadsheet programs of the last thirty years have written.
_TRIED = ("cp1252", "mac_roman", "cp1250", "iso8859_15", "iso8859_2", "cp850", "cp1251")
#: Encodings whose words may be of any of the languages below; those of the others are of one, and German beside it.
_WESTERN = frozenset({"cp1252", "mac_roman", "iso8859_15", "cp850"})
_SHOWN = 8  # words
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
_PIECE = re.compile(rb"[A-Za-z\x80-\xff]+(?:-[A-Za-z\x80-\xff]+)*")
#: Signs that stand at the ends of words or alone, also those between words.
_OUTER = "’‘‚“”„‹›«»–—…•·°±×µ€£¥§©®™²³¹½¼¾¿¡\xa0\xad"
_BETWEEN = re.compile(r"(?<=^[^\W\d_])[’‘]|[’‘](?=[st]$)|[–—](?=[A-ZÀ-Þ])|\xa0")
_ORDINAL = re.compile("[A-Za-z]{0,2}[ºª]")  # Nº, 1ª
_UPPER = "A-ZÀ-ÖØ-ÞŒŠŽŸĆČŃŘŮ"
_CASE_BREAKS = re.compile(rf"[a-zß-öø-ÿœšžćčńřů][{_UPPER}]|[{_UPPER}]{{2}}[a-zß-ÿ]")
_LONG_RUN = re.compile(r"[bcdfghjklmnpqrstvwxzçčćďđľłĺňńñřŕšśşșťţțžźżßðþ]{5}")
#: Codecs of Python's that are of host names and of its own source, not of texts.
_NO_CHARSETS = frozenset({"idna", "punycode", "unicode_escape", "raw_unicode_escape", "undefined"})


def _words_in(letters: str) -> re.Pattern[str]:
    """What a word of these letters, in small ones, matches as a whole."""
    plain, *placed = letters.split("|")
    if plain[0] >= "а":
        return re.compile(f"[{plain}]+")
    return re.compile("(?:" + "|".join([f"[a-z{plain}]", *placed]) + ")+")


@dataclass(frozen=True, slots=True)
class Encoding:
    """How bytes become letters: the byte-order mark that stands in front, Python's name, whether that is a guess.

    ``readings`` of a guess are encodings, itself first, and what each makes of the first words in which they differ:
    another is among them only if it explains the words as well.
    """

    name: str
    mark: bytes = b""
    guessed: bool = False
    readings: tuple[tuple[str, tuple[str, ...]], ...] = ()

    def __str__(self) -> str:
        return f"{self.name} (guessed)" if self.guessed else self.name

    @property
    def guess(self) -> Mapping[str, tuple[str, ...]]:
        """Words as read by encoding, the guessed one first, which the keeper is told; empty where it is no guess."""
        return dict(self.readings or ((self.name, ()),)) if self.guessed else {}


def charset(told: str) -> str:
    """The name by which Python knows an encoding of whole texts; it knows turnings and packings (rot13, zip) as well.

    :raises LookupError: if there is none.
    """
    try:
        name = codecs.lookup(told).name
        "".encode(name)
    except (LookupError, TypeError, ValueError):
        raise LookupError(told) from None
    if name.replace("-", "_") in _NO_CHARSETS:
        raise LookupError(told)
    return name


def named_encoding(told: str, head: bytes) -> Encoding:
    """The encoding that the keeper names, with the mark that stands in front of the text.

    :raises InputError: if there is no such encoding of text.
    """
    try:
        name = charset(told)
    except LookupError:
        what = f"there is no encoding '{told}'"
        raise InputError(what, remedy="name one such as utf-8, cp1252, cp1250, mac_roman or cp850") from None
    mark = next((mark for mark, own in _MARKS if head.startswith(mark) and name.startswith(own[:6])), b"")
    if name in {"utf-16", "utf-8-sig"}:
        name = next((own for seen, own in _MARKS if seen == mark), "utf-8" if name == "utf-8-sig" else "utf-16-le")
    return Encoding(name, mark)


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
    return _likeliest(sample)


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


def _likeliest(sample: bytes) -> Encoding:
    """The encoding that explains the words best, and others that do so as well."""
    own = system_encoding()
    best, fewest = _TRIED[0], len(sample) + 1
    scores: dict[str, int] = {}
    for name in sorted(_TRIED, key=lambda name: name != own):
        try:
            scores[name] = _oddness(tuple(dict.fromkeys(_words(sample.decode(name)))), name)
        except UnicodeDecodeError:
            continue
        if scores[name] < fewest:
            best, fewest = name, scores[name]
    pieces = tuple(dict.fromkeys(piece for piece in _PIECE.findall(sample) if not piece.isascii()))
    readings = [(best, _first(pieces, best, best))]
    for name, score in scores.items():
        words = _first(pieces, name, best) if score == fewest and name != best else ()
        if words and words not in [known for _, known in readings]:
            readings.append((name, words))
    return Encoding(best, b"", True, tuple(readings))


def system_encoding() -> str:
    """The encoding of this system's own texts, as Python names it here."""
    return codecs.lookup(locale.getencoding()).name.replace("-", "_")


def _first(pieces: Sequence[bytes], name: str, other: str) -> tuple[str, ...]:
    """The first words read in one encoding, of those that are others in the other."""
    read = [piece.decode(name, "replace").strip(_OUTER) for piece in pieces]
    if name != other:
        pairs = zip(read, (piece.decode(other, "replace").strip(_OUTER) for piece in pieces), strict=True)
        read = [word for word, same in pairs if word != same]
    return tuple(dict.fromkeys(word for word in read if not word.isascii()))[:_SHOWN]


def _words(text: str) -> Iterator[str]:
    """Words with letters beyond ASCII, without the signs around and between them."""
    for word in _WORD.findall(text):
        if not word.isascii():
            parts = _BETWEEN.split(word.strip(_OUTER))
            yield from (part for part in parts if not part.isascii() and not _ORDINAL.fullmatch(part))


def _oddness(words: Sequence[str], encoding: str) -> int:
    """How many words cannot be, those with a sign or a change of case within counted twice."""
    broken = [word for word in words if not word.isalpha() or _CASE_BREAKS.search(word)]
    whole = [word.lower() for word in words if word not in set(broken)]
    fits = {word: _languages_of(word) for word in whole}
    if encoding in _WESTERN:
        odd = sum(not languages for languages in fits.values())
    else:
        odd = min(sum(not languages & {one, "German"} for languages in fits.values()) for one in _LETTERS)
    return 2 * len(broken) + odd


def _languages_of(word: str) -> frozenset[str]:
    """Languages that may write a word of small letters."""
    if _LONG_RUN.search(word):
        return frozenset()
    return frozenset(language for language, letters in _patterns().items() if letters.fullmatch(word))


@cache
def _patterns() -> Mapping[str, re.Pattern[str]]:
    return {language: _words_in(letters) for language, letters in _LETTERS.items()}
