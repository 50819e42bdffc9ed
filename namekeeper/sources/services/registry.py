"""Which services there are and how they are opened: addresses, keys, contact, cache, pace."""

from __future__ import annotations

import random
import time
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import datetime
from pathlib import Path
from typing import Protocol

from namekeeper.records.specimen import Settings
from namekeeper.sources.answer_cache import AnswerCache
from namekeeper.sources.desk import ServiceDesk
from namekeeper.sources.freshness import Freshness
from namekeeper.sources.http import Http, checked_base
from namekeeper.sources.http_settings import HttpSettings
from namekeeper.sources.services.checklistbank import ChecklistBank
from namekeeper.sources.services.gbif import Gbif
from namekeeper.sources.services.inaturalist import INaturalist
from namekeeper.sources.services.itis import Itis
from namekeeper.sources.services.service import CommonNameService, NameService, Profile, Service
from namekeeper.sources.services.spidercatalog import SpiderCatalog, unknown_identifier
from namekeeper.sources.services.wikidata import Wikidata
from namekeeper.words.errors import InputError

#: In the order in which they are asked and shown.
SERVICES: tuple[type[Service], ...] = (ChecklistBank, INaturalist, Gbif, Itis, Wikidata, SpiderCatalog)
KEYS = tuple(service.profile.key for service in SERVICES)
_NONE = "none"
_KEY_VARIABLE = "NAMEKEEPER_SPIDERCATALOG_KEY"
# Settings of ``collection.yaml``: ``services:`` is a list of keys, or a mapping with these three.
_ASK_SETTING = "ask"
_KEY_SETTING = "spidercatalog_key"
_CONTACT_VARIABLE = "NAMEKEEPER_CONTACT"
_CONTACT_SETTING = "contact"


class HasCache(Protocol):
    """What is needed of ``storage.places.Places``."""

    @property
    def cache(self) -> Path: ...


@dataclass(frozen=True, slots=True, kw_only=True)
class Wire:
    """The outside world of the services; tests hand in a clock that does not wait."""

    settings: HttpSettings = field(default_factory=HttpSettings)
    monotonic: Callable[[], float] = time.monotonic
    sleep: Callable[[float], None] = time.sleep
    chance: Callable[[], float] = random.random


@dataclass(frozen=True, slots=True)
class Outside:
    """Folder, environment, talk, clock and network, as far as services need them."""

    cache: Path
    environ: Mapping[str, str]
    notice: Callable[[str], None]
    clock: Callable[[], datetime]
    rim: Wire


def open_services(  # noqa: PLR0917 - the order that all faces use
    keys: Sequence[str],
    settings: Settings,
    places: HasCache,
    environ: Mapping[str, str],
    notice: Callable[[str], None],
    clock: Callable[[], datetime],
    *,
    wish: Freshness | None = None,
    identifier_of: Callable[[str], str | None] = unknown_identifier,
    rim: Wire | None = None,
) -> tuple[NameService, ...]:
    """The services that are asked scientific names.

    ``keys`` chooses; if empty, the collection's settings do, else all that need no key or whose key is there.
    ``identifier_of`` gives the spider catalogue's identifier of a name where an added list knows it.

    :raises InputError: for a key that no service has, or an address that is not safe.
    """
    outside = Outside(places.cache, environ, notice, clock, rim or Wire())
    opened = open_all(keys, settings, outside, wish or Freshness(), identifier_of)
    for service in opened:
        if keys and not isinstance(service, NameService):
            notice(f"{service.profile.title} knows common names only and is not asked here")
    return tuple(service for service in opened if isinstance(service, NameService))


