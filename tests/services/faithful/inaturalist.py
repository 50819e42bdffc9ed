"""iNaturalist, after inaturalist/iNaturalistAPI@00b638a ``lib/controllers/v1/taxa_controller.js``.

``search``: every word of the question begins a word of one name of the taxon; ``is_active`` is true unless said
otherwise; ``rank`` may be a list with commas; most observed first. ``show``: by numbers, at most thirty.
"""

from __future__ import annotations

from typing import Any

from tests.services.faithful.catalogue import COMMON, Usage, usages
from tests.services.local_server import Asked, Canned


def answer(asked: Asked) -> Canned:
    """What the server says; 404 for paths that our adapters do not ask."""
    _, _, end = asked.path.partition("/taxa")
    if end.strip("/").replace(",", "").isdigit():
        keys = [f"T{int(one):05d}" for one in end.strip("/").split(",")]
        return Canned.json(_page([usages()[key] for key in keys if key in usages()]))
    if end not in ("", "/autocomplete"):
        return Canned(status=404)
    return Canned.json(_page(_search(asked.query)))


def _search(query: Any) -> list[Usage]:
    words = query["q"].casefold().split()
    ranks = query["rank"].split(",") if "rank" in query else None
    active = query.get("is_active", "true")
    return [
        usage
        for usage in usages().values()
        if any(
            all(any(part.startswith(word) for part in name.casefold().split()) for word in words)
            for name in (usage.name, *_common(usage))
        )
        and (ranks is None or usage.rank in ranks)
        and (active == "any" or usage.in_force == (active == "true"))
    ][: int(query.get("per_page", "30"))]


def _common(usage: Usage) -> list[str]:
    return [text for text, name in COMMON.items() if name == usage.name]


def _page(found: list[Usage]) -> dict[str, Any]:
    return {"total_results": len(found), "page": 1, "per_page": 30, "results": [_taxon(one) for one in found]}


def _taxon(usage: Usage) -> dict[str, Any]:
    body = {
        "id": int(usage.key[1:]), "name": usage.name, "rank": usage.rank, "is_active": usage.in_force,
        "ancestor_ids": [48460, 1, 47120, int(usage.key[1:])], "matched_term": usage.name,
        "names": [{"name": text, "locale": "en", "is_valid": True} for text in _common(usage)],
    }  # fmt: skip
    return body if usage.in_force else body | {"current_synonymous_taxon_ids": [int(usage.accepted[1:])]}
