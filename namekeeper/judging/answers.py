"""The answer to a tag: rules in order, the first that applies decides (contract section 2).

DEVELOPERS.md shows the table; a test compares it with ``TABLE`` row by row.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple

from namekeeper.evidence.candidates import Candidate, Note, NoteCode
from namekeeper.judging.hits import Hits
from namekeeper.reading.doubts import might_be_name
from namekeeper.reading.reading import HYBRID, Reading
from namekeeper.words.spelling import PlainKey
from namekeeper.words.terms import AnswerKind, How


class TagFacts(NamedTuple):
    """What a tag brought, clue by clue, and what of it was left over.

    ``chosen`` are the species that all firm clues together leave. ``by_name``: a scientific name on the tag leads to
    one of them. ``unheard`` are words beside a common name that explain nothing of the chosen; ``unlisted`` are names
    and alternatives on the tag that no list has; ``other_animals`` words for groups to which the chosen
    does not belong. ``other_form``: a trade form of the tag is another species since.
    """

    reading: Reading
    every: tuple[Hits, ...]
    chosen: frozenset[PlainKey]
    by_name: bool = False
    other_form: bool = False
    other_genus: bool = False
    by_service: bool = False
    unheard: tuple[str, ...] = ()
    unlisted: tuple[str, ...] = ()
    other_animals: tuple[str, ...] = ()
    complete: bool = False

    @property
    def candidates(self) -> tuple[Candidate, ...]:
        return tuple(candidate for hits in self.every for candidate in hits.candidates)

    @property
    def firm(self) -> bool:
        return any(candidate.firm for candidate in self.candidates)

    @property
    def groups(self) -> frozenset[PlainKey]:
        """Genera, families and the like for which a common name of the tag stands."""
        return frozenset(c.key for c in self.candidates if c.firm and not c.is_species and c.how is How.COMMON)


class AnswerRule(NamedTuple):
    """A row of the table: ``when`` says in words what ``applies`` does; ``code`` is its note, about ``words``."""

    id: str
    when: str
    answer: AnswerKind
    applies: Callable[[TagFacts], bool]
    code: NoteCode | None = None
    words: Callable[[TagFacts], tuple[str, ...]] = lambda facts: ()

    def says(self, facts: TagFacts) -> tuple[Note, ...]:
        """What is said with every candidate of this answer."""
        return (Note(self.code, self.words(facts)),) if self.code else ()


def answer_of(facts: TagFacts) -> AnswerRule:
    """The first rule that applies; the last always does."""
    return next(rule for rule in TABLE if rule.applies(facts))


# What the rules look for


def _open(facts: TagFacts) -> bool:
    return any(hits.open_species for hits in facts.every) or (facts.other_form and not facts.chosen)


def _denied(facts: TagFacts) -> bool:
    # "smithi, not hamorii" denies one of two
    named = len(facts.reading.clues) + sum(not clue.generic for clue in facts.reading.commons)
    return facts.reading.negated and (len(facts.chosen) == 1 or (bool(facts.chosen) and named == 1))


def _several_left(facts: TagFacts) -> bool:
    return len(facts.chosen) > 1


def _group_too(facts: TagFacts) -> bool:
    # "mantis religiosa" in small letters: the name itself has both meanings
    both = any(hits.ambiguous and hits.firm_species and _groups_by_common_name(hits) for hits in facts.every)
    return bool(facts.chosen and facts.groups and (both or not facts.reading.clues))


def _groups_by_common_name(hits: Hits) -> bool:
    return any(candidate.how is How.COMMON and not candidate.is_species for candidate in hits.firm)


def _one_unclear(facts: TagFacts) -> bool:
    if len(facts.chosen) != 1:
        return False
    species = [candidate for candidate in facts.candidates if candidate.firm and candidate.key in facts.chosen]
    in_force = any(candidate.how not in (How.MISAPPLIED, How.DOUBTFUL) for candidate in species)
    open_name = any(hits.ambiguous and len(hits.firm_species) > 1 for hits in facts.every)
    return not in_force or open_name or facts.other_form or facts.reading.qualifier == HYBRID


def _one_beside_a_genus(facts: TagFacts) -> bool:
    return len(facts.chosen) == 1 and facts.other_genus


def _one_by_service(facts: TagFacts) -> bool:
    return len(facts.chosen) == 1 and facts.by_service


def _beside_other_animals(facts: TagFacts) -> bool:
    return bool(facts.chosen and facts.other_animals)


def _one_beside_unlisted(facts: TagFacts) -> bool:
    return len(facts.chosen) == 1 and bool(facts.unlisted)


def _one_beside_unheard(facts: TagFacts) -> bool:
    return len(facts.chosen) == 1 and not facts.by_name and bool(facts.unheard)


def _one_recalled(facts: TagFacts) -> bool:
    if len(facts.chosen) != 1:
        return False
    holding = [hits for hits in facts.every if facts.chosen & {candidate.key for candidate in hits.firm_species}]
    return all(facts.chosen <= hits.recalled for hits in holding)


def _one(facts: TagFacts) -> bool:
    return len(facts.chosen) == 1


def _similar(facts: TagFacts) -> bool:
    return any(candidate.how is How.SIMILAR and candidate.is_species for candidate in facts.candidates)


def _several_groups(facts: TagFacts) -> bool:
    return len(facts.groups) > 1


def _firm(facts: TagFacts) -> bool:
    return facts.firm


def _anything(facts: TagFacts) -> bool:
    return bool(facts.candidates)


def _nothing_to_ask(facts: TagFacts) -> bool:
    open_words = any(might_be_name(word.text) for word in facts.reading.unheard)
    return not any(hits.is_name for hits in facts.every) and not open_words


def _complete(facts: TagFacts) -> bool:
    return facts.complete and any(hits.is_name for hits in facts.every)


def _unlisted(facts: TagFacts) -> tuple[str, ...]:
    return (", ".join(facts.unlisted),)


def _other_animals(facts: TagFacts) -> tuple[str, ...]:
    return (", ".join(facts.other_animals),)


def _unheard(facts: TagFacts) -> tuple[str, ...]:
    return (" ".join(facts.unheard),)


TABLE: tuple[AnswerRule, ...] = (
    AnswerRule(
        "L01", "the tag leaves the species open (sp., aff., a trade form) and something firm is known",
        AnswerKind.GENUS, lambda facts: _open(facts) and facts.firm,
    ),
    AnswerRule("L02", "the tag leaves the species open and brings only similar names", AnswerKind.GUESS,
               lambda facts: _open(facts) and _anything(facts)),
    AnswerRule("L03", "a name is left, but the tag denies it or says that it only looks like it",
               AnswerKind.GUESS, _denied, NoteCode.DENIED),
    AnswerRule("L04", "species are left, by a scientific name beside a word for other animals", AnswerKind.GUESS,
               _beside_other_animals, NoteCode.OTHER_ANIMAL, _other_animals),
    AnswerRule("L05", "all firm clues together leave several species", AnswerKind.SEVERAL, _several_left),
    AnswerRule("L06", "a common name stands for a species and for a whole group", AnswerKind.SEVERAL, _group_too),
    AnswerRule("L07", "one species is left, but the name itself is open (misused, divided, doubtful, a cross)",
               AnswerKind.SEVERAL, _one_unclear),
    AnswerRule("L08", "one species is left, but the genus on the tag is another", AnswerKind.SEVERAL,
               _one_beside_a_genus),
    AnswerRule("L09", "one species is left, by the common name of a service alone", AnswerKind.SEVERAL,
               _one_by_service),
    AnswerRule("L10", "one species is left, beside a name or an alternative that no list has", AnswerKind.GUESS,
               _one_beside_unlisted, NoteCode.UNLISTED_BESIDE, _unlisted),
    AnswerRule("L11", "one species is left, by a common name beside a word that was not heard", AnswerKind.GUESS,
               _one_beside_unheard, NoteCode.WORD_NOT_HEARD, _unheard),
    AnswerRule("L12", "one species is left, by a common name from memory that no second source gives",
               AnswerKind.GUESS, _one_recalled, NoteCode.RECALLED),
    AnswerRule("L13", "one species is left", AnswerKind.ONE, _one),
    AnswerRule("L14", "species of similar names, or of a longer common name", AnswerKind.GUESS, _similar),
    AnswerRule("L15", "a common name stands for several groups", AnswerKind.SEVERAL, _several_groups),
    AnswerRule("L16", "a genus or a group is known", AnswerKind.GENUS, _firm),
    AnswerRule("L17", "only a similar genus is known", AnswerKind.GUESS, _anything),
    AnswerRule("L18", "no word is left that might be a name", AnswerKind.NONE, _nothing_to_ask),
    AnswerRule("L19", "a name, and a list that is complete for its group does not have it", AnswerKind.NONE,
               _complete),
    AnswerRule("L20", "a name, or words that might be one, and no list fit to say no", AnswerKind.UNASKED,
               lambda facts: True),
)  # fmt: skip
