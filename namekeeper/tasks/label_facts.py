"""What the lists know of the animals whose labels are printed: common names, and cautions on every name in question."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from namekeeper.evidence.interfaces import CommonNames, NameCard, NameList, NameSource, UsageNotes
from namekeeper.evidence.statements import Answer, Caution, CommonName, Failure, TaxonName
from namekeeper.labels.content import NameYears, SpeciesFacts
from namekeeper.outside import Progress, unwatched
from namekeeper.records.specimen import NameEntry, Specimen
from namekeeper.sources.lists.folding import common_words
from namekeeper.words.errors import InputError
from namekeeper.words.names import ScientificName
from namekeeper.words.parsing import parse_authorship, parse_name
from namekeeper.words.terms import Standing


@dataclass(frozen=True, slots=True)
class NameFacts:
    """By specimen id what labels may say beyond the record, and which lists could not be asked."""

    known: Mapping[str, SpeciesFacts]
    failures: tuple[Failure, ...] = ()


@dataclass(slots=True)
class _Meanings:
    """What a name may mean by the lists: every taxon that any statement, misuse, split or dispute points to."""

    taxa: dict[str, set[str]] = field(default_factory=dict)
    failures: list[Failure] = field(default_factory=list)

    def ask(self, names: Sequence[str], lists: Sequence[NameSource]) -> None:
        for one in lists:
            for reply in one.ask(names):
                if isinstance(reply, Answer):
                    self.taxa.setdefault(reply.asked, set()).update(_pointed_to(reply))
                else:
                    self.failures.append(reply)


def gather_facts(
    specimens: Sequence[Specimen],
    lists: Sequence[NameList],
    collection: Sequence[Specimen] = (),
    fields: Collection[str] = (),
    step: Progress = unwatched,
) -> NameFacts:
    """Common names and cautions for the specimens; ``collection`` holds their parents as far as they are in it.

    Cautions are a union: names in force and former ones, every name these may stand for, parents (animals of the
    collection, and species of a hybrid), the candidates of a tag that is not settled, and the taxa above all of these.
    Better one caution too many than one too few. ``fields`` are those shown: what takes time is found only for them.
    """
    everyone = {one.id.casefold(): one for one in collection}
    recorded = {one.id: tuple(dict.fromkeys(_recorded(one, everyone))) for one in specimens}
    meanings = _Meanings()
    meanings.ask(tuple(dict.fromkeys(name for names in recorded.values() for name in names)), lists)
    cautions: dict[frozenset[str], tuple[Caution, ...]] = {}
    cards: dict[str, tuple[NameCard, ...]] = {}
    commons = LabelCommons(lists)
    known = {}
    for number, specimen in enumerate(specimens, 1):
        taxa = set(_above(recorded[specimen.id]))
        for name in recorded[specimen.id]:
            taxa |= meanings.taxa.get(name, set())
        taxa |= set(_open_choices(specimen, lists))
        key = frozenset(taxa)
        if key not in cautions:
            found = (caution for one in lists for caution in one.cautions(sorted(key)))
            cautions[key] = tuple(dict.fromkeys(found))
        entry = specimen.entry_in_force()
        name = next((part.canonical for part in _parts(entry.name)), "") if entry else ""
        if name and name not in cards:
            cards[name] = tuple(card for one in lists if (card := one.card(name)))
        known[specimen.id] = _facts(specimen, cautions[key], cards.get(name, ()), commons, fields)
        step(number, len(specimens), specimen.id)
    return NameFacts(known, tuple(meanings.failures))


def _facts(
    specimen: Specimen,
    cautions: tuple[Caution, ...],
    cards: Sequence[NameCard],
    commons: LabelCommons,
    fields: Collection[str],
) -> SpeciesFacts:
    return SpeciesFacts(
        common=commons.usual(cards),
        sold_as=commons.on_tag(specimen.tag, cards),
        cautions=cautions,
        range=next((card.taxon.range for card in cards if card.taxon.range), ()),
        years=_years(cards) if cards and "years" in fields else None,
        mark=_mark(specimen) if "mark" in fields else "",
    )


def _years(cards: Sequence[NameCard]) -> NameYears:
    from namekeeper.judging.aka import also_known

    known = also_known(cards)
    kept = (Standing.MOVED, Standing.RENAMED, Standing.RESPELLED)
    until = {(one.year[:4], one.name) for one in known.former if one.year and one.standing in kept}
    described = parse_authorship(known.taxon.authorship).year
    first = next((part.canonical for part in _parts(known.described_in)), "") if known.described_in else ""
    return NameYears(str(described or ""), first, tuple(sorted(until)))


def _mark(specimen: Specimen) -> str:
    """What the tag says of where the animal comes from."""
    # Only now: reading tags is a large import, and most labels show no mark.
    from namekeeper.reading.tag import read_tag

    return read_tag(specimen.tag).source_mark if specimen.tag else ""


def _pointed_to(answer: Answer) -> Iterator[str]:
    statements = (taxon for statement in answer.statements for taxon in (statement.subject, *statement.targets))
    misuses = (taxon for misuse in answer.misuses for taxon in misuse.meant)
    divisions = (taxon for division in answer.divisions for taxon in division.into)
    disputes = (taxon for dispute in answer.disputes for taxon in dispute.targets)
    for taxon in (*statements, *misuses, *divisions, *disputes):
        yield from _with_higher(taxon)


def _with_higher(taxon: TaxonName) -> Iterator[str]:
    yield from _above((taxon.name,))
    yield from taxon.higher


def _recorded(specimen: Specimen, everyone: Mapping[str, Specimen]) -> Iterator[str]:
    """Names the animal and its parents carry or carried."""
    parents = (everyone[origin.casefold()] for origin in specimen.origin if origin.casefold() in everyone)
    for one in (specimen, *parents):
        for entry in one.live_entries():
            for name in _parts(entry.name):
                yield name.canonical


def _parts(text: str) -> tuple[ScientificName, ...]:
    """The name itself, or the parents of a hybrid; nothing that cannot be read as a name."""
    try:
        name = parse_name(text)
    except InputError:
        return ()
    return name.parents or (name,)


def _above(names: Iterable[str]) -> Iterator[str]:
    """Every name with the species and the genus it belongs to."""
    for name in names:
        words = name.split(" ")
        for count in range(1, len(words) + 1):
            yield " ".join(words[:count])


def _open_choices(specimen: Specimen, lists: Sequence[NameList]) -> Iterator[str]:
    """What an unsettled tag may mean, and what a trade form was described as since."""
    entry = specimen.entry_in_force()
    if entry is not None:
        yield from _described(entry, lists)
        return
    # Only now: reading tags is a large import, and most labels have a name.
    from namekeeper.tasks.lookup import look_up

    (looked,) = look_up((specimen.tag,), lists, specimen.acquired)
    for candidate in looked.lookup.candidates:
        yield from _above((candidate.name,))


def _described(entry: NameEntry, lists: Sequence[UsageNotes]) -> Iterator[str]:
    if not entry.trade_form:
        return
    genus = entry.name.split(" ")[0]
    for one in lists:
        for form in one.forms(genus, entry.trade_form):
            if form.described_as is not None:
                yield from _with_higher(form.described_as)


class LabelCommons:
    """Common names of species by their cards; whether a name means another species is asked of every list once."""

    def __init__(self, lists: Sequence[CommonNames]) -> None:
        self._lists = lists
        self._meanings: dict[str, frozenset[str]] = {}

    def usual(self, cards: Sequence[NameCard]) -> tuple[CommonName, ...]:
        """The names that lists mark as the usual ones, by language."""
        return tuple(name for card, name in _proper(cards) if name.usual and self._means_only(name, card))

    def on_tag(self, tag: str, cards: Sequence[NameCard]) -> str:
        """The longest common name of the species that the tag holds, as the list writes it; empty if it holds none."""
        said = common_words(tag)
        if not said or not cards:
            return ""
        held = [(card, name) for card, name in _proper(cards) if _holds(said, common_words(name.text))]
        held.sort(key=lambda one: (-len(one[1].text), one[1].text))
        return next((name.text for card, name in held if self._means_only(name, card)), "")

    def _means_only(self, name: CommonName, card: NameCard) -> bool:
        if name.text not in self._meanings:
            found = (other.taxon.name for one in self._lists for other in one.common(name.text))
            self._meanings[name.text] = frozenset(found)
        return self._meanings[name.text] <= {card.taxon.name}


def _proper(cards: Sequence[NameCard]) -> Iterator[tuple[NameCard, CommonName]]:
    """No nicknames and abbreviations."""
    return ((card, name) for card in cards for name in card.common if name.kind == "common")


def _holds(said: Sequence[str], words: Sequence[str]) -> bool:
    """Whether the words stand in what is said, in this order and together."""
    count = len(words)
    return bool(words) and any(list(said[at : at + count]) == list(words) for at in range(len(said) - count + 1))
