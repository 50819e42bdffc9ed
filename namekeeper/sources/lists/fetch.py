"""A subtree of the Catalogue of Life, page by page from ChecklistBank, as a list.

Every page is kept on disk as it comes, so that a fetch that was stopped goes on where it was; the release is pinned by
its number, so that all pages are of one edition. Shapes: the server's public API (``nameusage/search``); paging ends at
an offset of 100,000, so a larger taxon has to be fetched in parts.
"""

from __future__ import annotations

import json
import shutil
from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import suppress
from dataclasses import asdict, dataclass
from pathlib import Path
from typing import Any

from namekeeper.files.file_layer import write_own
from namekeeper.files.lenient_json import json_of, list_in, mapping_in, text_in
from namekeeper.sources.languages import two_letters
from namekeeper.sources.lists.folding import folded, status_of
from namekeeper.sources.lists.incoming import CommonRow, UsageRow
from namekeeper.sources.lists.list_file import Described, ListFile
from namekeeper.sources.lists.name_rows import Progress
from namekeeper.words.errors import FileError, InputError, NamekeeperError, Place

#: Asked for a path and query, gives the JSON document; raises NamekeeperError where it cannot.
GetJson = Callable[[str, Sequence[tuple[str, str]]], object]
RELEASE = "3LR"  # the latest base release
UPSTREAM = "catalogue of life"  # as the ChecklistBank service says it: one vote for both
_PAGE = 1000
_FURTHEST = 100_000
_PLAN = "plan.json"
_VARIABLE = "NAMEKEEPER_URL_CHECKLISTBANK"
#: A page of a thousand names with their classification takes longer, and is larger, than an answer on one name.
_MOST_BYTES = 40_000_000
_PAGE_SECONDS = 60
_BUDGET_SECONDS = 180
#: Seconds between two pages.
_SPACING = 1.0


@dataclass(frozen=True, slots=True)
class FetchPlan:
    """What a fetch is after; written first, and read when a fetch goes on."""

    asked: str
    taxon: str  # as the catalogue writes it
    identifier: str
    release: str
    total: int
    title: str
    edition: str
    dated: str
    licence: str
    citation: str


class FetchedSubtree(ListFile):
    """Pages on disk as a list."""

    def __init__(self, folder: Path, plan: FetchPlan) -> None:
        self._folder = folder
        self.plan = plan

    def described(self) -> Described:
        """The release."""
        plan = self.plan
        return Described(
            title=f"{plan.title}: {plan.taxon}",
            edition=plan.edition or None,
            dated=plan.dated or None,
            licence=plan.licence or None,
            citation=plan.citation or None,
            link=f"https://www.checklistbank.org/dataset/{plan.release}/taxon/{plan.identifier}",
        )

    def usages(self) -> Iterator[UsageRow]:
        for line, result in self._results():
            yield _usage(line, result)

    def commons(self) -> Iterator[CommonRow]:
        for line, result in self._results():
            for name in list_in(result.get("vernacularNames")):
                text = text_in(mapping_in(name), "name")
                if text:
                    yield CommonRow(
                        line, text_in(result, "id"), text, two_letters(text_in(mapping_in(name), "language"))
                    )

    def _results(self) -> Iterator[tuple[int, Mapping[str, Any]]]:
        line = 0
        for offset in range(0, self.plan.total, _PAGE):
            for result in _read(self._folder / _page_name(offset)):
                line += 1
                yield line, mapping_in(result)


def fetch(taxon: str, get_json: GetJson, folder: Path, progress: Progress) -> FetchedSubtree:
    """Fetch all names below ``taxon`` into ``folder``, or go on with what stands there.

    :raises InputError: if the catalogue does not have the taxon, or it is too large for one fetch.
    :raises NamekeeperError: if the catalogue cannot be asked: what was fetched stays, and the next call goes on.
    """
    plan = _plan_kept(folder, taxon) or _begin(taxon, get_json, folder)
    for offset in range(0, plan.total, _PAGE):
        progress(offset, plan.total, "names fetched")
        page = folder / _page_name(offset)
        if page.is_file():
            continue
        asked = (("TAXON_ID", plan.identifier), ("limit", str(_PAGE)), ("offset", str(offset)), ("sortBy", "taxonomic"))
        document = mapping_in(get_json(f"dataset/{plan.release}/nameusage/search", asked))
        results = list_in(document.get("result"))
        if len(results) != min(_PAGE, plan.total - offset):
            message = f"the catalogue gave {len(results)} names where {min(_PAGE, plan.total - offset)} were due"
            raise InputError(message, remedy="ask again later; what was fetched is kept")
        _write(page, results)
    progress(plan.total, plan.total, "names fetched")
    return FetchedSubtree(folder, plan)


