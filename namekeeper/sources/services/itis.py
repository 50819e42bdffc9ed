"""ITIS: common names only, and mostly of North America. It answers in ISO 8859-1 and pads its texts with blanks."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import timedelta

from namekeeper.evidence.statements import TaxonName
from namekeeper.sources.desk import Told
from namekeeper.sources.http import WebQuestion
from namekeeper.sources.services.service import CommonNameService, Job, Profile, Vernacular, common_key
from namekeeper.sources.shapes import Node

_MOST_TAXA = 5


@dataclass(frozen=True, slots=True)
class Record:
    """A name of ITIS and the names in force for it, itself if it is valid."""

    taxon: TaxonName
    valid: bool
    accepted: tuple[TaxonName, ...]


class Itis(CommonNameService):
    """Searches a common name and follows it to the valid animal; what the search only contains is left out."""

    __slots__ = ()
    profile = Profile(
        key="itis",
        title="ITIS",
        base="https://www.itis.gov/ITISWebService/jsonservice",
        upstream="itis",
        licence="CC0 1.0",
        citation="Integrated Taxonomic Information System (ITIS), www.itis.gov",
        link="https://www.itis.gov",
        jobs=(Job.COMMON_NAMES,),
        spacing=1.0,
        expiry=timedelta(days=30),
        encoding="iso-8859-1",
    )

    def vernaculars(self, words: str) -> Told[tuple[Vernacular, ...]]:
        hits = self.desk.ask(WebQuestion("searchByCommonName", (("srchKey", words),)), read_common_names)
        same = [(name, tsn) for name, tsn in hits.value if common_key(name.text) == common_key(words)]
        names = []
        for tsn in list(dict.fromkeys(tsn for _, tsn in same))[:_MOST_TAXA]:
            taxon = self._animal(tsn)
            if taxon is not None:
                names += [replace(name, taxon=taxon) for name, own in same if own == tsn]
        return hits.of(tuple(names))

    def _animal(self, tsn: str) -> TaxonName | None:
        """The one name in force of that number, None if it is none of the group or there is not exactly one."""
        record = self.desk.ask(WebQuestion("getFullRecordFromTSN", (("tsn", tsn),)), read_record).value
        if record is None or len(record.accepted) != 1 or record.taxon.kingdom != self.group.kingdom:
            return None
        (taxon,) = record.accepted
        above = self.desk.ask(
            WebQuestion("getFullHierarchyFromTSN", (("tsn", taxon.identifier or ""),)), read_hierarchy
        )
        ranks = above.value
        if self.group.kingdom not in ranks.values() or any(out in ranks.values() for out in self.group.without):
            return None
        higher = tuple(ranks[rank] for rank in ("family", "order", "class") if rank in ranks)
        return taxon._replace(kingdom=self.group.kingdom, higher=higher)


def read_common_names(document: object) -> tuple[tuple[Vernacular, str], ...]:
    """A reply of ``searchByCommonName``: names with their number; the taxon is not told yet."""
    nodes = Node.of(document).nodes("commonNames", needed=True)
    unknown = TaxonName("")
    return tuple((Vernacular(n.needed("commonName"), n.text("language"), unknown), n.needed("tsn")) for n in nodes)


def read_record(document: object) -> Record | None:
    """A reply of ``getFullRecordFromTSN``; None for the record with nothing in it that answers an unknown number."""
    node = Node.of(document)
    name = node.needed_node("scientificName")
    if not name.text("combinedName"):
        return None
    kingdom, rank = node.node("kingdom"), node.node("taxRank")
    taxon = TaxonName(
        name=name.needed("combinedName"),
        authorship=name.text("author"),
        rank=rank.text("rankName").casefold() if rank else "unranked",
        identifier=name.needed("tsn"),
        kingdom=kingdom.text("kingdomName") if kingdom else None,
    )
    # Animals are "valid" or "invalid" there; "accepted" and "not accepted" are said of plants and fungi.
    valid = node.needed_node("usage").text("taxonUsageRating") == "valid"
    return Record(taxon, valid, (taxon,) if valid else tuple(_accepted(node, taxon)))


def _accepted(node: Node, taxon: TaxonName) -> Iterator[TaxonName]:
    for name in node.needed_node("acceptedNameList").nodes("acceptedNames"):
        yield TaxonName(
            name.needed("acceptedName"), name.text("author"), taxon.rank, identifier=name.needed("acceptedTsn")
        )


def read_hierarchy(document: object) -> dict[str, str]:
    """A reply of ``getFullHierarchyFromTSN`` as rank to name."""
    nodes = Node.of(document).nodes("hierarchyList", needed=True)
    return {node.text("rankName").casefold(): node.text("taxonName") for node in nodes}
