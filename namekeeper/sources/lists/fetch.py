"""A subtree of the Catalogue of Life, page by page from ChecklistBank, as a list.

Every page is kept on disk as it comes, so that a fetch that was stopped goes on where it was; the release is pinned by
its number, so that all pages are of one edition. Shapes: the server's public API (``nameusage/search``); paging ends at
an offset of 100,000, so a larger taxon has to be fetched in parts. Its order has nothing that parts equal names, so
between two pages a name may come twice and another not at all: ids are compared, and such edges asked once more.
"""

from __future__ import annotations

import json
import shutil
from collections.abc import Iterator, Mapping
from contextlib import suppress
from dataclasses import asdict, dataclass
from pathlib import Path
from typing import Any

from namekeeper.files.file_layer import remove_own, write_own
from namekeeper.files.lenient_json import json_of, list_in, mapping_in, text_in
from namekeeper.files.reading import read_file
from namekeeper.sources.languages import two_letters
from namekeeper.sources.lists.catalogue import (
    MOST_BYTES,
    GetJson,
    ReleaseGoneError,
    id_of,
    is_animal,
    is_named,
    plain_text,
    usage_row,
)
from namekeeper.sources.lists.incoming import CommonRow, UsageRow
from namekeeper.sources.lists.list_file import Described, ListFile
from namekeeper.sources.lists.name_rows import Progress
from namekeeper.words.errors import FileError, InputError, Place

#: The latest extended release: it has former names that the base release lacks.
RELEASE = "3LXR"
UPSTREAM = "catalogue of life"  # as the ChecklistBank service says it: one vote for both
#: Names a page: half of what the server allows, so that no page fills memory (``catalogue.MOST_BYTES``).
_PAGE = 500
_FURTHEST = 100_000
_PLAN = "plan.json"
_MOST_KEPT = 2 * MOST_BYTES  # of a page on disk: numbers may be written longer than they came
#: Fewer former names than this to one in force are hardly any; the starter list holds about eight to ten.
_HARDLY_ANY = 0.1


class OtherPageError(InputError):
    """A page holds another number of names than its release counted."""


@dataclass(frozen=True, slots=True)
class FetchPlan:
    """What a fetch is after; written first, and read when a fetch goes on."""

    asked: str
    taxon: str  # as the catalogue writes it
    identifier: str
    release: str
    total: int
    page: int
    title: str
    edition: str
    dated: str
    licence: str
    citation: str


@dataclass(frozen=True, slots=True)
class Counted:
    """What came of a fetch: names, former ones among them, and how many the catalogue counts and did not give."""

    names: int
    former: int
    missing: int

    @property
    def hardly_any_former(self) -> bool:
        """Whether former names can as well be unknown to the list as not exist."""
        return self.former < _HARDLY_ANY * (self.names - self.former)


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
            yield usage_row(line, result)

    def commons(self) -> Iterator[CommonRow]:
        for line, result in self._results():
            for name in list_in(result.get("vernacularNames")):
                text = text_in(mapping_in(name), "name")
                if text:
                    yield CommonRow(
                        line, text_in(result, "id"), text, two_letters(text_in(mapping_in(name), "language"))
                    )

    def counted(self) -> Counted:
        """How many names came, and how many of them are former ones."""
        rows = [usage_row(line, result) for line, result in self._results()]
        return Counted(len(rows), sum(bool(row.accepted_key) for row in rows), max(0, self.plan.total - len(rows)))

    def _results(self) -> Iterator[tuple[int, Mapping[str, Any]]]:
        """Every name once, with its number; one without an id as often as it comes."""
        line = 0
        seen: set[str] = set()
        for page in self._pages():
            for result in map(mapping_in, _read(page)):
                key = id_of(result)
                if key and key in seen:
                    continue
                seen.add(key)
                line += 1
                yield line, result

    def _pages(self) -> Iterator[Path]:
        yield from (self._folder / _page_name(offset) for offset in range(0, self.plan.total, _PAGE))
        yield from sorted(self._folder.glob("edge-*.json"))


