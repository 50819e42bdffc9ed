"""Cautions on labels: the union of what is published on every name an animal may have, in three graded forms.

The words are our own. They report and defer: to medical help, to the list in force, to local rules. Where nothing is
recorded nothing is printed; that is no statement that an animal is harmless.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from namekeeper.evidence.statements import Caution, CautionWeight
from namekeeper.labels.label_words import LabelWords, Topic, words_in
from namekeeper.labels.naming import name_runs
from namekeeper.labels.text import Piece, Run, Variant, clean

_LISTS = {"law_cites": "CITES", "law_eu": "EU", "law_us_esa": "US Endangered Species Act"}
_RESTRICTED = ("law_us", "law_other")


_BY_TOPIC = {
    "venom_report": Topic.BITE,
    "urticating_setae": Topic.HAIRS,
    "defensive_chemicals": Topic.IRRITANT,
    **dict.fromkeys(_LISTS, Topic.LISTED),
    **dict.fromkeys(_RESTRICTED, Topic.LAW),
}


@dataclass(frozen=True, slots=True)
class Warnings:
    """Cautions of one label by topic, the lists that name the animal, the names on permits, the keeper's own words."""

    topics: tuple[Topic, ...]
    lists: tuple[str, ...]
    permits: tuple[str, ...]
    own: str
    words: LabelWords

    def forms(self) -> tuple[Variant, ...]:
        """From the fullest to the smallest form; empty if there is nothing to warn of.

        The smallest still says what to do; the keeper's own words are the same in all of them.
        """
        if not self.topics and not self.own:
            return ()
        known = [(topic, self.words.cautions[topic]) for topic in self.topics]
        full = [self._piece(topic, words.full, self._listings()) for topic, words in known]
        middle = [self._piece(topic, words.middle, self._listing()) for topic, words in known]
        short = [self._piece(topic, words.short, ()) for topic, words in known]
        own: list[Piece] = [(Run(self.words.caution, strong=True), Run(f" {self.own}"))] if self.own else []
        return tuple(dict.fromkeys((*form, *own) for form in (full, middle, short)))

    def listed(self) -> tuple[Variant, ...]:
        """The lists of protected species that name the animal, and the names a permit may carry."""
        if not self.lists:
            return ()
        before = self.words.cautions[Topic.LISTED].full.partition("{lists}")[0]
        return (((Run(self.words.cautions[Topic.LISTED].word, strong=True), *joined(before, self._listings())),),)

    def _piece(self, topic: Topic, rest: str, lists: Piece) -> Piece:
        before, _, after = rest.partition("{lists}")
        return (Run(self.words.cautions[topic].word, strong=True), *joined(before, lists if after else (), after))

    def _listings(self) -> Piece:
        """All lists, and all names on permits in brackets."""
        names = [run for name in self.permits for run in (Run(", "), *name_runs(name))][1:]
        return joined(", ".join(self.lists), (Run(f" ({self.words.permits} "), *names, Run(")")) if names else ())

    def _listing(self) -> Piece:
        """The first list, and the first name on permits."""
        name = (Run(f" {self.words.as_name} "), *name_runs(self.permits[0])) if self.permits else ()
        return joined("".join(self.lists[:1]), name)


def joined(*parts: str | Piece) -> Piece:
    """Runs one after the other, neighbours of one style as one."""
    found: list[Run] = []
    for part in parts:
        for run in (Run(part),) if isinstance(part, str) else part:
            if found and replace(found[-1], text="") == replace(run, text=""):
                found[-1] = replace(run, text=found[-1].text + run.text)
            elif run.text:
                found.append(run)
    return tuple(found)


def warnings(cautions: Iterable[Caution], name: str, own: str = "", language: str = "en") -> Warnings:
    """What to print of these cautions; ``name`` is the name on the label.

    A listing tells the name a permit may carry where that is another one. Where there are no words in the language of
    the label they are English.
    """
    counted = [caution for caution in cautions if _warns(caution)]
    topics = {_BY_TOPIC[caution.topic] for caution in counted}
    listed = [one for one in counted if one.topic in _LISTS]
    permits = sorted({one.listed_as for one in listed if one.listed_as and one.listed_as != name})
    return Warnings(
        topics=tuple(topic for topic in Topic if topic in topics),
        lists=tuple(_lists(counted)),
        permits=tuple(permits),
        own=clean(own),
        words=words_in(language),
    )


def reports(cautions: Iterable[Caution]) -> tuple[Variant, ...]:
    """What is published on the animal's defences, a piece for every topic, then only the first statement of each."""
    counted = [one for one in cautions if _warns(one)]
    told: dict[Topic, list[str]] = {}
    for topic in (Topic.BITE, Topic.HAIRS, Topic.IRRITANT):
        statements = dict.fromkeys(clean(one.statement) for one in counted if _BY_TOPIC[one.topic] is topic)
        if statements:
            told[topic] = list(statements)
    full = tuple(_report(topic, statements) for topic, statements in told.items())
    first = tuple(_report(topic, statements[:1]) for topic, statements in told.items())
    return tuple(dict.fromkeys((full, first))) if full else ()


def _report(topic: Topic, statements: Sequence[str]) -> tuple[Run, Run]:
    """The word of the topic once, and the statements, as sentences where there are several."""
    text = statements[0] if len(statements) == 1 else " ".join(f"{one.rstrip('.')}." for one in statements)
    return Run(topic.value, strong=True), Run(f": {text}")


def _warns(caution: Caution) -> bool:
    # A published absence is no caution, and no promise either. A review of a whole family that found bites mostly mild
    # would put "Bite" on every tarantula and blunt the word where it matters; genera and subfamilies of medical note
    # have entries of their own.
    return caution.topic in _BY_TOPIC and caution.weight is CautionWeight.WARNS


def _lists(cautions: Sequence[Caution]) -> list[str]:
    """The lists that name the animal, each with the first year of a listing."""
    found = []
    for topic, title in _LISTS.items():
        rows = [caution for caution in cautions if caution.topic == topic]
        if rows:
            years = sorted(row.year[:4] for row in rows if row.year)
            found.append(f"{title} {years[0]}" if years else title)
    return found
