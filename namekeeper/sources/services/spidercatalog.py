"""World Spider Catalog: species of known identifiers. It has no search by name.

The key is the keeper's own. It travels in the query of each question and nowhere else: not in kept answers, not in
links, not in any message.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import timedelta
from types import MappingProxyType

from namekeeper.evidence.statements import Answer, NameStatus, Reply, TaxonName
from namekeeper.sources.desk import Told
from namekeeper.sources.http import WebQuestion
from namekeeper.sources.services.service import Job, NameService, OwnKey, Profile
from namekeeper.sources.services.weighing import SPIDER_CATALOGUE, Found
from namekeeper.sources.shapes import Node, wrong_shape

_PREFIX = "urn:lsid:nmbe.ch:"
_WELL_KNOWN = "urn:lsid:nmbe.ch:spidersp:001720"  # seen in a recorded reply
_MOST_STEPS = 5
_LINEAGE = frozenset({"Animalia", "Araneae"})
_STATUS = MappingProxyType(
    {
        "VALID": NameStatus.ACCEPTED,
        "SYNONYM": NameStatus.SYNONYM,
        "HOMONYM_REPLACED": NameStatus.REPLACED,
        "NOMEN_DUBIUM": NameStatus.DOUBTFUL,
        "NOMEN_NUDUM": NameStatus.UNAVAILABLE,
    }
)


@dataclass(frozen=True, slots=True)
class Entry:
    """One species; ``valid`` is the identifier of the name in force for it, "" if it has none or is it itself."""

    taxon: TaxonName
    status: NameStatus
    valid: str


class SpiderCatalog(NameService):
    """Looks up names whose identifier (LSID) ``identifier_of`` knows from an added list."""

    __slots__ = ()
    profile = Profile(
        key="spidercatalog",
        title="World Spider Catalog",
        base="https://wsc.nmbe.ch",
        upstream=SPIDER_CATALOGUE,
        licence="CC BY-NC-SA 4.0",
        citation="World Spider Catalog, Natural History Museum Bern, wsc.nmbe.ch",
        link="https://wsc.nmbe.ch",
        jobs=(Job.NAMES,),
        spacing=1.0,
        expiry=timedelta(days=7),
        own_key=OwnKey(variable="NAMEKEEPER_SPIDERCATALOG_KEY", setting="spidercatalog_key", parameter="apiKey"),
        identifiers=_PREFIX,
    )

    def ask(self, names: Sequence[str]) -> Iterator[Reply]:
        """A name without a known identifier cannot be asked: an empty answer without a date, which claims nothing."""
        for name in names:
            known = (self.identifier_of(name) or "").startswith(_PREFIX)
            yield from NameService.ask(self, [name]) if known else (Answer(self.edition, name),)

    def look_up(self, name: str) -> Told[tuple[Found, ...]]:
        identifier = self.identifier_of(name) or ""
        entry = self._entry(identifier)
        end, stale = self._end(entry)
        targets = () if end is None else (end,)
        told = entry.value.status
        fault = "its own data do not lead to a valid name" if end is None and entry.value.valid else None
        link = f"{self.profile.link}/lsid/{identifier}"
        found = Found(entry.value.taxon, told, targets, certain=True, lineage=_LINEAGE, link=link, fault=fault)
        return Told((found,), entry.retrieved, entry.stale or stale)

    def put_one(self) -> None:
        self._entry(_WELL_KNOWN)

    def _entry(self, identifier: str) -> Told[Entry]:
        return self.desk.ask(WebQuestion(f"api/lsid/{identifier}"), read_entry)

    def _end(self, entry: Told[Entry]) -> tuple[TaxonName | None, bool]:
        """The valid name at the end of the chain, None for a circle or a name without one; and whether it is stale."""
        seen: set[str] = set()
        stale = entry.stale
        while entry.value.status is not NameStatus.ACCEPTED:
            if not entry.value.valid or entry.value.valid in seen or len(seen) >= _MOST_STEPS:
                return None, stale
            seen.add(entry.value.valid)
            entry = self._entry(entry.value.valid)
            stale = stale or entry.stale
        return entry.value.taxon, stale


def read_entry(document: object) -> Entry:
    """A reply of ``api/lsid/{identifier}``."""
    node = Node.of(document)
    taxon = node.needed_node("taxon")
    word = taxon.needed("status")
    if word not in _STATUS:
        expected = f"a status we know ('{word[:40]}')"
        raise taxon.wrong("status", expected)
    parts = (taxon.needed("genus"), taxon.text("species"), taxon.text("subspecies"))
    valid = node.node("validTaxon")
    name = TaxonName(
        name=" ".join(part for part in parts if part),
        authorship=taxon.text("author"),
        rank=taxon.text("taxonRank").casefold() or "species",
        identifier=taxon.text("lsid") or None,
        kingdom="Animalia",
        higher=tuple(one for one in (taxon.text("family"), "Araneae", "Arachnida") if one),
        range=(taxon.text("distribution"),) if taxon.text("distribution") else (),
    )
    return Entry(name, _STATUS[word], _identifier(valid.needed("_href")) if valid else "")


def _identifier(address: str) -> str:
    """The identifier at the end of an address; the address itself, which may lead anywhere, is never followed."""
    found = address.partition("?")[0].rpartition("/")[2]
    if not found.startswith(_PREFIX):
        raise wrong_shape("reply.validTaxon._href", address, "an identifier of the catalogue")
    return found
