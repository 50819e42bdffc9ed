"""The pocket file: one page of HTML with everything in it."""

from __future__ import annotations

import base64
import hashlib
import json
import re
from collections.abc import Iterable, Iterator, Mapping
from pathlib import Path
from types import MappingProxyType

from namekeeper import resources
from namekeeper.evidence.candidates import Candidate, Lookup, NoteCode
from namekeeper.evidence.interfaces import NameCard
from namekeeper.faces.telling.cautions import NO_ADVICE, caution_lines
from namekeeper.faces.telling.notes import ANSWERS, FOUND, GUESSES, SENTENCES, notes
from namekeeper.faces.telling.pages import rendered
from namekeeper.tasks.pocket import OwnAnimal, Pocket
from namekeeper.words.terms import AnswerKind, How

#: One letter an answer and a way of finding, in the order of the closed sets.
_LETTER_OF_ANSWER = MappingProxyType(dict(zip(AnswerKind, "osgenu", strict=True)))
_LETTER_OF_HOW = MappingProxyType({how: chr(ord("A") + number) for number, how in enumerate(How)})
_DIGITS = "0123456789abcdefghijklmnopqrstuvwxyz"


def pocket_page(pocket: Pocket) -> str:
    """The whole file; nothing in it is fetched, and nothing leaves it."""
    data = json.dumps(_pocket_document(pocket), ensure_ascii=False, separators=(",", ":")).replace("<", "\\u003c")
    look, script = (
        (resources.data("pocket") / name).read_text(encoding="utf-8") for name in ("pocket.css", "pocket.js")
    )
    return rendered(
        "pocket.html.j2",
        folder="pocket",
        data=data,
        look=look,
        script=script,
        look_digest=_digest(look),
        script_digest=_digest(script),
        pocket=pocket,
        species=sum(card.taxon.rank == "species" for card in pocket.cards.values()),
    )


def _pocket_document(pocket: Pocket) -> dict[str, object]:
    """What the page knows, as its script reads it; see ``data/pocket/pocket.js``."""
    tables = _Tables(pocket.cards)
    answers = {key: tables.answer(lookup) for key, lookup in pocket.answers.items()}
    return {
        "edition": pocket.edition.edition or "",
        "made": pocket.made.isoformat(),
        "guesses": {SENTENCES[NoteCode.RECALLED]: GUESSES[NoteCode.RECALLED]},
        "noAdvice": NO_ADVICE,
        "otherAnimal": GUESSES[NoteCode.OTHER_ANIMAL],
        "answers": {_LETTER_OF_ANSWER[answer]: text for answer, text in ANSWERS.items()},
        "how": {_LETTER_OF_HOW[how]: text for how, text in FOUND.items()},
        "words": "\n".join(f"{word}\t{answers[key]}" for key, word in zip(answers, _shortened(answers), strict=True)),
        "taxa": tables.taxa,
        "texts": list(tables.texts),
        "reader": _reader(pocket),
        "animals": [_animal(animal) for animal in pocket.animals],
    }


class _Tables:
    """Taxa and sentences by number, filled as answers need them."""

    def __init__(self, cards: Mapping[str, NameCard]) -> None:
        self.cards = cards
        self.taxa: list[list[object]] = []
        self.texts: dict[str, int] = {}
        self._numbers: dict[str, int] = {}

    def answer(self, lookup: Lookup) -> str:
        """``o1aC`` is one, taxon 46, found as C; sentences stand behind a full stop, candidates behind a comma."""
        return _LETTER_OF_ANSWER[lookup.answer] + ",".join(map(self._candidate, lookup.candidates))

    def _candidate(self, candidate: Candidate) -> str:
        said = "".join(f".{_base36(self._text(note))}" for note in notes(candidate))
        return f"{_base36(self._taxon(candidate))}{_LETTER_OF_HOW[candidate.how]}{said}"

    def _taxon(self, candidate: Candidate) -> int:
        """Name, authorship, rank ("" for a species), areas, taxa above, names in use, cautions; texts by number."""
        if candidate.name not in self._numbers:
            self._numbers[candidate.name] = len(self.taxa)
            card = self.cards.get(candidate.name)
            rank = "" if candidate.rank == "species" else candidate.rank
            above = self._text(";".join(candidate.higher))
            said = [self._text(text) for text in caution_lines(card.cautions)] if card else []
            area = self._text(", ".join(candidate.range))
            self.taxa.append([candidate.name, candidate.authorship, rank, area, above, said])
        return self._numbers[candidate.name]

    def _text(self, text: str) -> int:
        return self.texts.setdefault(text, len(self.texts))


