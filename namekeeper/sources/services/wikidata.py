"""Wikidata: common names (P1843) of taxa (P225) only. Its synonym property points both ways and is never used."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import timedelta
from itertools import product
from types import MappingProxyType

from namekeeper.evidence.statements import TaxonName
from namekeeper.sources.desk import Told
from namekeeper.sources.http import WebQuestion
from namekeeper.sources.services.service import CommonNameService, Job, Profile, Vernacular
from namekeeper.sources.shapes import Node

_LANGUAGES = ("en", "de", "fr", "es", "pt", "it", "nl", "pl", "cs", "sv", "da", "ja")
# Items of taxonomic ranks; species is seen in a recorded entity, the others are from memory.
_RANKS = MappingProxyType({"Q7432": "species", "Q34740": "genus", "Q68947": "subspecies"})
# The item of the animal kingdom and of the chordates, from memory: the query asks for what lies between.
_ANIMALS, _CHORDATES = "Q729", "Q10915"
_QUERY = """SELECT DISTINCT ?item ?name ?rank ?common WHERE {{
  VALUES ?common {{ {names} }}
  ?item wdt:P1843 ?common ; wdt:P225 ?name .
  OPTIONAL {{ ?item wdt:P105 ?rank }}
  ?item wdt:P171* wd:{animals} .
  FILTER NOT EXISTS {{ ?item wdt:P171* wd:{chordates} }}
}} LIMIT 50"""


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
    )

    def vernaculars(self, words: str) -> Told[tuple[Vernacular, ...]]:
        return self.desk.ask(WebQuestion("sparql", (("query", query_of(words)), ("format", "json"))), read_bindings)


def query_of(words: str) -> str:
    """The query for ``words`` as written, in small letters, with one capital and with capitals throughout."""
    spellings = dict.fromkeys((words, words.casefold(), words.capitalize(), words.title()))
    names = " ".join(f'"{_escaped(text)}"@{language}' for text, language in product(spellings, _LANGUAGES))
    return _QUERY.format(names=names, animals=_ANIMALS, chordates=_CHORDATES)


def _escaped(text: str) -> str:
    """Safe inside quotes (SPARQL 1.1, 19.8 ECHAR): nothing typed can leave the string."""
    safe = "".join(letter if letter.isprintable() else " " for letter in text)
    return safe.replace("\\", "\\\\").replace('"', '\\"')


def read_bindings(document: object) -> tuple[Vernacular, ...]:
    """A result in the W3C SPARQL 1.1 JSON format."""
    bindings = Node.of(document).needed_node("results").nodes("bindings", needed=True)
    return tuple(_vernaculars(bindings))


def _vernaculars(bindings: tuple[Node, ...]) -> Iterator[Vernacular]:
    for binding in bindings:
        common = binding.node("common")
        if common is None:
            continue
        rank = binding.node("rank")
        taxon = TaxonName(
            name=binding.needed_node("name").needed("value"),
            rank=_RANKS.get(_item(rank), "unranked") if rank else "unranked",
            identifier=_item(binding.needed_node("item")),
            kingdom="Animalia",
        )
        yield Vernacular(common.needed("value"), common.text("xml:lang"), taxon)


def _item(node: Node) -> str:
    return node.needed("value").rpartition("/")[2]
