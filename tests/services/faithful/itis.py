"""ITIS, after its web service description and the recorded replies: a search for names that contain the words.

Fields of ``getFullHierarchyFromTSN`` as public callers read them.
"""

from __future__ import annotations

from typing import Any

from tests.services.faithful.catalogue import COMMON, Usage, by_plain, usages
from tests.services.local_server import Asked, Canned


def answer(asked: Asked) -> Canned:
    """What the server says, in the encoding it uses."""
    return Canned.json(_body(asked), "iso-8859-1")


def _body(asked: Asked) -> Any:
    method = asked.path.rpartition("/")[2]
    if method == "searchByCommonName":
        words = asked.query["srchKey"].casefold()
        hits = [
            {"commonName": f"{text}   ", "language": "English", "tsn": str(int(_of(name).key[1:]))}
            for text, name in COMMON.items()
            if words in text.casefold()
        ]
        return {"commonNames": hits or [None]}
    usage = usages()[f"T{int(asked.query['tsn']):05d}"]
    if method == "getFullHierarchyFromTSN":
        line = [*usage.line, (usage.rank, usage.name)]
        return {
            "hierarchyList": [{"rankName": rank.title(), "taxonName": name, "tsn": "1"} for rank, name in line] + [None]
        }
    return {
        "scientificName": {"combinedName": usage.name, "author": usage.authorship, "tsn": asked.query["tsn"]},
        "kingdom": {"kingdomName": "Animalia   "}, "taxRank": {"rankName": usage.rank.title()},
        "usage": {"taxonUsageRating": "valid"}, "acceptedNameList": {"acceptedNames": [None]},
    }  # fmt: skip


def _of(name: str) -> Usage:
    return by_plain()[name.casefold()][0]
