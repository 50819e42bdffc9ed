"""The Catalogue of Life over the network rim, for fetching whole taxa."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from namekeeper.sources.lists.fetch import GetJson, UnansweredFetchError

_VARIABLE = "NAMEKEEPER_URL_CHECKLISTBANK"
#: A page of a thousand names with their classification takes longer, and is larger, than an answer on one name.
_MOST_BYTES = 40_000_000
_PAGE_SECONDS = 60
_BUDGET_SECONDS = 180
#: Seconds between two pages.
_SPACING = 1.0


def catalogue(environ: Mapping[str, str]) -> GetJson:
    """A function that asks ChecklistBank one path; it raises :class:`UnansweredFetchError` where nobody answers.

    :raises InputError: for an unsafe address in the environment.
    """
    from namekeeper.sources.http import Http, WebQuestion, Wire, checked_base
    from namekeeper.sources.http_faults import UnansweredError
    from namekeeper.sources.http_limits import HttpSettings
    from namekeeper.sources.services.checklistbank import ChecklistBank

    base = checked_base(environ.get(_VARIABLE) or ChecklistBank.profile.base, _VARIABLE)
    settings = HttpSettings(max_bytes=_MOST_BYTES, attempt_seconds=_PAGE_SECONDS, budget_seconds=_BUDGET_SECONDS)
    http = Http(base, Wire(settings=settings), spacing=_SPACING)

    def get_json(path: str, params: Sequence[tuple[str, str]]) -> object:
        try:
            return http.send(WebQuestion(path, tuple(params)))
        except UnansweredError as error:
            raise UnansweredFetchError(error.why) from error

    return get_json
