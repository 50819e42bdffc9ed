"""What is known of one label before any rule decides: replies sorted, votes held, windows compared with its date."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from itertools import pairwise
from typing import TypeVar

from namekeeper.evidence.statements import (
    Answer,
    Dispute,
    Division,
    Failure,
    FailureKind,
    Misuse,
    NameStatus,
    Reply,
    Statement,
    TaxonName,
)
from namekeeper.judging.ballot import Ballot, Trust, covers, hold_ballot
from namekeeper.judging.change import (
    genus_of,
    kind_of_change,
    last_epithet,
    name_key,
    same_author,
    same_name,
    same_stem,
)
from namekeeper.judging.question import Question, genus_in_force, is_open
from namekeeper.judging.votes import View, Vote
from namekeeper.judging.windows import Usage, begins_later, divides, usage
from namekeeper.words.spelling import EndingKey
from namekeeper.words.terms import Standing

_T = TypeVar("_T", Misuse, Division, Dispute)


@dataclass(frozen=True, slots=True)
class NameChange:
    """What happened to the name on the label, and the statement that is the best ground for it."""

    kind: Standing
    grounds: Statement


@dataclass(frozen=True, slots=True)
class LabelFacts:
    """Everything the decision table looks at."""

    question: Question
    answers: tuple[Answer, ...]
    failures: tuple[Failure, ...]
    group: frozenset[str]  # higher taxa of the name, as far as anyone knows them
    ballot: Ballot
    misuses: tuple[tuple[Misuse, Usage], ...]  # those that bear on a label of this date
    divisions: tuple[Division, ...]  # likewise
    other_dates: tuple[Misuse | Division, ...]  # recorded too, though not for a label of this date
    disputes: tuple[Dispute, ...]
    change: NameChange | None = None  # where the counting votes agree on one name in force
    trust: Trust = field(default_factory=Trust)

    @property
    def usage(self) -> Usage:
        return max((state for _, state in self.misuses), default=Usage.NONE)

    @property
    def in_open(self) -> bool:
        """Whether the label names no species on purpose; a single word that nobody knows as a genus names nothing."""
        question = self.question
        said = any(statement.match.speaks for answer in self.answers for statement in answer.statements)
        known = bool(question.qualifier or question.trade_form or question.genus_records or said)
        return is_open(question) and known

    @property
    def new_genus(self) -> str:
        """Where the whole genus of the name went, "" if it stands or moved only in part."""
        return genus_in_force(genus_of(self.question.name), self.question.genus_records) or ""

    @property
    def taken_by(self) -> tuple[TaxonName, ...]:
        """Listed names that stand where the whole genus would take this one, unless by the author of this very name.

        Another author's are senior or junior secondary homonyms of it (Article 53.3), another species; where the
        label gives no author, nobody can tell.
        """
        own = self.question.authorship
        return tuple(name for name in self.question.namesakes if same_author(own, name.authorship) is not True)

    @property
    def complete_answers(self) -> tuple[Answer, ...]:
        """Answers on the name by sources that claim to list every name of its group."""
        return tuple(
            a for a in self.answers if a.asked == self.question.name and covers(a.edition.complete_for, self.group)
        )

    @property
    def failed(self) -> tuple[Failure, ...]:
        """Sources that were meant to be asked and could not be; the keeper's own choice is no failure."""
        return tuple(failure for failure in self.failures if failure.kind is not FailureKind.OFFLINE)

    def against(self, target: TaxonName) -> tuple[Vote, ...]:
        """Votes on a new name itself that do not lead to it: a source may have it and not the name on the label."""
        told = (said.status for a in self.answers if a.asked == target.name for said in a.statements)
        if all(status is NameStatus.ACCEPTED for status in told):
            return ()
        ballot = hold_ballot(self.answers, target.name, target.authorship, self.trust, self.group)
        return tuple(vote for vote in ballot.counting if name_key(target.name) not in vote.keys)

    @property
    def hints(self) -> tuple[Statement, ...]:
        return tuple(hint for answer in self.answers if answer.asked == self.question.name for hint in answer.hints)


