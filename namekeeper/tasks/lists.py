"""Add, fetch, compare, switch and remove lists."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import closing, contextmanager
from dataclasses import dataclass, replace
from datetime import date
from pathlib import Path
from tempfile import TemporaryDirectory

from namekeeper.evidence.statements import Match, Statement
from namekeeper.files.places import Places
from namekeeper.records.specimen import Collection
from namekeeper.sources.lists import fetch as fetching
from namekeeper.sources.lists.adding import ListWishes, build, edition_of, open_source
from namekeeper.sources.lists.compare import GONE, EditionChange, compare, kind_of
from namekeeper.sources.lists.fetch import GetJson
from namekeeper.sources.lists.index_reader import IndexList
from namekeeper.sources.lists.list_file import Skips
from namekeeper.sources.lists.registry import indexes_in_use, starter
from namekeeper.sources.lists.store import ListStore, slug_of

Step = Callable[[int, int | None, str], None]


@dataclass(frozen=True, slots=True)
class ListBench:
    """Where and when the work is done, and who watches."""

    places: Places
    today: date
    step: Step


@dataclass(frozen=True, slots=True)
class Added:
    """A list that is on this machine now."""

    key: str
    edition: str
    names: int
    skips: Skips
    kind: str
    columns: Mapping[str, str]
    in_use: bool


@dataclass(frozen=True, slots=True)
class Touched:
    """A specimen whose label's name fares differently in the new edition."""

    specimen: str
    label: str
    old: str
    new: str
    kind: str


def add_list(file: Path, key: str, wishes: ListWishes, bench: ListBench, *, switch: bool = True) -> Added:
    """Add ``file`` as an edition of the list ``key``; the edition in use stays until the new one is whole.

    :param switch: False keeps the edition that is in use.
    :raises NamekeeperError: with nothing changed.
    """
    skips = Skips()
    store = ListStore(bench.places.data)
    store.place(key, "edition")
    store.sweep(key)
    with open_source(file, wishes, skips) as source:
        edition = edition_of(key, source.list.described(), wishes)
        slug = slug_of(edition.edition or f"added-{bench.today}")
        names = build(source.list, edition, store.place(key, slug), skips, bench.step)
        in_use = switch or key not in dict(indexes_in_use(bench.places.data))
        if in_use:
            store.use(key, slug)
        return Added(key, slug, names, skips, source.kind, source.columns, in_use)


def fetch_list(taxon: str, key: str, wishes: ListWishes, get_json: GetJson, bench: ListBench) -> Added:
    """Fetch ``taxon`` with all below it as the list ``key``; it is complete for that taxon.

    :raises NamekeeperError: with nothing changed but the pages kept for the next try.
    """
    store = ListStore(bench.places.data)
    store.place(key, "edition")
    folder = bench.places.cache / "fetched" / key
    subtree = fetching.fetch(taxon, get_json, folder, bench.step)
    wishes = replace(
        wishes,
        complete_for=wishes.complete_for or (subtree.plan.taxon,),
        upstream=wishes.upstream or fetching.UPSTREAM,
    )
    skips = Skips()
    edition = edition_of(key, subtree.described(), wishes)
    slug = slug_of(edition.edition or f"fetched-{bench.today}")
    names = build(subtree, edition, store.place(key, slug), skips, bench.step)
    store.use(key, slug)
    fetching.forget(folder)
    return Added(key, slug, names, skips, "Catalogue of Life", {}, in_use=True)


@contextmanager
def two_editions(old: str, new: str, here: Path, places: Places) -> Iterator[tuple[Path, Path]]:
    """Indexes of two editions: each ``KEY``, ``KEY@EDITION``, ``starter``, or a file, built for this once."""
    with TemporaryDirectory(prefix="namekeeper-") as folder:
        yield tuple(  # type: ignore[misc]
            _edition(text, places, here, Path(folder) / f"{number}.sqlite") for number, text in enumerate((old, new))
        )


def _edition(text: str, places: Places, here: Path, place: Path) -> Path:
    file = here / text
    if text == "starter":
        return starter(places, lambda _notice: None).place
    if not file.is_file():
        return ListStore(places.data).find(text)
    skips = Skips()
    with open_source(file, ListWishes(), skips) as source:
        build(source.list, edition_of("compared", source.list.described(), ListWishes()), place, skips)
    return place


def changes(old: Path, new: Path) -> Iterator[EditionChange]:
    """What the new edition changes."""
    return compare(old, new)


def touched(collection: Collection, old: Path, new: Path) -> tuple[Touched, ...]:
    """Specimens whose name has another end, or another standing, in the new edition."""
    with closing(IndexList.open(old)) as before, closing(IndexList.open(new)) as after:
        found = []
        for specimen in collection.specimens:
            entry = specimen.entry_in_force()
            if entry is None or specimen.left is not None:
                continue
            then, now = (_end(one.named(entry.name)) for one in (before, after))
            if then != now:
                found.append(Touched(specimen.id, entry.name, "; ".join(then.names), "; ".join(now.names), now.kind))
        return tuple(found)


@dataclass(frozen=True, slots=True)
class _End:
    names: tuple[str, ...]
    kind: str


def _end(statements: Sequence[Statement]) -> _End:
    speaking = [statement for statement in statements if statement.match is not Match.LETTERS]
    if not speaking:
        return _End((), GONE)
    targets = dict.fromkeys(target.name for statement in speaking for target in statement.targets)
    subject = speaking[0].subject.name
    return _End(tuple(targets), kind_of(subject, speaking[0].status, list(targets)))
