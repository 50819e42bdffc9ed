"""What the fake services answer, by a name that scenarios use; replies of :mod:`tests.services`."""

from __future__ import annotations

from collections.abc import Callable
from types import MappingProxyType

from tests.lists.test_fetch import Catalogue
from tests.services.conftest import constructed, recorded
from tests.services.good_replies import good
from tests.services.local_server import Asked, Canned
from tests.services.local_services import accepting, service_of


def _good(asked: Asked) -> Canned:
    return good(*service_of(asked))


def _gbif_refuses(asked: Asked) -> Canned:
    return Canned(status=403) if "/gbif/" in asked.path else accepting(asked)


def _moth(asked: Asked) -> Canned:
    key, own = service_of(asked)
    return Canned.json(recorded("inat-taxa-preferred-place")) if key == "inaturalist" else good(key, own)


def _ant(asked: Asked) -> Canned:
    """An ant whose name has changed, at ChecklistBank only."""
    key, own = service_of(asked)
    if key != "checklistbank":
        return Canned(status=404)
    bodies = {
        "nameusage": recorded("clb-match-synonym-genus-transfer"),
        "synonyms": constructed("clb-taxon-synonyms"),
        "vernacular": [{"name": "hormiga de ejemplo", "language": "spa"}],
        "distribution": constructed("clb-taxon-distribution"),
    }
    body = bodies.get(own.path.rpartition("/")[2])
    return Canned(status=404) if body is None else Canned.json(body)


def _catalogue(asked: Asked) -> Canned:
    """A small Catalogue of Life, to fetch a taxon from."""
    own = service_of(asked)[1]
    try:
        return Canned.json(Catalogue()(own.path.lstrip("/"), tuple(own.query.items())))
    except AssertionError:
        return Canned(status=404)


ANSWERS: MappingProxyType[str, Callable[[Asked], Canned]] = MappingProxyType(
    {
        "accepting": accepting,
        "good": _good,
        "gbif refuses": _gbif_refuses,
        "refusing": lambda asked: Canned(status=403),
        "a login page": lambda asked: Canned(body=b"<html><form>login</form></html>"),
        "no sense": lambda asked: Canned.json({"unheard": [1, None]}),
        "moth": _moth,
        "ant": _ant,
        "catalogue": _catalogue,
    }
)
