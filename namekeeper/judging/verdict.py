"""From what sources say to what it means for one label: a pure function that keeps its reasons as data.

``decide`` (rules.py) finds the row of the decision table; here stand what is said beside every row, what may be taken
unseen (contract section 4), the digest, and hybrids.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from datetime import date
from hashlib import blake2b

from namekeeper.evidence.statements import Match, NameStatus, Reply, Statement, TaxonName
from namekeeper.evidence.verdicts import Ground, GroundCode, Reason, ReasonCode, Said, Silence, Verdict
from namekeeper.judging.ballot import Trust
from namekeeper.judging.change import genus_of, kind_of_change, name_key
from namekeeper.judging.choices import choice, described_forms, merged, of_misuse
from namekeeper.judging.conclusions import Outcome, strict_sense
from namekeeper.judging.facts import LabelFacts, gather
from namekeeper.judging.question import Question, is_open
from namekeeper.judging.rules import decide
from namekeeper.judging.votes import View
from namekeeper.judging.windows import Usage
from namekeeper.words.terms import Standing, Verification

SIGN = " × "  # between the parents of a hybrid

_TYPE_KEPT = (Standing.MOVED, Standing.RESPELLED)
_FIRM = (Match.SAME, Match.ENDING)
# What asks most of the keeper first; the first of these that a parent has is the standing of the hybrid.
_GRAVEST = (
    Standing.UNASKED,
    Standing.DISPUTED,
    Standing.MISAPPLIED,
    Standing.DIVIDED,
    Standing.UNKNOWN,
    Standing.DOUBTFUL,
    Standing.OPEN,
    Standing.MERGED,
    Standing.RENAMED,
    Standing.MOVED,
    Standing.RESPELLED,
    Standing.CURRENT,
)


def judge(question: Question, replies: Sequence[Reply], trust: Trust, today: date) -> Verdict:
    """What stands on the label, seen from ``today``.

    ``replies`` holds the answers and failures of all sources on the names of
    :func:`namekeeper.judging.question.what_to_ask`; their order does not matter. A label that claims to be written
    after ``today`` is judged as one without a date.
    """
    if question.label_date is not None and question.label_date.earliest > today:
        question = replace(question, label_date=None)
    if question.parents:
        return _of_hybrid(question, [judge(parent, replies, trust, today) for parent in _parents(question)])
    facts = gather(question, replies, trust)
    rule, outcome = decide(facts)
    outcome = _with_notes(facts, outcome)
    blocked = tuple(_obstacles(facts, outcome)) if outcome.proposed else ()
    return Verdict(
        outcome.standing,
        rule.id,
        outcome.proposed,
        outcome.proposed is not None and not blocked,
        merged(outcome.choices, question.locality, question.form),
        tuple(dict.fromkeys(_statements(facts))),
        tuple(dict.fromkeys((*outcome.reasons, *blocked))),
        tuple(dict.fromkeys(failure.edition.source for failure in facts.failed)),
        digest(facts, outcome),
    )


def digest(facts: LabelFacts, outcome: Outcome) -> str:
    """Over the name, the outcome and the positions of sources; not over days, editions, order, how many agree.

    Keepers' files hold it with each name that was kept: another value for the same verdict would open them all again.
    """
    positions = {f"{vote.view}:{','.join(sorted(vote.keys))}" for vote in facts.ballot.counting}
    return _hashed(
        name_key(facts.question.name),
        outcome.standing,
        outcome.proposed.name if outcome.proposed else "",
        *sorted({name_key(one.name) for one in outcome.choices}),
        *sorted(positions),
    )


def _hashed(*parts: str) -> str:
    return blake2b("\n".join(parts).encode(), digest_size=8).hexdigest()


# What stands beside every row of the table


def _with_notes(facts: LabelFacts, outcome: Outcome) -> Outcome:
    """Warnings that stand beside every rule: misuse cleared up but going on, uncertainty, lagging and lost sources."""
    warned = [misuse for misuse, state in facts.misuses if state is Usage.WARNED]
    choices = outcome.choices
    if warned and outcome.standing is not Standing.MISAPPLIED and not is_open(facts.question):
        choices = (*choices, *(one for misuse in warned for one in of_misuse(misuse)), *strict_sense(facts))
    if not is_open(facts.question):
        own = {name_key(facts.question.name), *(name_key(one.name) for one in strict_sense(facts))}
        described = (one for _, one in described_forms(facts.question))
        choices = (*choices, *(one for one in described if name_key(one.name) not in own))
    common = facts.question.common
    choices = (*choices, *(choice(c.taxon, Ground(GroundCode.COMMON_NAME, (c.text,), c.edition)) for c in common))
    reasons = (*outcome.reasons, *_notes(facts, outcome))
    if common:
        reasons = (Reason(ReasonCode.COMMON_NAME, (facts.question.name,)), *reasons)
    return Outcome(outcome.standing, reasons, outcome.proposed, choices)


def _notes(facts: LabelFacts, outcome: Outcome) -> Iterator[Reason]:
    question = facts.question
    for misuse, state in facts.misuses:
        if state is Usage.WARNED:
            yield Reason(ReasonCode.MISUSE_GOES_ON, about=misuse)
    if question.qualifier and not is_open(question):
        yield Reason(ReasonCode.UNCERTAIN, (question.qualifier,))
    if question.form:
        yield Reason(ReasonCode.LINE_KEEPS_NAME, (question.form,))
    for vote in facts.ballot.lagging:
        yield Reason(ReasonCode.LAGGING, about=vote.position)
    for vote in facts.ballot.doubting:
        yield Reason(ReasonCode.DOUBTED, about=vote.position)
    for edition in facts.ballot.silent:
        yield Reason(ReasonCode.OTHERS_SILENT, (question.name,), edition)
    if facts.ballot.leader is not None:
        for failure in facts.failed:
            yield Reason(ReasonCode.FAILED, about=failure)
    target = outcome.proposed.name if outcome.proposed else question.name
    for caution in question.cautions:
        if caution.listed_as and caution.listed_as != target:
            yield Reason(ReasonCode.LISTED_AS, about=caution)


def _statements(facts: LabelFacts) -> Iterator[Said]:
    lagging = {said for vote in facts.ballot.lagging for said in vote.statements}
    own = {facts.question.name, genus_of(facts.question.name)}
    for answer in facts.answers:
        if answer.asked not in own and all(said.status is NameStatus.ACCEPTED for said in answer.statements):
            continue  # asked to follow up, and it only agrees
        for said in answer.statements:
            yield Said(said, said.retrieved or answer.retrieved, said.stale or answer.stale, said in lagging)
        if not answer.statements:
            yield Said(Silence(answer.edition, answer.asked), answer.retrieved, answer.stale)
    yield from (Said(failure) for failure in facts.failures)


# What may be taken unseen


def _obstacles(facts: LabelFacts, outcome: Outcome) -> Iterator[Reason]:
    """Why a proposal is not safe, every condition of contract section 4 that is not met; nothing if it is safe."""
    question = facts.question
    if outcome.standing not in _TYPE_KEPT:
        yield Reason(ReasonCode.UNSAFE_TYPE)
    if facts.misuses or outcome.choices:
        yield Reason(ReasonCode.UNSAFE_MEANING)
    for noted in facts.other_dates:
        # An old combination on a young label follows the old limits of the species, whatever was published since.
        yield Reason(ReasonCode.UNSAFE_OTHER_DATE, about=noted)
    for vote in facts.ballot.doubting:
        yield Reason(ReasonCode.UNSAFE_DOUBTED, about=vote.edition)
    for edition in facts.ballot.silent:
        yield Reason(ReasonCode.UNSAFE_DOUBTED, about=edition)
    yield from _against_target(facts, outcome)
    if question.qualifier:
        yield Reason(ReasonCode.UNSAFE_UNCERTAIN, (question.qualifier,))
    if question.trade_form:
        yield Reason(ReasonCode.UNSAFE_TRADE_FORM)
    if outcome.standing in _TYPE_KEPT:
        yield from _gaps(facts)


def _gaps(facts: LabelFacts) -> Iterator[Reason]:
    """What the statements that agree on the new name lack."""
    agreeing = tuple(_agreeing(facts))
    if not any(_founded(said, facts) for said in agreeing):
        outdated = [Reason(ReasonCode.UNSAFE_OUTDATED, (said.as_of, said.revised)) for said in agreeing if said.revised]
        yield from outdated or [Reason(ReasonCode.UNSAFE_UNFOUNDED)]
    names = [(said.subject, *said.targets) for said in agreeing]
    given = {name_key(name.name) for group in names for name in group if name.authorship}
    bare = dict.fromkeys(name.name for group in names for name in group if name_key(name.name) not in given)
    for name in bare:
        yield Reason(ReasonCode.UNSAFE_NO_AUTHORSHIP, (name,))


def _against_target(facts: LabelFacts, outcome: Outcome) -> Iterator[Reason]:
    """Sources that count on the new name itself and doubt it, or send it to yet another name."""
    target = outcome.proposed
    if target is None or outcome.standing not in _TYPE_KEPT:
        return
    for vote in facts.against(target):
        if vote.view in (View.DOUBTFUL, View.UNAVAILABLE):
            yield Reason(ReasonCode.UNSAFE_TARGET_DOUBTED, (target.name,), vote.edition)
        elif vote.view is View.TARGET:
            yield Reason(ReasonCode.UNSAFE_TARGET_DENIED, (target.name,), vote.position)


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
        and not said.revised
        and kind in (*_TYPE_KEPT, Standing.CURRENT)
    )


# Hybrids: each parent is judged, neither is ever changed unseen


def _parents(question: Question) -> Iterator[Question]:
    """One question a parent, with the date of the label."""
    return (replace(question, name=name, authorship="", parents=(), trade_forms=()) for name in question.parents)


def _of_hybrid(question: Question, verdicts: Sequence[Verdict]) -> Verdict:
    """The verdict on the hybrid: the gravest standing, a proposal only where no parent needs a choice, never safe."""
    changed = any(verdict.proposed for verdict in verdicts)
    settled = all(verdict.proposed or verdict.standing is Standing.CURRENT for verdict in verdicts)
    clear = changed and settled and not any(verdict.choices for verdict in verdicts)
    told = list(zip(question.parents, verdicts, strict=True))
    now = SIGN.join(verdict.proposed.name if verdict.proposed else name for name, verdict in told)
    reasons = (
        Reason(ReasonCode.PARENT, (name, verdict.standing.value), reason)
        for name, verdict in told
        for reason in verdict.reasons
    )
    return Verdict(
        min((verdict.standing for verdict in verdicts), key=_GRAVEST.index),
        "H",
        TaxonName(now, rank="hybrid") if clear else None,
        False,
        tuple(dict.fromkeys(choice for verdict in verdicts for choice in verdict.choices)),
        tuple(dict.fromkeys(line for verdict in verdicts for line in verdict.statements)),
        (Reason(ReasonCode.HYBRID), *reasons),
        tuple(dict.fromkeys(source for verdict in verdicts for source in verdict.failed)),
        _hashed(*(verdict.digest for verdict in verdicts)),
    )
