"""Add, fetch, compare, switch and remove lists."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from contextlib import ExitStack, closing, contextmanager
from dataclasses import dataclass, field
from pathlib import Path
from tempfile import TemporaryDirectory

from namekeeper.evidence.statements import Edition, ListWishes, Match, Statement
from namekeeper.outside import Outside, Progress, Work, unwatched
from namekeeper.records.specimen import Collection
from namekeeper.sources.lists import fetch as fetching
from namekeeper.sources.lists.adding import build, edition_of, formats, open_source
from namekeeper.sources.lists.catalogue import GetJson, catalogue
from namekeeper.sources.lists.compare import GONE, EditionChange, compare, kind_of
from namekeeper.sources.lists.fetch import Counted
from namekeeper.sources.lists.index_reader import IndexList
from namekeeper.sources.lists.list_file import Skips
from namekeeper.sources.lists.registry import indexes_in_use, starter
from namekeeper.sources.lists.store import ListStore, slug_of

#: Share of the rows of which a keeper should know that they were left out.
_MUCH = 0.05


def known_formats() -> str:
    """What a list may come in, in the words of its readers."""
    return formats()


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
    #: Of a table whose encoding is a guess: its first words by encoding, the one taken first; else empty.
    guessed: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    fetched: Counted | None = None  # of a list that was fetched

    @property
    def exit_code(self) -> int:
        """0, or 1 if so much was left out that the keeper should look at it."""
        return 1 if self.skips.count > _MUCH * (self.names + self.skips.count) else 0


@dataclass(frozen=True, slots=True)
class ListState:
    """One edition of a list on this machine; ``edition`` None if its index cannot be read."""

    key: str
    slug: str
    in_use: bool
    size: int
    names: int
    edition: Edition | None


@dataclass(frozen=True, slots=True)
class Compared:
    """What the new edition changes, and the animals it touches (None if no collection was given)."""

    changes: tuple[EditionChange, ...]
    specimens: tuple[Touched, ...] | None

    @property
    def exit_code(self) -> int:
        """0 if nothing changes, 1 if something does."""
        return 1 if self.changes else 0


@dataclass(frozen=True, slots=True)
class Touched:
    """A specimen whose label's name fares differently in the new edition."""

    specimen: str
    label: str
    old: str
    new: str
    kind: str


def list_states(outside: Outside) -> tuple[ListState, ...]:
    """Every edition of every list, the starter list first."""
    with closing(starter(outside.places, outside.notice)) as own:
        first = ListState("starter", own.edition.edition or "", True, own.place.stat().st_size, own.size, own.edition)
    store = ListStore(outside.places.data)
    store.sweep()
    added = store.all()
    return (first, *(ListState(one.key, one.slug, one.in_use, one.size, one.names, one.edition) for one in added))


def use_edition(text: str, outside: Outside) -> tuple[str, str]:
    """Make the edition ``KEY@EDITION`` the one in use; returns key and edition.

    :raises InputError: if there is none.
    """
    store = ListStore(outside.places.data)
    place = store.find(text)
    store.use(place.parent.name, place.stem)
    return place.parent.name, place.stem


def found_list(text: str, outside: Outside) -> tuple[tuple[str, str], ...]:
    """Key and edition of what ``KEY`` or ``KEY@EDITION`` names.

    :raises InputError: if there is none.
    """
    return tuple((place.parent.name, place.stem) for place in ListStore(outside.places.data).named(text))


def remove_list(text: str, outside: Outside) -> tuple[tuple[str, str], ...]:
    """Remove the list ``KEY``, or the edition ``KEY@EDITION`` of it; returns key and edition of what is gone.

    :raises InputError: if there is none.
    """
    return tuple((place.parent.name, place.stem) for place in ListStore(outside.places.data).remove(text))


