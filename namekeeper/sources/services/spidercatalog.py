"""World Spider Catalog: species of known identifiers. It has no search by name.

The key is the keeper's own. It travels in the query of each question and nowhere else: not in kept answers, not in
links, not in any message. The catalogue tells since a day what it changed; a keeper who only wants to know what is new
asks that, and then no more than what is in it: the day's questions of a key are few.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta
from functools import partial
from types import MappingProxyType
from typing import ClassVar

from namekeeper.evidence.statements import Answer, NameStatus, Reply, TaxonName
from namekeeper.sources.desk import ServiceDesk, Told
from namekeeper.sources.http import WebQuestion
from namekeeper.sources.http_faults import UnansweredError
from namekeeper.sources.services.service import Job, NameService, OwnKey, Profile
from namekeeper.sources.services.weighing import SPIDER_CATALOGUE, Found, bad_reply, printable
from namekeeper.sources.shapes import Node, wrong_shape

_PREFIX = "urn:lsid:nmbe.ch:"
_WELL_KNOWN = "urn:lsid:nmbe.ch:spidersp:001720"  # seen in a recorded reply
_MOST_STEPS = 5
_MOST_PAGES = 40
_LONGEST_WATCH = timedelta(days=90)  # what was kept longer is asked anew, whatever the catalogue tells
_LINEAGE = frozenset({"Animalia", "Araneae"})
_DELETED = "DELETED"
_STATUS = MappingProxyType(
    {
        "VALID": NameStatus.ACCEPTED,
        "SYNONYM": NameStatus.SYNONYM,
        "HOMONYM_REPLACED": NameStatus.REPLACED,
        "NOMEN_DUBIUM": NameStatus.DOUBTFUL,
        "NOMEN_NUDUM": NameStatus.UNAVAILABLE,
        _DELETED: NameStatus.UNAVAILABLE,
    }
)


@dataclass(frozen=True, slots=True)
class Entry:
    """One species; ``valid`` is the identifier of the name in force for it, "" if it has none or is it itself."""

    taxon: TaxonName
    status: NameStatus
    valid: str
    deleted: bool = False


@dataclass(frozen=True, slots=True)
class Updates:
    """The identifiers of what the catalogue changed on ``since`` or later."""

    since: date
    changed: frozenset[str]


@dataclass(frozen=True, slots=True)
class SpiderCatalog(NameService):
    """Looks up names whose identifier (LSID) ``identifier_of`` knows from an added list."""

    profile: ClassVar[Profile] = Profile(
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
    updates: Updates | None = None

    def ask(self, names: Sequence[str]) -> Iterator[Reply]:
        """A name without a known identifier cannot be asked: an empty answer without a date, which claims nothing."""
        known = {name: self._identifier(name) for name in names}
        service = replace(self, updates=self._updates([one for one in known.values() if one]))
        for name in names:
            yield from NameService.ask(service, [name]) if known[name] else (Answer(self.edition, name),)

    def look_up(self, name: str) -> Told[tuple[Found, ...]]:
        identifier = self._identifier(name)
        entry = self._entry(identifier)
        end, stale = self._end(entry)
        targets = () if end is None else (end,)
        told = entry.value
        fault = "its own data do not lead to a valid name" if end is None and told.valid else None
        note = "the catalogue has deleted this entry" if told.deleted else None
        link = f"{self.profile.link}/lsid/{identifier}"
        found = Found(
            told.taxon, told.status, targets, not told.deleted, lineage=_LINEAGE, link=link, note=note, fault=fault
        )
        return Told((found,), entry.retrieved, entry.stale or stale)

    def put_one(self) -> None:
        self._entry(_WELL_KNOWN)

    def changes_since(self, day: date) -> Updates | None:
        """What the catalogue changed on ``day`` or later; None if that is more than can be read.

        :raises UnansweredError: if it gives no usable answer.
        """
        desk = self.desk.under(replace(self.desk.wish, refresh=True))
        changed: set[str] = set()
        for number in range(1, _MOST_PAGES + 1):
            params = (("type", "species"), ("date", day.isoformat()), ("page", str(number)))
            page = desk.ask(WebQuestion("api/updates", params), read_updates)
            if page.stale:  # an earlier answer tells nothing of today
                return None
            changed.update(page.value.identifiers)
            if not page.value.more:
                return Updates(day, frozenset(changed))
        return None

    def _identifier(self, name: str) -> str:
        identifier = self.identifier_of(name) or ""
        return identifier if identifier.startswith(_PREFIX) else ""

    def _updates(self, identifiers: Sequence[str]) -> Updates | None:
        """What changed since the oldest of the kept answers that can do; None where asking for it gains nothing."""
        wish = self.desk.wish
        if not self.by_updates or wish.offline or wish.refresh:
            return None
        first = self.desk.clock() - _LONGEST_WATCH
        kept = [then for one in identifiers if (then := self.desk.kept_since(_question(one))) and then > first]
        try:
            # A day earlier, since the catalogue's day is not the keeper's.
            return self.changes_since(min(kept).date() - timedelta(days=1)) if kept else None
        except UnansweredError:
            return None

    def _entry(self, identifier: str) -> Told[Entry]:
        return self._desk_for(identifier).ask(_question(identifier), partial(read_entry, asked=identifier))

    def _desk_for(self, identifier: str) -> ServiceDesk:
        """The desk that asks again what was changed, and takes what was kept of all the rest."""
        if self.updates is None:
            return self.desk
        if identifier in self.updates.changed:
            return self.desk.under(replace(self.desk.wish, refresh=True))
        then = self.desk.kept_since(_question(identifier))
        covered = then is not None and then.date() > self.updates.since
        return self.desk.under(replace(self.desk.wish, max_age=_LONGEST_WATCH)) if covered else self.desk

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


def _question(identifier: str) -> WebQuestion:
    return WebQuestion(f"api/lsid/{identifier}")


def read_entry(document: object, asked: str) -> Entry:
    """A reply of ``api/lsid/{identifier}``.

    :raises UnansweredError: if it is of another entry, or its name is none.
    """
    node = Node.of(document)
    taxon = node.needed_node("taxon")
    word = taxon.needed("status").upper()
    if word not in _STATUS:
        expected = f"a status we know ('{word[:40]}')"
        raise taxon.wrong("status", expected)
    parts = (taxon.needed("genus"), taxon.text("species"), taxon.text("subspecies"))
    valid = taxon.node("validTaxon") or node.node("validTaxon")  # within the taxon since 2026, beside it before
    name = TaxonName(
        name=" ".join(part for part in parts if part),
        authorship=taxon.text("author"),
        rank=taxon.text("taxonRank").casefold() or "species",
        identifier=taxon.text("lsid") or None,
        kingdom="Animalia",
        higher=tuple(one for one in (taxon.text("family"), "Araneae", "Arachnida") if one),
        range=(taxon.text("distribution"),) if taxon.text("distribution") else (),
    )
    if name.identifier not in (None, asked):
        raise bad_reply("it is about", str(name.identifier), "and not about", asked)
    return Entry(printable(name), _STATUS[word], _lsid(valid.needed("_href")) if valid else "", word == _DELETED)


@dataclass(frozen=True, slots=True)
class UpdatesPage:
    """One page of what the catalogue changed; ``more`` if it is not the last."""

    identifiers: tuple[str, ...]
    more: bool


def read_updates(document: object) -> UpdatesPage:
    """A reply of ``api/updates``; the address of the next page, which may lead anywhere, is never followed."""
    node = Node.of(document)
    if node.record.get("updates") is None:
        raise node.wrong("updates", "there")
    links = node.node("_links")
    return UpdatesPage(node.texts("updates"), more=bool(links and links.text("next")))


def _lsid(address: str) -> str:
    """The identifier at the end of an address; the address itself, which may lead anywhere, is never followed."""
    found = address.partition("?")[0].rpartition("/")[2]
    if not found.startswith(_PREFIX):
        raise wrong_shape("reply.taxon.validTaxon._href", address, "an identifier of the catalogue")
    return found