def _shortened(words: Iterable[str]) -> Iterator[str]:
    """Each word without what it begins with as the word before it does; a digit says how many letters that are.

    Letters outside of the basic plane, which count twice in the script, are written out.
    """
    before = ""
    for word in words:
        shared = 0
        for one, other in zip(before, word[: len(_DIGITS) - 1], strict=False):
            if one != other or one > "\uffff":
                break
            shared += 1
        yield _DIGITS[shared] + word[shared:]
        before = word


def _base36(number: int) -> str:
    digits = ""
    while number or not digits:
        number, digit = divmod(number, 36)
        digits = _DIGITS[digit] + digits
    return digits


def _reader(pocket: Pocket) -> dict[str, object]:
    reader = pocket.reader
    return {
        "heard": "\n".join(reader.heard),
        "doubts": "\n".join(reader.doubts),
        "traits": "\n".join(reader.traits),
        "weighed": "\n".join(reader.weighed),
        "groups": dict(reader.groups),
        "capitals": " ".join(reader.capitals),
        "patterns": [script_pattern(pattern) for pattern in reader.patterns],
        "doubting": [script_pattern(pattern) for pattern in reader.doubting],
        "signs": dict(reader.signs),
        "letters": dict(reader.letters),
        "marks": reader.kept_marks,
        "inner": reader.inner_marks,
    }


def _animal(animal: OwnAnimal) -> list[object]:
    return [animal.id, animal.name, list(animal.former), *([dict(animal.more)] if animal.more else [])]


#: What is written otherwise in patterns of ECMAScript 2018 with the flag "u", longest first.
_IN_SCRIPT = MappingProxyType(
    {
        r"[^\W\d_]": r"\p{L}", r"[^\W_]": r"[\p{L}\p{N}]", r"[^\W]": r"[\p{L}\p{N}_]", r"\w": r"\p{L}\p{N}_",
        r"\d": "0-9", "(?P<": "(?<", r"\"": '"', r"\'": "'", r"\-": "-", r"[ ]": " ",
    }
)  # fmt: skip


def script_pattern(pattern: re.Pattern[str]) -> str:
    """A pattern of the reader as ECMAScript has it, for the flags ``g`` and ``u``.

    Shorthands for letters and digits stand in brackets of their own outside of a class, and without them inside.
    """
    text = pattern.pattern
    if pattern.flags & re.VERBOSE:
        text = re.sub(r"\s+(?![^\[]*\])|(?<=\n)\s+", "", text)
    found, place, inside = "", 0, False
    while place < len(text):
        part = next(
            (old for old in _IN_SCRIPT if text.startswith(old, place)),
            text[place : place + 2] if text[place] == "\\" else text[place],
        )
        new = _IN_SCRIPT.get(part, part)
        if part in (r"\w", r"\d") and not inside:
            new = f"[{new}]"
        inside = (inside or part == "[") and part != "]"
        found, place = found + new, place + len(part)
    return found


def _digest(text: str) -> str:
    return base64.b64encode(hashlib.sha256(text.encode()).digest()).decode()


def written(pocket: Pocket, file: Path, size: int) -> Iterator[str]:
    """What was written, what is in it, and how it comes onto a phone."""
    animals = len(pocket.animals)
    along = sorted({fact for animal in pocket.animals for fact in animal.more})
    yield f"{file}: {size / 1000:.0f} kB, the starter list {pocket.edition.edition}" + (
        f" and {animals} animal{'' if animals == 1 else 's'} (numbers, names, former names"
        f"{''.join(f', {fact}' for fact in along)})"
        if animals
        else ""
    )
    yield (
        "To have it on a phone: by cable, in a mail to yourself, or through a folder that your devices share; then "
        "open it there from the phone's files. It needs no network. The square code on a label holds the animal's "
        "number: the phone's camera shows it, and the file finds it."
    )
