"""What a copy of the lists may say of a written word: never more than the look-up says of it in any writing."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence

from namekeeper.evidence.candidates import Candidate, Lookup, merge
from namekeeper.evidence.interfaces import NameList
from namekeeper.reading.handout import TokenKey, token_key
from namekeeper.reading.vocabulary import ANIMALS
from namekeeper.sources.lists.whole import WholeList
from namekeeper.tasks.lookup import look_up
from namekeeper.words.terms import AnswerKind

Answers = Mapping[TokenKey, Lookup]

#: Firmest first.
_STRENGTH = (
    AnswerKind.ONE, AnswerKind.SEVERAL, AnswerKind.GENUS, AnswerKind.GUESS, AnswerKind.UNASKED, AnswerKind.NONE,
)  # fmt: skip
_WRITINGS: tuple[Callable[[str], str], ...] = (str, str.lower, str.upper, str.capitalize)
_MOST = 12  # candidates of one answer
_SHORTEST = 2  # letters of a key, unless it is a sign that is a word
_FIRST_SIGN = "\u2e80"  # of the scripts of East Asia


def written_words(whole: WholeList) -> Iterator[str]:
    """All that a tag may have to name an animal of a list: names whole, shortened and in parts, common names, forms,
    and the reader's own words for groups."""
    names = list(whole.every_name())
    yield from names
    for common in whole.every_common():
        yield common
        if common.count(" ") == 1 and "." not in common:
            yield common.replace(" ", "")
    yield from (word for words in ANIMALS.values() for word in words.split("|"))
    yield from whole.every_form()
    yield from whole.every_genus()
    parts: dict[str, None] = {}
    for name in names:
        genus, _, rest = name.partition(" ")
        parts |= dict.fromkeys((genus, f"{genus[0]}. {rest}", rest) if rest else (genus,))
        if " " in rest:
            parts |= dict.fromkeys((f"{genus} {rest[0]}. {rest.rpartition(' ')[2]}",))
    yield from parts


def weakest_answers(texts: Iterable[str], lists: Sequence[NameList], step: Callable[[int], object]) -> Answers:
    """An answer a key: the weakest of all texts with that key, each in capitals, small letters and as listed.

    Texts that lead to nothing have none. ``step`` is told how many texts are done.
    """
    found: dict[TokenKey, list[Lookup]] = {}
    for number, text in enumerate(dict.fromkeys(texts), 1):
        key = token_key(text)
        if len(key) >= _SHORTEST or key >= _FIRST_SIGN:
            writings = dict.fromkeys(writing(text) for writing in _WRITINGS)
            found.setdefault(key, []).extend(looked.lookup for looked in look_up(writings, lists))
        step(number)
    answers = {key: weakest(lookups) for key, lookups in sorted(found.items())}
    return {key: answer for key, answer in answers.items() if answer.candidates}


def weakest(lookups: Sequence[Lookup]) -> Lookup:
    """One answer for several writings of one word: every candidate, as firmly as the weakest writing has it."""
    telling = [lookup for lookup in lookups if lookup.candidates]
    if not telling:
        return max(lookups, key=_weakness)
    candidates = merge(_weakly(candidate) for lookup in telling for candidate in lookup.candidates)
    answer = max(telling, key=_weakness).answer
    if answer is AnswerKind.ONE and sum(candidate.is_species for candidate in candidates) > 1:
        answer = AnswerKind.SEVERAL
    if len(telling) < len(lookups) and answer in (AnswerKind.ONE, AnswerKind.SEVERAL):
        answer = AnswerKind.GUESS
    return Lookup(answer, tuple(candidates[:_MOST]))


def _weakness(lookup: Lookup) -> int:
    return _STRENGTH.index(lookup.answer)


def _weakly(candidate: Candidate) -> Candidate:
    return candidate._replace(sources=(), matched="")
