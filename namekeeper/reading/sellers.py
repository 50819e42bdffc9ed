"""The seller or breeder on a tag: only behind a word that says so, and never a guess.

"from Ghana" and "von Lindqvist" stay unread: nobody can tell a person from a place there.
"""

from __future__ import annotations

import re

from namekeeper.reading.draft import WORD, Draft, TagWord
from namekeeper.reading.lexicon import Kind, KnownNames, kinds_of, phrases
from namekeeper.reading.vocabulary import ABBREVIATIONS
from namekeeper.words.spelling import plain_key

_MOST_WORDS = 3  # of a name, beside what joins them
_LONGEST_COMMON = 3  # words of a common name that may follow
_REACH = 60  # characters behind the sign
#: A name of an account, as on pages where animals are offered; an address of mail is none
_ACCOUNT = re.compile(r"(?<![\w.@])@[A-Za-z0-9](?:[\w.-]{1,28}\w)(?![\w@])")
#: Between the words of a name
_JOINING = frozenset(
    {"and", "und", "et", "y", "och", "en", "von", "van", "de", "der", "da", "di", "del", "du", "la", "le"}
)
_OF_A_NAME = frozenset({Kind.NAME_WORD, Kind.ANIMAL, Kind.FUNCTION, Kind.CONDITION, Kind.NEGATION, Kind.OR})


def read_seller(draft: Draft, names: KnownNames) -> str:
    """Who sold or bred the animal: behind "bought from", "Züchter:", or ``@name``; empty where no such sign stands."""
    words = draft.words()
    for phrase in phrases(words, draft.text, frozenset({Kind.SELLER})):
        start, end = words[phrase.first].start, words[phrase.last - 1].end
        begin = _begin(draft.text, end, colon=phrase.last - phrase.first == 1)
        behind = _name_until(draft, begin, names) if begin is not None else None
        if begin is not None and behind is not None:
            draft.claim("seller", start, behind)
            return draft.text[begin:behind].strip(" .&-")
    account = _ACCOUNT.search(draft.text) if "@" in draft.text else None
    if account is None:
        return ""
    draft.claim("seller", account.start(), account.end())
    return account[0]


def _begin(text: str, end: int, *, colon: bool) -> int | None:
    """Where the name begins behind the sign; a sign of one word ("Züchter") needs a colon."""
    found = re.compile(r"\.? ?: ?|\.? ").match(text, end)
    return found.end() if found and (":" in found[0] or not colon) else None


def _name_until(draft: Draft, begin: int, names: KnownNames) -> int | None:
    """Where the name of a person or shop ends; None if none stands there: it begins with a capital, and is no place."""
    found = [
        TagWord(m[0], plain_key(m[0]), begin + m.start(), begin + m.end())
        for m in WORD.finditer(draft.text[begin : begin + _REACH])
    ]
    if any(phrase.first == 0 for phrase in phrases(found, draft.text, frozenset({Kind.PLACE}))):
        return None
    end, last, taken = None, begin, 0
    for number, word in enumerate(found):
        gap = draft.text[last : word.start]
        if len(gap) > 3 or gap.strip(" .&'-") or (gap.startswith(". ") and taken and len(found[number - 1].text) > 2):
            break
        last = word.end
        if word.key in _JOINING and word.text.islower() and taken:
            continue
        if (taken == _MOST_WORDS and gap != "-") or not _is_of_a_person(found, number, draft.text, names):
            break
        taken += gap != "-"
        end = word.end if len(word.text) > 1 or taken > 1 else end
    return end


def _is_of_a_person(words: list[TagWord], number: int, text: str, names: KnownNames) -> bool:
    word = words[number]
    alone = Kind.ANIMAL not in kinds_of(word.key)  # a shop may be called "Tarantula Barn"
    if not word.text[0].isupper() or word.text in ABBREVIATIONS or not kinds_of(word.key) <= _OF_A_NAME:
        return False
    if (alone and names.is_genus(word.text)) or (len(word.text) == 1 and text[word.end : word.end + 1] != "."):
        return False
    ends = [later.end for later in words[number + (not alone) : number + _LONGEST_COMMON]]
    if any(names.is_common(text[word.start : end]) for end in ends):
        return False
    behind = text[word.end : word.end + 3].lstrip(".")
    return text[word.end : word.end + 1] != "." or not behind.strip()[:1].islower()  # "B. smithi" is no person
