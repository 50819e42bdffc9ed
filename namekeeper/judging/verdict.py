"""From what sources say to what it means for one label: a pure function that keeps its reasons as data."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from datetime import date

from namekeeper.evidence.statements import NameStatus, Reply
from namekeeper.evidence.verdicts import Reason, Said, Verdict
from namekeeper.judging import hybrids, says
from namekeeper.judging.change import genus_of, name_key
from namekeeper.judging.choices import merged, of_misuse
from namekeeper.judging.conclusions import Outcome, strict_sense
from namekeeper.judging.digest import digest
from namekeeper.judging.facts import LabelFacts, gather
from namekeeper.judging.open_names import described_forms, is_open
from namekeeper.judging.rules import decide
from namekeeper.judging.safety import obstacles
from namekeeper.judging.trust import Trust
from namekeeper.judging.values import Question
from namekeeper.judging.windows import Usage
from namekeeper.words.citations import short_citation
from namekeeper.words.terms import Standing


def judge(question: Question, replies: Sequence[Reply], trust: Trust, today: date) -> Verdict:
    """What stands on the label, seen from ``today``.

    ``replies`` holds the answers and failures of all sources on the names of
    :func:`namekeeper.judging.asking.what_to_ask`; their order does not matter. A label that claims to be written after
    ``today`` is judged as one without a date.
    """
    if question.label_date is not None and question.label_date.earliest > today:
        question = replace(question, label_date=None)
    if len(question.parents) > 1:
        parents = [judge(parent, replies, trust, today) for parent in hybrids.parents(question)]
        return hybrids.combined(question, parents)
    facts = gather(question, replies, trust)
    rule, outcome = decide(facts)
    outcome = _with_notes(facts, outcome)
    blocked = obstacles(facts, outcome) if outcome.proposed else ()
    narrowed = merged(outcome.choices, question.locality, question.form)
    return Verdict(
        outcome.standing,
        rule.id,
        outcome.proposed,
        outcome.proposed is not None and not blocked,
        narrowed,
        _statements(facts),
        tuple(dict.fromkeys((*outcome.reasons, *blocked))),
        tuple(dict.fromkeys(failure.edition.source for failure in facts.failed)),
        digest(facts, outcome),
    )


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
    return replace(outcome, choices=choices, reasons=(*outcome.reasons, *_notes(facts, outcome)))


def _notes(facts: LabelFacts, outcome: Outcome) -> Iterator[Reason]:
    question = facts.question
    for misuse, state in facts.misuses:
        if state is Usage.WARNED:
            meant = says.listed([taxon.name for taxon in misuse.meant])
            yield Reason(
                "misuse-warning",
                f"{misuse.name} is still sold for {meant} (cleared up {misuse.cleared}): "
                "please settle once which it is",
            )
    if question.qualifier and not is_open(question):
        yield Reason(
            "uncertain", f'"{question.qualifier}": the name follows the species, the identification is uncertain'
        )
    if question.form:
        yield Reason("form", f"the line keeps its name: {question.form}")
    for vote in facts.ballot.lagging:
        yield Reason("lagging", f"lagging, not dated after the act: {says.position(vote)}")
    for vote in facts.ballot.doubting:
        yield Reason("doubted", says.position(vote))
    if facts.ballot.leader is not None:
        for failure in facts.failed:
            yield Reason("failed", f"{says.source_of(failure.edition)} {says.unheard(failure).says}")
    target = outcome.proposed.name if outcome.proposed else question.name
    for caution in question.cautions:
        if caution.listed_as and caution.listed_as != target:
            cited = short_citation(caution.citation)
            words = f"papers may carry {caution.listed_as}: {caution.statement} ({cited}); local rules decide"
            yield Reason("listed-as", words)


def _statements(facts: LabelFacts) -> tuple[Said, ...]:
    lagging = {said for vote in facts.ballot.lagging for said in vote.statements}
    lines: list[Said] = []
    own = {facts.question.name, genus_of(facts.question.name)}
    for answer in facts.answers:
        if answer.asked not in own and all(said.status is NameStatus.ACCEPTED for said in answer.statements):
            continue  # asked to follow up, and it only agrees
        lines += [says.said(said, answer, said in lagging) for said in answer.statements]
        if not answer.statements:
            lines.append(says.silent(answer))
    return tuple(dict.fromkeys((*lines, *(says.unheard(failure) for failure in facts.failures))))
