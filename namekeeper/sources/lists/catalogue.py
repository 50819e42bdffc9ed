"""The Catalogue of Life as ChecklistBank serves it, asked for pages of names: the limits of such a question."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from namekeeper.outside import Outside
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
