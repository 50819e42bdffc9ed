"""Every name a species has carried: older care advice and papers are filed under older names."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from urllib.parse import quote, quote_plus

from namekeeper.evidence.interfaces import NameCard
from namekeeper.evidence.statements import Caution, CommonName, Misuse, Statement, TaxonName
from namekeeper.judging.change import (
    bracketed,
    genus_of,
    kind_of_change,
    last_epithet,
    name_key,
    same_author,
    same_stem,
    with_brackets,
)
from namekeeper.words.spelling import PlainKey, plain_key
from namekeeper.words.terms import Standing

# Pages a person can open; each searches for the name written out.
_PAGES = (
    ("GBIF", "https://www.gbif.org/species/search?q={plus}"),
    ("Catalogue of Life in ChecklistBank", "https://www.checklistbank.org/dataset/3LXR/names?q={plus}"),
    ("iNaturalist", "https://www.inaturalist.org/taxa/search?q={plus}"),
    ("Wikidata", "https://www.wikidata.org/w/index.php?search={plus}"),
    ("Biodiversity Heritage Library (papers)", "https://www.biodiversitylibrary.org/search?searchTerm={quoted}"),
)
_SPIDERS = ("World Spider Catalog", "https://wsc.nmbe.ch")


@dataclass(frozen=True, slots=True)
class FormerName:
    """A name the species carried: what happened to it, when (year, "" if not known), and who says so."""

    name: str
    authorship: str
    standing: Standing
    year: str
    source: str


@dataclass(frozen=True, slots=True)
class PageLink:
    title: str
    url: str


@dataclass(frozen=True, slots=True)
class AlsoKnown:
    """All names of one species. ``described_in`` is its first combination, "" if no source tells it.

    ``sold_as`` are names of other species under which the trade has sold it; they are no names of it and stay out of
    ``search``, but advice on it may be filed there. ``as_of`` is the year up to which the status was followed, by the
    first card, ``revised`` that of a newer revision of the genus. ``cautions`` are on the species and its higher taxa.
    """

    taxon: TaxonName
    former: tuple[FormerName, ...]
    common: tuple[CommonName, ...]
    sold_as: tuple[Misuse, ...]
    search: str
    described_in: str
    links: tuple[PageLink, ...]
    as_of: str = ""
    revised: str = ""
    cautions: tuple[Caution, ...] = ()


def also_known(cards: Sequence[NameCard]) -> AlsoKnown:
    """The cards of all lists on one species as one; the first card leads.

    :param cards: at least one.
    """
    lead = cards[0].taxon
    taxon = bracketed(
        TaxonName(
            lead.name,
            _first(card.taxon.authorship for card in cards),
            lead.rank,
            _first(card.taxon.original_genus or "" for card in cards) or None,
            higher=next((card.taxon.higher for card in cards if card.taxon.higher), ()),
            range=next((card.taxon.range for card in cards if card.taxon.range), ()),
        )
    )
    former = _former(taxon, [said for card in cards for said in card.former])
    names = [taxon.name, *(old.name for old in former)]
    return AlsoKnown(
        taxon,
        former,
        _common(cards),
        _sold_as(taxon, former, cards),
        search_expression(names),
        _described_in(taxon, former),
        _links(taxon),
        cards[0].as_of,
        cards[0].revised,
        tuple(dict.fromkeys(caution for card in cards for caution in card.cautions)),
    )


def search_expression(names: Iterable[str]) -> str:
    """Names in quotes joined by OR, in the order given, each once: most search pages read it so."""
    kept: dict[PlainKey, str] = {}
    for name in names:
        kept.setdefault(plain_key(name), name)
    return " OR ".join(f'"{name}"' for name in kept.values())


def _former(taxon: TaxonName, said: Sequence[Statement]) -> tuple[FormerName, ...]:
    """Each former name once, the newest act first, names without a dated act last."""
    found: dict[PlainKey, FormerName] = {}
    for statement in said:
        old = _of(statement)
        before = found.get(plain_key(old.name))
        if before is None or (old.year and not before.year):
            found[plain_key(old.name)] = old
    found.pop(plain_key(taxon.name), None)
    return tuple(sorted(found.values(), key=lambda old: (not old.year, [-ord(c) for c in old.year], old.name)))


def _of(statement: Statement) -> FormerName:
    subject = statement.subject
    own = [act for act in statement.acts if name_key(act.old) == name_key(subject.name)] or list(statement.acts)
    act = own[0] if own else None
    standing = Standing.MERGED
    if statement.targets:
        standing = kind_of_change(subject, statement.targets[0], statement.status, statement.acts)
    cited = act.citation if act and act.citation else statement.edition.title or statement.edition.source
    return FormerName(subject.name, subject.authorship, standing, act.year if act else "", cited)


def _sold_as(taxon: TaxonName, former: Sequence[FormerName], cards: Sequence[NameCard]) -> tuple[Misuse, ...]:
    own = {name_key(taxon.name), *(name_key(old.name) for old in former)}
    found = {name_key(misuse.name): misuse for card in reversed(cards) for misuse in card.sold_as}
    return tuple(found[key] for key in sorted(found) if key not in own)


def _common(cards: Sequence[NameCard]) -> tuple[CommonName, ...]:
    """Common names by language, each once; those of unknown language last."""
    kept: dict[tuple[str, PlainKey], CommonName] = {}
    for card in cards:
        for name in card.common:
            kept.setdefault((name.language, plain_key(name.text)), name)
    return tuple(sorted(kept.values(), key=lambda name: (name.language == "und", name.language, plain_key(name.text))))


def _described_in(taxon: TaxonName, former: Sequence[FormerName]) -> str:
    """The combination of the first description, as a former name has it, else by its genus."""
    if not taxon.original_genus:
        return ""
    genus = taxon.original_genus
    if plain_key(genus) == plain_key(genus_of(taxon.name)):
        return f"{taxon.name} {taxon.authorship}".strip()
    author = with_brackets(taxon.authorship, due=False)
    for old in former:
        same = same_stem(last_epithet(old.name), last_epithet(taxon.name))
        if genus_of(old.name) == genus and same and same_author(old.authorship, author) is not False:
            return f"{old.name} {author}".strip()
    return f"{genus} (as a species of that genus, {author})" if author else genus


def _links(taxon: TaxonName) -> tuple[PageLink, ...]:
    name = taxon.name
    pages = [PageLink(title, url.format(plus=quote_plus(name), quoted=quote(f'"{name}"'))) for title, url in _PAGES]
    spiders = [PageLink(*_SPIDERS)] if "Araneae" in taxon.higher else []
    return (*pages, *spiders)


def _first(texts: Iterable[str]) -> str:
    return next((text for text in texts if text), "")
