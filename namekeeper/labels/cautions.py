"""Cautions on labels: the union of what is published on every name an animal may have, in three graded forms.

The words are our own. They report and defer: to medical help, to the list in force, to local rules. Where nothing is
recorded nothing is printed; that is no statement that an animal is harmless.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from enum import StrEnum, unique

from namekeeper.evidence.statements import Caution, CautionWeight
from namekeeper.labels.text import Piece, Run, Variant, clean

_LISTS = {"law_cites": "CITES", "law_eu": "EU", "law_us_esa": "US Endangered Species Act"}
_RESTRICTED = ("law_us", "law_other")


@unique
class Topic(StrEnum):
    """What a keeper is warned of; the value is the word that stands first, in every form."""

    BITE = "Bite"
    HAIRS = "Hairs"
    IRRITANT = "Irritant"
    LISTED = "Listed"
    LAW = "Law"


_BY_TOPIC = {
    "venom_report": Topic.BITE,
    "urticating_setae": Topic.HAIRS,
    "defensive_chemicals": Topic.IRRITANT,
    **dict.fromkeys(_LISTS, Topic.LISTED),
    **dict.fromkeys(_RESTRICTED, Topic.LAW),
}
_LONG = {
    Topic.BITE: " can be serious: get medical help",
    Topic.HAIRS: " irritate skin and can harm eyes",
    Topic.IRRITANT: " secretion: keep off skin and eyes",
    Topic.LAW: " restricts keeping or trade in places: ask the authority",
}
_MIDDLE = {
    Topic.BITE: ": get medical help",
    Topic.HAIRS: " irritate skin, eyes",
    Topic.IRRITANT: " secretion: protect eyes",
    Topic.LAW: ": check local rules",
}

_SHORT = {
    Topic.BITE: ": medical help",
    Topic.HAIRS: ": protect eyes",
    Topic.IRRITANT: ": protect eyes",
    Topic.LISTED: ": check list",
    Topic.LAW: ": check rules",
}


@dataclass(frozen=True, slots=True)
class Warnings:
    """Cautions of one label by topic, with what the lists say of the law, and the keeper's own words."""

    topics: tuple[Topic, ...]
    listings: str
    listing: str = ""
    own: str = ""

    def forms(self) -> tuple[Variant, ...]:
        """From the fullest to the smallest form; empty if there is nothing to warn of.

        The smallest still says what to do; the keeper's own words are the same in all of them.
        """
        if not self.topics and not self.own:
            return ()
        full = tuple(self._long(topic) for topic in self.topics)
        middle = tuple(_piece(topic, self._middle(topic)) for topic in self.topics)
        short = tuple(_piece(topic, _SHORT[topic]) for topic in self.topics)
        if self.own:
            own = (Run("Caution", strong=True), Run(f" {self.own}"))
            full, middle, short = (*full, own), (*middle, own), (*short, own)
        return tuple(dict.fromkeys((full, middle, short)))

    def _middle(self, topic: Topic) -> str:
        return f" {self.listing}: check the current list" if topic is Topic.LISTED else _MIDDLE[topic]

    def _long(self, topic: Topic) -> Piece:
        if topic is Topic.LISTED:
            return _piece(topic, f" by {self.listings}: check the current list")
        return _piece(topic, _LONG[topic])


def _piece(topic: Topic, rest: str) -> Piece:
    return (Run(topic.value, strong=True), Run(rest))


def warnings(cautions: Iterable[Caution], name: str, own: str = "") -> Warnings:
    """What to print of these cautions; ``name`` is the name on the label.

    A listing tells the name a permit may carry where that is another one.
    """
    counted = [caution for caution in cautions if _warns(caution)]
    topics = {_BY_TOPIC[caution.topic] for caution in counted}
    lists = _lists(counted)
    listed = [one for one in counted if one.topic in _LISTS]
    permits = sorted({one.listed_as for one in listed if one.listed_as and one.listed_as != name})
    return Warnings(
        topics=tuple(topic for topic in Topic if topic in topics),
        listings=", ".join(lists) + (f" (permits may say {', '.join(permits)})" if permits else ""),
        listing="".join(lists[:1]) + (f" as {permits[0]}" if permits else ""),
        own=clean(own),
    )


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