def add_list(file: Path, key: str, wishes: ListWishes, outside: Outside, *, switch: bool = True) -> Added:
    """Add ``file`` as an edition of the list ``key``; the edition in use stays until the new one is whole.

    :param switch: False keeps the edition that is in use.
    :raises NamekeeperError: with nothing changed.
    """
    skips = Skips()
    store = ListStore(outside.places.data)
    store.place(key, "edition")
    store.sweep()
    with outside.progress(Work.ADDING) as step, open_source(outside.folder / file, wishes, skips) as source:
        edition = edition_of(key, source.list.described(), wishes)
        slug = slug_of(edition.edition or f"added-{outside.today}")
        names = build(source.list, edition, store.place(key, slug), skips, step)
        in_use = switch or key not in dict(indexes_in_use(outside.places.data))
        if in_use:
            store.use(key, slug)
        guess = source.style.encoding.guess if source.style else {}
        return Added(key, slug, names, skips, source.kind, source.columns, in_use, guess)


def fetch_list(taxon: str, key: str, wishes: ListWishes, outside: Outside, get_json: GetJson | None = None) -> Added:
    """Fetch ``taxon`` with all below it as the list ``key``; it is complete for that taxon if every name came.

    ``get_json`` asks the catalogue one path; without it the Catalogue of Life is asked.

    :raises NamekeeperError: with nothing changed but the pages kept for the next try.
    """
    if get_json is None:
        from namekeeper.tasks.contact import tell_nobody_to_reach

        tell_nobody_to_reach(outside)
    with outside.progress(Work.FETCHING) as step:
        store = ListStore(outside.places.data)
        store.place(key, "edition")
        store.sweep()
        folder = outside.places.cache / "fetched" / key
        subtree = fetching.fetch(taxon, get_json or catalogue(outside), folder, step)
        counted = subtree.counted()
        wishes = wishes._replace(
            complete_for=wishes.complete_for or (() if counted.missing else (subtree.plan.taxon,)),
            upstream=wishes.upstream or fetching.UPSTREAM,
        )
        skips = Skips()
        edition = edition_of(key, subtree.described(), wishes)
        slug = slug_of(edition.edition or f"fetched-{outside.today}")
        names = build(subtree, edition, store.place(key, slug), skips, step)
        store.use(key, slug)
        fetching.forget(folder)
        return Added(key, slug, names, skips, "Catalogue of Life", {}, in_use=True, fetched=counted)


def compare_editions(old: str, new: str, outside: Outside, folder: Path | None = None) -> Compared:
    """What changes from one edition to another, each ``KEY``, ``KEY@EDITION``, ``starter`` or a file.

    :param folder: a collection, to tell which of its animals are touched.
    :raises NamekeeperError: if there is no such edition, file or collection.
    """
    with outside.progress(Work.COMPARING) as step, _two_editions(old, new, outside, step) as (before, after):
        found = tuple(compare(before, after))
        specimens = None
        if folder is not None:
            from namekeeper.tasks.desk import CollectionDesk

            specimens = touched(CollectionDesk.at(folder, outside).load(), before, after)
        return Compared(found, specimens)


@contextmanager
def _two_editions(old: str, new: str, outside: Outside, step: Progress = unwatched) -> Iterator[tuple[Path, Path]]:
    """Indexes of two editions: each ``KEY``, ``KEY@EDITION``, ``starter``, or a file, built for this once."""
    with ExitStack() as opened:
        folder = Path(opened.enter_context(TemporaryDirectory(prefix="namekeeper-")))
        yield tuple(  # type: ignore[misc]
            _edition(text, outside, folder / f"{number}.sqlite", opened, step) for number, text in enumerate((old, new))
        )


def _edition(text: str, outside: Outside, place: Path, opened: ExitStack, step: Progress) -> Path:
    file = outside.folder / text
    if text == "starter":
        # Where it was compiled for this once, its file goes with it.
        return opened.enter_context(closing(starter(outside.places, lambda _notice: None))).place
    if not file.is_file():
        return ListStore(outside.places.data).find(text)
    skips = Skips()
    with open_source(file, ListWishes(), skips) as source:
        build(source.list, edition_of("compared", source.list.described(), ListWishes()), place, skips, step)
    return place


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
