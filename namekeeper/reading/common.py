"""Rules for common names: those that a list knows go before all words of the trade, the others come last."""

from __future__ import annotations

import re

from namekeeper.reading.draft import Draft, TagWord
from namekeeper.reading.lexicon import Kind, KnownNames, NoKnownNames, kinds_of, phrases
from namekeeper.reading.reading import CommonClue
from namekeeper.reading.rest import ENDS_NAME
from namekeeper.reading.vocabulary import ABBREVIATIONS

_LONGEST_KNOWN = 8  # words: "insecto palo de la isla de Lord Howe"
_NUMBER = re.compile(r" ?\d{1,4}(?![\w.,])")


def read_known_common(draft: Draft, names: KnownNames) -> list[CommonClue]:
    """Names of two words and more that a list knows: "communal huntsman" is no remark, "mantis orquídea" no genus.

    What is also a scientific name as a whole, or may be one cut short, is left to the rule for those; "mantis religiosa
    gigante" is not.
    """
    clues: list[CommonClue] = []
    words = [] if isinstance(names, NoKnownNames) else draft.words()
    at = 0
    while at < len(words):
        last = _known_until(words, at, draft, names)
        if last == at:
            numbered = _with_number(words[at], draft, names)
            clues += [numbered] if numbered else []
            at += 1
            continue
        clues.append(_claimed(words[at:last], draft))
        at = last
    return clues


def _with_number(word: TagWord, draft: Draft, names: KnownNames) -> CommonClue | None:
    """``PSG 9``: a culture number that a list knows as a name."""
    number = _NUMBER.match(draft.piece(word.end, word.end + 8))
    end = word.end + (number.end() if number else 0)
    if number is None or not word.text.isupper() or not names.is_common(draft.text[word.start : end]):
        return None
    draft.claim("common", word.start, end)
    return CommonClue(draft.text[word.start : end], *draft.place(word.start, end))


def _known_until(words: list[TagWord], at: int, draft: Draft, names: KnownNames) -> int:
    """Where the longest known name that begins at ``at`` ends, with the words for the group behind it."""
    last = at + 1
    if _in_a_form(words[at], draft) or not words[at].text[0].isalpha():
        return at
    while last < min(len(words), at + _LONGEST_KNOWN) and _joined(words[last - 1], words[last], draft):
        last += 1
    known = at
    for end in range(last, at + 1, -1):
        text = _with_and(draft.text[words[at].start : words[end - 1].end])
        if names.is_common(text) and not _may_be_scientific(words[at:end], text, names):
            known = end
            break
    while at < known < last and _is_animal(words[known]):
        known += 1
    return known


def _with_and(text: str) -> str:
    """``black & white`` as lists spell it."""
    return re.sub(" ?& ?", " and ", text)


_FORM_BEFORE = re.compile(r"\b(?:sp|spp|spec|species|aff|cf)\.? *[\"'(]*$", re.I)


def _in_a_form(word: TagWord, draft: Draft) -> bool:
    """Whether the word begins a trade form: ``sp. "electric blue"``."""
    return bool(_FORM_BEFORE.search(draft.piece(word.start - 12, word.start)))


def _joined(one: TagWord, other: TagWord, draft: Draft) -> bool:
    gap = draft.piece(one.end, min(other.start, one.end + 5))
    return other.text[0].isalpha() and len(gap) <= 3 and not gap.strip(" -'.,&")


def _may_be_scientific(words: list[TagWord], text: str, names: KnownNames) -> bool:
    if len(words) == 2 and (text[len(words[0].text)] == "." or 1 in {len(word.text) for word in words}):
        return True
    return names.is_name(" ".join(word.text for word in words))


def _claimed(part: list[TagWord], draft: Draft, *, generic: bool = False) -> CommonClue:
    start, end = part[0].start, part[-1].end
    place = draft.place(start, end)
    draft.claim("common", start, end)
    return CommonClue(draft.text[start:end], *place, generic)


_INNER = frozenset(
    (
        "and", "und", "et", "y", "e", "i", "of", "the", "de", "du", "des", "del", "della", "di", "da", "la", "le",
        "les", "a", "mit", "with", "von", "van", "s", "in",
    )
)  # fmt: skip
_BREAKS = (ENDS_NAME | {Kind.QUALIFIER}) - {Kind.SIZE_KIND}
_MOST_WORDS = 8