def fetch(taxon: str, get_json: GetJson, folder: Path, progress: Progress) -> FetchedSubtree:
    """Fetch all names below ``taxon`` into ``folder``, or go on with what stands there.

    :raises InputError: if the catalogue does not have the taxon, or it is too large for one fetch.
    :raises NamekeeperError: if the catalogue cannot be asked: what was fetched stays, and the next call goes on.
    """
    kept = _plan_kept(folder, taxon)
    if kept is not None:
        with suppress(ReleaseGoneError, OtherPageError):  # the catalogue went on meanwhile: begin anew with its newest
            return _all_pages(kept, get_json, folder, progress)
    return _all_pages(_begin(taxon, get_json, folder), get_json, folder, progress)


def _all_pages(plan: FetchPlan, get_json: GetJson, folder: Path, progress: Progress) -> FetchedSubtree:
    for offset in range(0, plan.total, _PAGE):
        progress(offset, plan.total, "names fetched")
        page = folder / _page_name(offset)
        if page.is_file():
            continue
        results = list_in(_asked_page(plan, get_json, offset).get("result"))
        if len(results) != min(_PAGE, plan.total - offset):
            message = f"the catalogue gave {len(results)} names where {min(_PAGE, plan.total - offset)} were due"
            raise OtherPageError(message, remedy="ask again later; what was fetched is kept")
        _write(page, results)
    progress(plan.total, plan.total, "names fetched")
    for offset in _torn_edges(folder, plan):
        _write(folder / _page_name(offset, "edge"), list_in(_asked_page(plan, get_json, offset).get("result")))
    return FetchedSubtree(folder, plan)


def _asked_page(plan: FetchPlan, get_json: GetJson, offset: int) -> Mapping[str, Any]:
    asked = (("TAXON_ID", plan.identifier), ("limit", str(_PAGE)), ("offset", str(offset)), ("sortBy", "taxonomic"))
    return mapping_in(get_json(f"dataset/{plan.release}/nameusage/search", asked))


def _torn_edges(folder: Path, plan: FetchPlan) -> Iterator[int]:
    """Offsets in the middle of two pages between which a name came twice, so that another may be missing."""
    seen: set[str] = set()
    for offset in range(0, plan.total, _PAGE):
        keys = {key for result in _read(folder / _page_name(offset)) if (key := id_of(mapping_in(result)))}
        middle = offset - _PAGE // 2
        if keys & seen and not (folder / _page_name(middle, "edge")).is_file():
            yield middle
        seen |= keys


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
        if is_named(result, taxon) and is_animal(result)
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
        page=_PAGE,
        title=text_in(release, "title") or "Catalogue of Life",
        edition=text_in(release, "alias") or text_in(release, "version"),
        dated=text_in(release, "issued"),
        licence=text_in(release, "license"),
        citation=plain_text(text_in(release, "citation")),
    )
    forget(folder)
    _write(folder / _PLAN, asdict(plan))
    return plan


def _plan_kept(folder: Path, taxon: str) -> FetchPlan | None:
    try:
        plan = FetchPlan(**mapping_in(json_of(read_file(folder / _PLAN))))
    except (OSError, ValueError, TypeError):
        return None
    return plan if plan.asked == taxon and isinstance(plan.total, int) and plan.page == _PAGE else None


def _page_name(offset: int, kind: str = "page") -> str:
    return f"{kind}-{offset:06d}.json"


def _read(page: Path) -> list[Any]:
    try:
        return list_in(json_of(read_file(page, _MOST_KEPT)))
    except (OSError, ValueError) as error:
        with suppress(OSError):
            remove_own(page)
        message = "a fetched page is damaged and was dropped"
        raise FileError(message, remedy="fetch again: only this page is asked for", place=Place(str(page))) from error


def _write(place: Path, content: object) -> None:
    """Whole or not at all: a page that exists is a page that is complete."""
    try:
        place.parent.mkdir(parents=True, exist_ok=True)
        # As short as it came, or a page that was just small enough would be too large to be read.
        write_own(place, json.dumps(content, ensure_ascii=False, separators=(",", ":")).encode())
    except OSError as error:
        message = f"a fetched page cannot be kept: {error.strerror or error}"
        raise FileError(message, remedy="make room on the disk", place=Place(str(place))) from error
