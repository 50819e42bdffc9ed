"""Find one species by any of its names, and gather all the others."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from namekeeper.evidence.interfaces import NameCard, NameList, SpeciesCards
from namekeeper.evidence.statements import Failure, NameStatus, Statement, TaxonName
from namekeeper.judging.aka import AlsoKnown, also_known
from namekeeper.judging.change import name_key
from namekeeper.outside import Outside
from namekeeper.sources.lists.registry import open_lists
from namekeeper.tasks.lookup import look_up
from namekeeper.tasks.online import MoreCards, cards_online
from namekeeper.words.errors import InputError
from namekeeper.words.parsing import parse_name
from namekeeper.words.terms import AnswerKind, How


class Led(NamedTuple):
    """How a question led to a species: what was asked, and how that stands for it."""

    asked: str
    name: str
    how: How


@dataclass(frozen=True, slots=True)
class KnownName:
    """The names of a species, and how the question led to it; None if it was asked by its name in force."""

    aka: AlsoKnown
    led: Led | None


def find_names(asked: str, outside: Outside, tell: Callable[[Failure], None] | None = None) -> KnownName:
    """All names of a species by the lists of this machine; see :func:`names_of`.

    With ``tell`` the services that list synonyms are asked too; it hears of each that could not be.
    """
    with open_lists(outside.places, outside.notice) as lists:
        if tell is None:
            return names_of(asked, lists)
        return names_of(asked, lists, cards_online(outside, lists, tell))


def names_of(asked: str, lists: Sequence[NameList], more: MoreCards = lambda name: ()) -> KnownName:
    """All names of the species that ``asked`` means: a scientific name, in force or not, or a common name.

    ``more`` adds what services list; a scientific name that no list has is taken from there alone.

    :raises InputError: if no list has it, or it may mean several species; the remedy names them.
    """
    name = _scientific(asked)
    said = [one for found in lists for one in found.named(name)] if name else []
    exact = [one for one in said if one.match.speaks]
    in_force = {target.name: target for one in exact for target in one.targets}
    if any(one.status is NameStatus.ACCEPTED for one in exact):
        in_force = {one.subject.name: one.subject for one in exact if one.status is NameStatus.ACCEPTED}
    if len(in_force) > 1:
        raise _several(asked, list(in_force))
    if exact and not in_force:
        raise _no_name_in_force(exact)
    if not in_force:
        cards = more(name) if name else ()
        return _of_cards(name, cards) if cards else _by_tag(asked, lists, more)
    target = next(iter(in_force))
    return KnownName(_gathered(target, lists, more), _led(name, target))


def _of_cards(name: str, cards: Sequence[NameCard]) -> KnownName:
    """The species that services make of a name; the first leads."""
    target = cards[0].taxon.name
    same = [card for card in cards if name_key(card.taxon.name) == name_key(target)]
    return KnownName(also_known(same), _led(name, target))


def _led(name: str, target: str) -> Led | None:
    return None if name_key(target) == name_key(name) else Led(name, target, How.FORMER)


def _scientific(asked: str) -> str:
    try:
        return parse_name(asked).canonical
    except InputError:
        return ""


def _by_tag(asked: str, lists: Sequence[NameList], more: MoreCards) -> KnownName:
    """The species a text means that is no listed scientific name."""
    looked = next(look_up([asked], lists))
    species = [candidate for candidate in looked.lookup.candidates if candidate.is_species]
    firm = [candidate for candidate in species if candidate.firm]
    if looked.lookup.answer is AnswerKind.ONE and species:
        return KnownName(_gathered(species[0].name, lists, more), Led(asked, species[0].name, species[0].how))
    if firm:
        raise _several(asked, [candidate.name for candidate in firm])
    what = f"no list on this machine has '{asked}'"
    near = ", ".join(candidate.name for candidate in species)
    raise InputError(what, remedy=f"spelt similarly: {near}" if near else "check the spelling, or add a list")


def _gathered(name: str, lists: Sequence[SpeciesCards], more: MoreCards) -> AlsoKnown:
    cards = [card for found in lists if (card := found.card(name)) is not None]
    if cards:
        further = [card for card in more(name) if name_key(card.taxon.name) == name_key(name)]
        return also_known([*cards, *further])
    what = f"no list on this machine accepts {name}"
    raise InputError(what, remedy="see namekeeper lookup for what they say of it")


def _several(asked: str, names: Sequence[str]) -> InputError:
    listed = ", ".join(dict.fromkeys(names))
    return InputError(f"'{asked}' may mean several species", remedy=f"ask for one of them: {listed}")


def _no_name_in_force(said: Sequence[Statement]) -> InputError:
    subject: TaxonName = said[0].subject
    what = f"{subject.name} {subject.authorship}".strip() + " has no name in force: it is doubtful or not available"
    return InputError(what, remedy="see namekeeper lookup for what the trade means by it")
