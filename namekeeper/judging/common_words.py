"""Common names word by word: what they are about, and how two of them compare."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from types import MappingProxyType

from namekeeper.evidence.interfaces import CommonNames
from namekeeper.evidence.statements import CommonName
from namekeeper.judging.nearness import slip
from namekeeper.reading.draft import TagWord
from namekeeper.reading.lexicon import Kind, Phrase, kinds_of, phrases
from namekeeper.reading.vocabulary import ANIMALS, ANY_ANIMAL
from namekeeper.words.spelling import plain_key

# Names of places in common names, shortened or for the adjective, on tags (common practice, no source)
_SHORTENED = MappingProxyType(
    {
        "mex": "mexican", "braz": "brazilian", "chil": "chilean", "venez": "venezuelan", "col": "colombian",
        "guat": "guatemalan", "costa": "costa rican", "arg": "argentinian", "hond": "honduran", "nic": "nicaraguan",
        "aus": "australian", "afr": "african", "orn": "ornamental", "chile": "chilean", "chili": "chilean",
        "mexico": "mexican", "brazil": "brazilian", "peru": "peruvian", "colombia": "colombian", "honduras": "honduran",
        "venezuela": "venezuelan", "haiti": "haitian", "costa rica": "costa rican", "guatemala": "guatemalan",
    }
)  # fmt: skip


def begins_or_ends(listed: list[str], core: list[str]) -> bool:
    return core in (listed[: len(core)], listed[-len(core) :])


def is_other_animal(higher: Iterable[str], groups: Iterable[str]) -> bool:
    """Whether an animal below the taxa ``higher`` belongs to none of ``groups``, as far as its list tells."""
    known = set(higher)
    if "Theraphosidae" in known:
        known.add("Araneae")
    told = len(known) > 1 or bool(known & ANIMALS.keys())
    return told and any(group not in known for group in groups if group != ANY_ANIMAL)


def same_group(one: str, other: str) -> bool:
    """Whether the words for the group, if both names have some, speak of the same animals.

    "red knee spider" may be the "red knee tarantula", but "wolf spider" is not the "tarantula wolf spider".
    """
    asked, listed = ([phrase.value for phrase in animals_in(words_of(text))] for text in (one, other))
    alike = len(asked) == len(listed) == 1 and {*asked, *listed} <= {"Theraphosidae", "Araneae"}
    return not asked or not listed or sorted(asked) == sorted(listed) or alike


def askable(text: str) -> tuple[str, ...]:
    """The words as written, and last with what is shortened in full."""
    words = text.replace("&", " and ").split()
    longer = [_SHORTENED.get(plain_key(word.strip(".")), word) for word in words]
    return tuple(dict.fromkeys((text, " ".join(words), " ".join(longer))))


def written_names(text: str, origin: CommonNames) -> list[CommonName]:
    """Names of a list equal to the words as they stand or with what is shortened in full.

    A list finds the words in any order; a name listed in the order asked is meant before one in another order ("wasp
    spider" is no "spider wasp").
    """
    found = [common for asked in askable(text) for common in origin.common(asked)]
    words = words_of(text)
    moved = [
        common for common in found if words != words_of(common.text) and sorted(words) == sorted(words_of(common.text))
    ]
    return [common for common in found if common not in moved] or found


def equal_names(text: str, origin: CommonNames) -> list[CommonName]:
    """As :func:`written_names`; where there is none, names equal but for the words for the animal group.

    One word alone says too little for that: "German" is not yet the German cockroach.
    """
    written = written_names(text, origin)
    words = words_of(askable(text)[-1])
    core = core_of(words)
    if written or not core or len(words) == 1:
        return written
    return [
        common
        for common in origin.common_with(core)
        if sorted(core_of(words_of(common.text))) == sorted(core) and same_group(text, common.text)
    ]


def words_of(text: str) -> list[str]:
    return [plain_key(word) for word in re.findall(r"[^\W_]+", text.replace("'s", ""))]


def core_of(words: Sequence[str]) -> list[str]:
    """Words beside those that only name the animal group."""
    named = {place for phrase in animals_in(words) for place in range(phrase.first, phrase.last)}
    return [word for place, word in enumerate(words) if place not in named]


def groups_in(text: str) -> tuple[str, ...]:
    """Taxa of the words for animal groups in a common name."""
    return tuple(phrase.value for phrase in animals_in(words_of(text)))


def animals_in(words: Sequence[str]) -> list[Phrase]:
    """Words for an animal group among folded words."""
    placed = [TagWord(word, word, place, place) for place, word in enumerate(words)]
    return list(phrases(placed, "", frozenset({Kind.ANIMAL})))


def is_slip(asked: list[str], listed: list[str]) -> bool:
    """Whether every word of one name is within a slip of a word of the other; words for the group do not count.

    "black" is no slip for "blue". Words written together or apart are compared as one.
    """
    written, known = core_of(asked), core_of(listed)
    if not written or not known:
        return False
    if slip("".join(written), "".join(known)) and len(written) != len(known):
        return True
    # a word for the group may be misspelt itself: "orchid mantiss"
    return all(any(slip(word, other) for other in listed) for word in written) and all(
        any(slip(word, other) for other in asked) for word in known
    )


def looks_like_a_name(words: list[str]) -> bool:
    """Whether unknown words are a common name that no list here has: two at least, one of them telling of an animal."""
    kinds = [kinds_of(word) for word in words]
    return len(words) >= 2 and any({Kind.NAME_WORD, Kind.ANIMAL} & found for found in kinds)
