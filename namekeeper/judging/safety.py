"""What may be taken unseen (contract section 4): every condition that is not met is said."""

from __future__ import annotations

from collections.abc import Iterator

from namekeeper.evidence.statements import Match, NameStatus, Statement
from namekeeper.evidence.verdicts import Reason
from namekeeper.judging import says
from namekeeper.judging.change import kind_of_change
from namekeeper.judging.conclusions import Outcome
from namekeeper.judging.facts import LabelFacts
from namekeeper.words.terms import Standing, Verification

_TYPE_KEPT = (Standing.MOVED, Standing.RESPELLED)
_FIRM = (Match.SAME, Match.ENDING)


def obstacles(facts: LabelFacts, outcome: Outcome) -> tuple[Reason, ...]:
    """Why a proposal is not safe; empty if it is. Only for an outcome that proposes a name."""
    return tuple(Reason("not-safe", f"not to be taken unseen: {words}") for words in _obstacles(facts, outcome))


def _obstacles(facts: LabelFacts, outcome: Outcome) -> Iterator[str]:
    question = facts.question
    if outcome.standing not in _TYPE_KEPT:
        yield "only a moved or respelled name keeps its type"
    if facts.misuses or outcome.choices:
        yield "the name may mean another species"
    for note in facts.notes:
        # An old combination on a young label follows the old limits of the species, whatever was published since.
        yield f"recorded for this name, though not for the date of this label: {note}"
    for vote in facts.ballot.doubting:
        yield f"doubted by {says.source_of(vote.edition)}"
    if question.qualifier:
        yield f"the identification is uncertain ({question.qualifier})"
    if question.trade_form:
        yield "the label names a trade form"
    if question.parents:
        yield "a hybrid"
    if outcome.standing in _TYPE_KEPT and not any(_founded(said, facts) for said in _agreeing(facts)):
        yield "no verified, fresh statement gives this name for the spelling on the label"


def _agreeing(facts: LabelFacts) -> Iterator[Statement]:
    leader = facts.ballot.leader
    for vote in (*facts.ballot.counting, *facts.ballot.copies) if leader else ():
        if leader is not None and vote.agrees(leader):
            yield from vote.statements


def _founded(said: Statement, facts: LabelFacts) -> bool:
    """Whether one statement alone carries the proposal."""
    if said.status is NameStatus.AMBIGUOUS:
        return False
    verified = all(act.verification is Verification.VERIFIED for act in said.acts)
    kind = kind_of_change(said.subject, said.targets[0], said.status, said.acts) if len(said.targets) == 1 else None
    stale = said.stale or any(answer.stale for answer in facts.answers if said in answer.statements)
    return (
        said.match in _FIRM
        and said.verification is Verification.VERIFIED
        and verified
        and not stale
        and kind in (*_TYPE_KEPT, Standing.CURRENT)
    )
