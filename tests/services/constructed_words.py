"""Constructed replies (none is a recording): one for every word by which a service says what it found.

Each is built after the path of the server's own code, or the document, that is named beside it; names, authors and
identifiers in it are invented. ``said`` is what an adapter must make of it.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Any

from namekeeper.evidence.statements import NameStatus

NAME, AUTHOR, VALID = "Exemplum vulgare", "(Primus, 1850)", "Novogenus vulgare"
SPEAKS, HINTS, SILENT, FAILS = "speaks", "hints", "silent", "fails"
Body = dict[str, Any]


@dataclass(frozen=True)
class Word:
    """A reply to ``NAME`` asked of ``service``, with ``author`` if that is sent; ``statuses`` of what speaks."""

    service: str
    word: str
    body: Any
    said: str
    after: str
    status: NameStatus | None = None
    targets: tuple[str, ...] = ()
    author: str = ""

    def __str__(self) -> str:
        return f"{self.service}-{self.word}{'-with-author' if self.author else ''}"


# --- ChecklistBank: CatalogueOfLife/backend@37d9913
_MATCHER = "CatalogueOfLife/backend@37d9913 core/src/main/java/life/catalogue/matching/UsageMatcher.java"
_STATUSES = "CatalogueOfLife/backend@37d9913 vocab/src/main/java/life/catalogue/api/vocab/TaxonomicStatus.java"


def clb_usage(name: str = NAME, author: str = AUTHOR, status: str = "accepted", **more: Any) -> Body:
    """A ``SimpleNameClassified``: the classification of a former name begins with its name in force."""
    line = [{"id": f"X{taxon}", "name": taxon, "rank": rank, "status": "accepted"} for rank, taxon in _LINE]
    if status not in ("accepted", "provisionally accepted"):
        line.insert(0, {"id": "XVALID", "name": VALID, "authorship": AUTHOR, "rank": "species", "status": "accepted"})
    usage = {"id": "X1", "name": name, "authorship": author, "rank": "species", "code": "zoological"}
    return usage | {"status": status, "parent": line[0]["id"], "classification": line} | more


_LINE = (("genus", "Exemplum"), ("family", "Exemplidae"), ("class", "Arachnida"), ("kingdom", "Animalia"))


def clb(kind: str, usage: Body | None, **more: Any) -> Body:
    """A ``UsageMatchWithOriginal``."""
    found = {} if usage is None else {"id": usage["id"], "usage": usage}
    return {"match": usage is not None, "type": kind, "original": {"name": NAME}, "issues": {}} | found | more


def _checklistbank() -> Iterator[Word]:
    accepted = NameStatus.ACCEPTED
    other = clb_usage("Exemplum commune")
    homonym = clb_usage(author="Secundus, 1901", id="X2", status="synonym", parent="XOTHER")
    for author in ("", AUTHOR):
        for kind, usage in (("exact", clb_usage(author=author)), ("variant", clb_usage()), ("canonical", clb_usage())):
            yield Word(
                "checklistbank", kind, clb(kind, usage), SPEAKS, f"{_MATCHER} match()", accepted, (NAME,), author
            )
        ending = clb("variant", clb_usage("Exemplum vulgaris"))
        yield Word("checklistbank", "variant of an ending", ending, SPEAKS, f"{_MATCHER} match()", accepted,
                   ("Exemplum vulgaris",), author)  # fmt: skip
        spelling = clb("variant", clb_usage("Exemplum bulgare"))
        yield Word("checklistbank", "variant of a letter", spelling, HINTS, f"{_MATCHER} match()", author=author)
        several = clb("ambiguous", clb_usage(), alternatives=[homonym])
        yield Word("checklistbank", "ambiguous", several, HINTS, f"{_MATCHER} filterCandidates()", author=author)
        higher = clb("higherrank", clb_usage("Exemplum", rank="genus"))
        yield Word("checklistbank", "higherrank", higher, HINTS, f"{_MATCHER} matchHigherRank()", author=author)
        for kind in ("none", "unsupported"):
            yield Word("checklistbank", kind, clb(kind, None), SILENT, f"{_MATCHER} match()", author=author)
        none = clb("none", None, alternatives=[homonym])
        yield Word("checklistbank", "none of several", none, SILENT, f"{_MATCHER} filterCandidates()", author=author)
    picked = clb("variant", clb_usage(), alternatives=[homonym])
    yield Word("checklistbank", "one of two homonyms", picked, HINTS, f"{_MATCHER} filterCandidates()")
    yield Word("checklistbank", "one of two homonyms", picked, SPEAKS, f"{_MATCHER} filterCandidates()", accepted,
               (NAME,), AUTHOR)  # fmt: skip
    twice = clb("variant", clb_usage(), alternatives=[other, clb_usage(id="X3", status="synonym", parent="X1")])
    yield Word("checklistbank", "beside its own synonym", twice, SPEAKS, f"{_MATCHER} filterCandidates()", accepted,
               (NAME,))  # fmt: skip
    for word, said, status, targets in (
        ("accepted", SPEAKS, accepted, (NAME,)),
        ("provisionally accepted", SPEAKS, NameStatus.DOUBTFUL, ()),
        ("synonym", SPEAKS, NameStatus.SYNONYM, (VALID,)),
        ("ambiguous synonym", HINTS, None, ()),
        ("misapplied", SPEAKS, NameStatus.MISAPPLIED, (VALID,)),
        ("bare name", SPEAKS, NameStatus.UNAVAILABLE, ()),
        ("a new word", FAILS, None, ()),
    ):
        for kind in ("exact", "variant"):
            body = clb(kind, clb_usage(status=word))
            yield Word("checklistbank", f"{kind} {word}", body, said, _STATUSES, status, targets)


# --- GBIF: gbif/matching-ws@785318d
_INDEX = "gbif/matching-ws@785318d src/main/java/life/catalogue/matching/index/DatasetIndex.java search()"
_SERVICE = "gbif/matching-ws@785318d src/main/java/life/catalogue/matching/service/MatchingService.java"


def gbif_usage(name: str = NAME, author: str = AUTHOR, rank: str = "SPECIES") -> Body:
    """A ``Usage``; what is null is left out."""
    usage = {"key": "X1", "name": f"{name} {author}".strip(), "canonicalName": name, "rank": rank, "code": "ZOOLOGICAL"}
    return usage | ({"authorship": author} if author else {})


def gbif(kind: str, usage: Body | None, status: str = "ACCEPTED", **diagnostics: Any) -> Body:
    """A ``NameUsageMatch``."""
    body: Body = {"diagnostics": {"matchType": kind, "confidence": 99, "timeTaken": 1} | diagnostics, "synonym": False}
    if usage is not None:
        body |= {"usage": usage | {"status": status}}
        body["classification"] = [{"key": f"X{one}", "name": one, "rank": rank.upper()} for rank, one in _LINE[::-1]]
        if status in ("SYNONYM", "AMBIGUOUS_SYNONYM", "MISAPPLIED"):
            body |= {"acceptedUsage": gbif_usage(VALID), "synonym": True}
    return body


def _gbif() -> Iterator[Word]:
    for author in ("", AUTHOR):
        for kind in ("EXACT", "CANONICAL"):
            body = gbif(kind, gbif_usage(author=author))
            word = f"{kind} {'with' if author else 'without'} author"
            yield Word("gbif", word, body, SPEAKS, _INDEX, NameStatus.ACCEPTED, (NAME,))
        for kind, usage in (
            ("VARIANT", gbif_usage("Exemplum bulgare", author)),
            ("HIGHERRANK", gbif_usage("Exemplum", author, "GENUS")),
            ("AMBIGUOUS", gbif_usage(author=author)),
        ):
            word = f"{kind} {'with' if author else 'without'} author"
            yield Word("gbif", word, gbif(kind, usage), HINTS, f"{_SERVICE} match()")
    for kind in ("NONE", "UNSUPPORTED"):
        yield Word("gbif", kind, gbif(kind, None), SILENT, f"{_SERVICE} noMatch()")
    equal = f"Multiple equal matches for {NAME}"
    one = gbif("EXACT", gbif_usage())
    body = gbif("NONE", None, note=equal, alternatives=[one, one])
    yield Word("gbif", "NONE of several equal", body, HINTS, f"{_SERVICE} match()")
    yield Word("gbif", "EXACT of little confidence", gbif("EXACT", gbif_usage(), confidence=79), HINTS, _SERVICE)
    for word, said, status, targets in (
        ("ACCEPTED", SPEAKS, NameStatus.ACCEPTED, (NAME,)),
        ("PROVISIONALLY_ACCEPTED", SPEAKS, NameStatus.DOUBTFUL, ()),
        ("SYNONYM", SPEAKS, NameStatus.SYNONYM, (VALID,)),
        ("AMBIGUOUS_SYNONYM", HINTS, None, ()),
        ("MISAPPLIED", SPEAKS, NameStatus.MISAPPLIED, (VALID,)),
        ("BARE_NAME", SPEAKS, NameStatus.UNAVAILABLE, ()),
        ("A_NEW_WORD", FAILS, None, ()),
    ):
        yield Word("gbif", word, gbif("EXACT", gbif_usage(), word), said, _STATUSES, status, targets)


# --- iNaturalist: inaturalist/iNaturalistAPI@00b638a
_TAXA = "inaturalist/iNaturalistAPI@00b638a lib/controllers/v1/taxa_controller.js search()"
_FIXTURES = "inaturalist/iNaturalistAPI@00b638a schema/fixtures.js"


def inat(number: int, name: str, *, active: bool = True, **more: Any) -> Body:
    """A taxon as the index holds it; a retired one is often without its ancestors."""
    taxon = {"id": number, "name": name, "rank": "species", "is_active": active, "matched_term": name}
    return taxon | ({"ancestor_ids": [48460, 1, number]} if active else {}) | more


def _inaturalist() -> Iterator[Word]:
    def page(*taxa: Body) -> Body:
        return {"total_results": len(taxa), "page": 1, "per_page": 30, "results": list(taxa)}

    one, two = inat(92, VALID), inat(93, "Novogenus alterum")
    yield Word("inaturalist", "active", page(inat(91, NAME)), SPEAKS, _TAXA, NameStatus.ACCEPTED, (NAME,))
    doubted = page(inat(91, NAME, provisional=True))
    yield Word("inaturalist", "provisional", doubted, SPEAKS, _TAXA, NameStatus.DOUBTFUL)
    swapped = page(inat(91, NAME, active=False, current_synonymous_taxon_ids=[92]), one)
    yield Word("inaturalist", "replaced by one", swapped, SPEAKS, f"{_FIXTURES} 10003", NameStatus.SYNONYM, (VALID,))
    split = page(inat(91, NAME, active=False, current_synonymous_taxon_ids=[92, 93]), one, two)
    ends = (VALID, "Novogenus alterum")
    yield Word("inaturalist", "replaced by two", split, SPEAKS, f"{_FIXTURES} 10005", NameStatus.AMBIGUOUS, ends)
    without: tuple[Body, ...] = ({}, {"current_synonymous_taxon_ids": None}, {"current_synonymous_taxon_ids": []})
    for gone in without:
        dropped = page(inat(91, NAME, active=False, **gone))
        yield Word("inaturalist", f"dropped {gone}", dropped, HINTS, f"{_FIXTURES} 10004")
    attached = page(inat(92, VALID, matched_term=NAME))
    yield Word("inaturalist", "attached to another", attached, HINTS, _TAXA)
    yield Word("inaturalist", "nothing", page(), SILENT, _TAXA)


# --- World Spider Catalog
_WSC = "CatalogueOfLife/coldp-generator@af4dd5b src/main/java/org/catalogueoflife/data/wsc/Generator.java"
_WORDS = "CatalogueOfLife/coldp-generator src/main/java/org/catalogueoflife/data/wsc/WscMappings.java status()"
SPIDER, SPIDER_VALID = "urn:lsid:nmbe.ch:spidersp:001720", "urn:lsid:nmbe.ch:spidersp:000002"


def wsc(status: str, name: str = NAME, *, nested: bool | None = None, lsid: str = SPIDER) -> Body:
    """A species; ``nested``: where its valid name stands, None if it has none."""
    genus, species = name.split()
    taxon: Body = {"species": species, "subspecies": "", "author": AUTHOR, "taxonRank": "species", "status": status}
    taxon |= {"genus": genus, "family": "Exemplidae", "distribution": "", "lsid": lsid}
    link = {"validTaxon": {"_href": f"https://wsc.nmbe.ch/api/lsid/{SPIDER_VALID}"}}
    return {"taxon": taxon | (link if nested else {})} | (link if nested is False else {})


def _spidercatalog() -> Iterator[Word]:
    for word in ("VALID", "valid "):
        yield Word("spidercatalog", repr(word), wsc(word), SPEAKS, _WORDS, NameStatus.ACCEPTED, (NAME,))
    for word, status in (("SYNONYM", NameStatus.SYNONYM), ("HOMONYM_REPLACED", NameStatus.REPLACED)):
        for nested in (True, False):
            where = "nested" if nested else "at the top"
            body = wsc(word, nested=nested)
            yield Word("spidercatalog", f"{word} {where}", body, SPEAKS, f"{_WSC} Taxon", status, (VALID,))
    for word, status in (("NOMEN_DUBIUM", NameStatus.DOUBTFUL), ("NOMEN_NUDUM", NameStatus.UNAVAILABLE)):
        yield Word("spidercatalog", word, wsc(word), SPEAKS, f"{_WSC} mapStatus()", status)
    yield Word("spidercatalog", "DELETED", wsc("DELETED"), HINTS, _WORDS)
    yield Word("spidercatalog", "A_NEW_WORD", wsc("A_NEW_WORD"), FAILS, _WORDS)


MAKERS: tuple[Callable[[], Iterator[Word]], ...] = (_checklistbank, _gbif, _inaturalist, _spidercatalog)
WORDS = tuple(word for make in MAKERS for word in make())
