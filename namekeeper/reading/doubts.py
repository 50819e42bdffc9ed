"""Rules for what a seller says of the names (not sure, not this one, this or that), and for words not heard."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from functools import cache
from itertools import pairwise
from typing import NamedTuple

from namekeeper.reading import vocabulary as v
from namekeeper.reading.draft import Draft, TagWord
from namekeeper.reading.lexicon import Kind, KnownNames, kinds_of, phrases
from namekeeper.reading.reading import Clue, CommonClue, Word
from namekeeper.words.spelling import plain_key

_OF_THE_ANIMAL = frozenset({"sex", "stage", "size", "price", "instar", "source_mark"})
#: Kinds that say nothing by which one animal differs from another; a place is weighed against the range of the animal
_HEARD = frozenset(Kind) - {Kind.NAME_WORD, Kind.PLACE, Kind.ANIMAL, Kind.MANNER, Kind.COMPARISON, Kind.SIZE}
_PLACED = frozenset({Kind.MANNER, Kind.COMPARISON})
_DENIALS = frozenset({Kind.NEGATION, Kind.LIKENESS}) | _PLACED
#: Of these a longer phrase goes first: "type locality", "sold as seen"
_OTHER_TALK = frozenset({Kind.CONDITION, Kind.PLACE_MARK})
_NAMES = frozenset({"scientific", "common"})
#: "is not", "is about", and how sure the seller is; a number behind ``~`` is a size
NOT_SIGN = re.compile("≠|!=")
ABOUT_SIGN = re.compile(
    r"[~≈](?= ?[^\W\d_])|(?<!\d)\d{1,2} ?% ?(?:sure|certain|sicher|sûre?|segur[oa]|sicur[oa]|zeker|säker|sikker)(?!\w)",
    re.I,
)
_IN_ABOUT_SIGNS = frozenset("~≈%")
_OF_SEX_AND_AGE = frozenset({"sex", "stage"})
_WIDEST_GAP = 3  # signs between a name and a word that speaks of it
_SHORTEST_NAME, _SHORTEST_FOREIGN = 4, 3  # letters of a word that may be a name; of one in another script
_SHORTEST = 2  # letters; what is shorter is a number, a sign or part of an abbreviation


def read_negation(draft: Draft) -> bool:
    """Whether the tag denies the name, or says that the animal only looks like it.

    "not sexed" and "no papers" deny no name: what the next word says of the animal is all that is denied.
    """
    denied = False
    for sign in NOT_SIGN.finditer(draft.open_text):
        draft.claim("negation", *sign.span())
        denied = True
    for said in list(_said(draft, _DENIALS)):
        if _denies(draft, said):
            draft.claim("negation", said.start, said.end)
            denied = True
    return denied


class _Said(NamedTuple):
    """A phrase among the open words; ``many``: of several words, ``behind``: the folded open word behind it."""

    kind: Kind
    start: int
    end: int
    many: bool
    behind: str


def _said(draft: Draft, kinds: frozenset[Kind]) -> Iterator[_Said]:
    words = draft.words()
    for phrase in phrases(words, draft.text, kinds | _OTHER_TALK):
        if phrase.kind in kinds:
            last, behind = words[phrase.last - 1], words[phrase.last : phrase.last + 1]
            many = phrase.last - phrase.first > 1
            yield _Said(phrase.kind, words[phrase.first].start, last.end, many, behind[0].key if behind else "")


def _denies(draft: Draft, said: _Said) -> bool:
    if said.kind in _PLACED:
        return _beside_a_name(draft, said)
    return said.kind is Kind.LIKENESS or _denies_a_name(draft, said.end)


def _beside_a_name(draft: Draft, said: _Said) -> bool:
    """Whether only a blank or hyphen parts this from a name: "versicolor-type", but not "type: B. smithi".

    What compares counts before a name alone: "like B. smithi", not "B. smithi, like new".
    """
    before = draft.text[max(said.start - _WIDEST_GAP, 0) : said.start]
    at = said.start - len(before) + len(before.rstrip(" -'\"()")) - 1
    if draft.text[said.end : said.end + 1] == ":":
        return False
    beside = draft.owner[at] if said.kind is Kind.MANNER and before and 0 <= at < said.start - 1 else ""
    behind = draft.owner[said.end + 1 : said.end + 2] if draft.text[said.end : said.end + 1] == " " else []
    return bool({beside, *behind} & _NAMES)


def _denies_a_name(draft: Draft, end: int) -> bool:
    for found in re.finditer(r"[^\W_]+", draft.text[end : end + 60]):
        start = end + found.start()
        kinds = kinds_of(found[0].lower())
        if draft.owner[start] in _OF_THE_ANIMAL or found[0][0].isdigit():
            return False
        if draft.owner[start] or not kinds:
            return True
        if Kind.FUNCTION not in kinds:
            return bool(kinds & {Kind.NAME_WORD, Kind.ANIMAL}) and Kind.CONDITION not in kinds
    return True


def read_not_sure(draft: Draft) -> bool:
    """Whether several words say that the seller is not sure ("might be", "sans doute"), but for those on the sex.

    They go before all names: each by itself may be part of one, or deny it.
    """
    found = False
    for said in list(_said(draft, frozenset({Kind.MAYBE}))):
        if said.many and not kinds_of(said.behind) & {Kind.SEX, Kind.STAGE}:
            draft.claim("qualifier", said.start, said.end)
            found = True
    return found


def read_maybe(draft: Draft) -> list[tuple[int, int]]:
    """Places of "maybe" and the like among the open words; the caller knows whether there is a name to doubt.

    Those right before a sex or stage doubt that.
    """
    found = [(said.start, said.end) for said in _said(draft, frozenset({Kind.MAYBE}))]
    if not _IN_ABOUT_SIGNS.isdisjoint(draft.text):
        found += [sign.span() for sign in ABOUT_SIGN.finditer(draft.text) if not draft.owner[sign.start()]]
    return [(start, end) for start, end in found if not _OF_SEX_AND_AGE.intersection(draft.owner[end : end + 2])]


@cache
def between_alternatives() -> re.Pattern[str]:
    """What stands between two names of which one is meant: ``/``, ``|``, "or", "vs.", ", maybe", "(or"."""
    phrases_of = [words for table in (v.ALTERNATIVES, v.MAYBE) for words in table.values()]
    words = sorted({word for words in phrases_of for word in words.split("|")}, key=len, reverse=True)
    word = "|".join(re.escape(word).replace("\\ ", "[ /]") for word in words)
    return re.compile(
        rf"[ ,;(]{{0,3}}(?:(?:\?{{0,2}}[/|\\]|(?<![^\W_])(?:{word})(?![^\W_])\.?)[ ,;]{{0,2}}){{1,3}}\(?", re.I
    )


def read_alternatives(draft: Draft, commons: Sequence[CommonClue], clues: Sequence[Clue]) -> tuple[Word, ...]:
    """Words behind an "or" that stands behind a name; whether a list knows them shows when they are looked up."""
    names_end = max((draft.plain_place(clue.end) for clue in clues), default=-1)
    found = []
    for clue in commons:
        start = draft.plain_place(clue.start)
        before = draft.text[max(start - 24, 0) : start]
        if start > names_end >= 0 and ends_with_or(before, columns=draft.text.count("|") > 1):
            found.append(Word(clue.text, clue.start, clue.end))
    return tuple(dict.fromkeys((*found, *_either(draft, commons))))


def _either(draft: Draft, commons: Sequence[CommonClue]) -> Iterator[Word]:
    """Both of two common names with nothing but an "or" between them: "smithi/hamorii"."""
    telling = sorted((clue for clue in commons if not clue.generic), key=lambda clue: clue.start)
    for one, other in pairwise(telling):
        between = draft.text[draft.plain_place(one.end) : draft.plain_place(other.start)]
        columns = "|" in between and draft.text.count("|") > 1
        if between.strip() and not columns and between_alternatives().fullmatch(between):
            yield from (Word(clue.text, clue.start, clue.end) for clue in (one, other))


def ends_with_or(before: str, *, columns: bool = True) -> bool:
    """Whether the text ends with a sign or word for an alternative; ``columns``: strokes part columns."""
    if columns and "|" in before[-2:]:
        return False  # strokes part the columns of price lists
    return any(found.end() == len(before) for found in between_alternatives().finditer(before))


def unheard_words(draft: Draft, commons: Sequence[CommonClue], names: KnownNames) -> tuple[Word, ...]:
    """Words of unlisted common names and of no field that the lexicon does not have, in the order of the tag."""
    found = [(word.start, word) for word in draft.words() if _is_unheard(word)]
    for clue in commons:
        if not names.is_common(clue.text):
            found += [(word.start, word) for word in draft.words_in(clue.start, clue.end) if _is_unheard(word)]
    return tuple(Word(word.text, *draft.place(word.start, word.end)) for _, word in sorted(found))


def might_be_name(word: str) -> bool:
    """Whether a word by itself may be a name that nobody here knows, and no word of the lexicon or a row of signs."""
    if kinds_of(plain_key(word)) or not word.replace("'", "").isalpha():
        return False
    if not word.isascii() and not any(letter.isascii() for letter in word):
        return len(word) >= _SHORTEST_FOREIGN
    plain = word.islower() or word.isupper() or word[1:].islower()
    return plain and len(word) >= _SHORTEST_NAME and any(vowel in plain_key(word) for vowel in "aeiouy")


def _is_unheard(word: TagWord) -> bool:
    kinds = kinds_of(word.key)
    if kinds & _HEARD or word.text in v.ABBREVIATIONS or not word.text[0].isalpha():
        return False
    return kinds != {Kind.ANIMAL} and (len(word.key) >= _SHORTEST or not word.key.isascii())
