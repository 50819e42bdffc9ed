"""How the open name services stand: which are on, what they are for, what is kept of them, whether they answer."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import UTC, datetime

from namekeeper.evidence.statements import Failure
from namekeeper.outside import Outside, Work
from namekeeper.records.specimen import Settings
from namekeeper.sources.kept_answers import Freshness
from namekeeper.sources.services import registry
from namekeeper.sources.services.service import Service


@dataclass(frozen=True, slots=True)
class ServiceState:
    """How a service stands.

    ``on`` if it is asked unless a command chooses others; ``lacks_key`` if it cannot be, as it wants the keeper's own
    key. ``asked`` if a question was put to it now, ``failure`` what went wrong then.
    """

    key: str
    on: bool
    jobs: tuple[str, ...]
    licence: str | None
    lacks_key: bool
    asked: bool
    failure: Failure | None
    last_answer: datetime | None
    cache_bytes: int

    @property
    def reachable(self) -> bool | None:
        """Whether it answers; None if it was not asked."""
        return self.failure is None if self.asked else None


def service_states(outside: Outside, *, live: bool, settings: Settings | None = None) -> tuple[ServiceState, ...]:
    """The state of every service, in the order in which they are asked; ``live`` asks those that are on a question.

    ``settings`` are those of the collection that is at hand, if any.

    :raises InputError: for an unsafe address, or settings that name a service that there is not.
    """
    settings = settings or Settings()
    services = registry.open_services(outside, settings, registry.KEYS, Freshness())
    on = {kind.profile.key for kind in registry.chosen((), settings, outside.environ)}
    states = []
    with outside.progress(Work.ASKING) as progress:
        for number, service in enumerate(services):
            progress(number, len(services), service.profile.key)
            states.append(_state(service, on=service.profile.key in on, live=live))
    return tuple(states)


def _state(service: Service, *, on: bool, live: bool) -> ServiceState:
    profile, kept = service.profile, service.desk.cache
    asked = live and on
    failure = service.probe() if asked else None
    newest = kept.last_answer()
    return ServiceState(
        profile.key,
        on,
        tuple(job.value for job in profile.jobs),
        profile.licence,
        lacks_key=service.desk.lacks_secret,
        asked=asked,
        failure=failure,
        last_answer=None if newest is None else datetime.fromtimestamp(newest, UTC),
        cache_bytes=kept.size(),
    )
