"""What each source says of a name: the statements by which it speaks, and what they come to."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from enum import StrEnum, unique

from namekeeper.evidence.statements import Answer, Edition, Match, NameStatus, Statement, TaxonName
from namekeeper.evidence.verdicts import Position
from namekeeper.judging.change import name_key, same_author
from namekeeper.words.spelling import EndingKey

_ANIMALS = frozenset({"", "animalia", "metazoa"})


@unique
class View(StrEnum):
    """What a source holds of a name, as far as sources can agree or differ in it.

    The values are part of the digests that keepers' files hold (:func:`namekeeper.judging.verdict.digest`).
    """

    TARGET = "one name in force"
    SEVERAL = "several names in force"
    DOUBTFUL = "no name in force"
    UNAVAILABLE = "no available name"
    MISAPPLIED = "used for another species"
    CONTRADICTION = "contradicts itself"
    BROKEN = "no usable answer"


@dataclass(frozen=True, slots=True)
class Vote:
    """What one source says of the name asked; ``statements`` are those that count, the others do not speak."""

    edition: Edition
    view: View
    targets: tuple[TaxonName, ...]
    statements: tuple[Statement, ...]
    keys: frozenset[EndingKey]  # of the targets

    @property
    def first(self) -> Statement:
        return self.statements[0]

    @property
    def position(self) -> Position:
        return Position(self.edition, self.statements)

    def agrees(self, other: Vote) -> bool:
        """Whether both lead to the same name or names; authorship and endings do not count."""
        both = {self.view, other.view}
        return self.keys == other.keys and (len(both) == 1 or both == {View.TARGET, View.SEVERAL})


def votes_on(answers: Sequence[Answer], name: str, authorship: str) -> list[Vote]:
    """One vote for every answer on ``name`` that says something of it."""
    return [_vote(answer, told) for answer, told in _speaking(answers, name, authorship)]


def _speaking(answers: Sequence[Answer], name: str, authorship: str) -> Iterator[tuple[Answer, tuple[Statement, ...]]]:
    """Every answer on ``name`` with those of its statements that may decide; silent ones are left out.

    A source speaks by its best match only. A match by letters (row 3 of contract section 1) holds only while exactly
    one name of all sources folds so. Of homonyms those with another author than the label's drop out, if one with
    the label's author is listed anywhere: two nominal taxa need both (contract section 1, last row).
    """
    own = [(answer, heard(answer)) for answer in answers if answer.asked == name]
    told = [said for _, statements in own for said in statements]
    several = len(told) > 1  # one statement has no rival
    guarded = several and len({name_key(said.subject.name) for said in told}) > 1
    named = several and any(same_author(said.subject.authorship, authorship) for said in told)
    for answer, statements in own:
        kept = [
            said
            for said in statements
            if not (guarded and said.match is Match.LETTERS)
            and not (named and same_author(said.subject.authorship, authorship) is False)
        ]
        if kept:
            yield answer, tuple(sorted(kept, key=_order))


def heard(answer: Answer) -> list[Statement]:
    """The statements by which a source speaks: those of its best match, on an animal."""
    told = [said for said in answer.statements if said.match.speaks and _animal(said)]
    best = next((match for match in Match if any(said.match is match for said in told)), None)
    return [said for said in told if said.match is best]


def _animal(said: Statement) -> bool:
    """A name of another kingdom is no name of an animal, however it is spelt (Art. 1.4, 52.7)."""
    return (said.subject.kingdom or "").casefold() in _ANIMALS


def _order(said: Statement) -> tuple[str, str, str, str]:
    return (said.subject.name, said.subject.authorship, said.status, said.subject.identifier or "")


def _vote(answer: Answer, told: tuple[Statement, ...]) -> Vote:
    sound = tuple(said for said in told if said.targets or said.fault is None)
    targets = _distinct([target for said in sound for target in said.targets])
    keys = frozenset(name_key(target.name) for target in targets)
    return Vote(answer.edition, _view(sound, targets), targets, sound or told, keys)


def _distinct(targets: Sequence[TaxonName]) -> tuple[TaxonName, ...]:
    kept: list[TaxonName] = []
    for target in targets:
        if not any(_one_taxon(target, other) for other in kept):
            kept.append(target)
    return tuple(kept)


def _one_taxon(one: TaxonName, other: TaxonName) -> bool:
    return name_key(one.name) == name_key(other.name) and same_author(one.authorship, other.authorship) is not False


def _view(sound: tuple[Statement, ...], targets: tuple[TaxonName, ...]) -> View:
    statuses = {said.status for said in sound}
    if not sound:
        return View.BROKEN
    if NameStatus.MISAPPLIED in statuses:
        return View.MISAPPLIED
    # Pro parte: the source knows of several names in force, even where it gives only one of them.
    own = all(len(said.targets) > 1 or said.status is NameStatus.AMBIGUOUS for said in sound)
    if targets and own:
        return View.SEVERAL
    if len(targets) > 1:
        return View.CONTRADICTION
    if statuses <= {NameStatus.UNAVAILABLE}:
        return View.UNAVAILABLE
    if not targets:
        return View.DOUBTFUL  # a sound chain that ends in no name in force
    return View.CONTRADICTION if any(not said.targets for said in sound) else View.TARGET
