"""The look-up and the own animals as one value that needs no machine of ours: for a file on a phone."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from datetime import date
from typing import NamedTuple

from namekeeper.evidence.interfaces import NameCard, NameList
from namekeeper.evidence.statements import Edition
from namekeeper.outside import Outside, Work
from namekeeper.reading.handout import Handout, handout
from namekeeper.records.specimen import Collection, Specimen
from namekeeper.sources.lists.registry import open_lists, starter
from namekeeper.tasks.desk import CollectionDesk
from namekeeper.tasks.pocket_answers import Answers, weakest_answers, written_words
from namekeeper.words.errors import InputError, Problem

#: Facts of an animal that go along only where the keeper says so, and where they stand in a specimen.
MAY_GO_ALONG = ("place", "note", "sex", "stage", "acquired", "locality", "common", "from", "size", "price")


class OwnAnimal(NamedTuple):
    """An animal of the collection: its number, name, former names, and what else may leave the house."""

    id: str
    name: str
    former: tuple[str, ...]
    more: Mapping[str, str]


class Pocket(NamedTuple):
    """All that goes along; ``cards`` by name in force, ``problems`` are files that could not be read."""

    made: date
    edition: Edition
    answers: Answers
    cards: Mapping[str, NameCard]
    reader: Handout
    animals: tuple[OwnAnimal, ...] = ()
    problems: tuple[Problem, ...] = ()


def fill_pocket(outside: Outside, desk: CollectionDesk | None, along: Sequence[str] = ()) -> Pocket:
    """The starter list's words with their answers by all lists of this machine, and the animals at ``desk``.

    Nothing is asked. Of an animal only number, name and former names go along, and the facts named by ``along``.

    :raises InputError: for a fact that is not in :data:`MAY_GO_ALONG`.
    :raises FileError: if there is no such collection.
    """
    unknown = [fact for fact in along if fact not in MAY_GO_ALONG]
    if unknown:
        what = f"'{unknown[0]}' is no fact of an animal that can go along"
        raise InputError(what, remedy="choose of: " + ", ".join(MAY_GO_ALONG))
    collection = desk.open() if desk else None
    animals = tuple(own_animals(collection, along)) if collection else ()
    with open_lists(outside.places, outside.notice) as lists:
        own = starter(outside.places, outside.notice)
        try:
            texts = list(dict.fromkeys([*written_words(own.whole()), *_own_names(animals)]))
        finally:
            own.close()
        with outside.progress(Work.ANSWERING) as tell:
            answers = weakest_answers(texts, lists, lambda done: tell(done, len(texts)))
        cards = _cards({c.name for lookup in answers.values() for c in lookup.candidates if c.is_species}, lists)
        edition = lists[0].edition
    return Pocket(outside.today, edition, answers, cards, handout(), animals, collection.problems if collection else ())


def own_animals(collection: Collection, along: Sequence[str]) -> Iterator[OwnAnimal]:
    """The animals that are still there, in the order of the collection."""
    for specimen in collection.kept():
        in_force = specimen.entry_in_force()
        name = in_force.name if in_force else ""
        former = tuple(dict.fromkeys(entry.name for entry in specimen.live_entries() if entry.name != name))
        facts = {fact: text for fact in along if (text := _fact(specimen, fact))}
        yield OwnAnimal(specimen.id, name, former, facts)


def _fact(specimen: Specimen, fact: str) -> str:
    match fact:
        case "place":
            return specimen.stands_at
        case "from":
            return "; ".join(specimen.origin)
        case "sex":
            return specimen.sex.text if specimen.sex else ""
        case "acquired":
            return specimen.acquired.text if specimen.acquired else ""
        case _:
            return str(getattr(specimen, fact))


def _own_names(animals: Iterable[OwnAnimal]) -> Iterator[str]:
    for animal in animals:
        yield from filter(None, (animal.name, *animal.former))


def _cards(names: Iterable[str], lists: Sequence[NameList]) -> dict[str, NameCard]:
    found = ((name, next((card for one in lists if (card := one.card(name))), None)) for name in sorted(names))
    return {name: card for name, card in found if card is not None}
