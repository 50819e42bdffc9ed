"""What the lists know of the animals whose labels are printed: common names, and cautions on every name in question."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from namekeeper.evidence.interfaces import NameList, NameSource, UsageNotes
from namekeeper.evidence.statements import Answer, Caution, CommonName, Failure, TaxonName
from namekeeper.labels.content import SpeciesFacts
from namekeeper.outside import Progress, unwatched
from namekeeper.records.specimen import NameEntry, Specimen
from namekeeper.words.errors import InputError
from namekeeper.words.names import ScientificName
from namekeeper.words.parsing import parse_name


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
    step: Progress = unwatched,
) -> NameFacts:
    """Common names and cautions for the specimens; ``collection`` holds their parents as far as they are in it.

    Cautions are a union: names in force and former ones, every name these may stand for, parents (animals of the
    collection, and species of a hybrid), the candidates of a tag that is not settled, and the taxa above all of these.
    Better one caution too many than one too few.
    """
    everyone = {one.id.casefold(): one for one in collection}
    recorded = {one.id: tuple(dict.fromkeys(_recorded(one, everyone))) for one in specimens}
    meanings = _Meanings()
    meanings.ask(tuple(dict.fromkeys(name for names in recorded.values() for name in names)), lists)
    cautions: dict[frozenset[str], tuple[Caution, ...]] = {}
    common: dict[str, tuple[CommonName, ...]] = {}
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
        if name and name not in common:
            common[name] = next((card.common for one in lists if (card := one.card(name))), ())
        known[specimen.id] = SpeciesFacts(common.get(name, ()), cautions[key])
        step(number, len(specimens), specimen.id)
    return NameFacts(known, tuple(meanings.failures))


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
