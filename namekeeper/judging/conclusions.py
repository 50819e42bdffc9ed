"""What each rule of the decision table concludes: standing, target or choices, and the reasons as data."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass

from namekeeper.evidence.statements import ActKind, Edition, Match, Statement, TaxonName
from namekeeper.evidence.verdicts import Choice, Claims, Ground, GroundCode, Reason, ReasonCode
from namekeeper.judging.change import bracketed, genus_of, name_key
from namekeeper.judging.choices import choice, described_forms, genus_choices, of_division, of_misuse
from namekeeper.judging.facts import LabelFacts, change_of
from namekeeper.judging.nearness import close_names
from namekeeper.judging.question import computed_name, moved_name
from namekeeper.judging.votes import View
from namekeeper.judging.windows import Usage
from namekeeper.words.parsing import parse_authorship
from namekeeper.words.spelling import Likeness, match_of
from namekeeper.words.terms import Standing


@dataclass(frozen=True, slots=True)
class Outcome:
    """What a rule concludes, before safety and side notes."""

    standing: Standing
    reasons: tuple[Reason, ...]
    proposed: TaxonName | None = None
    choices: tuple[Choice, ...] = ()


def open_moved(facts: LabelFacts) -> Outcome:
    """The name follows its genus, unless the form on the label was described in yet another one."""
    question = facts.question
    genus = facts.new_genus
    moved = Reason(ReasonCode.GENUS_MOVED, (genus_of(question.name), genus))
    reasons = (moved, *_form_reasons(facts))
    followed = moved_name(question, genus, facts.answers)
    offered = tuple(one for _, one in described_forms(question))
    if any(genus_of(one.name) != genus for one in offered):
        own = choice(followed, Ground(GroundCode.FOLLOWS_GENUS))
        return Outcome(Standing.OPEN, reasons, choices=(*offered, own))
    return Outcome(Standing.OPEN, reasons, followed, offered)


def in_open(facts: LabelFacts) -> Outcome:
    question = facts.question
    offered = (*(c for _, c in described_forms(question)), *genus_choices(question, facts.answers))
    if question.qualifier:
        reasons = [Reason(ReasonCode.OPEN, (question.qualifier,))]
    else:
        reasons = [Reason(ReasonCode.OPEN_FORM if question.trade_form else ReasonCode.OPEN_GENUS)]
    if any(" " not in one.name for one in offered):
        reasons.append(Reason(ReasonCode.GENUS_DIVIDED, (genus_of(question.name),)))
    return Outcome(Standing.OPEN, (*reasons, *_form_reasons(facts)), choices=offered)


def _form_reasons(facts: LabelFacts) -> Iterator[Reason]:
    return (Reason(ReasonCode.FORM_DESCRIBED, about=form) for form, _ in described_forms(facts.question))


def misapplied(facts: LabelFacts) -> Outcome:
    found = [misuse for misuse, state in facts.misuses if state is Usage.MISAPPLIED]
    code, date = _dated(facts, ReasonCode.MISUSE, ReasonCode.MISUSE_UNDATED)
    reasons = [Reason(code, date, misuse) for misuse in found]
    offered = [one for misuse in found for one in of_misuse(misuse)]
    for vote in facts.ballot.counting:
        if vote.view is View.MISAPPLIED:
            reasons.append(Reason(ReasonCode.MISUSE_BY_SOURCE, about=vote.position))
            offered += _by(GroundCode.MEANT_BY, vote.edition, vote.targets)
    divided_too = [one for division in facts.divisions for one in of_division(division)]
    return Outcome(Standing.MISAPPLIED, tuple(reasons), choices=(*offered, *strict_sense(facts), *divided_too))


def _dated(facts: LabelFacts, code: ReasonCode, undated: ReasonCode) -> tuple[ReasonCode, tuple[str, ...]]:
    """The code by whether the label bears a date, and the date as it stands there."""
    label = facts.question.label_date
    return (code, (str(label),)) if label else (undated, ())


def _by(code: GroundCode, edition: Edition, targets: Iterable[TaxonName]) -> Iterator[Choice]:
    return (choice(target, Ground(code, about=edition)) for target in targets)


def strict_sense(facts: LabelFacts) -> tuple[Choice, ...]:
    """The name in its proper sense: what it leads to by the counting votes, as one choice among others."""
    return tuple(
        choice(target, Ground(GroundCode.PROPER_SENSE, (facts.question.name,), vote.edition))
        for vote in facts.ballot.counting
        if vote.view in (View.TARGET, View.SEVERAL, View.CONTRADICTION)
        for target in vote.targets
    )


def divided(facts: LabelFacts) -> Outcome:
    code, date = _dated(facts, ReasonCode.DIVISION, ReasonCode.DIVISION_UNDATED)
    reasons = tuple(Reason(code, date, division) for division in facts.divisions)
    offered = [one for division in facts.divisions for one in of_division(division)]
    return Outcome(Standing.DIVIDED, reasons, choices=(*offered, *strict_sense(facts)))


def dispute(facts: LabelFacts) -> Outcome:
    reasons = tuple(Reason(ReasonCode.DISPUTE, about=told) for told in facts.disputes)
    offered = [choice(t, Ground(GroundCode.ONE_SIDE, about=told)) for told in facts.disputes for t in told.targets]
    return Outcome(Standing.DISPUTED, reasons, choices=(*offered, *strict_sense(facts)))


def _similar(facts: LabelFacts) -> Iterator[Choice]:
    question = facts.question
    crowd = max((record.species_listed for record in question.genus_records), default=0)
    hints = [hint for hint in facts.hints if hint.match is Match.SIMILAR]
    close = close_names(question.name, (hint.subject.name for hint in hints), crowd)
    for hint in hints:
        if hint.subject.name in close:
            yield from _by(GroundCode.SPELT_SIMILARLY, hint.edition, hint.targets or (hint.subject,))


def not_listed(facts: LabelFacts) -> Outcome:
    claims = Claims(tuple(answer.edition for answer in facts.complete_answers))
    taken, namesakes = _taken(facts)
    reasons = [Reason(ReasonCode.UNKNOWN, (facts.question.name,), claims), *taken]
    reasons += _no_longer(facts)
    followed = tuple(_successors(facts))
    offered = [*followed, *_similar(facts), *namesakes]
    if facts.new_genus and not taken:
        computed, reason = _computed_target(facts)
        reasons.append(reason)
        offered.append(choice(computed, Ground(GroundCode.COMPUTED)))
    return Outcome(Standing.UNKNOWN, tuple(reasons), _only(facts), choices=tuple(offered))


def _no_longer(facts: LabelFacts) -> list[Reason]:
    """That a newer edition lacks the name, and what it may have instead."""
    name = facts.question.name
    lost = [
        Reason(ReasonCode.NO_LONGER_LISTED, (name, _edition_words(found.vote.edition)), found.silent)
        for found in facts.ballot.outdated
    ]
    codes = {True: ReasonCode.SUCCESSOR, False: ReasonCode.NAMESAKE_EPITHET}
    found = [
        Reason(codes[one.by_identifier], (name, _edition_words(one.earlier), one.taxon.name), one.newer)
        for one in facts.question.successors
    ]
    return [*lost, *found]


def _edition_words(edition: Edition) -> str:
    return " ".join(filter(None, (edition.source, edition.edition)))


def _successors(facts: LabelFacts) -> Iterator[Choice]:
    for one in facts.question.successors:
        code = GroundCode.SAME_IDENTIFIER if one.by_identifier else GroundCode.SAME_EPITHET
        yield choice(one.taxon, Ground(code, about=one.newer))


def _only(facts: LabelFacts) -> TaxonName | None:
    """The one name that newer editions may have instead; a proposal, never safe."""
    names = {name_key(one.taxon.name): one.taxon for one in facts.question.successors}
    return next(iter(names.values())) if len(names) == 1 else None


def _computed_target(facts: LabelFacts) -> tuple[TaxonName, Reason]:
    question, genus = facts.question, facts.new_genus
    taxon = computed_name(question, genus)
    return taxon, Reason(ReasonCode.COMPUTED, (question.name, taxon.name, genus))


def _taken(facts: LabelFacts) -> tuple[list[Reason], list[Choice]]:
    """Why no combination is computed, and the names that stand there."""
    reasons = [Reason(ReasonCode.TAKEN, (facts.new_genus,), name) for name in facts.taken_by]
    return reasons, [choice(name, Ground(GroundCode.STANDS_THERE)) for name in facts.taken_by]


def computed(facts: LabelFacts) -> Outcome:
    name, reason = _computed_target(facts)
    return Outcome(Standing.MOVED, (reason,), proposed=name, choices=tuple(_similar(facts)))


def unasked(facts: LabelFacts) -> Outcome:
    name = facts.question.name
    reasons = [Reason(ReasonCode.FAILED, about=failure) for failure in facts.failures]
    reasons += [Reason(ReasonCode.BROKEN, about=vote.position) for vote in facts.ballot.broken]
    if genus_of(name).endswith("."):
        reasons.append(Reason(ReasonCode.ABBREVIATED))
    lost = _no_longer(facts)
    if not facts.failed and not facts.ballot.broken and not lost:
        reasons.insert(0, Reason(ReasonCode.NO_COMPLETE_SOURCE, (name,)))
    taken, namesakes = _taken(facts)
    offered = (*_successors(facts), *namesakes, *_similar(facts))
    return Outcome(Standing.UNASKED, (*lost, *reasons, *taken), _only(facts), choices=offered)


def contradiction(facts: LabelFacts) -> Outcome:
    counting = facts.ballot.counting
    offered = tuple(one for vote in counting for one in _by(GroundCode.ONE_READING, vote.edition, vote.targets))
    return Outcome(Standing.DISPUTED, (Reason(ReasonCode.CONTRADICTION, about=counting[0].position),), choices=offered)


def differ(facts: LabelFacts) -> Outcome:
    counting = facts.ballot.counting
    reasons = [Reason(ReasonCode.DIFFER), *(Reason(ReasonCode.POSITION, about=vote.position) for vote in counting)]
    offered = tuple(one for vote in counting for one in _by(GroundCode.BY_SOURCE, vote.edition, vote.targets))
    return Outcome(Standing.DISPUTED, tuple(reasons), choices=offered)


def positions(standing: Standing, code: ReasonCode) -> Callable[[LabelFacts], Outcome]:
    def conclude(facts: LabelFacts) -> Outcome:
        vote = facts.ballot.counting[0]
        acts = (reason for said in vote.statements for reason in _act_reasons(said))
        offered = tuple(_by(GroundCode.BY_SOURCE, vote.edition, vote.targets))
        return Outcome(standing, (Reason(code, about=vote.position), *acts), choices=offered)

    return conclude


def _act_reasons(said: Statement) -> Iterator[Reason]:
    """The acts of a chain in their order."""
    return (Reason(ReasonCode.ACT, about=act) for act in said.acts)


def to_target(standing: Standing) -> Callable[[LabelFacts], Outcome]:
    def conclude(facts: LabelFacts) -> Outcome:
        said, vote = change_of(facts).grounds, facts.ballot.counting[0]
        printed = _target_in_full(facts)
        target = bracketed(printed, _former(facts))
        reasons = [Reason(ReasonCode(standing.value), about=vote.position), *_act_reasons(said)]
        if target.authorship != printed.authorship:
            due = parse_authorship(target.authorship).brackets
            code = ReasonCode.BRACKETS_DUE if due else ReasonCode.BRACKETS_NOT_DUE
            reasons.append(Reason(code, (printed.authorship, target.authorship), vote.edition))
        if standing is Standing.CURRENT:
            return Outcome(standing, tuple(reasons))
        if standing is Standing.RESPELLED:
            code = _spelling(facts, said, target)
            reasons.append(Reason(code, (target.name,)))
            if code is ReasonCode.LETTERS_ONLY and not facts.complete_answers:
                # Of two names that fold together so (Art. 58), one in six is another species.
                reasons.append(Reason(ReasonCode.MAY_BE_OWN, (facts.question.name,)))
        return Outcome(standing, tuple(reasons), proposed=target)

    return conclude


def _spelling(facts: LabelFacts, said: Statement, target: TaxonName) -> ReasonCode:
    """An ending alone makes no printed label stale unless the source itself changed it."""
    if any(act.kind is ActKind.SPELLING for act in said.acts):
        return ReasonCode.SPELLING_ACT
    if match_of(facts.question.name, target.name) is Likeness.SAME:
        return ReasonCode.MARKS_ONLY
    alike = name_key(facts.question.name) == name_key(target.name)
    return ReasonCode.ENDING_ONLY if alike else ReasonCode.LETTERS_ONLY


def _target_in_full(facts: LabelFacts) -> TaxonName:
    """The leader's spelling of the target, with an authorship and original genus where any agreeing vote has one."""
    target = facts.ballot.counting[0].targets[0]
    known = [t for vote in facts.ballot.counting for t in vote.targets]
    authorship = target.authorship or next((t.authorship for t in known if t.authorship), "")
    original = target.original_genus or next((t.original_genus for t in known if t.original_genus), None)
    return target._replace(authorship=authorship, original_genus=original)


def _former(facts: LabelFacts) -> TaxonName | None:
    """The former combination, which may tell where the species was first described."""
    change = change_of(facts)
    return change.grounds.subject if change.kind in (Standing.MOVED, Standing.RESPELLED) else None
