"""All name services on one local server, each in its own folder and its own shape."""

from __future__ import annotations

from namekeeper.sources.services.registry import SERVICES
from tests.services.good_replies import accepted, good
from tests.services.local_server import Asked, Canned, LocalServer


def everywhere(server: LocalServer) -> dict[str, str]:
    """The environment that sends every service to its own folder of the server."""
    return {service.profile.address_variable: f"{server.base}/{service.profile.key}" for service in SERVICES}


def service_of(asked: Asked) -> tuple[str, Asked]:
    """The service that was meant, and the question as it would see it."""
    _, key, path = asked.path.split("/", 2)
    return key, Asked(asked.method, f"/{path}", asked.query, asked.body, asked.headers)


def is_about_a_name(asked: Asked) -> bool:
    """Not a question for the edition of a catalogue."""
    return not asked.path.endswith(("/dataset/3LXR", "/metadata"))


def well(asked: Asked) -> Canned:
    """Every service is well."""
    return good(*service_of(asked))


def accepting(asked: Asked) -> Canned:
    """Every service is well and accepts every name it is asked, as far as its replies are made for that."""
    return accepted(*service_of(asked))
