"""ChecklistBank, after CatalogueOfLife/backend@37d9913.

``core/.../matching/UsageMatcher.java``: candidates share a folded name; the rank is compared if one is asked; where
author and rank are asked, candidates of another author drop out; ``exact`` only where whole labels are equal, else
``variant``; several that remain are ``ambiguous``, or the one in force among them is picked.
``core/.../matching/UsageMatch.java``: the fields. ``webservice/.../AbstractNameUsageMatchingResource.java``: the
parameters. ``api/.../model/SimpleName.java``: labels.
"""

from __future__ import annotations

from typing import Any

from namekeeper.judging.change import same_author
from namekeeper.words.spelling import ending_key
from tests.services.faithful.catalogue import COMMON, Usage, accepted_of, by_stem, usages
from tests.services.good.checklistbank import DATASET
from tests.services.local_server import Asked, Canned


def answer(asked: Asked) -> Canned:
    """What the server says; 404 for paths that our adapters do not ask."""
    end = asked.path.rpartition("/")[2]
    if end == "3LXR":
        return Canned.json(DATASET)
    if end == "nameusage":
        return Canned.json(match(asked.query))
    if end in ("synonyms", "vernacular", "distribution"):
        taxon = usages().get(asked.path.split("/")[-2])
        return Canned(status=404) if taxon is None or not taxon.in_force else Canned.json(details(end, taxon))
    if end == "search":
        return Canned.json(search(asked.query))
    return Canned(status=404)


def match(query: Any) -> dict[str, Any]:
    """A reply of ``match/nameusage``."""
    name = query.get("scientificName") or query.get("name") or query["q"]
    authorship, rank = query.get("authorship", ""), query.get("rank", "")
    label = f"{name} {authorship}".strip()
    every = by_stem().get(ending_key(name), ())
    fitting = [one for one in every if not rank or one.rank == rank]
    if authorship and rank:
        fitting = [one for one in fitting if not one.authorship or same_author(one.authorship, authorship)]
    kind, usage = _picked(fitting)
    if usage is not None and kind != "ambiguous":
        kind = "exact" if usage.label == label else "variant"
    body: dict[str, Any] = {"match": usage is not None, "type": kind, "original": {"name": name, "label": label}}
    if usage is not None:
        body |= {"id": usage.key, "usage": as_usage(usage)}
    if query.get("verbose") == "true" and every:
        body["alternatives"] = [as_usage(one) for one in every if one != usage]
    return body | {"issues": {}}


def _picked(fitting: list[Usage]) -> tuple[str, Usage | None]:
    if not fitting:
        return "none", None
    if len(fitting) == 1 or len({one.accepted for one in fitting}) == 1:
        return "variant", fitting[0]
    in_force = [one for one in fitting if one.in_force]
    return ("variant", in_force[0]) if len(in_force) == 1 else ("ambiguous", (in_force or fitting)[0])


def as_usage(usage: Usage) -> dict[str, Any]:
    """A usage with its classification, leaf first, for a former name from the name in force on."""
    above = [{"id": f"H{name}", "name": name, "rank": rank, "status": "accepted"} for rank, name in usage.line][::-1]
    end = accepted_of(usage)
    head = [] if usage.in_force else [_simple(end)]
    parent = above[0]["id"] if usage.in_force and above else end.key
    return _simple(usage) | {"parent": parent, "classification": [*head, *above]}


def _simple(usage: Usage) -> dict[str, Any]:
    return {
        "id": usage.key, "name": usage.name, "authorship": usage.authorship, "rank": usage.rank, "code": "zoological",
        "status": "accepted" if usage.in_force else "synonym", "label": usage.label, "labelHtml": usage.label,
    }  # fmt: skip


def search(query: Any) -> dict[str, Any]:
    """A reply of ``nameusage/search``; of common names every word asked begins one of theirs; root first here."""
    if "TAXON_ID" in query or query.get("content") == "SCIENTIFIC_NAME":
        return _page(query)
    words = query["q"].casefold().split()
    hits = [
        _hit(by_stem()[ending_key(name)][0])
        for text, name in COMMON.items()
        if all(any(part.startswith(word) for part in text.casefold().split()) for word in words)
    ]
    return {"offset": 0, "limit": 50, "total": len(hits), "result": hits}


def _page(query: Any) -> dict[str, Any]:
    """Names by their spelling, or a page of all below a taxon with their common names."""
    wanted = query["TAXON_ID"] if "TAXON_ID" in query else query["q"]
    if "TAXON_ID" in query:
        genus = usages()[wanted].name
        found = [one for one in usages().values() if genus in (one.name, one.line[-1][1])]
    else:
        found = [one for one in by_stem().get(ending_key(wanted), ()) if one.in_force]
    offset, limit = int(query.get("offset", "0")), int(query["limit"])
    return {"offset": offset, "limit": limit, "total": len(found), "result": list(map(_hit, found[offset:][:limit]))}


def _hit(usage: Usage) -> dict[str, Any]:
    line = [{"id": f"H{above}", "name": above, "rank": rank} for rank, above in usage.line]
    own = _simple(usage)
    nested = {"id": usage.key, "status": own["status"], "name": own | {"scientificName": usage.name}}
    nested |= {"parentId": usage.accepted if not usage.in_force else line[-1]["id"]}
    return {
        "id": usage.key,
        "classification": [*line, {"id": usage.key, "name": usage.name, "rank": usage.rank}],
        "usage": nested,
        "vernacularNames": [{"name": text, "language": "eng"} for text, name in COMMON.items() if name == usage.name],
    }


def details(kind: str, taxon: Usage) -> Any:
    """What ``taxon/{id}/...`` lists (``webservice/.../TaxonResource.java``, ``api/.../model/Synonymy.java``)."""
    former = [one for one in usages().values() if one.accepted == taxon.key and not one.in_force]
    nested = [
        {"id": one.key, "status": "synonym", "name": _simple(one) | {"scientificName": one.name}} for one in former
    ]
    return {
        "synonyms": {"homotypic": nested, "heterotypic": [], "heterotypicGroups": [], "misapplied": []},
        "vernacular": [{"name": "example name", "language": "eng"}],
        "distribution": [{"area": {"name": "Mexico", "gazetteer": "text"}, "establishmentMeans": "native"}],
    }[kind]
