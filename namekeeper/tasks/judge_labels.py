"""Judge many labels: what is the same of two labels is looked up and judged once."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import date

from namekeeper.evidence.interfaces import NameList
from namekeeper.evidence.statements import Answer, Reply
from namekeeper.evidence.verdicts import Verdict
from namekeeper.judging.ballot import Trust, hold_ballot
from namekeeper.judging.earlier import is_silent, successors
from namekeeper.judging.facts import group_of
from namekeeper.judging.question import (
    Question,
    follow_up,
    is_open,
    known_here,
    question_of,
    what_to_ask,
    with_common_names,
)
from namekeeper.judging.verdict import judge
from namekeeper.records.specimen import NameEntry, Specimen
from namekeeper.tasks.guarded import ask_guarded
from namekeeper.words.dates import PartialDate

#: Asks sources beyond this machine for names, each with the authorship on its labels ("" where they give none or
#: several); every name gets its replies, in any number.
AskOnline = Callable[[Mapping[str, str]], Mapping[str, tuple[Reply, ...]]]
_Wording = tuple[str, str, str, str, str]


@dataclass(frozen=True, slots=True)
class _Case:
    """A name as it is worded on labels, with all that was heard of it; ``dated`` if the date may change its meaning."""

    question: Question
    heard: tuple[Reply, ...]
    dated: bool


@dataclass(slots=True)
class LabelJudge:
    """Holds the replies to all names of a check, and the verdicts reached so far."""

    lists: Sequence[NameList]
    trust: Trust
    today: date
    replies: dict[str, tuple[Reply, ...]] = field(default_factory=dict)
    _heard: dict[str, tuple[Reply, ...]] = field(default_factory=dict)  # of services
    _listed: dict[str, tuple[Reply, ...]] = field(default_factory=dict)  # of lists
    earlier: Sequence[NameList] = ()
    _led_to: dict[str, tuple[str, ...]] = field(default_factory=dict)
    _questions: dict[_Wording, Question] = field(default_factory=dict)
    _known: dict[tuple[object, ...], Question] = field(default_factory=dict)  # with what the lists know
    _cases: dict[_Wording, _Case] = field(default_factory=dict)
    _verdicts: dict[tuple[object, ...], Verdict] = field(default_factory=dict)

    def ask_services(self, entries: Iterable[NameEntry], ask: AskOnline, among: Iterable[NameEntry]) -> None:
        """Ask the services once a distinct name.

        ``among`` are all labels of the collection: what authorship goes with a name does not depend on who is checked.
        """
        worded = {_wording(entry): entry for entry in entries}
        written = self._authorships({**{_wording(entry): entry for entry in among}, **worded}.values())
        self._heard = dict(ask({name: written.get(name, "") for name in self._names(worded.values())}))
        self.replies |= self._heard

    def heard(self, entry: NameEntry) -> tuple[Reply, ...]:
        """What services said of the name on a label."""
        return tuple(reply for name in self._asked(entry) for reply in self._heard[name]) if self._heard else ()

    def ask_lists(self, entries: Iterable[NameEntry]) -> None:
        """Ask every list once a distinct name, and the names in force that it or a service leads to.

        A list may reject a move by name, and asking it costs nothing; a service is spared the second question.
        """
        asked = self._names({_wording(entry): entry for entry in entries}.values())
        self._ask_lists(asked)
        self._led_to = {name: follow_up(name, self.replies[name]) for name in asked}
        new = {name for names in self._led_to.values() for name in names}
        self._ask_lists(sorted(new - set(asked)))

    def verdict(self, specimen: Specimen, entry: NameEntry) -> Verdict:
        """The verdict on one label; its name must have been asked."""
        wording = _wording(entry)
        case = self._cases.get(wording)
        if case is None:
            case = self._cases[wording] = self._case(entry)
        written = specimen.date_of(entry) if case.dated else None
        decided = specimen.decided_once(entry)
        known = self._judged(case, wording, written, decided)
        if not specimen.locality or not known.choices:
            return known  # a locality does nothing but narrow choices
        return self._judged(case, wording, written, decided, specimen.locality)

    def _judged(
        self, case: _Case, wording: _Wording, written: PartialDate | None, decided: bool, locality: str = ""
    ) -> Verdict:
        key = (wording, written and (written.earliest, written.latest), locality, decided)
        if key not in self._verdicts:
            question = replace(case.question, label_date=written, locality=locality, decided_once=decided)
            self._verdicts[key] = judge(question, case.heard, self.trust, self.today)
        return self._verdicts[key]

    def _case(self, entry: NameEntry) -> _Case:
        own = self._asked(entry)
        # Of a name that it leads to only the lists are heard: what a service says of it is known only where another
        # label of the collection happens to carry it.
        led = dict.fromkeys(new for name in own for new in self._led_to[name] if new not in own)
        heard = tuple(reply for name in own for reply in self.replies[name])
        heard += tuple(reply for name in led for reply in self._listed[name])
        question = with_common_names(self._with_known(self._question(entry)), heard, self.lists)
        if self.earlier or self._share_an_upstream():
            heard, question = self._followed(question, heard)
        noted = any(isinstance(reply, Answer) and (reply.misuses or reply.divisions) for reply in heard)
        # A genus that went elsewhere in part is chosen by date only where the label names no species.
        followed = bool(question.parents) or is_open(question)
        moved = followed and any(record.moved_to for record in question.genus_records)
        return _Case(question, heard, noted or moved)

    def _with_known(self, question: Question) -> Question:
        """With what the lists here know, which is the same for labels that differ in authorship or line."""
        key = (question.name, question.qualifier, question.trade_form, question.parents)
        if key not in self._known:
            self._known[key] = known_here(question, self.lists)
        return replace(self._known[key], authorship=question.authorship, form=question.form)

    def _share_an_upstream(self) -> bool:
        return len({source.edition.upstream for source in self.lists}) < len(self.lists)

    def _followed(self, question: Question, heard: tuple[Reply, ...]) -> tuple[tuple[Reply, ...], Question]:
        """The replies with those of earlier editions to a name that nobody else has, and what may have become of it."""
        answers = [reply for reply in heard if isinstance(reply, Answer)]
        if is_silent([answer for answer in answers if answer.asked == question.name]):
            earlier = [reply for source in self.earlier for reply in source.ask_firmly([question.name])]
            answers += [reply for reply in earlier if isinstance(reply, Answer) and reply.statements]
            heard += tuple(answer for answer in answers if answer not in heard)
        group = group_of(question, answers)
        outdated = hold_ballot(answers, question.name, question.authorship, self.trust, group).outdated
        editions = {source.edition: source for source in (*self.lists, *self.earlier)}
        return heard, replace(question, successors=successors(outdated, editions))

    def _ask_lists(self, names: Sequence[str]) -> None:
        self._listed |= dict.fromkeys(names, ())
        for source in self.lists if names else ():
            for reply in ask_guarded(source, names):
                self._listed[reply.asked] += (reply,)
        self.replies |= {name: self._listed[name] + self._heard.get(name, ()) for name in names}

    def _question(self, entry: NameEntry) -> Question:
        wording = _wording(entry)
        if wording not in self._questions:
            self._questions[wording] = question_of(entry)
        return self._questions[wording]

    def _asked(self, entry: NameEntry) -> tuple[str, ...]:
        return what_to_ask(self._question(entry))

    def _names(self, entries: Iterable[NameEntry]) -> tuple[str, ...]:
        return tuple(dict.fromkeys(name for entry in entries for name in self._asked(entry)))

    def _authorships(self, entries: Iterable[NameEntry]) -> dict[str, str]:
        """The one authorship that all labels with a name give it."""
        found: dict[str, set[str]] = {}
        for question in map(self._question, entries):
            if question.authorship:
                found.setdefault(question.name, set()).add(question.authorship)
        return {name: min(texts) for name, texts in found.items() if len(texts) == 1}


def _wording(entry: NameEntry) -> _Wording:
    return (entry.name, entry.authorship, entry.qualifier, entry.trade_form, entry.form)
