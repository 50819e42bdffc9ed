"""A service that exists in tests only: names and common names of invented animals, with a key of the keeper's own."""

from __future__ import annotations

from datetime import timedelta
from functools import partial

from namekeeper.evidence.statements import NameStatus, TaxonName
from namekeeper.sources.desk import Told
from namekeeper.sources.http import WebQuestion
from namekeeper.sources.services.service import CommonNameService, Job, NameService, OwnKey, Profile, Vernacular
from namekeeper.sources.services.weighing import Found, usable
from namekeeper.sources.shapes import Node


class Fireflies(NameService, CommonNameService):
    """Asks one question a name; it knows accepted species only."""

    __slots__ = ()
    profile = Profile(
        key="fireflies",
        title="Fireflies of Nowhere",
        base="https://fireflies.invalid",
        upstream="fireflies",
        licence="CC0 1.0",
        citation="Fireflies of Nowhere, an invented catalogue",
        link="https://fireflies.invalid",
        jobs=(Job.NAMES, Job.COMMON_NAMES),
        spacing=1.0,
        expiry=timedelta(days=7),
        own_key=OwnKey(variable="NAMEKEEPER_FIREFLIES_KEY", setting="fireflies_key", parameter="token"),
    )

    def look_up(self, name: str) -> Told[tuple[Found, ...]]:
        return self.desk.ask(WebQuestion("taxa", (("name", name),)), partial(read_names, asked=name))

    def vernaculars(self, words: str) -> Told[tuple[Vernacular, ...]]:
        taxa = self.desk.ask(WebQuestion("taxa", (("common", words),)), read_taxa)
        return taxa.of(tuple(Vernacular(common, "en", taxon) for taxon, common in taxa.value if common))


def read_names(document: object, asked: str) -> tuple[Found, ...]:
    """What a page says of the name asked."""
    taxa = (taxon for taxon, _ in read_taxa(document))
    return usable((Found(taxon, NameStatus.ACCEPTED, (taxon,), certain=True) for taxon in taxa), asked)


def read_taxa(document: object) -> tuple[tuple[TaxonName, str], ...]:
    """A page of ``taxa``: each with its common name, "" if it has none."""
    nodes = Node.of(document).nodes("taxa", needed=True)
    return tuple((TaxonName(node.needed("name"), kingdom="Animalia"), node.text("common")) for node in nodes)
