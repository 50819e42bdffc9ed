"""Rules for what stands around names: trade form, locality, source mark, common names, doubt."""

from __future__ import annotations

import re
from collections.abc import Sequence

from namekeeper.reading.draft import Draft, Word
from namekeeper.reading.lexicon import Kind, Names, kinds_of, phrases
from namekeeper.reading.reading import Clue, CommonClue, Link
from namekeeper.reading.vocabulary import ABBREVIATIONS, ORIGINS_CAPITALS

_QUOTED = re.compile(r"""[ (]{0,2}(?:"(?P<double>[^"\x1f]{1,60})"|'(?P<single>[^'\x1f]{2,60})')\)?""")
_PROVISIONAL = re.compile(r" ?#?(?P<label>\d{1,2}|[A-Z])(?![\w.,\"'])(?! ?(?:cm|mm|x))")
_ENDS_FORM = frozenset(
    {
        Kind.SEX, Kind.STAGE, Kind.ORIGIN, Kind.PRICE, Kind.CONDITION, Kind.SIZE_KIND, Kind.PLACE_MARK, Kind.COUNT,
        Kind.GROUP, Kind.DOUBT, Kind.FORMER, Kind.OR,
    }
)  # fmt: skip
_MOST_FORM_WORDS = 4


def read_trade_form(draft: Draft, clues: Sequence[Clue], names: Names) -> str:
    """The form in quotes behind a name, free words behind ``sp.``, or a colour form such as RCF."""
    for clue in clues:
        if clue.link is Link.FORMER:
            continue
        end = _plain_place(draft, clue.end)
        quoted = _QUOTED.match(draft.open_text, end)
        text = quoted and (quoted["double"] or quoted["single"]).strip()
        if quoted and text and not names.is_common(text):
            draft.claim("trade_form", quoted.start(), quoted.end())
            return text
        if clue.name.qualifier.startswith("sp") and not clue.name.epithet:
            form = _free_form(draft, end)
            if form:
                return form
    words = draft.words()
    for phrase in phrases(words, draft.text, frozenset({Kind.FORM})):
        start, end = words[phrase.first].start, words[phrase.last - 1].end
        if clues or draft.text[start:end].isupper():
            draft.claim("trade_form", start, end)
            return draft.text[start:end]
    return ""


def _plain_place(draft: Draft, place: int) -> int:
    """The plain character at or behind a place of the tag."""
    for number, start in enumerate(draft.plain.starts):
        if start >= place:
            return number
    return len(draft.plain.starts)


def _free_form(draft: Draft, end: int) -> str:
    words = [word for word in draft.words() if word.start >= end]
    taken: list[Word] = []
    place = end
    for word in words[:_MOST_FORM_WORDS]:
        if (
            draft.open_text[place : word.start].strip(" -'")
            or kinds_of(word.key) & _ENDS_FORM
            or word.text in ABBREVIATIONS
        ):
            break
        taken.append(word)
        place = word.end
    if taken:
        draft.claim("trade_form", taken[0].start, place)
        return draft.text[taken[0].start : place]
    label = _PROVISIONAL.match(draft.open_text, end)
    if label:
        draft.claim("trade_form", label.start("label"), label.end("label"))
        return label["label"]
    return ""


def read_source_mark(draft: Draft) -> str:
    """``CB``, ``ex WC``, ``NZ``, ``F1``, "captive bred": as written, several with a blank between."""
    words = draft.words()
    found: list[tuple[int, int]] = []
    for phrase in phrases(words, draft.text, frozenset({Kind.ORIGIN})):
        found.append((words[phrase.first].start, words[phrase.last - 1].end))
    capitals = ORIGINS_CAPITALS.split("|")
    found += [(word.start, word.end) for word in words if word.text in capitals]
    found += [(m.start(), m.end()) for m in re.finditer(r"(?<![\w.])F ?[0-9](?![\w.,])", draft.open_text)]
    marks = []
    for start, end in sorted(set(found)):
        before = re.search(r"\bex[ -]{1,2}$", draft.open_text[max(0, start - 5) : start], re.I)
        begin = start - len(before[0]) if before else start
        draft.claim("source_mark", begin, end)
        mark = draft.text[start:end]
        mark = mark.upper() if len(mark) <= 4 and mark.isascii() else mark
        marks.append(f"ex {mark}" if before else mark)
    return " ".join(dict.fromkeys(marks))


_PLACE_NAME = re.compile(r"[ :.,]{0,3}(?P<text>[A-ZÀ-Þ][\w'-]+(?: (?:de |do |del |la |du )?[A-ZÀ-Þ][\w'-]+){0,2})")


