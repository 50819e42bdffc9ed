"""Phrases of the vocabulary as one index, and the questions that only lists of names can answer."""

from collections.abc import Iterator, Mapping, Sequence
from enum import StrEnum, unique
from functools import cache, lru_cache
from itertools import pairwise
from typing import NamedTuple, Protocol

from namekeeper.reading import vocabulary as v
from namekeeper.reading.draft import TagWord
from namekeeper.words.spelling import plain_key


class KnownNames(Protocol):
    """What a reader may ask of lists of names; each answer is by spelling alone (rows 1 and 2 of the contract)."""

    def is_genus(self, word: str) -> bool:
        """Whether some list has this genus word."""
        ...

    def is_name(self, name: str) -> bool:
        """Whether some list has this name of two or three words."""
        ...

    def is_epithet(self, word: str) -> bool:
        """Whether some list has this epithet in any genus."""
        ...

    def is_common(self, words: str) -> bool:
        """Whether some list has this common name."""
        ...

    def is_clipped(self, genus_start: str, epithet_start: str) -> bool:
        """Whether some list has names whose genus and epithet begin so."""
        ...


class NoKnownNames:
    """Reads a tag by its form alone."""

    def is_genus(self, word: str) -> bool:
        return False

    def is_name(self, name: str) -> bool:
        return False

    def is_epithet(self, word: str) -> bool:
        return False

    def is_common(self, words: str) -> bool:
        return False

    def is_clipped(self, genus_start: str, epithet_start: str) -> bool:
        return False


@unique
class Kind(StrEnum):
    """What a phrase of the trade says."""

    SEX = "sex"
    COUNT = "count"
    GROUP = "group"
    DOUBT = "doubt"
    STAGE = "stage"
    ORIGIN = "origin"
    SIZE_KIND = "size kind"
    QUALIFIER = "qualifier"
    HYBRID = "hybrid"
    FORM = "form"
    PLACE_MARK = "place mark"
    PLACE = "place"
    SELLER = "seller"  # who sold or bred it stands behind
    FORMER = "former"
    OR = "or"
    MAYBE = "maybe"  # the seller is not sure
    NEGATION = "negation"
    LIKENESS = "likeness"  # only looks like it
    MANNER = "manner"  # the same, where it stands right beside a name
    COMPARISON = "comparison"  # the same, where it stands right before a name
    UNKNOWN = "unknown"  # the seller does not know
    FUNCTION = "function"  # articles and the like, between a negation and what is denied
    CONDITION = "condition"
    PRICE = "price"
    ANIMAL = "animal"
    NAME_WORD = "name word"
    SIZE = "size"  # large, small: says nothing alone


class Phrase(NamedTuple):
    """A phrase found at ``words[first:last]``."""

    kind: Kind
    value: str
    first: int
    last: int


Entry = tuple[tuple[str, ...], Kind, str]  # folded words, what they say, and the value


def phrases(words: Sequence[TagWord], text: str, kinds: frozenset[Kind]) -> Iterator[Phrase]:
    """Phrases of these kinds, longest first, not overlapping; their words stand side by side in ``text``."""
    at = 0
    while at < len(words):
        entries = _beginning_with(words[at].key)
        found = _longest(entries, words, at, text, kinds) if entries else None
        if found is None:
            at += 1
        else:
            yield found
            at = found.last


def _longest(
    entries: Sequence[Entry], words: Sequence[TagWord], at: int, text: str, kinds: frozenset[Kind]
) -> Phrase | None:
    for keys, kind, value in entries:
        last = at + len(keys)
        if kind not in kinds or last > len(words):
            continue
        if tuple(word.key for word in words[at:last]) == keys and _side_by_side(words[at:last], text):
            return Phrase(kind, value, at, last)
    return None


def _side_by_side(words: Sequence[TagWord], text: str) -> bool:
    return all(b.start - a.end <= 3 and not text[a.end : b.start].strip(" -.'/") for a, b in pairwise(words))


