"""What each rule of the decision table concludes: standing, target or choices, and the reasons in words."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from namekeeper.evidence.statements import (
    ActKind,
    Dispute,
    Division,
    Match,
    Misuse,
    Statement,
    TaxonName,
)
from namekeeper.evidence.verdicts import Choice, Reason
from namekeeper.judging import brackets, says
from namekeeper.judging.change import genus_of, name_key
from namekeeper.judging.choices import choice, of_division, of_misuse
from namekeeper.judging.facts import LabelFacts, change_of
from namekeeper.judging.nearness import close_enough
from namekeeper.judging.open_names import computed_name, described_forms, genus_choices, moved_name
from namekeeper.judging.votes import View
from namekeeper.judging.windows import Usage
from namekeeper.words.citations import short_citation
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
    words = f"the whole genus {genus_of(question.name)} is now {genus}; what the animal is stays open"
    reasons = (Reason("genus-moved", words), *_form_reasons(facts))
    followed = moved_name(question, genus, facts.answers)
    offered = tuple(one for _, one in described_forms(question))
    if any(genus_of(one.name) != genus for one in offered):
        return Outcome(Standing.OPEN, reasons, choices=(*offered, choice(followed, "where the whole genus went")))
    return Outcome(Standing.OPEN, reasons, followed, offered)


def in_open(facts: LabelFacts) -> Outcome:
    question = facts.question
    offered = (*(c for _, c in described_forms(question)), *genus_choices(question, facts.answers))
    sign = question.qualifier or ("a trade form" if question.trade_form else "no species named")
    reasons = [Reason("open", f"open nomenclature ({sign}): the label names no species, only its genus is followed")]
    if any(" " not in one.name for one in offered):
        reasons.append(
            Reason("genus-divided", f"the genus {genus_of(question.name)} went to more than one: please choose")
        )
    return Outcome(Standing.OPEN, (*reasons, *_form_reasons(facts)), choices=offered)


def _form_reasons(facts: LabelFacts) -> tuple[Reason, ...]:
    return tuple(
        Reason("form-described", f'the form "{form.form}" is given as {one.name}: offered, not taken')
        for form, one in described_forms(facts.question)
    )


def misapplied(facts: LabelFacts) -> Outcome:
    found = [misuse for misuse, state in facts.misuses if state is Usage.MISAPPLIED]
    date = facts.question.label_date
    written = f"written {date}" if date else "of unknown date"
    reasons = [
        Reason("misuse", f"{m.name} on a label {written}: the trade used it for {_names(m.meant)}{_cited(m)}")
        for m in found
    ]
    offered = [one for misuse in found for one in of_misuse(misuse)]
    for vote in facts.ballot.counting:
        if vote.view is View.MISAPPLIED:
            reasons.append(Reason("misuse", says.position(vote)))
            offered += [choice(target, f"meant, by {says.source_of(vote.edition)}") for target in vote.targets]
    divided_too = [one for division in facts.divisions for one in of_division(division)]
    return Outcome(Standing.MISAPPLIED, tuple(reasons), choices=(*offered, *strict_sense(facts), *divided_too))


def _names(taxa: Sequence[TaxonName]) -> str:
    return says.listed([taxon.name for taxon in taxa]) or "other species"


def _cited(found: Misuse | Division | Dispute) -> str:
    told = f" ({short_citation(found.citation)})" if found.citation else ""
    return f"{told}; {found.note}" if found.note else told


def strict_sense(facts: LabelFacts) -> tuple[Choice, ...]:
    """The name in its proper sense: what it leads to by the counting votes, as one choice among others."""
    return tuple(
        choice(target, f"{facts.question.name} in its proper sense ({says.source_of(vote.edition)})")
        for vote in facts.ballot.counting
        if vote.view in (View.TARGET, View.SEVERAL, View.CONTRADICTION)
        for target in vote.targets
    )


def divided(facts: LabelFacts) -> Outcome:
    label = facts.question.label_date
    written = f"this label was written {label}" if label else "when this label was written is not known"
    reasons = tuple(
        Reason("division", f"{d.name} means several species by {d.kind.value} {d.since or ''}{_cited(d)}; {written}")
        for d in facts.divisions
    )
    offered = [one for division in facts.divisions for one in of_division(division)]
    return Outcome(Standing.DIVIDED, reasons, choices=(*offered, *strict_sense(facts)))


def dispute(facts: LabelFacts) -> Outcome:
    reasons = tuple(Reason("dispute", f"published sources differ on {d.name}{_cited(d)}") for d in facts.disputes)
    offered = [choice(target, f"by one side{_cited(d)}") for d in facts.disputes for target in d.targets]
    return Outcome(Standing.DISPUTED, reasons, choices=(*offered, *strict_sense(facts)))


def _similar(facts: LabelFacts) -> tuple[Choice, ...]:
    question = facts.question
    crowd = max((record.species_listed for record in question.genus_records), default=0)
    return tuple(
        choice(target, f"spelt similarly in {says.source_of(hint.edition)}: only a guess")
        for hint in facts.hints
        if hint.match is Match.SIMILAR and close_enough(question.name, hint.subject.name, crowd)
        for target in hint.targets or (hint.subject,)
    )


def not_listed(facts: LabelFacts) -> Outcome:
    names = says.listed([says.source_of(answer.edition) for answer in facts.complete_answers])
    reasons = [Reason("unknown", f"{names} claims every name of the group and does not list {facts.question.name}")]
    offered = list(_similar(facts))
    taken, namesakes = _taken(facts)
    reasons += taken
    offered += namesakes
    if facts.new_genus and not taken:
        computed, reason = _computed_target(facts)
        reasons.append(reason)
        offered.append(choice(computed, "computed from the move of the whole genus; no source gives this name"))
    return Outcome(Standing.UNKNOWN, tuple(reasons), choices=tuple(offered))


def _computed_target(facts: LabelFacts) -> tuple[TaxonName, Reason]:
    question = facts.question
    genus = facts.new_genus
    name = computed_name(question, genus)
    words = f"no source gives {question.name}; {name.name} is computed: the whole genus went to {genus}"
    return name, Reason("computed", words)


def _taken(facts: LabelFacts) -> tuple[list[Reason], list[Choice]]:
    """Why no combination is computed, and the names that stand there."""
    reasons, offered = [], []
    for name in facts.taken_by:
        words = f"the whole genus went to {facts.new_genus}, which has a {name.name} {name.authorship}".rstrip()
        reasons.append(Reason("taken", f"{words}: whether that is the same species, no source says"))
        offered.append(choice(name, "stands where the genus went; the same species only if the author is the same"))
    return reasons, offered


def computed(facts: LabelFacts) -> Outcome:
    name, reason = _computed_target(facts)
    return Outcome(Standing.MOVED, (reason,), proposed=name, choices=_similar(facts))


def unasked(facts: LabelFacts) -> Outcome:
    question = facts.question
    reasons = [Reason("failed", f"{says.source_of(f.edition)} {says.unheard(f).says}") for f in facts.failures]
    reasons += [Reason("broken", says.position(vote)) for vote in facts.ballot.broken]
    if question.name.split(" ")[0].endswith("."):
        reasons.append(Reason("abbreviated", "the genus is abbreviated: write it out, or look the name up as a tag"))
    if not facts.failed and not facts.ballot.broken:
        words = f"no source that is complete for the group of {question.name} was asked: nobody was fit to say no"
        reasons.insert(0, Reason("no-complete-source", words))
    taken, namesakes = _taken(facts)
    return Outcome(Standing.UNASKED, (*reasons, *taken), choices=(*namesakes, *_similar(facts)))


def contradiction(facts: LabelFacts) -> Outcome:
    vote = facts.ballot.counting[0]
    words = f"{says.position(vote)}: the same spelling stands for more than one name, none is picked"
    offered = [
        choice(t, f"one reading of {says.source_of(v.edition)}") for v in facts.ballot.counting for t in v.targets
    ]
    return Outcome(Standing.DISPUTED, (Reason("contradiction", words),), choices=tuple(offered))


def differ(facts: LabelFacts) -> Outcome:
    reasons = [Reason("differ", "trusted sources differ on the name in force")]
    reasons += [Reason("position", says.position(vote)) for vote in facts.ballot.counting]
    offered = [choice(t, f"by {says.source_of(v.edition)}") for v in facts.ballot.counting for t in v.targets]
    return Outcome(Standing.DISPUTED, tuple(reasons), choices=tuple(offered))


def positions(standing: Standing, code: str) -> Callable[[LabelFacts], Outcome]:
    def conclude(facts: LabelFacts) -> Outcome:
        vote = facts.ballot.counting[0]
        offered = [choice(t, f"by {says.source_of(vote.edition)}") for t in vote.targets]
        acts = tuple(reason for said in vote.statements for reason in act_reasons(said))
        return Outcome(standing, (Reason(code, says.position(vote)), *acts), choices=tuple(offered))

    return conclude


def act_reasons(said: Statement) -> tuple[Reason, ...]:
    """The acts of a chain in their order, each with its paper."""
    return tuple(Reason("act", says.act(act), short_citation(act.citation) or act.year) for act in said.acts)


def to_target(standing: Standing) -> Callable[[LabelFacts], Outcome]:
    def conclude(facts: LabelFacts) -> Outcome:
        said, vote = change_of(facts).grounds, facts.ballot.counting[0]
        target, wrong = target_in_full(facts)
        reasons = [Reason(standing.value, says.position(vote))]
        reasons += act_reasons(said)
        if wrong:
            reasons.append(Reason("brackets", f"{says.source_of(vote.edition)}: {wrong}"))
        if standing is Standing.CURRENT:
            return Outcome(standing, tuple(reasons))
        if standing is Standing.RESPELLED:
            reasons.append(_spelling(facts, said, target))
        return Outcome(standing, tuple(reasons), proposed=target)

    return conclude


def _spelling(facts: LabelFacts, said: Statement, target: TaxonName) -> Reason:
    """An ending alone makes no printed label stale unless the source itself changed it."""
    if any(act.kind is ActKind.SPELLING for act in said.acts):
        return Reason("spelling-act", f"the source itself changed the spelling to {target.name}")
    if match_of(facts.question.name, target.name) is Likeness.SAME:
        return Reason("marks-only", f"only marks, hyphens or capitals differ: the source prints {target.name}")
    if name_key(facts.question.name) == name_key(target.name):
        return Reason("ending-only", f"only the ending differs: the source prints {target.name}")
    return Reason("letters-only", f"other letters of one name: the source prints {target.name}")


def target_in_full(facts: LabelFacts) -> tuple[TaxonName, str]:
    """The leader's spelling of the target, with its brackets checked, an authorship where any agreeing vote has one."""
    target = facts.ballot.counting[0].targets[0]
    change = change_of(facts)
    known = [t for vote in facts.ballot.counting for t in vote.targets]
    authorship = target.authorship or next((t.authorship for t in known if t.authorship), "")
    original = target.original_genus or next((t.original_genus for t in known if t.original_genus), None)
    target = target._replace(authorship=authorship, original_genus=original)
    former = change.grounds.subject if change.kind in (Standing.MOVED, Standing.RESPELLED) else None
    return brackets.checked(target, former)