def read_locality(draft: Draft) -> str:
    """A place behind "loc.", "Fundort", "from"; or a known place that is no part of a common name."""
    words = draft.words()
    for phrase in phrases(words, draft.text, frozenset({Kind.PLACE_MARK})):
        start, end = words[phrase.first].start, words[phrase.last - 1].end
        found = _PLACE_NAME.match(draft.open_text, end)
        if found and found["text"] not in ABBREVIATIONS:
            draft.claim("locality", start, found.end())
            return found["text"]
    places = []
    for phrase in list(phrases(words, draft.text, frozenset({Kind.PLACE}))):
        if not _beside_name_word(draft, words, phrase.first, phrase.last):
            start, end = words[phrase.first].start, words[phrase.last - 1].end
            draft.claim("locality", start, end)
            places.append(draft.text[start:end])
    return ", ".join(places)


def _beside_name_word(draft: Draft, words: Sequence[Word], first: int, last: int) -> bool:
    name_kinds = frozenset({Kind.NAME_WORD, Kind.ANIMAL})
    if first > 0 and draft.text[words[first - 1].end : words[first].start] in (" ", "-"):
        before = kinds_of(words[first - 1].key)
        if before & name_kinds or not before:
            return True
    if last < len(words) and draft.text[words[last - 1].end : words[last].start] in (" ", "-"):
        behind = kinds_of(words[last].key)
        return bool(behind & name_kinds) or not behind
    return False


_INNER = frozenset("and und et y e i of the de du des del della di da la le les a mit with von van s in".split())
_BREAKS = (_ENDS_FORM | {Kind.QUALIFIER, Kind.FORM}) - {Kind.SIZE_KIND, Kind.COUNT}
_MOST_WORDS = 8


def read_common(draft: Draft, names: Names) -> list[CommonClue]:
    """Runs of open words that may be a common name; inside a run the longest that a list knows stands alone."""
    clues = []
    for run in _runs(draft):
        for part in _known_parts(run, draft, names):
            clue = _common_clue(part, draft, names)
            if clue:
                draft.claim("common", part[0].start, part[-1].end)
                clues.append(clue)
    return clues


def _runs(draft: Draft) -> list[list[Word]]:
    runs: list[list[Word]] = []
    last = -1
    for word in draft.words():
        joined = last >= 0 and not draft.open_text[last : word.start].strip(" -'") and word.start - last <= 3
        if not joined:
            runs.append([])
        kinds = kinds_of(word.key)
        breaks = kinds & _BREAKS and not kinds & {Kind.NAME_WORD, Kind.ANIMAL} and word.key not in _INNER
        if breaks or (word.text in ABBREVIATIONS and not kinds & {Kind.ANIMAL}):
            runs.append([])
            last = -1
        else:
            runs[-1].append(word)
            last = word.end
    trimmed = (_without_edges(run) for run in runs)
    return [run for run in trimmed if run and len(run) <= _MOST_WORDS]


def _without_edges(run: list[Word]) -> list[Word]:
    while run and run[0].key in _INNER:
        run = run[1:]
    while run and run[-1].key in _INNER:
        run = run[:-1]
    return run


def _known_parts(run: list[Word], draft: Draft, names: Names) -> list[list[Word]]:
    for length in range(len(run), 0, -1):
        for first in range(len(run) - length + 1):
            part = run[first : first + length]
            if (length > 1 or not _is_generic(part[0])) and names.is_common(draft.text[part[0].start : part[-1].end]):
                first, last = _with_animals(run, first, first + length)
                part, before, behind = run[first:last], run[:first], run[last:]
                return [
                    *([_without_edges(before)] if _without_edges(before) else []),
                    part,
                    *(_known_parts(_without_edges(behind), draft, names) if _without_edges(behind) else []),
                ]
    return [run]


def _with_animals(run: list[Word], first: int, last: int) -> tuple[int, int]:
    """A known name takes in the words for the group beside it: "Mexican red knee tarantula"."""
    while first > 0 and Kind.ANIMAL in kinds_of(run[first - 1].key):
        first -= 1
    while last < len(run) and Kind.ANIMAL in kinds_of(run[last].key):
        last += 1
    return first, last


def _is_generic(word: Word) -> bool:
    kinds = kinds_of(word.key)
    return bool(kinds & {Kind.ANIMAL, Kind.NAME_WORD}) or len(word.key) < 2


def _common_clue(part: list[Word], draft: Draft, names: Names) -> CommonClue | None:
    text = draft.text[part[0].start : part[-1].end]
    if not any(len(word.key) >= 3 or not word.key.isascii() for word in part) and not names.is_common(text):
        return None
    generic = all(Kind.ANIMAL in kinds_of(word.key) for word in part) or (len(part) == 1 and _is_generic(part[0]))
    start, end = draft.place(part[0].start, part[-1].end)
    return CommonClue(text, start, end, generic)


def read_group(words: Sequence[Word], text: str) -> str:
    """The taxon that a group word such as "tarantula" or "Skorpion" names; of several the narrowest comes first."""
    found = [phrase.value for phrase in phrases(words, text, frozenset({Kind.ANIMAL})) if phrase.value != "Arthropoda"]
    return "Theraphosidae" if "Theraphosidae" in found else next(iter(found), "")