def gather(question: Question, replies: Sequence[Reply], trust: Trust) -> LabelFacts:
    """Sort the replies, in an order that does not depend on that of their arrival."""
    answers = _sorted(r for r in replies if isinstance(r, Answer))
    failures = tuple(sorted((r for r in replies if isinstance(r, Failure)), key=_failure_key))
    group = group_of(question, answers)
    label = question.label_date
    same = _combinations(question, answers)
    noted = [(found, usage(found, label, question.decided_once)) for found in _once(same, (a.misuses for a in answers))]
    divisions = _once(same, (a.divisions for a in answers))
    ballot = hold_ballot(answers, question.name, question.authorship, trust, group)
    return LabelFacts(
        question,
        answers,
        failures,
        group,
        ballot,
        tuple(pair for pair in noted if pair[1] is not Usage.NONE and _of_others(pair[0], same)),
        tuple(found for found in divisions if divides(found, label)),
        (
            *(found for found, _ in noted if _of_others(found, same) and begins_later(found, label)),
            *(found for found in divisions if not divides(found, label)),
        ),
        _once(same, (a.disputes for a in answers)),
        _change(ballot, question.name),
        trust,
    )


def change_of(facts: LabelFacts) -> NameChange:
    """The change, for rules that come after those for disagreement.

    :raises LookupError: if the votes agree on no name in force.
    """
    if facts.change is None:
        message = f"no name in force for {facts.question.name}"
        raise LookupError(message)
    return facts.change


def _change(ballot: Ballot, label: str) -> NameChange | None:
    leader = ballot.leader
    if leader is None or leader.view is not View.TARGET or not ballot.agreed:
        return None
    said = _best_founded([said for vote in ballot.counting for said in vote.statements if said.targets])
    target = said.targets[0]
    stands = said.status is NameStatus.ACCEPTED and same_name(said.subject.name, target.name)
    kind = Standing.CURRENT if stands else kind_of_change(said.subject, target, said.status, said.acts)
    if kind is Standing.CURRENT and label != leader.targets[0].name:
        kind = Standing.RESPELLED
    return NameChange(kind, said)


def _best_founded(told: Sequence[Statement]) -> Statement:
    """A statement with acts, then one with both authors, then the one of the most trusted source."""
    if len(told) == 1:
        return told[0]

    def founded(said: Statement) -> tuple[bool, bool]:
        known = same_author(said.subject.authorship, said.targets[0].authorship) is not None
        return (not said.acts, not known)

    return min(told, key=founded)


def group_of(question: Question, answers: Sequence[Answer]) -> frozenset[str]:
    """Genus, family and above of the name, from the genus records and from whatever a source says of its genus."""
    genus = genus_of(question.name)
    known = {genus}
    for record in question.genus_records:
        if same_name(record.genus, genus):
            known |= {record.family, *record.higher} if record.family else set(record.higher)
    for answer in answers:
        for said in (*answer.statements, *answer.hints):
            if same_name(genus_of(said.subject.name), genus):
                known |= set(said.subject.higher)
    return frozenset(known)


def _combinations(question: Question, answers: Sequence[Answer]) -> frozenset[EndingKey]:
    """Keys of the name and of all its combinations in other genera that a source connects with it.

    What the trade did with a species under one combination holds for the others: animals sold as *Euathlus smithi*
    were no other than those sold as *Brachypelma smithi*. It says nothing about labels with another epithet.
    """
    epithet = last_epithet(question.name)
    names = {question.name}
    for answer in answers:
        for said in answer.statements if answer.asked == question.name else ():
            if said.match.speaks:
                names |= {said.subject.name, *(target.name for target in said.targets)}
                names |= {name for act in said.acts for name in (act.old, act.new)}
    return frozenset(name_key(name) for name in names if same_stem(last_epithet(name), epithet))


def _of_others(misuse: Misuse, same: frozenset[EndingKey]) -> bool:
    """Whether the trade meant another species; what it meant may have been sunk in this very one since."""
    return not misuse.meant or any(name_key(taxon.name) not in same for taxon in misuse.meant)


def _once(names: frozenset[EndingKey], groups: Iterable[tuple[_T, ...]]) -> tuple[_T, ...]:
    """Notes on any of these names, each once, in a fixed order."""
    found = dict.fromkeys(item for group in groups for item in group if name_key(item.name) in names)
    return tuple(sorted(found, key=repr))


def _sorted(answers: Iterable[Answer]) -> tuple[Answer, ...]:
    """In a fixed order; what answers say is compared only where they are on one name from one edition."""
    placed = sorted(answers, key=_answer_key)
    if any(_answer_key(one) == _answer_key(other) for one, other in pairwise(placed)):
        placed.sort(key=lambda answer: (*_answer_key(answer), repr(answer.statements)))
    return tuple(placed)


def _answer_key(answer: Answer) -> tuple[str, str, str]:
    return (answer.edition.source, answer.edition.edition or "", answer.asked)


def _failure_key(failure: Failure) -> tuple[str, str, str]:
    return (failure.edition.source, failure.asked, failure.why)
