"""GBIF match v2, after gbif/matching-ws@785318d and, for batches, @4badb671 (``model/NameUsageQuery.java``).

``index/DatasetIndex.java`` ``search``: ``EXACT`` where canonical names are equal but for capitals, else ``VARIANT``;
``service/MatchingService.java``: a genus or a higher taxon that was sent along where nothing fits, ``HIGHERRANK``;
``NONE`` with a note. In a batch the higher taxa are read from ``classification`` only. A batch is promised in the order
of its questions; here it is turned round, since an adapter that relies on places alone would not be seen otherwise.
"""

from __future__ import annotations

from typing import Any

from namekeeper.words.spelling import ending_key
from tests.services.faithful.catalogue import Usage, accepted_of, by_plain, by_stem
from tests.services.good.gbif import METADATA
from tests.services.local_server import Asked, Canned


def answer(asked: Asked) -> Canned:
    """What the server says; 404 for paths that our adapters do not ask."""
    if asked.path.endswith("/metadata"):
        return Canned.json(METADATA)
    if not asked.path.endswith("/v2/species/match"):
        return Canned(status=404)
    if isinstance(asked.body, list):
        return Canned.json(
            [match(item["scientificName"], item.get("classification") or {}) for item in asked.body][::-1]
        )
    return Canned.json(match(asked.query["scientificName"], asked.query))


def match(name: str, classification: Any) -> dict[str, Any]:
    """A reply for one name."""
    key = " ".join(name.casefold().split())
    exact = [one for one in by_plain().get(key, ()) if one.name.casefold() == key]
    if exact:
        return _found(next((one for one in exact if one.in_force), exact[0]), "EXACT", 99)
    if variants := by_stem().get(ending_key(name), ()):
        return _found(variants[0], "VARIANT", 95)
    if " " in name and (genus := by_plain().get(key.split()[0], ())):
        return _found(genus[0], "HIGHERRANK", 94)
    if classification.get("kingdom") == "Animalia":
        return _found(Usage("N", "Animalia", "", "kingdom", "N", ()), "HIGHERRANK", 97)
    return {"diagnostics": {"matchType": "NONE", "confidence": 100, "timeTaken": 1}, "synonym": False}


def _found(usage: Usage, kind: str, confidence: int) -> dict[str, Any]:
    end = usage if usage.key == "N" else accepted_of(usage)
    line = [*end.line, (end.rank, end.name)]
    body = {
        "usage": _usage(usage) | {"status": "ACCEPTED" if usage.in_force else "SYNONYM"},
        "classification": [{"key": f"H{name}", "name": name, "rank": rank.upper()} for rank, name in line],
        "diagnostics": {"matchType": kind, "confidence": confidence, "timeTaken": 1},
        "synonym": not usage.in_force,
    }
    return body if usage.in_force else body | {"acceptedUsage": _usage(end)}


def _usage(usage: Usage) -> dict[str, Any]:
    return {
        "key": usage.key, "name": usage.label, "canonicalName": usage.name, "authorship": usage.authorship,
        "rank": usage.rank.upper(), "code": "ZOOLOGICAL", "type": "SCIENTIFIC", "formattedName": usage.label,
    }  # fmt: skip
