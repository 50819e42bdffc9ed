"""GBIF: match v2 against the Catalogue of Life, always with an explicit checklist; details from its older v1 resources.

Without ``checklistKey`` the API still answers from a backbone that is no longer kept up. The v1 resources know only
keys of that backbone, so details come from it and say so.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import replace
from datetime import timedelta

from namekeeper.evidence.interfaces import NameCard
from namekeeper.evidence.statements import CommonName, Edition, Reply
from namekeeper.sources.desk import Told
from namekeeper.sources.http import WebQuestion
from namekeeper.sources.http_faults import UnansweredError
from namekeeper.sources.languages import two_letters
from namekeeper.sources.services.gbif_replies import (
    Matched,
    read_alias,
    read_distributions,
    read_match,
    read_usages,
    read_vernaculars,
)
from namekeeper.sources.services.service import DetailService, Job, Profile
from namekeeper.sources.services.weighing import Found, weigh
from namekeeper.words.dates import PartialDate

_CATALOGUE = ("checklistKey", "7ddf754f-d193-4cc9-b351-99906754a03b")
_BACKBONE = "d7dddbf4-2cf0-4f39-9b2a-bb099caae36c"
_MATCH = "v2/species/match"
_AT_ONCE = 40
_ALIAS = re.compile(r"COL\s?(?:20)?(\d\d)(?:\.(\d\d?))?(?!\d)", re.ASCII)


class Gbif(DetailService):
    """Asks names in batches of one POST; every answer is kept by itself."""

    __slots__ = ()
    profile = Profile(
        key="gbif",
        title="Catalogue of Life at GBIF",
        base="https://api.gbif.org",
        upstream="catalogue of life",
        licence="CC BY 4.0",
        citation="Catalogue of Life, extended release, by way of the GBIF species API",
        link="https://www.gbif.org/species/search",
        jobs=(Job.NAMES, Job.DETAILS),
        spacing=1.0,
        expiry=timedelta(days=7),
    )

    def current_edition(self) -> Edition:
        """The release in the matching index, once a week; unknown if it is not told."""
        try:
            alias = self.desk.ask(WebQuestion(f"{_MATCH}/metadata", (_CATALOGUE,)), read_alias).value
        except UnansweredError:
            return self.edition
        return self.edition._replace(edition=alias, dated=_month(alias), citation=f"{self.profile.citation}, {alias}")

    def look_up(self, name: str) -> Told[tuple[Found, ...]]:
        return self._decided(name, self.desk.ask(_question(name), read_match))

    def _decided(self, name: str, told: Told[Matched]) -> Told[tuple[Found, ...]]:
        """Homonyms are listed only to a verbose question, which is long: it is put for them alone."""
        if told.value.undecided and not told.value.found:
            told = self.desk.ask(_question(name, verbose=True), read_match)
        link = f"{self.profile.base}/{_question(name)}"  # it has no page for keys of the catalogue
        return told.of(tuple(replace(found, link=link) for found in told.value.found))

    def ask(self, names: Sequence[str]) -> Iterator[Reply]:
        edition = self.current_edition()
        for start in range(0, len(names), _AT_ONCE):
            batch = names[start : start + _AT_ONCE]
            told = self.desk.ask_many(
                [_question(name) for name in batch], read_match, WebQuestion(_MATCH, (_CATALOGUE,)), _item
            )
            for name in batch:
                yield self._reply(name, told[_question(name)], edition)

    def _reply(self, name: str, told: Told[Matched] | UnansweredError, edition: Edition) -> Reply:
        try:
            if isinstance(told, UnansweredError):
                raise told
            return self.reply(name, self._decided(name, told), edition)
        except UnansweredError as fault:
            return self.failure(name, fault)

    def card(self, name: str) -> NameCard | None:
        params = (("name", name), ("datasetKey", _BACKBONE), ("limit", "20"))
        usages = self.desk.ask(WebQuestion("v1/species", params), read_usages)
        edition = self.edition._replace(title="GBIF backbone (no longer kept up)", upstream="gbif backbone")
        fit = [one for one in usages.value if weigh(one, name, self.group, edition).match.speaks]
        ends = {end.identifier: end for one in fit for end in one.targets}
        if len(ends) != 1:
            return None
        (taxon,) = ends.values()
        page = (("limit", "300"),)
        path = f"v1/species/{taxon.identifier}"
        synonyms = self.desk.ask(WebQuestion(f"{path}/synonyms", page), read_usages)
        names = self.desk.ask(
            WebQuestion(f"{path}/vernacularNames", page), lambda reply: read_vernaculars(reply, taxon)
        )
        areas = self.desk.ask(WebQuestion(f"{path}/distributions", page), read_distributions)
        former = (weigh(one, one.subject.name, self.group, edition) for one in synonyms.value)
        common = (CommonName(v.text, two_letters(v.language), taxon, "common", edition) for v in names.value)
        return NameCard(
            taxon=taxon._replace(range=areas.value),
            former=tuple(one._replace(retrieved=synonyms.retrieved, stale=synonyms.stale) for one in former),
            common=tuple({(one.text, one.language): one for one in common}.values()),
            cautions=(),
            citation=edition.title,
        )


def _question(name: str, *, verbose: bool = False) -> WebQuestion:
    params = (("scientificName", name), ("kingdom", "Animalia"), _CATALOGUE)
    return WebQuestion(_MATCH, (*params, ("verbose", "true")) if verbose else params)


def _item(question: WebQuestion) -> object:
    return {key: value for key, value in question.params if key != _CATALOGUE[0]}


def _month(alias: str) -> PartialDate | None:
    """``COL26.6 XR`` is the release of June 2026; annual ones have no month."""
    found = _ALIAS.match(alias)
    if found is None:
        return None
    try:
        return PartialDate.parse(f"20{found[1]}" + (f"-{int(found[2]):02}" if found[2] else ""))
    except ValueError:
        return None
