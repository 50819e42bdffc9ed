"""World Spider Catalog: species of known identifiers and the feed of changed ones. It has no search by name.

The key is the keeper's own. It travels in the query of each question and nowhere else: not in kept answers, not in
links, not in any message.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field
from datetime import date, timedelta

from namekeeper.evidence.statements import Answer, Failure, FailureKind, NameStatus, Reply, TaxonName
from namekeeper.sources.desk import Told
from namekeeper.sources.faults import UnansweredError
from namekeeper.sources.http import WebQuestion
from namekeeper.sources.services.service import Job, NameService, Profile
from namekeeper.sources.services.spidercatalog_replies import LSID_PREFIX, Entry, read_entry, read_updates
from namekeeper.sources.services.weighing import SPIDER_CATALOGUE, Found

_WELL_KNOWN = "urn:lsid:nmbe.ch:spidersp:001720"  # seen in a recorded reply
_MOST_STEPS = 5
_MOST_PAGES = 50
_LINEAGE = frozenset({"Animalia", "Araneae"})


def unknown_identifier(_name: str) -> str | None:
    """For keepers whose lists hold no identifiers of this catalogue."""
    return None


@dataclass(frozen=True, slots=True)
class SpiderCatalog(NameService):
    """Looks up names whose identifier (LSID) ``identifier_of`` knows from an added list."""

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
        needs_key=True,
    )
    identifier_of: Callable[[str], str | None] = field(default=unknown_identifier)

    def ask(self, names: Sequence[str]) -> Iterator[Reply]:
        """A name without a known identifier cannot be asked: an empty answer without a date, which claims nothing."""
        for name in names:
            known = (self.identifier_of(name) or "").startswith(LSID_PREFIX)
            yield from NameService.ask(self, [name]) if known else (Answer(self.edition, name),)

    def look_up(self, name: str) -> Told[tuple[Found, ...]]:
        self._check_key()
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
        self._check_key()
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

    def _check_key(self) -> None:
        if not self.desk.secret:
            raise UnansweredError(FailureKind.REFUSED, "it needs the keeper's own free key")

    def updates(self, since: date) -> tuple[str, ...] | Failure:
        """Identifiers of species that changed since that day."""
        try:
            return tuple(dict.fromkeys(self._updates(since)))
        except UnansweredError as fault:
            return self.failure(f"changes since {since}", fault)

    def _updates(self, since: date) -> Iterator[str]:
        for page in range(1, _MOST_PAGES + 1):
            params = (("type", "species"), ("date", since.isoformat()), ("page", str(page)))
            identifiers, more = self.desk.ask(WebQuestion("api/updates", params), read_updates).value
            yield from identifiers
            if not more:
                return
