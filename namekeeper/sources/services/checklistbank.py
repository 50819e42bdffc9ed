"""ChecklistBank with the Catalogue of Life: names, common names, synonyms, range.

Shapes and status words: the server's public code and its ColDP vocabulary. ``3LXR`` is the latest extended release.

Author and rank go apart from the name, as the server wants them: an author tells homonyms apart, but a name that it has
by other authors only is then called ``none`` (its ``UsageMatcher``), so that one is asked again without.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import timedelta
from functools import partial

from namekeeper.evidence.interfaces import NameCard
from namekeeper.evidence.statements import CommonName, Edition, NameStatus
from namekeeper.sources.desk import Told
from namekeeper.sources.http import WebQuestion
from namekeeper.sources.http_faults import UnansweredError
from namekeeper.sources.languages import two_letters
from namekeeper.sources.services.checklistbank_replies import (
    UsageMatch,
    read_distribution,
    read_match,
    read_search,
    read_synonyms,
    read_vernacular,
)
from namekeeper.sources.services.service import CommonNameService, DetailService, Job, Profile, Vernacular
from namekeeper.sources.services.weighing import Found, rank_of, weigh
from namekeeper.sources.shapes import Node
from namekeeper.words.dates import PartialDate
from namekeeper.words.forms import canonical_of

_DATASET = "dataset/3LXR"


class ChecklistBank(DetailService, CommonNameService):
    """Asks the Catalogue of Life at ChecklistBank, one question a name."""

    __slots__ = ()
    profile = Profile(
        key="checklistbank",
        title="Catalogue of Life",
        base="https://api.checklistbank.org",
        upstream="catalogue of life",
        licence="CC BY 4.0",
        citation="Catalogue of Life, extended release, by way of ChecklistBank",
        link="https://www.checklistbank.org/dataset/3LXR",
        jobs=(Job.NAMES, Job.COMMON_NAMES, Job.DETAILS),
        spacing=0.5,
        expiry=timedelta(days=7),  # releases are sent with max-age=604800
    )

    def current_edition(self) -> Edition:
        """One question a week; if it fails, the edition stays unknown and the names are asked all the same."""
        try:
            return self.desk.ask(WebQuestion(_DATASET), self._edition).value
        except UnansweredError:
            return self.edition

    def _edition(self, document: object) -> Edition:
        node = Node.of(document)
        version = node.text("alias") or node.text("version")
        if not version:
            raise node.wrong("alias", "there")
        try:
            issued = PartialDate.parse(node.text("issued")[:10])
        except ValueError:
            issued = None
        citation = f"{self.profile.citation}, {version}"
        return self.edition._replace(edition=version, dated=issued, citation=citation)

    def look_up(self, name: str) -> Told[tuple[Found, ...]]:
        authorship = self.authorship_of(name)
        told = self._match(name, authorship)
        if authorship and told.value.passed_over:
            told = self._match(name, "")
        return told.of(told.value.found)

    def _match(self, name: str, authorship: str) -> Told[UsageMatch]:
        known = (("scientificName", name), ("authorship", authorship), ("rank", rank_of(name)))
        params = (*((key, text) for key, text in known if text), ("code", "zoological"), ("verbose", "true"))
        question = WebQuestion(f"{_DATASET}/match/nameusage", params)
        return self.desk.ask(question, partial(read_match, asked=name, by_author=bool(authorship)))

    def vernaculars(self, words: str) -> Told[tuple[Vernacular, ...]]:
        params = (("q", words), ("content", "VERNACULAR_NAME"), ("status", "accepted"), ("limit", "50"))
        told = self.desk.ask(WebQuestion(f"{_DATASET}/nameusage/search", params), read_search)
        fit = [v for found, names in told.value if self.group.includes(found) for v in names]
        return told.of(tuple(fit))

    def card(self, name: str) -> NameCard | None:
        edition = self.current_edition()
        answer = self.reply(name, self.look_up(name), edition)
        ends = {end.identifier: end for statement in answer.statements for end in statement.targets}
        if len(ends) != 1:
            return None
        (taxon,) = ends.values()
        path = f"{_DATASET}/taxon/{taxon.identifier}"
        synonyms = self.desk.ask(WebQuestion(f"{path}/synonyms"), lambda reply: tuple(read_synonyms(reply, taxon)))
        names = self.desk.ask(WebQuestion(f"{path}/vernacular"), lambda reply: read_vernacular(reply, taxon))
        areas = self.desk.ask(WebQuestion(f"{path}/distribution"), read_distribution)
        former = [
            weigh(found, found.subject.name, self.group, edition)
            for found in synonyms.value
            # a mistaken use is no former name, and a formula is none at all
            if found.status is not NameStatus.MISAPPLIED and canonical_of(found.subject.name)
        ]
        return NameCard(
            taxon=taxon._replace(range=areas.value),
            former=tuple(one._replace(retrieved=synonyms.retrieved, stale=synonyms.stale) for one in former),
            common=tuple(self._common(names.value, edition)),
            cautions=(),
            citation=edition.citation or edition.title,
        )

    def _common(self, names: tuple[Vernacular, ...], edition: Edition) -> Iterator[CommonName]:
        for name in names:
            yield CommonName(name.text, two_letters(name.language), name.taxon, "common", edition, edition.title)
