"""Servers that answer as the services' own code does, from one catalogue: to see what a keeper would see online.

Each module names the code it follows (repository, path, commit). Written in our own words after reading it; what a
module leaves out does not matter for the questions that our adapters put.
"""

from __future__ import annotations

from collections.abc import Callable
from types import MappingProxyType

from tests.services.faithful import checklistbank, gbif, inaturalist, itis, spidercatalog, wikidata
from tests.services.local_server import Asked, Canned
from tests.services.local_services import service_of

ANSWERS: MappingProxyType[str, Callable[[Asked], Canned]] = MappingProxyType(
    {
        "checklistbank": checklistbank.answer,
        "gbif": gbif.answer,
        "inaturalist": inaturalist.answer,
        "itis": itis.answer,
        "spidercatalog": spidercatalog.answer,
        "wikidata": wikidata.answer,
    }
)


def faithful(asked: Asked) -> Canned:
    """The answer of the service that was meant."""
    key, own = service_of(asked)
    return ANSWERS[key](own)
