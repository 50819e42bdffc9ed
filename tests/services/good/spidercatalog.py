"""World Spider Catalog: a valid species, constructed."""

from __future__ import annotations

from typing import Any

from tests.services.conftest import constructed
from tests.services.local_server import Asked


def reply(asked: Asked) -> Any:
    return constructed("wsc-lsid-valid")
