"""Rules for what stands around names: trade form, locality, source mark, the word for the group."""

from __future__ import annotations

import re
from collections.abc import Sequence

from namekeeper.reading.areas import is_place
from namekeeper.reading.draft import WORD, Draft, TagWord
from namekeeper.reading.lexicon import Kind, KnownNames, kinds_of, phrases
from namekeeper.reading.reading import Clue, ClueLink, GroupWord
from namekeeper.reading.vocabulary import ABBREVIATIONS, ANY_ANIMAL, ORIGINS_CAPITALS, PLACE_WORDS
from namekeeper.words.spelling import plain_key

_QUOTED = re.compile(r"""[ (]{0,2}(?:"(?P<double>[^"\x1f]{1,60})"|'(?P<single>[^'\x1f]{2,60})')\)?""")
_IN_BRACKETS = re.compile(r" ?\((?P<double>[^()\x1f]{2,40})(?P<single>)\)")
_PROVISIONAL = re.compile(r" ?#?(?P<label>\d{1,2}|[A-Z])(?![\w.,\"'])(?! ?(?:cm|mm|x))")
ENDS_NAME = frozenset(
    {
        Kind.SEX, Kind.STAGE, Kind.ORIGIN, Kind.PRICE, Kind.CONDITION, Kind.SIZE_KIND, Kind.PLACE_MARK, Kind.COUNT,
        Kind.GROUP, Kind.DOUBT, Kind.FORMER, Kind.OR, Kind.MAYBE, Kind.NEGATION, Kind.LIKENESS,
    }
)  # fmt: skip
_MOST_FORM_WORDS = 4
#: ``F1``: bred in the first generation
GENERATION = re.compile(r"(?<![\w.])F ?[0-9](?![\w.,])")


def read_trade_form(draft: Draft, clues: Sequence[Clue], names: KnownNames) -> str:
    """The form in quotes behind a name, free words behind ``sp.``, or a colour form such as RCF."""
    for clue in clues:
        if clue.link is ClueLink.FORMER:
            continue
        end = draft.plain_place(clue.end)
        behind = draft.piece(end, end + 70)
        undetermined = clue.name.qualifier.startswith("sp")
        quoted = _QUOTED.match(behind) or (undetermined and _IN_BRACKETS.match(behind)) or None
        text = quoted and (quoted["double"] or quoted["single"]).strip()
        if quoted and text and (undetermined or not names.is_common(text)):
            draft.claim("trade_form", end, end + quoted.end())
            return ", ".join((text, *_colour_forms(draft)))
        if undetermined and not clue.name.epithet:
            form = _free_form(draft, end)
            if form:
                return form
    return ", ".join(_colour_forms(draft)) if clues else ""


def _colour_forms(draft: Draft) -> list[str]:
    """RCF, "hobby form" and the like."""
    words = draft.words()
    found = []
    for phrase in list(phrases(words, draft.text, frozenset({Kind.FORM}))):
        start, end = words[phrase.first].start, words[phrase.last - 1].end
        draft.claim("trade_form", start, end)
        found.append(draft.text[start:end])
    return found


def _free_form(draft: Draft, end: int) -> str:
    words = [
        TagWord(m[0], plain_key(m[0]), end + m.start(), end + m.end())
        for m in WORD.finditer(draft.piece(end, end + 90))
    ]
    taken: list[TagWord] = []
    place = end
    for word in words[:_MOST_FORM_WORDS]:
        if draft.piece(place, word.start).strip(" -'") or kinds_of(word.key) & ENDS_NAME or word.text in ABBREVIATIONS:
            break
        taken.append(word)
        place = word.end
    if taken:
        draft.claim("trade_form", taken[0].start, place)
        return draft.text[taken[0].start : place]
    label = _PROVISIONAL.match(draft.piece(end, end + 10))
    if label:
        draft.claim("trade_form", end + label.start("label"), end + label.end("label"))
        return label["label"]
    return ""


def read_hybrid(draft: Draft) -> bool:
    """Whether a word of the tag says that the animal is a cross."""
    words = draft.words()
    found = list(phrases(words, draft.text, frozenset({Kind.HYBRID})))
    for phrase in found:
        draft.claim("qualifier", words[phrase.first].start, words[phrase.last - 1].end)
    return bool(found)


