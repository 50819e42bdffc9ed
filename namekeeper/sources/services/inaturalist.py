"""iNaturalist: names of active and retired taxa, common names, range. It tells neither authorship nor edition."""

from __future__ import annotations

from datetime import timedelta
from functools import partial
from types import MappingProxyType

from namekeeper.evidence.interfaces import NameCard
from namekeeper.evidence.statements import CommonName
from namekeeper.sources.desk import Told
from namekeeper.sources.http import WebQuestion
from namekeeper.sources.languages import two_letters
from namekeeper.sources.services.inaturalist_replies import (
    ANIMALS,
    Hit,
    attached,
    named,
    opinion,
    read_names,
    read_page,
    read_successors,
)
from namekeeper.sources.services.service import CommonNameService, DetailService, Job, Profile, Vernacular
from namekeeper.sources.services.weighing import Found, usable

_RANKS = MappingProxyType({1: "genus,subgenus", 2: "species", 3: "subspecies"})
_MOST_IDS = 30  # more are refused with 422


class INaturalist(DetailService, CommonNameService):
    """Asks one question a name, and one more only for a retired name whose successor is not on the same page."""

    __slots__ = ()
    profile = Profile(
        key="inaturalist",
        title="iNaturalist",
        base="https://api.inaturalist.org/v1",
        upstream="inaturalist",
        citation="iNaturalist, taxa as served by its API",
        link="https://www.inaturalist.org/taxa",
        jobs=(Job.NAMES, Job.COMMON_NAMES, Job.DETAILS),
        spacing=1.1,  # at most 60 a minute are asked for
        expiry=timedelta(days=14),
    )

    def look_up(self, name: str) -> Told[tuple[Found, ...]]:
        params = (
            ("q", name),
            ("rank", _RANKS.get(len(name.split()), "species")),
            ("is_active", "any"),  # retired names are left out otherwise
            ("taxon_id", ANIMALS),
            ("per_page", "30"),
        )
        page = self.desk.ask(WebQuestion("taxa", params), partial(read_names, asked=name))
        hits = named(page.value, name)
        known = {hit.taxon.identifier or "": hit for hit in page.value}
        missing = [one for hit in hits if not hit.active for one in hit.successors if one not in known][:_MOST_IDS]
        stale = page.stale
        if missing:
            more = self.desk.ask(WebQuestion(f"taxa/{','.join(missing)}"), read_successors)
            known |= {hit.taxon.identifier or "": hit for hit in more.value}
            stale = stale or more.stale
        found = (*(opinion(hit, known) for hit in hits), *attached(page.value, name))
        return Told(usable(found, name), page.retrieved, stale)

    def vernaculars(self, words: str) -> Told[tuple[Vernacular, ...]]:
        params = (
            ("q", words),
            ("taxon_id", ANIMALS),
            ("is_active", "true"),
            ("all_names", "true"),
            ("locale", "en"),
            ("per_page", "30"),
        )
        page = self.desk.ask(WebQuestion("taxa/autocomplete", params), read_page)
        return page.of(tuple(name for hit in page.value if hit.of_the_group for name in hit.names))

    def card(self, name: str) -> NameCard | None:
        answer = self.reply(name, self.look_up(name), self.edition)
        ends = {end.identifier: end for statement in answer.statements for end in statement.targets}
        if len(ends) != 1:
            return None
        ((identifier, taxon),) = ends.items()
        page = self.desk.ask(WebQuestion(f"taxa/{identifier}", (("all_names", "true"), ("locale", "en"))), read_page)
        hit = next((hit for hit in page.value if hit.taxon.identifier == identifier), None)
        return None if hit is None else self._card(taxon.name, hit)

    def _card(self, name: str, hit: Hit) -> NameCard:
        common = tuple(
            CommonName(one.text, two_letters(one.language), hit.taxon, "common", self.edition, self.profile.title)
            for one in hit.names
        )
        taxon = hit.taxon._replace(name=name, range=tuple(sorted(set(hit.native))))
        return NameCard(taxon, former=(), common=common, cautions=(), citation=self.profile.citation or "")
