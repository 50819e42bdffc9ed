"""What a service that is well replies, by its own module in ``good/``: the contract suites run over all of these."""

from __future__ import annotations

import importlib
from types import ModuleType

from namekeeper.sources.services.registry import SERVICES
from tests.services.local_server import Asked, Canned

_ENCODINGS = {service.profile.key: service.profile.encoding for service in SERVICES}


def _module(key: str) -> ModuleType:
    return importlib.import_module(f"tests.services.good.{key}")


def good(key: str, asked: Asked) -> Canned:
    """A reply to this question that its reader accepts."""
    return Canned.json(_module(key).reply(asked), _ENCODINGS[key])


def accepted(key: str, asked: Asked) -> Canned:
    """A reply that accepts every name it is asked, where the service's module can make one; else a good one."""
    module = _module(key)
    return Canned.json(getattr(module, "accepting", module.reply)(asked), _ENCODINGS[key])
