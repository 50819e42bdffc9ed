"""Text of a label as values: runs of one style, pieces, and words between which lines may break."""

from __future__ import annotations

import unicodedata
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from enum import StrEnum, unique

SEPARATOR = "·"
SIGNS = frozenset("♀♂⚥′″⚠")  # drawn for labels: no text face that ships has them
# What people type that no shipped face has, and what says the same.
_EQUIVALENT = str.maketrans(
    {"\N{HYPHEN}": "-", "\N{NON-BREAKING HYPHEN}": "-", "‴": "′″", "℃": "°C", "℉": "°F", "∼": "~"}
    | {chr(code): chr(code - 0xFEE0) for code in range(0xFF01, 0xFF5F)}  # full width forms of ASCII
)


@unique
class Face(StrEnum):
    """The faces of type that ship; the value is also the class in the markup."""

    REGULAR = "fr"
    REGULAR_ITALIC = "fri"
    MEDIUM = "fm"
    MEDIUM_ITALIC = "fmi"
    BOLD = "fb"
    BOLD_ITALIC = "fbi"
    SIGNS = "fs"


@unique
class Weight(StrEnum):
    """How dark a block is set."""

    REGULAR = "regular"
    MEDIUM = "medium"
    BOLD = "bold"


_FACES = {
    (Weight.REGULAR, False): Face.REGULAR,
    (Weight.REGULAR, True): Face.REGULAR_ITALIC,
    (Weight.MEDIUM, False): Face.MEDIUM,
    (Weight.MEDIUM, True): Face.MEDIUM_ITALIC,
    (Weight.BOLD, False): Face.BOLD,
    (Weight.BOLD, True): Face.BOLD_ITALIC,
}


@dataclass(frozen=True, slots=True)
class Run:
    """Text in one style; ``strong`` sets it in bold whatever the block's weight."""

    text: str
    italic: bool = False
    strong: bool = False


Piece = tuple[Run, ...]
Variant = tuple[Piece, ...]


@unique
class Glue(StrEnum):
    """What stands before a word when it does not begin a line."""

    SPACE = "space"
    SEPARATOR = "separator"
    NEW_LINE = "new line"


@dataclass(frozen=True, slots=True)
class SetWord:
    """What is never broken: parts in one face each, and the glue before it."""

    parts: tuple[tuple[str, Face], ...]
    glue: Glue


def plain(pieces: Variant) -> str:
    """The text without its styles, pieces joined as on one line."""
    return f" {SEPARATOR} ".join("".join(run.text for run in piece) for piece in pieces)


def clean(text: str) -> str:
    """NFC, white space to single blanks, signs we lack by equivalents, characters that draw nothing removed."""
    if text.isascii() and text.isprintable():
        return " ".join(text.split())
    composed = unicodedata.normalize("NFC", text.translate(_EQUIVALENT))
    drawn = "".join(char for char in composed if char.isspace() or _draws(char))
    return " ".join(unicodedata.normalize("NFC", drawn).split())


def _draws(char: str) -> bool:
    # A combining mark that NFC could not compose does draw; a variation selector (emoji style) does not.
    return unicodedata.category(char) not in ("Cc", "Cf") and not 0xFE00 <= ord(char) <= 0xFE0F


def words_of(pieces: Variant, weight: Weight, *, stacked: bool = False) -> tuple[SetWord, ...]:
    """The words of all pieces in order; ``stacked`` begins a new line with every piece."""
    found: list[SetWord] = []
    for number, piece in enumerate(pieces):
        glue = (Glue.NEW_LINE if stacked else Glue.SEPARATOR) if number else Glue.SPACE
        for parts in _split(_faced(piece, weight)):
            found.append(SetWord(parts, glue))
            glue = Glue.SPACE
    return tuple(found)


def _faced(piece: Sequence[Run], weight: Weight) -> Iterator[tuple[str, Face]]:
    """Parts with their face; the sex signs come from their own face."""
    for run in piece:
        face = _FACES[(Weight.BOLD if run.strong else weight, run.italic)]
        start = 0
        for at, char in enumerate(run.text):
            if char in SIGNS:
                if start < at:
                    yield run.text[start:at], face
                yield char, Face.SIGNS
                start = at + 1
        if start < len(run.text):
            yield run.text[start:], face


def _split(parts: Iterable[tuple[str, Face]]) -> Iterator[tuple[tuple[str, Face], ...]]:
    word: list[tuple[str, Face]] = []
    for text, face in parts:
        chunks = text.split(" ")
        for number, chunk in enumerate(chunks):
            if number and word:
                yield tuple(word)
                word = []
            if chunk:
                word.append((chunk, face))
    if word:
        yield tuple(word)