def kinds_of(key: str) -> frozenset[Kind]:
    """What one folded word can be by itself."""
    return frozenset(kind for keys, kind, _ in _beginning_with(key) if len(keys) == 1)


def _beginning_with(key: str) -> Sequence[Entry]:
    """All phrases whose first folded word is ``key``, longest first."""
    return _folded(key[:1]).get(key, ())


_LETTERS = 256  # more than the vocabulary begins with; a tag may hold any


@cache
def _by_letter() -> Mapping[str, Sequence[tuple[Kind, str, str]]]:
    """All phrases by their first folded letter: the words of one tag begin with few letters, and folding takes time."""
    found: dict[str, list[tuple[Kind, str, str]]] = {}
    for phrase in every_phrase():
        first = phrase[2][0]
        letter = first.lower() if first.isascii() else plain_key(first)[:1]
        found.setdefault(letter, []).append(phrase)
    return found


@lru_cache(maxsize=_LETTERS)
def _folded(letter: str) -> Mapping[str, Sequence[Entry]]:
    """Phrases that begin with a letter, by their first folded word."""
    entries: dict[str, list[Entry]] = {}
    for kind, value, phrase in _by_letter().get(letter, ()):
        keys = _keys(phrase)
        if keys:
            entries.setdefault(keys[0], []).append((keys, kind, value))
    for found in entries.values():
        if len(found) > 1:
            found.sort(key=lambda entry: -len(entry[0]))
    return entries


def _keys(phrase: str) -> tuple[str, ...]:
    # "c/u", "p.st." and "louva-a-deus" are words side by side, as the draft cuts them
    parted = phrase.replace("-", " ").replace("/", " ").replace(".", " ")
    if parted.isascii():
        return tuple(parted.lower().replace("'", "").split())
    return tuple(part.lower().replace("'", "") if part.isascii() else plain_key(part) for part in parted.split())


def every_phrase() -> Iterator[tuple[Kind, str, str]]:
    """All phrases as kind, value and words, as the vocabulary has them."""
    tables: tuple[tuple[Kind, Mapping[str, str]], ...] = (
        (Kind.SEX, v.SEXES), (Kind.STAGE, v.STAGES), (Kind.SIZE_KIND, v.SIZE_KINDS), (Kind.QUALIFIER, v.QUALIFIERS),
        (Kind.ANIMAL, v.ANIMALS), (Kind.OR, v.ALTERNATIVES), (Kind.MAYBE, v.MAYBE), (Kind.NEGATION, v.NEGATIONS),
        (Kind.LIKENESS, v.LIKENESSES), (Kind.MANNER, v.MANNERS), (Kind.COMPARISON, v.COMPARISONS),
        (Kind.UNKNOWN, v.UNKNOWN), (Kind.FUNCTION, v.FUNCTION_WORDS), (Kind.SELLER, v.SELLER_MARKS),
    )  # fmt: skip
    for kind, table in tables:
        for value, words in table.items():
            yield from ((kind, value, word) for word in words.split("|"))
    for kind, words in (
        (Kind.COUNT, v.COUNT_WORDS), (Kind.GROUP, v.GROUPS), (Kind.DOUBT, v.DOUBT_OF_SEX),
        (Kind.DOUBT, v.DOUBT_OF_SEX_MORE), (Kind.ORIGIN, v.ORIGINS_ANY_CASE), (Kind.ORIGIN, v.ORIGIN_WORDS),
        (Kind.FORM, v.COLOUR_FORMS), (Kind.PLACE_MARK, v.PLACE_MARKS), (Kind.PLACE, v.COUNTRIES),
        (Kind.PLACE, v.REGIONS), (Kind.HYBRID, v.HYBRIDS), (Kind.FORMER, v.FORMER_MARKS),
        (Kind.CONDITION, v.CONDITIONS), (Kind.PRICE, v.PRICE_WORDS), (Kind.NAME_WORD, v.NAME_WORDS),
        (Kind.NAME_WORD, v.OTHER_NAME_WORDS), (Kind.SIZE, v.SIZES),
    ):  # fmt: skip
        yield from ((kind, word, word) for word in words.split("|"))
