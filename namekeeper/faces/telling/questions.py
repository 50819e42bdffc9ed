"""What a keeper is asked while a collection is settled, one question after another, and what came of each."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from namekeeper.evidence.verdicts import Choice, ReasonCode, Verdict
from namekeeper.faces.telling.check import happened
from namekeeper.faces.telling.parts import Folded, Grid, Heading, Numbered, Part, TextLine, counted
from namekeeper.faces.telling.standings import beside, state, tag_answer
from namekeeper.faces.telling.verdicts import lines, sentence, told_apart, why
from namekeeper.tasks.check import Finding
from namekeeper.tasks.settle import Planned
from namekeeper.tasks.settle_names import Typed
from namekeeper.tasks.settle_questions import SettleQuestion
from namekeeper.words.terms import Standing

_MOST_SHOWN = 12
_WAYS = "l later   w why   s skip   b back   q stop"
#: Digits that one key can mean.
MOST_KEYS = 9
NOTHING_WAITS = "Nothing waits for a decision."
STOPPED = "Stopped; what was decided is written. The same command goes on from here."
FIRST = "This is the first question; there is nothing to go back to."
NAME_PROMPT = "The name or a number, then enter (enter alone: back):"


def question_parts(question: SettleQuestion, place: str) -> Iterator[Part]:
    """One question; ``place`` says the how-manieth it is."""
    if question.exact:
        yield from _exact_parts(question, place)
        return
    finding = question.first
    yield Heading(f"{place}  {_few(question.ids)}  {finding.label}")
    yield Folded(_state(finding), 2)
    for said in (*beside(finding), *filter(None, [_facts(finding)])):
        yield Folded(f"{said[0].upper()}{said[1:]}.", 2)
    yield from _offer_parts(question)
    yield from key_parts(question)


def key_parts(question: SettleQuestion, *, certain: bool = False) -> Iterator[Part]:
    """The keys that do something here: answers in a line, ways in another; ``certain``: names go without a doubt."""
    yield from map(TextLine, _exact_keys(question) if question.exact else _keys(question))
    if question.doubt:
        now = f'without "{question.doubt}"' if certain else f'with "{question.doubt}"'
        yield TextLine(f"A name is taken {now}; c changes that.")


def _state(finding: Finding) -> str:
    """What is known of the name, or of the tag."""
    told = f"{state(finding.verdict, finding.label)}."
    return told if finding.named else f"{told} {tag_answer(finding.verdict)}"


def _facts(finding: Finding) -> str:
    """What the keeper may know the animal by."""
    animal = finding.specimen
    tag = f'tag "{animal.tag}"' if finding.named and animal.tag else ""
    sex = animal.sex.text if animal.sex else ""
    since = f"{'on the label' if finding.named else 'here'} since {finding.since}" if finding.since else ""
    return ", ".join(filter(None, (tag, sex, animal.locality, since, animal.stands_at)))


def _few(ids: Sequence[str]) -> str:
    first = ", ".join(ids[:_MOST_SHOWN])
    more = f" and {len(ids) - _MOST_SHOWN} more" if len(ids) > _MOST_SHOWN else ""
    return first if len(ids) == 1 else f"{first}{more} ({len(ids)} alike)"


def _exact_parts(question: SettleQuestion, place: str) -> Iterator[Part]:
    count = len(question.findings)
    yield Heading(f"{place}  {count} tags name a species exactly as the lists have it. Take all {count}?")
    shown = question.findings[:_MOST_SHOWN]
    rows = [(finding.specimen.id, finding.verdict.choices[0].name, finding.label) for finding in shown]
    yield Grid(("label", "name", "tag"), rows)
    if count > _MOST_SHOWN:
        yield TextLine(f"and {count - _MOST_SHOWN} more; o shows one after another")
    yield from key_parts(question)


def _exact_keys(question: SettleQuestion) -> Iterator[str]:
    yield f"t take all {len(question.findings)}   o one by one"
    yield _WAYS.replace("w why   ", "")


def _offer_parts(question: SettleQuestion) -> Iterator[Part]:
    """The names to choose from with what tells them apart, and above them what speaks for all alike."""
    found = question.offers
    common, own = told_apart(found)
    if common:
        yield Folded(f"All of these: {common}", 2)
    for number, (choice, told) in enumerate(zip(found, own, strict=True), 1):
        yield Numbered(number, choice.name, choice.authorship)
        if told or not common:
            yield Folded(told or _act(question.first.verdict), 5)
    if not found and question.first.verdict.standing is not Standing.UNNAMED:
        yield Folded(_act(question.first.verdict), 2)


def _act(verdict: Verdict) -> str:
    """The act that led to the proposal, else what decided."""
    acts = (reason for reason in verdict.reasons if reason.code is ReasonCode.ACT)
    reason = next(acts, verdict.reasons[0] if verdict.reasons else None)
    return sentence(reason) if reason else ""


def _keys(question: SettleQuestion) -> Iterator[str]:
    offered = min(len(question.offers), MOST_KEYS)
    every = f" for all {len(question.findings)}" if len(question.findings) > 1 else ""
    keep = "k keep the name" if question.first.named else "k leave without a name"
    keys = (
        f"t take it{every}" if question.single else "",
        f"{'1' if offered == 1 else f'1-{offered}'} choose{every}" if offered and not question.single else "",
        "n another name" if offered else "n name it",
        keep,
        "o one by one" if every else "",
    )
    yield "   ".join(filter(None, keys))
    yield _WAYS


def reason_parts(question: SettleQuestion) -> Iterator[Part]:
    """Why a question is asked, and who says so."""
    for finding in question.findings[:1]:
        for line in why(finding.verdict):
            yield Folded(line, 2)
        for said in lines(finding.verdict):
            yield Folded(f"{said.source} {said.edition or ''}: {said.says}", 2)


def typed_parts(typed: Typed) -> Iterator[Part]:
    """A typed name that should be looked at once more, and the names that may be meant by it."""
    name, several = typed.wanted.name, len(typed.instead) > 1
    if typed.listed:
        yield Folded(f"{name} is a former name; in force {'are' if several else 'is'}:", 2)
    elif typed.instead:
        yield Folded(f"No list here has {name}. It may be right all the same. Spelt similarly:", 2)
    else:
        yield Folded(f"No list here has {name}, nor any name like it. It may be right all the same.", 2)
    for number, one in enumerate(typed.instead, 1):
        yield Numbered(number, one.name, one.authorship)
        if one.listed not in (one.name, name):
            yield Folded(f"for {one.listed}, a former name", 5)
    keys = f"{'1' if not several else f'1-{len(typed.instead)}'} take that   " if typed.instead else ""
    yield TextLine(f"{keys}t take {name} as you wrote it   any other key: back")


def decided_parts(changes: Iterable[Planned]) -> Iterator[Part]:
    """What was just written."""
    for change in changes:
        if change.written:
            renamed = f"{change.old} -> {change.label} ({happened(change)})"
            yield Folded(f"{change.specimen}: {renamed if change.names_anew else happened(change)}", 2)


def end_parts(changes: Sequence[Planned], folder: str, *, stopped: bool) -> Iterator[Part]:
    """What the whole pass came to, and what comes next; ``folder`` as the keeper typed it."""
    yield TextLine()
    if stopped:
        yield TextLine(STOPPED)
    elif not changes:
        yield TextLine("Nothing was decided.")
    renamed = {change.specimen for change in changes if change.written and change.names_anew}
    if renamed:
        labels = counted(len(renamed), "label says", "labels say")
        yield TextLine(f"{labels} another name now: namekeeper labels {folder} --due -o labels.pdf")


def choice_named(choices: Sequence[Choice], answer: str) -> str:
    """The name that a keeper typed, or of the number typed; empty for a number that is none of them."""
    if answer.isascii() and answer.isdigit():
        number = int(answer)
        return choices[number - 1].name if 0 < number <= len(choices) else ""
    return answer
