"""Wikidata: common names (P1843) of taxa (P225) only. Its synonym property points both ways and is never used.

What lies above a taxon (P171) is asked for and judged here: asked for what lies below the animals, the service would
walk down from them and run out of time.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import timedelta
from itertools import product
from types import MappingProxyType

from namekeeper.evidence.statements import NameStatus, TaxonName
from namekeeper.sources.desk import Told
from namekeeper.sources.http import WebQuestion
from namekeeper.sources.services.service import CommonNameService, Job, Profile, Vernacular
from namekeeper.sources.services.weighing import Found
from namekeeper.sources.shapes import Node

_LANGUAGES = ("en", "de", "fr", "es", "pt", "it", "nl", "pl", "cs", "sv", "da", "ja")
# Items of taxonomic ranks; species is seen in a recorded entity, the others are from memory.
_RANKS = MappingProxyType({"Q7432": "species", "Q34740": "genus", "Q68947": "subspecies"})
# The items of the animal kingdom and of the chordates, from memory.
_LINEAGE = MappingProxyType({"Q729": "Animalia", "Q10915": "Chordata"})
_QUERY = """SELECT ?item ?name ?rank ?common (GROUP_CONCAT(DISTINCT STR(?above); SEPARATOR=" ") AS ?line) WHERE {{
  VALUES ?common {{ {names} }}
  ?item wdt:P1843 ?common ; wdt:P225 ?name .
  OPTIONAL {{ ?item wdt:P105 ?rank }}
  ?item wdt:P171* ?above .
}} GROUP BY ?item ?name ?rank ?common LIMIT 50"""


class Wikidata(CommonNameService):
    """Asks one query a common name: literals are compared exactly there, so a few spellings go out together."""

    __slots__ = ()
    profile = Profile(
        key="wikidata",
        title="Wikidata",
        base="https://query.wikidata.org",
        upstream="wikidata",
        licence="CC0 1.0",
        citation="Wikidata, common names of taxa",
        link="https://www.wikidata.org",
        jobs=(Job.COMMON_NAMES,),
        spacing=2.0,
        expiry=timedelta(days=30),
        slow_questions=True,
    )

    def vernaculars(self, words: str) -> Told[tuple[Vernacular, ...]]:
        question = WebQuestion("sparql", (("query", _query_of(words)), ("format", "json")))
        told = self.desk.ask(question, read_bindings)
        return told.of(tuple(name for name, found in told.value if self.group.includes(found)))


def _query_of(words: str) -> str:
    """The query for ``words`` as written, in small letters, with one capital and with capitals throughout."""
    spellings = dict.fromkeys((words, words.casefold(), words.capitalize(), words.title()))
    names = " ".join(f'"{_escaped(text)}"@{language}' for text, language in product(spellings, _LANGUAGES))
    return _QUERY.format(names=names)


def _escaped(text: str) -> str:
    """Safe inside quotes (SPARQL 1.1, 19.8 ECHAR): nothing typed can leave the string."""
    safe = "".join(letter if letter.isprintable() else " " for letter in text)
    return safe.replace("\\", "\\\\").replace('"', '\\"')


def read_bindings(document: object) -> tuple[tuple[Vernacular, Found], ...]:
    """A result in the W3C SPARQL 1.1 JSON format: common names, and their taxa with what lies above them."""
    bindings = Node.of(document).needed_node("results").nodes("bindings", needed=True)
    return tuple(_vernaculars(bindings))


def _vernaculars(bindings: tuple[Node, ...]) -> Iterator[tuple[Vernacular, Found]]:
    for binding in bindings:
        common = binding.node("common")
        if common is None:
            continue
        rank, line = binding.node("rank"), binding.node("line")
        above = {item.rpartition("/")[2] for item in line.text("value").split()} if line else set()
        lineage = frozenset(name for item, name in _LINEAGE.items() if item in above)
        taxon = TaxonName(
            name=binding.needed_node("name").needed("value"),
            rank=_RANKS.get(_item(rank), "unranked") if rank else "unranked",
            identifier=_item(binding.needed_node("item")),
            kingdom="Animalia" if "Animalia" in lineage else None,
        )
        found = Found(taxon, NameStatus.ACCEPTED, (taxon,), certain=True, lineage=lineage)
        yield Vernacular(common.needed("value"), common.text("xml:lang"), taxon), found


def _item(node: Node) -> str:
    return node.needed("value").rpartition("/")[2]
