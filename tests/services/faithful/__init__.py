"""Servers that answer as the services' own code does, from one catalogue: to see what a keeper would see online.

Each module names the code it follows (repository, path, commit). Written in our own words after reading it; what a
module leaves out does not matter for the questions that our adapters put.
"""

from __future__ import annotations

from collections.abc import Callable
from types import MappingProxyType

from namekeeper.sources.services.registry import SERVICES
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


#: The adapters of these services.
KINDS = tuple(kind for kind in SERVICES if kind.profile.key in ANSWERS)


def faithful(asked: Asked) -> Canned:
    """The answer of the service that was meant; 404 for one whose code nobody has read yet."""
    key, own = service_of(asked)
    return ANSWERS[key](own) if key in ANSWERS else Canned(status=404)