def read_common(draft: Draft, names: KnownNames) -> list[CommonClue]:
    """Runs of open words that may be a common name; inside a run the longest that a list knows stands alone."""
    clues = []
    for run in _runs(draft):
        for part in _known_parts(run, draft, names):
            clue = _common_clue(_without_sizes(part, draft, names), draft, names)
            clues += [clue] if clue else []
    return clues


def _runs(draft: Draft) -> list[list[TagWord]]:
    runs: list[list[TagWord]] = []
    last = -1
    words = draft.words()
    remarks = {
        i
        for p in phrases(words, draft.text, frozenset({Kind.CONDITION}))
        if p.last - p.first > 1
        for i in range(p.first, p.last)
    }
    for number, word in enumerate(words):
        joined = last >= 0 and word.start - last <= 3 and not draft.piece(last, word.start).strip(" -'")
        if not joined:
            runs.append([])
        kinds = kinds_of(word.key)
        breaks = kinds & _BREAKS and not kinds & {Kind.NAME_WORD, Kind.ANIMAL} and word.key not in _INNER
        if (
            breaks
            or number in remarks
            or not word.text[0].isalpha()
            or (word.text in ABBREVIATIONS and not kinds & {Kind.ANIMAL})
        ):
            runs.append([])
            last = -1
        else:
            runs[-1].append(word)
            last = word.end
    trimmed = (_without_edges(run) for run in runs)
    return [run for run in trimmed if run and len(run) <= _MOST_WORDS]


def _without_edges(run: list[TagWord]) -> list[TagWord]:
    while run and run[0].key in _INNER:
        run = run[1:]
    while run and run[-1].key in _INNER:
        run = run[:-1]
    return run


def _known_parts(run: list[TagWord], draft: Draft, names: KnownNames) -> list[list[TagWord]]:
    """``run`` cut round the longest name that a list knows."""
    for length in range(len(run), 0, -1):
        for first in range(len(run) - length + 1):
            part = run[first : first + length]
            telling = length > 1 or not _is_generic(part[0])
            if telling and names.is_common(draft.text[part[0].start : part[-1].end]):
                begin, end = _with_animals(run, first, first + length)
                before, behind = _without_edges(run[:begin]), _without_edges(run[end:])
                known = [run[begin:end], *(_known_parts(behind, draft, names) if behind else [])]
                return [before, *known] if before else known
    return [run]


def _without_sizes(part: list[TagWord], draft: Draft, names: KnownNames) -> list[TagWord]:
    """Words that no list has so, without those before and behind that tell a size; of such alone nothing.

    Of one word more only where it names a group: "tarantula, large".
    """
    if not part or names.is_common(draft.text[part[0].start : part[-1].end]):
        return part
    bare = part
    while bare and Kind.SIZE in kinds_of(bare[0].key):
        bare = bare[1:]
    while bare and Kind.SIZE in kinds_of(bare[-1].key):
        bare = bare[:-1]
    return bare if len(bare) > 1 or all(map(_is_animal, bare)) else part


def _with_animals(run: list[TagWord], first: int, last: int) -> tuple[int, int]:
    """A known name takes in the words for the group beside it: "Mexican red knee tarantula"."""
    while first > 0 and _is_animal(run[first - 1]):
        first -= 1
    while last < len(run) and _is_animal(run[last]):
        last += 1
    return first, last


def _is_animal(word: TagWord) -> bool:
    return len(word.key) > 1 and Kind.ANIMAL in kinds_of(word.key)


def _is_generic(word: TagWord) -> bool:
    kinds = kinds_of(word.key)
    return bool(kinds & {Kind.ANIMAL, Kind.NAME_WORD}) or len(word.key) < 2


def _common_clue(part: list[TagWord], draft: Draft, names: KnownNames) -> CommonClue | None:
    if not part:
        return None
    start, end = part[0].start, part[-1].end
    text = draft.text[start:end]
    if not any(len(word.key) >= 3 or not word.key.isascii() for word in part) and not names.is_common(text):
        return None
    generic = all(Kind.ANIMAL in kinds_of(word.key) for word in part) or (len(part) == 1 and _is_generic(part[0]))
    place = draft.place(start, end)
    draft.claim("common", start, end)
    return CommonClue(text, *place, generic)
