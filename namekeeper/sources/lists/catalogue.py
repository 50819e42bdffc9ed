"""The Catalogue of Life as ChecklistBank serves it: asked for pages of names, and what one result there holds."""

from __future__ import annotations

import html
import re
from collections.abc import Callable, Mapping, Sequence
from typing import Any

from namekeeper.files.lenient_json import list_in, mapping_in, text_in
from namekeeper.outside import Outside
from namekeeper.sources.lists.folding import folded, status_of
from namekeeper.sources.lists.incoming import UsageRow
from namekeeper.words.errors import NamekeeperError

#: Asked for a path and query, gives the JSON document; raises NamekeeperError where it cannot.
GetJson = Callable[[str, Sequence[tuple[str, str]]], object]
_VARIABLE = "NAMEKEEPER_URL_CHECKLISTBANK"
#: A page of names with their classification takes longer, and is larger, than an answer on one name; it is put together
#: before its first byte is sent. A few kB a name are likely (no page was ever fetched); this leaves room for 20 kB of
#: each, and memory stays below 64 MB.
MOST_BYTES = 10_000_000
_FIRST_BYTE_SECONDS = 60
_PAGE_SECONDS = 120
_BUDGET_SECONDS = 300
#: Seconds between two pages.
_SPACING = 1.0
#: Statuses of what is not there, or no more (RFC 9110, 15.5.5 and 15.5.11).
_GONE = frozenset({404, 410})
_TAG = re.compile(r"<[^<>]{0,200}>")


class UnansweredFetchError(NamekeeperError):
    """The catalogue did not answer; what was fetched is kept."""

    exit_code = 3

    def __init__(self, why: str) -> None:
        super().__init__(
            f"the Catalogue of Life could not be asked: {why}", remedy="try again: it goes on where it was"
        )


class ReleaseGoneError(UnansweredFetchError):
    """The catalogue answers, and no longer has what was asked for."""


def catalogue(outside: Outside) -> GetJson:
    """A function that asks ChecklistBank one path; it raises :class:`UnansweredFetchError` where nobody answers.

    :raises InputError: for an unsafe address in the environment.
    """
    from namekeeper.sources.http import Http, WebQuestion, Wire, checked_base
    from namekeeper.sources.http_faults import UnansweredError
    from namekeeper.sources.http_limits import HttpSettings, contact_in
    from namekeeper.sources.services.checklistbank import ChecklistBank

    environ = outside.environ
    base = checked_base(environ.get(_VARIABLE) or ChecklistBank.profile.base, _VARIABLE)
    settings = HttpSettings(
        contact=contact_in(environ),
        max_bytes=MOST_BYTES,
        read_seconds=_FIRST_BYTE_SECONDS,
        attempt_seconds=_PAGE_SECONDS,
        budget_seconds=_BUDGET_SECONDS,
    )
    http = Http(base, Wire(settings=settings, sleep=outside.pause, breathe=outside.breathe), spacing=_SPACING)

    def get_json(path: str, params: Sequence[tuple[str, str]]) -> object:
        try:
            return http.send(WebQuestion(path, tuple(params))).document
        except UnansweredError as error:
            raise (ReleaseGoneError if error.status in _GONE else UnansweredFetchError)(error.why) from error

    return get_json


def id_of(result: Mapping[str, Any]) -> str:
    """The catalogue's identifier of the name, "" if there is none."""
    return text_in(result, "id") or text_in(mapping_in(result.get("usage")), "id")


def usage_row(line: int, result: Mapping[str, Any]) -> UsageRow:
    """The name as a row of a list."""
    usage = mapping_in(result.get("usage"))
    name = mapping_in(usage.get("name"))
    status = text_in(usage, "status")
    above = {
        text_in(mapping_in(taxon), "rank"): text_in(mapping_in(taxon), "name")
        for taxon in list_in(result.get("classification"))
    }
    parent = text_in(usage, "parentId") or text_in(mapping_in(usage.get("accepted")), "id")
    known = status_of(status)
    sunk = known is not None and known.value not in ("accepted", "unavailable")
    return UsageRow(
        line=line, key=id_of(result), name=text_in(name, "scientificName"),
        authorship=text_in(name, "authorship"), rank=text_in(name, "rank"), status=status,
        accepted_key=parent if sunk else "", parent_key="" if sunk else parent, family=above.get("family", ""),
        order=above.get("order", ""), class_=above.get("class", ""), kingdom=above.get("kingdom", ""),
        code=text_in(name, "code"), name_status=text_in(name, "nomStatus"), remarks=text_in(usage, "remarks"),
        link=text_in(usage, "link"),
    )  # fmt: skip


def is_named(result: Mapping[str, Any], taxon: str) -> bool:
    """Whether it is that very name."""
    return folded(text_in(mapping_in(mapping_in(result.get("usage")).get("name")), "scientificName")) == folded(taxon)


def is_animal(result: Mapping[str, Any]) -> bool:
    """Whether the catalogue places it among the animals, or does not place it."""
    names = [text_in(mapping_in(taxon), "name") for taxon in list_in(result.get("classification"))]
    return "Animalia" in names or not names


def plain_text(citation: str) -> str:
    """A citation without the HTML in which the catalogue sends it; its plain form is not sent (``Dataset.java``)."""
    return " ".join(html.unescape(_TAG.sub("", citation)).split())
