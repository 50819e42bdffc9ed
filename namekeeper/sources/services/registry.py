"""Which services there are and how they are opened: addresses, keys, contact, kept answers, pace."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from functools import partial
from typing import Protocol

from namekeeper.outside import Outside
from namekeeper.records.specimen import Settings
from namekeeper.sources.desk import ServiceDesk
from namekeeper.sources.http import Http, Wire, checked_base
from namekeeper.sources.http_limits import contact_in
from namekeeper.sources.kept_answers import AnswerCache, Freshness
from namekeeper.sources.services.checklistbank import ChecklistBank
from namekeeper.sources.services.gbif import Gbif
from namekeeper.sources.services.inaturalist import INaturalist
from namekeeper.sources.services.itis import Itis
from namekeeper.sources.services.service import OwnKey, Profile, Service
from namekeeper.sources.services.spidercatalog import SpiderCatalog
from namekeeper.sources.services.wikidata import Wikidata
from namekeeper.words.errors import InputError

#: In the order in which they are asked and shown.
SERVICES: tuple[type[Service], ...] = (
    ChecklistBank,
    INaturalist,
    Gbif,
    Itis,
    Wikidata,
    SpiderCatalog,
)
KEYS = tuple(service.profile.key for service in SERVICES)
_NONE = "none"
# Settings of ``collection.yaml``: ``services:`` is a list of keys, or a mapping with these two and the keeper's keys.
_ASK_SETTING = "ask"
_CONTACT_SETTING = "contact"


class KnownOfNames(Protocol):
    """What labels and lists on this machine know of a name that a service wants to be told."""

    def identifier(self, prefix: str, name: str) -> str | None:
        """The identifier that begins with ``prefix``, None where no list has one."""

    def authorship(self, name: str) -> str:
        """The authorship, "" where it is not known."""


class NothingKnown:
    """For questions of names that stand on no label and in no list."""

    def identifier(self, prefix: str, name: str) -> str | None:
        return None

    def authorship(self, name: str) -> str:
        return ""


def open_services(
    outside: Outside,
    settings: Settings,
    keys: Sequence[str],
    wish: Freshness,
    *,
    known: KnownOfNames | None = None,
    by_updates: bool = False,
    wire: Wire | None = None,
) -> tuple[Service, ...]:
    """The chosen services, ready to be asked.

    ``keys`` chooses; if empty, the collection's settings do, else all that need no key or whose key is there. With
    ``by_updates`` those that tell what they changed are asked for that first.

    :raises InputError: for a key that no service has, or an address that is not safe.
    """
    known = known or NothingKnown()
    wire = _with_contact(wire or Wire(sleep=outside.pause, breathe=outside.breathe), settings, outside.environ)
    opened = []
    for kind in chosen(keys, settings, outside.environ):
        profile = kind.profile
        desk = ServiceDesk(
            _http(profile, wire, outside.environ),
            AnswerCache(outside.places.cache / "services" / profile.key, outside.notice),
            outside.clock,
            profile.expiry,
            wish,
            _secret(profile.own_key, settings, outside.environ),
            needs_secret=profile.own_key is not None,
            slow_questions=profile.slow_questions,
        )
        identifier_of = partial(known.identifier, profile.identifiers)
        opened.append(kind(desk, identifier_of=identifier_of, authorship_of=known.authorship, by_updates=by_updates))
    return tuple(opened)


def _http(profile: Profile, wire: Wire, environ: Mapping[str, str]) -> Http:
    variable = profile.address_variable
    base = checked_base(environ.get(variable) or profile.base, variable)
    return Http(base, wire, spacing=profile.spacing, encoding=profile.encoding)


def chosen(keys: Sequence[str], settings: Settings, environ: Mapping[str, str]) -> tuple[type[Service], ...]:
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
    return tuple(
        service
        for service in SERVICES
        if service.profile.own_key is None or _secret(service.profile.own_key, settings, environ)
    )


def _secret(key: OwnKey | None, settings: Settings, environ: Mapping[str, str]) -> tuple[tuple[str, str], ...]:
    """The keeper's key for one service as a part of its query, () if it needs none or there is none."""
    if key is None:
        return ()
    value = environ.get(key.variable, "").strip() or _text(settings, key.setting)
    return ((key.parameter, value),) if value else ()


def contact_of(settings: Settings, environ: Mapping[str, str]) -> str:
    """The keeper's own contact by the environment, else by the collection; "" if there is none."""
    return contact_in(environ) or _text(settings, _CONTACT_SETTING)


def _with_contact(wire: Wire, settings: Settings, environ: Mapping[str, str]) -> Wire:
    contact = contact_of(settings, environ)
    return replace(wire, settings=replace(wire.settings, contact=contact)) if contact else wire


def _asked_for(settings: Settings) -> tuple[str, ...]:
    listed = _own(settings).get(_ASK_SETTING)
    return settings.services or (tuple(str(key) for key in listed) if isinstance(listed, list | tuple) else ())


def _text(settings: Settings, key: str) -> str:
    value = _own(settings).get(key)
    return value.strip() if isinstance(value, str) else ""


def _own(settings: Settings) -> Mapping[str, object]:
    own = settings.raw.get("services")
    return own if isinstance(own, Mapping) else {}
