"""Look up tags: read each and find what it may mean, by the lists and, where they know nothing, by services."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from functools import lru_cache
from typing import NamedTuple

from namekeeper.evidence.candidates import Lookup
from namekeeper.evidence.interfaces import NameList
from namekeeper.evidence.statements import CommonName, Failure, Match, Reply
from namekeeper.judging.candidates import find_candidates
from namekeeper.reading.reading import HYBRID, Reading
from namekeeper.reading.tag import read_tag
from namekeeper.tasks.guarded import SELF, mistake
from namekeeper.words.dates import PartialDate
from namekeeper.words.errors import NamekeeperError
from namekeeper.words.terms import AnswerKind

AskCommon = Callable[[str], Sequence[CommonName] | None]  # None: no name, and a service that was asked failed
AskNames = Callable[[Sequence[str]], Mapping[str, Sequence[Reply]]]
_HELD = 10_000  # answers on words of tags; one tag asks some ten
_NOT_SETTLED = (AnswerKind.NONE, AnswerKind.UNASKED, AnswerKind.GUESS, AnswerKind.GENUS)


class Looked(NamedTuple):
    """One tag with its reading and its answer; where something went wrong that nobody foresaw, nobody was asked."""

    tag: str
    reading: Reading
    lookup: Lookup
    failure: Failure | None = None  # what went wrong with this tag, in our own code too

    @property
    def is_cross(self) -> bool:
        """Whether the tag says that the animal is a hybrid."""
        return self.reading.qualifier == HYBRID


def look_up(
    tags: Iterable[str],
    lists: Sequence[NameList],
    on: PartialDate | None = None,
    ask_common: AskCommon | None = None,
    ask_names: AskNames | None = None,
    *,
    guarded: bool = False,
) -> Iterator[Looked]:
    """One answer a tag, in order, as it is ready.

    ``ask_common`` asks services for a common name, ``ask_names`` for scientific names; both are called only where the
    lists know no species for the tag. ``guarded``: what goes wrong with one tag is its failure, and the others go on.
    """
    names = ListNames(lists)
    for tag in tags:
        try:
            looked = _looked(tag, names, on, ask_common, ask_names)
        except NamekeeperError:
            raise  # meant for the keeper: stopped, or a list that cannot be read
        except Exception as error:
            if not guarded:
                raise
            failure = mistake(SELF, tag, error)
            looked = Looked(tag, Reading(tag, leftover=tag), Lookup(AnswerKind.UNASKED), failure)
        yield looked


def _looked(
    tag: str, names: ListNames, on: PartialDate | None, ask_common: AskCommon | None, ask_names: AskNames | None
) -> Looked:
    reading, lists = read_tag(tag, names), names.lists
    found = find_candidates(reading, lists, on)
    unlisted = _unlisted(reading, names) if ask_names is not None and found.answer in _NOT_SETTLED else ()
    replies = ask_names(unlisted) if ask_names is not None and unlisted else {}
    if replies:
        found = find_candidates(reading, lists, on, replies=replies)
    if ask_common is not None and found.answer in (AnswerKind.NONE, AnswerKind.UNASKED, AnswerKind.GUESS):
        told = [ask_common(clue.text) for clue in reading.commons if not clue.generic]
        online = [name for names_told in told for name in names_told or ()]
        found = find_candidates(reading, lists, on, online, replies) if online else found
        if found.answer is AnswerKind.NONE and None in told:
            found = found._replace(answer=AnswerKind.UNASKED)  # a dead network never says "not found"
    return Looked(tag, reading, found)


def _unlisted(reading: Reading, names: ListNames) -> tuple[str, ...]:
    """Whole names of species on the tag that no list has."""
    written = [clue.text for clue in reading.clues if clue.name.is_species and not clue.name.abbreviated]
    return tuple(name for name in dict.fromkeys(written) if not names.is_name(name))


class ListNames:
    """Tells the reader of tags what the lists know of a word; remembers its last answers."""

    def __init__(self, lists: Sequence[NameList]) -> None:
        self.lists = lists
        self._once = lru_cache(maxsize=_HELD)(self._asked)

    def is_genus(self, word: str) -> bool:
        return self._once(self._has_genus, word)

    def is_name(self, name: str) -> bool:
        return self._once(self._has_name, name)

    def is_epithet(self, word: str) -> bool:
        return self._once(self._has_epithet, word)

    def is_common(self, words: str) -> bool:
        return self._once(self._has_common, words)

    def is_clipped(self, genus_start: str, epithet_start: str) -> bool:
        return self._once(self._has_clipped, f"{genus_start} {epithet_start}")

    @staticmethod
    def _asked(find: Callable[[str], bool], text: str) -> bool:
        return find(text)

    def _has_genus(self, word: str) -> bool:
        return any(
            any(statement.subject.rank == "genus" for statement in origin.named(word))
            or bool(origin.prefixed(f"{word} ", 1))
            for origin in self.lists
        )

    def _has_name(self, name: str) -> bool:
        return any(
            statement.match in (Match.SAME, Match.ENDING) for origin in self.lists for statement in origin.named(name)
        )

    def _has_epithet(self, word: str) -> bool:
        return any(origin.knows_epithet(word) for origin in self.lists)

    def _has_common(self, words: str) -> bool:
        return any(origin.common(words) for origin in self.lists)

    def _has_clipped(self, words: str) -> bool:
        genus, _, epithet = words.partition(" ")
        return any(origin.clipped(genus, epithet, 1) for origin in self.lists)