def forget(folder: Path) -> None:
    """Delete the pages of a fetch that is in the index now."""
    shutil.rmtree(folder, ignore_errors=True)


def _found(taxon: str, number: str, get_json: GetJson) -> Mapping[str, Any]:
    """The one animal taxon of that name."""
    asked = (("q", taxon), ("content", "SCIENTIFIC_NAME"), ("type", "EXACT"), ("status", "accepted"), ("limit", "20"))
    document = mapping_in(get_json(f"dataset/{number}/nameusage/search", asked))
    fitting = [
        result
        for result in map(mapping_in, list_in(document.get("result")))
        if _is(result, taxon) and _is_animal(result)
    ]
    if len(fitting) != 1:
        found = "several animals of that name" if fitting else "no animal of that name"
        message = f"the Catalogue of Life has {found}: '{taxon}'"
        raise InputError(message, remedy="give a genus, family or order of animals as the catalogue writes it")
    return fitting[0]


def _begin(taxon: str, get_json: GetJson, folder: Path) -> FetchPlan:
    release = mapping_in(get_json(f"dataset/{RELEASE}", ()))
    number = text_in(release, "key") or RELEASE
    found = _found(taxon, number, get_json)
    identifier = text_in(found, "id")
    counted = mapping_in(get_json(f"dataset/{number}/nameusage/search", (("TAXON_ID", identifier), ("limit", "1"))))
    total = counted.get("total")
    if not isinstance(total, int) or isinstance(total, bool) or total < 1:
        raise InputError("the catalogue does not say how many names there are", remedy="ask again later")
    if total > _FURTHEST:
        message = f"{taxon} has {total} names, and the catalogue gives at most {_FURTHEST} at a time"
        raise InputError(message, remedy="fetch its families one by one, or add the catalogue as an archive")
    plan = FetchPlan(
        asked=taxon,
        taxon=text_in(mapping_in(mapping_in(found.get("usage")).get("name")), "scientificName"),
        identifier=identifier,
        release=number,
        total=total,
        title=text_in(release, "title") or "Catalogue of Life",
        edition=text_in(release, "alias") or text_in(release, "version"),
        dated=text_in(release, "issued"),
        licence=text_in(release, "license"),
        citation=text_in(release, "citation"),
    )
    forget(folder)
    _write(folder / _PLAN, asdict(plan))
    return plan


def _plan_kept(folder: Path, taxon: str) -> FetchPlan | None:
    try:
        plan = FetchPlan(**mapping_in(json_of((folder / _PLAN).read_bytes())))
    except (OSError, ValueError, TypeError):
        return None
    return plan if plan.asked == taxon and isinstance(plan.total, int) else None


def _usage(line: int, result: Mapping[str, Any]) -> UsageRow:
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
        line=line, key=text_in(result, "id") or text_in(usage, "id"), name=text_in(name, "scientificName"),
        authorship=text_in(name, "authorship"), rank=text_in(name, "rank"), status=status,
        accepted_key=parent if sunk else "", parent_key="" if sunk else parent, family=above.get("family", ""),
        order=above.get("order", ""), class_=above.get("class", ""), kingdom=above.get("kingdom", ""),
        code=text_in(name, "code"), name_status=text_in(name, "nomStatus"), remarks=text_in(usage, "remarks"),
        link=text_in(usage, "link"),
    )  # fmt: skip


def _is(result: Mapping[str, Any], taxon: str) -> bool:
    return folded(text_in(mapping_in(mapping_in(result.get("usage")).get("name")), "scientificName")) == folded(taxon)


def _is_animal(result: Mapping[str, Any]) -> bool:
    names = [text_in(mapping_in(taxon), "name") for taxon in list_in(result.get("classification"))]
    return "Animalia" in names or not names


def _page_name(offset: int) -> str:
    return f"page-{offset:06d}.json"


def _read(page: Path) -> list[Any]:
    try:
        return list_in(json_of(page.read_bytes()))
    except (OSError, ValueError) as error:
        with suppress(OSError):
            page.unlink()
        message = "a fetched page is damaged and was dropped"
        raise FileError(message, remedy="fetch again: only this page is asked for", place=Place(str(page))) from error


def _write(place: Path, content: object) -> None:
    """Whole or not at all: a page that exists is a page that is complete."""
    try:
        place.parent.mkdir(parents=True, exist_ok=True)
        write_own(place, json.dumps(content).encode())
    except OSError as error:
        message = f"a fetched page cannot be kept: {error.strerror or error}"
        raise FileError(message, remedy="make room on the disk", place=Place(str(place))) from error


class UnansweredFetchError(NamekeeperError):
    """The catalogue did not answer; what was fetched is kept."""

    exit_code = 3

    def __init__(self, why: str) -> None:
        super().__init__(
            f"the Catalogue of Life could not be asked: {why}", remedy="try again: it goes on where it was"
        )


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
