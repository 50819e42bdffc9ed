"""The Wikidata query service: literals are compared exactly, with their language (SPARQL 1.1, section 17.4.1.7).

A query that walks down from the animals runs out of its 60 seconds and ends in a 500 (Wikidata:SPARQL query service,
query limits): ``?t wdt:P171* wd:Q729`` makes the service do so.
"""

from __future__ import annotations

import re
from typing import Any

from tests.services.faithful.catalogue import COMMON
from tests.services.local_server import Asked, Canned

_ENTITY = "http://www.wikidata.org/entity/"
_LITERAL = re.compile(r'"((?:[^"\\]|\\.)*)"@([a-z]+)')


def answer(asked: Asked) -> Canned:
    """What the server says."""
    query = asked.query["query"]
    if re.search(r"wdt:P171\*\s+wd:", query):
        return Canned(status=500, body=b"java.util.concurrent.TimeoutException")
    wanted = set(_LITERAL.findall(query))
    return Canned.json({"head": {"vars": []}, "results": {"bindings": list(_bindings(wanted))}})


def _bindings(wanted: set[tuple[str, str]]) -> Any:
    for number, (text, name) in enumerate(COMMON.items()):
        if (text, "en") in wanted:
            item = f"{_ENTITY}Q99900{number}"
            yield {
                "item": {"type": "uri", "value": item},
                "name": {"type": "literal", "value": name},
                "rank": {"type": "uri", "value": f"{_ENTITY}Q7432"},
                "common": {"type": "literal", "xml:lang": "en", "value": text},
                "line": {"type": "literal", "value": f"{item} {_ENTITY}Q1358 {_ENTITY}Q729"},
            }
