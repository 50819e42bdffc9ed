"""What the lists know of the animals whose labels are printed: common names, and cautions on every name in question."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from namekeeper.evidence.interfaces import NameCard, NameList
from namekeeper.evidence.statements import Caution
from namekeeper.labels.content import Known
from namekeeper.records.specimen import Specimen
from namekeeper.tasks.check import Finding
from namekeeper.words.errors import InputError
from namekeeper.words.names import ScientificName, parse_name


def gather_known(findings: Sequence[Finding], lists: Sequence[NameList]) -> dict[str, Known]:
    """By specimen: what labels may say beyond the specimen's own record.

    Cautions are a union: name in force, what a check proposes, every open choice, every former name, the parents of a
    hybrid, and the taxa above all of these. Better one caution too many than one too few.
    """
    cards: dict[str, NameCard | None] = {}
    cautions: dict[tuple[str, ...], tuple[Caution, ...]] = {}
    known = {}
    for finding in findings:
        names = tuple(dict.fromkeys(_names(finding)))
        for name in names:
            if name not in cards:
                cards[name] = next((card for one in lists if (card := one.card(name))), None)
        taxa = tuple(sorted(set(_taxa(names, cards))))
        if taxa not in cautions:
            cautions[taxa] = tuple(dict.fromkeys(caution for one in lists for caution in one.cautions(taxa)))
        own = finding.specimen.entry_in_force()
        card = cards.get(_canonical(own.name)) if own else None
        known[finding.specimen.id] = Known(card.common if card else (), cautions[taxa])
    return known


def _names(finding: Finding) -> Iterable[str]:
    yield from _recorded(finding.specimen)
    if finding.verdict.proposed is not None:
        yield _canonical(finding.verdict.proposed.name)
    for choice in finding.verdict.choices:
        yield _canonical(choice.name)


def _recorded(specimen: Specimen) -> Iterable[str]:
    entry = specimen.entry_in_force()
    for one in (*((entry,) if entry else ()), *specimen.live_entries()):
        for name in _parts(one.name):
            yield name.canonical


def _parts(text: str) -> tuple[ScientificName, ...]:
    """The name itself, or the parents of a hybrid; nothing that cannot be read as a name."""
    try:
        name = parse_name(text)
    except InputError:
        return ()
    return name.parents or (name,)


def _canonical(text: str) -> str:
    return next((name.canonical for name in _parts(text)), text)


def _taxa(names: Sequence[str], cards: Mapping[str, NameCard | None]) -> Iterable[str]:
    for name in names:
        yield name
        yield name.split(" ")[0]
        words = name.split(" ")
        if len(words) > 2:
            yield " ".join(words[:2])
        card = cards.get(name)
        if card is not None:
            yield card.taxon.name
            yield from card.taxon.higher
