"""All name services on one local server: every name is accepted, in each service's own shape."""

from __future__ import annotations

from namekeeper.sources.services.registry import KEYS
from tests.services.conftest import recorded
from tests.services.good_replies import CLB_DATASET, GBIF_METADATA, gbif
from tests.services.local_server import Asked, Canned, LocalServer


def everywhere(server: LocalServer) -> dict[str, str]:
    """The environment that sends every service to its own folder of the server."""
    return {f"NAMEKEEPER_URL_{key.upper()}": f"{server.base}/{key}" for key in KEYS}


def service_of(asked: Asked) -> tuple[str, Asked]:
    """The service that was meant, and the question as it would see it."""
    _, key, path = asked.path.split("/", 2)
    return key, Asked(asked.method, f"/{path}", asked.query, asked.body, asked.headers)


def is_about_a_name(asked: Asked) -> bool:
    """Not a question for the edition of a catalogue."""
    return not asked.path.endswith(("/dataset/3LXR", "/metadata"))


def accepting(asked: Asked) -> Canned:
    """Accepts every name it is asked, whichever of the three services was meant."""
    if asked.path.endswith("/dataset/3LXR"):
        return Canned.json(CLB_DATASET)
    if asked.path.endswith("/metadata"):
        return Canned.json(GBIF_METADATA)
    if asked.path.endswith("/match/nameusage"):
        document = recorded("clb-match-synonym-genus-transfer")
        document["usage"] |= {"name": asked.query["scientificName"], "authorship": "", "status": "accepted"}
        return Canned.json(document)
    if isinstance(asked.body, list):
        return Canned.json([_anonymous(item["scientificName"]) for item in asked.body])
    if "scientificName" in asked.query:
        return Canned.json(_anonymous(asked.query["scientificName"]))
    name = asked.query["q"]
    rank = {1: "genus", 2: "species"}.get(len(name.split()), "subspecies")
    hit = {"id": 1, "name": name, "rank": rank, "is_active": True, "ancestor_ids": [1]}
    return Canned.json({"results": [hit]})


def _anonymous(name: str) -> object:
    document = gbif(name)
    document["usage"]["authorship"] = ""
    return document
