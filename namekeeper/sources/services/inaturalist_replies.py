"""The replies of iNaturalist as values. Identifiers of animals and vertebrates are those seen in recorded replies."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from namekeeper.evidence.statements import NameStatus, TaxonName
from namekeeper.sources.services.service import Vernacular
from namekeeper.sources.services.weighing import Found, bad_reply, printable, usable
from namekeeper.sources.shapes import Node
from namekeeper.words.forms import canonical_of
from namekeeper.words.spelling import plain_key
from namekeeper.words.terms import Verification

ANIMALS = "1"
_CHORDATES = "2"
_RANKS = frozenset({"genus", "subgenus", "species", "subspecies"})
_SCIENTIFIC = frozenset({"sci", "scientific-names", "scientific names"})


@dataclass(frozen=True, slots=True)
class Hit:
    """One taxon of a page; ``matched`` is the name by which the search came upon it."""

    taxon: TaxonName
    active: bool
    provisional: bool
    successors: tuple[str, ...]
    matched: str
    lineage: frozenset[str]
    names: tuple[Vernacular, ...]
    native: tuple[str, ...]

    @property
    def of_the_group(self) -> bool:
        return self.taxon.kingdom is not None and "Chordata" not in self.lineage and self.taxon.rank in _RANKS


def read_page(document: object) -> tuple[Hit, ...]:
    """A page of ``taxa``, ``taxa/autocomplete`` or ``taxa/{ids}``."""
    return tuple(_hit(node) for node in Node.of(document).nodes("results", needed=True))


def read_names(document: object, asked: str) -> tuple[Hit, ...]:
    """A page that answers a search for a scientific name.

    :raises UnansweredError: if it gives the name in a form that is none, or has not a word of it anywhere.
    """
    hits = read_page(document)
    usable((Found(hit.taxon, NameStatus.ACCEPTED, (), certain=False) for hit in hits), asked)
    words = set(plain_key(asked).split())
    told = (
        plain_key(text) for hit in hits for text in (hit.taxon.name, hit.matched, *(name.text for name in hit.names))
    )
    if hits and canonical_of(asked) and not any(words & set(text.split()) for text in told):
        raise bad_reply("it is about", hits[0].taxon.name, "and not about", asked)
    return hits


def read_successors(document: object) -> tuple[Hit, ...]:
    """A page of taxa by number, to whose names other names lead.

    :raises UnansweredError: if a name is none.
    """
    hits = read_page(document)
    return tuple(replace(hit, taxon=printable(hit.taxon)) for hit in hits)


def _hit(node: Node) -> Hit:
    above = node.texts("ancestor_ids") or tuple(node.text("ancestry").split("/"))
    lineage = {"Animalia"} if ANIMALS in above else set()
    if _CHORDATES in above:
        lineage.add("Chordata")
    taxon = TaxonName(
        name=node.needed("name"),
        rank=node.text("rank"),
        identifier=node.needed("id"),
        kingdom="Animalia" if ANIMALS in above else None,
    )
    return Hit(
        taxon,
        active=node.flag("is_active"),
        provisional=node.flag("provisional"),
        successors=node.texts("current_synonymous_taxon_ids"),
        matched=node.text("matched_term"),
        lineage=frozenset(lineage),
        names=tuple(_vernaculars(node, taxon)),
        native=tuple(_native(node)),
    )


def _vernaculars(node: Node, taxon: TaxonName) -> Iterator[Vernacular]:
    """Every common name once; the name that matched has no language of its own unless the list of names tells it."""
    seen = {plain_key(taxon.name)}
    for name in node.nodes("names"):
        text = name.text("name")
        locale = name.text("locale") or name.text("lexicon")
        seen.add(plain_key(text))
        if text and locale.casefold() not in _SCIENTIFIC and name.record.get("is_valid") is not False:
            yield Vernacular(text, locale, taxon)
    for key, language in (("preferred_common_name", "en"), ("matched_term", "")):
        text = node.text(key)
        if text and plain_key(text) not in seen:
            seen.add(plain_key(text))
            yield Vernacular(text, language, taxon)


def _native(node: Node) -> Iterator[str]:
    for listed in node.nodes("listed_taxa"):
        place = listed.node("place")
        if place and place.number("admin_level") == 0 and listed.text("establishment_means") in ("native", "endemic"):
            yield place.text("name")


def named(hits: Sequence[Hit], name: str) -> tuple[Hit, ...]:
    """Hits of exactly that name; a retired one does not count beside an active one."""
    same = [hit for hit in hits if plain_key(hit.taxon.name) == plain_key(name)]
    return tuple(hit for hit in same if hit.active) or tuple(same)


def attached(hits: Sequence[Hit], name: str) -> Iterator[Found]:
    """Active taxa of another name to which the asked name is attached: an old combination, or a mistaken use."""
    for hit in hits:
        if hit.active and plain_key(hit.matched) == plain_key(name) != plain_key(hit.taxon.name):
            subject = TaxonName(hit.matched, rank=hit.taxon.rank, kingdom=hit.taxon.kingdom)
            note = "the name is attached to this taxon there, perhaps by mistake"
            yield found_of(hit, subject, NameStatus.SYNONYM, (hit.taxon,), note, certain=False)


def opinion(hit: Hit, known: Mapping[str, Hit]) -> Found:
    """What a hit of exactly the asked name says; ``known`` holds its successors by identifier."""
    if hit.active:
        status = NameStatus.DOUBTFUL if hit.provisional else NameStatus.ACCEPTED
        return found_of(hit, hit.taxon, status, () if hit.provisional else (hit.taxon,))
    if not hit.successors:
        note = "retired there, without a successor"
        return found_of(hit, hit.taxon, NameStatus.UNAVAILABLE, (), note, certain=False)
    ends = tuple(known[one].taxon for one in hit.successors if one in known and known[one].active)
    if len(ends) == 1 and len(hit.successors) == 1 and plain_key(ends[0].name) == plain_key(hit.taxon.name):
        return found_of(known[hit.successors[0]], ends[0], NameStatus.ACCEPTED, ends)
    several = len(hit.successors) > 1
    fault = None if len(ends) == len(hit.successors) else "its own data do not lead to an active taxon"
    note = "split there into several taxa" if several else "swapped or merged there: which of both is not told"
    status = NameStatus.AMBIGUOUS if several else NameStatus.SYNONYM
    found = found_of(hit, hit.taxon, status, () if fault else ends, note, fault=fault)
    # That one name follows the other is told, that it is one species is not: never to be taken unseen.
    return replace(found, verification=Verification.COMPUTED)


def found_of(
    hit: Hit,
    subject: TaxonName,
    status: NameStatus,
    targets: tuple[TaxonName, ...],
    note: str | None = None,
    *,
    certain: bool = True,
    fault: str | None = None,
) -> Found:
    """The finding at a hit, with its page as link."""
    link = f"https://www.inaturalist.org/taxa/{hit.taxon.identifier}"
    # Retired taxa are often printed without their place in the tree; the question was limited to animals.
    if subject.kingdom is None and not hit.lineage:
        return Found(subject, status, targets, certain, code="zoological", link=link, note=note, fault=fault)
    return Found(subject, status, targets, certain, lineage=hit.lineage, link=link, note=note, fault=fault)
