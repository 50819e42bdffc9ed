"""World Spider Catalog: a valid species, constructed, under the identifier that is asked."""

from __future__ import annotations

from typing import Any

from tests.services.conftest import constructed
from tests.services.local_server import Asked


def reply(asked: Asked) -> Any:
    document = constructed("wsc-lsid-valid")
    document["taxon"]["lsid"] = asked.path.rpartition("/")[2]
    return document