def read_source_mark(draft: Draft) -> str:
    """``CB``, ``ex WC``, ``NZ``, ``F1``, "captive bred": as written, several with a blank between."""
    words = draft.words()
    origins = phrases(words, draft.text, frozenset({Kind.ORIGIN}))
    found = [(words[phrase.first].start, words[phrase.last - 1].end) for phrase in origins]
    capitals = ORIGINS_CAPITALS.split("|")
    found += [(word.start, word.end) for word in words if word.text in capitals]
    found += [(m.start(), m.end()) for m in GENERATION.finditer(draft.open_text)]
    marks = []
    for start, end in sorted(set(found)):
        before = re.search(r"\bex[ -]{1,2}$", draft.piece(start - 5, start), re.I)
        begin = start - len(before[0]) if before else start
        draft.claim("source_mark", begin, end)
        mark = draft.text[start:end]
        mark = mark.upper() if len(mark) <= 4 and mark.isascii() else mark
        marks.append(f"ex {mark}" if before else mark)
    return " ".join(dict.fromkeys(marks))


_PLACE_NAME = re.compile(r"[ :.,]{0,3}(?P<text>[A-ZÀ-Þ][\w'-]+(?: (?:de |do |del |la |du )?[A-ZÀ-Þ][\w'-]+){0,2})")


def read_locality(draft: Draft, names: KnownNames, *, named: bool) -> str:
    """A place behind "loc.", "Fundort", "from"; or a known place that is no part of a common name.

    Where nothing else is ``named``, a place that is itself a common name in some list ("Usambara") is left for that.
    """
    words = draft.words()
    for phrase in phrases(words, draft.text, frozenset({Kind.PLACE_MARK})):
        start, end = words[phrase.first].start, words[phrase.last - 1].end
        found = _PLACE_NAME.match(draft.piece(end, end + 80))
        sure = words[phrase.first].key != "from" or (found is not None and _is_place(found["text"]))
        if found and sure and found["text"] not in ABBREVIATIONS:
            draft.claim("locality", start, end + found.end())
            return found["text"]
    places = []
    for phrase in list(phrases(words, draft.text, frozenset({Kind.PLACE}))):
        start, end = words[phrase.first].start, words[phrase.last - 1].end
        is_name = not named and names.is_common(draft.text[start:end])
        if not is_name and not _beside_name_word(draft, words, phrase.first, phrase.last):
            draft.claim("locality", start, end)
            places.append(draft.text[start:end])
    return ", ".join(places)


def _is_place(text: str) -> bool:
    """Whether words behind "from" are a place; else they may be a person or a shop, and nobody can tell."""
    words = text.replace("-", " ").split()
    told = set(PLACE_WORDS.split("|"))
    return any(word in told or Kind.PLACE in kinds_of(plain_key(word)) for word in words) or is_place(text)


def _beside_name_word(draft: Draft, words: Sequence[TagWord], first: int, last: int) -> bool:
    name_kinds = frozenset({Kind.NAME_WORD, Kind.ANIMAL})
    if first > 0 and draft.text[words[first - 1].end : words[first].start] in (" ", "-"):
        before = kinds_of(words[first - 1].key)
        if before & name_kinds or not before:
            return True
    if last < len(words) and draft.text[words[last - 1].end : words[last].start] in (" ", "-"):
        behind = kinds_of(words[last].key)
        return bool(behind & name_kinds) or not behind
    return False


def read_groups(draft: Draft) -> tuple[GroupWord, ...]:
    """Words such as "tarantula" or "Skorpion" that name a group of animals, in the order of the tag.

    A lone letter counts only at the end of a phrase: before a full stop or a word it is a genus.
    """
    text = draft.text
    placed = [word for word in draft.words() if not _is_other_word(word, text)]
    found = []
    for phrase in phrases(placed, text, frozenset({Kind.ANIMAL})):
        start, end = placed[phrase.first].start, placed[phrase.last - 1].end
        if phrase.value != ANY_ANIMAL:
            found.append(GroupWord(text[start:end], phrase.value, *draft.place(start, end)))
    return tuple(found)


def _is_other_word(word: TagWord, text: str) -> bool:
    """Whether a short group word stands for something else: an abbreviated genus, or "vs" between two names."""
    behind = text[word.end : word.end + 1]
    return (len(word.text) == 1 and behind in (".", " ")) or (Kind.OR in kinds_of(word.key) and word.text.islower())
