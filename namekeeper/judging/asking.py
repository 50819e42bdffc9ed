"""Which names to ask the sources for one label, and how a label becomes a question."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence

from namekeeper.evidence.statements import Answer, GenusRecord, Reply, TradeForm
from namekeeper.judging.change import genus_of, name_key
from namekeeper.judging.open_names import is_open
from namekeeper.judging.values import Question
from namekeeper.words.dates import PartialDate
from namekeeper.words.names import parse_name

_DEEPEST = 8  # a genus that was replaced more often is bad data


def question_of(
    name: str,
    *,
    authorship: str = "",
    label_date: PartialDate | None = None,
    qualifier: str = "",
    trade_form: str = "",
    form: str = "",
    locality: str = "",
    decided_once: bool = False,
) -> Question:
    """The question for a name as it stands in a record; what the name text itself holds (cf., sp. "x") counts too.

    :raises InputError: if no scientific name can be read.
    """
    read = parse_name(name)
    phrase = "" if qualifier or read.qualifier else read.phrase
    return Question(
        name=read.canonical,
        authorship=authorship or str(read.authorship or ""),
        label_date=label_date,
        qualifier=qualifier or read.qualifier or ("sp." if phrase else ""),
        trade_form=trade_form or read.trade_form or phrase,
        form=form,
        locality=locality,
        decided_once=decided_once,
        parents=tuple(parent.canonical for parent in read.parents),
    )


def what_to_ask(question: Question) -> tuple[str, ...]:
    """Canonical names to ask every source: the name; in open nomenclature also the genus; of a hybrid both parents."""
    if question.parents:
        return tuple(dict.fromkeys(question.parents))
    if is_open(question):
        return tuple(dict.fromkeys((question.name, genus_of(question.name))))
    return (question.name,)


def follow_up(question: Question, replies: Sequence[Reply]) -> tuple[str, ...]:
    """Names in force that an answer led to: asked too, they show misuse of the new name and who rejects it."""
    asked = {reply.asked for reply in replies}
    targets = (
        target.name
        for reply in replies
        if isinstance(reply, Answer)
        for said in reply.statements
        if said.match.speaks
        for target in said.targets
    )
    return tuple(sorted({name for name in targets if name not in asked and name_key(name) != name_key(question.name)}))


def genera(question: Question, find: Callable[[str], Iterable[GenusRecord]]) -> tuple[GenusRecord, ...]:
    """The records of the genus (of each parent's genus) and of all genera it leads to, for ``genus_records``."""
    waiting = [genus_of(name) for name in (question.parents or (question.name,))]
    found: dict[str, tuple[GenusRecord, ...]] = {}
    while waiting and len(found) < _DEEPEST:
        genus = waiting.pop(0)
        if genus not in found:
            found[genus] = tuple(find(genus))
            waiting += [to for record in found[genus] for to in record.moved_to]
    return tuple(record for records in found.values() for record in records)


def forms(question: Question, find: Callable[[str | None, str], Iterable[TradeForm]]) -> tuple[TradeForm, ...]:
    """The recorded forms behind the words on the label, for ``trade_forms``."""
    words = question.trade_form
    return tuple(find(genus_of(question.name), words)) if words else ()