def common_name_services(  # noqa: PLR0917 - as above
    keys: Sequence[str],
    settings: Settings,
    places: HasCache,
    environ: Mapping[str, str],
    notice: Callable[[str], None],
    clock: Callable[[], datetime],
    *,
    wish: Freshness | None = None,
    rim: Wire | None = None,
) -> tuple[CommonNameService, ...]:
    """The services that are asked common names; arguments and errors as for :func:`open_services`."""
    opened = open_all(keys, settings, Outside(places.cache, environ, notice, clock, rim or Wire()), wish or Freshness())
    return tuple(service for service in opened if isinstance(service, CommonNameService))


def open_all(
    keys: Sequence[str],
    settings: Settings,
    outside: Outside,
    wish: Freshness,
    identifier_of: Callable[[str], str | None] = unknown_identifier,
) -> tuple[Service, ...]:
    """All chosen services; arguments and errors as for :func:`open_services`."""
    secret = _secret(settings, outside.environ)
    limits = _with_contact(outside.rim.settings, settings, outside.environ)
    opened: list[Service] = []
    for kind in chosen(keys, settings, has_key=bool(secret)):
        profile = kind.profile
        http = _http(profile, limits, outside)
        cache = AnswerCache(outside.cache / "services" / profile.key, outside.notice)
        desk = ServiceDesk(http, cache, outside.clock, profile.expiry, wish, secret if profile.needs_key else ())
        opened.append(SpiderCatalog(desk, identifier_of=identifier_of) if kind is SpiderCatalog else kind(desk))
    return tuple(opened)


def _http(profile: Profile, limits: HttpSettings, outside: Outside) -> Http:
    variable = f"NAMEKEEPER_URL_{profile.key.upper()}"
    return Http(
        checked_base(outside.environ.get(variable) or profile.base, variable),
        limits,
        spacing=profile.spacing,
        encoding=profile.encoding,
        monotonic=outside.rim.monotonic,
        sleep=outside.rim.sleep,
        chance=outside.rim.chance,
    )


def chosen(keys: Sequence[str], settings: Settings, *, has_key: bool) -> tuple[type[Service], ...]:
    """The services in question, in our own order; ``none`` chooses none.

    :raises InputError: for a key that no service has.
    """
    wished = tuple(key.strip().casefold() for key in (keys or _asked_for(settings)) if key.strip())
    unknown = [key for key in wished if key not in KEYS and key != _NONE]
    if unknown:
        what = f"there is no service '{unknown[0]}'"
        raise InputError(what, remedy=f"choose from {', '.join(KEYS)}, or {_NONE}")
    if wished:
        return tuple(service for service in SERVICES if service.profile.key in wished)
    return tuple(service for service in SERVICES if has_key or not service.profile.needs_key)


def switched_on(settings: Settings, environ: Mapping[str, str]) -> tuple[str, ...]:
    """The keys of the services that are asked unless a command chooses others."""
    return tuple(kind.profile.key for kind in chosen((), settings, has_key=bool(_secret(settings, environ))))


def _secret(settings: Settings, environ: Mapping[str, str]) -> tuple[tuple[str, str], ...]:
    """The keeper's key as a part of the query, () if there is none."""
    key = environ.get(_KEY_VARIABLE, "").strip() or _text(settings, _KEY_SETTING)
    return (("apiKey", key),) if key else ()


def _with_contact(limits: HttpSettings, settings: Settings, environ: Mapping[str, str]) -> HttpSettings:
    contact = environ.get(_CONTACT_VARIABLE, "").strip() or _text(settings, _CONTACT_SETTING)
    return replace(limits, contact=contact) if contact else limits


def _asked_for(settings: Settings) -> tuple[str, ...]:
    listed = _own(settings).get(_ASK_SETTING)
    return settings.services or (tuple(str(key) for key in listed) if isinstance(listed, list | tuple) else ())


def _text(settings: Settings, key: str) -> str:
    value = _own(settings).get(key)
    return value.strip() if isinstance(value, str) else ""


def _own(settings: Settings) -> Mapping[str, object]:
    own = settings.raw.get("services")
    return own if isinstance(own, Mapping) else {}
