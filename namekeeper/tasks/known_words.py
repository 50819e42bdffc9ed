"""Words that a keeper may go on with at a command line: ids, sheets, templates, services, lists; none is an error."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from pathlib import Path
from types import MappingProxyType

from namekeeper.outside import Outside
from namekeeper.records.identifiers import counting_key
from namekeeper.sources.services.registry import SERVICES
from namekeeper.storage.collection_folder import taken_ids
from namekeeper.tasks.desk import CollectionDesk
from namekeeper.tasks.label_bench import open_workshop
from namekeeper.tasks.lists import list_states
from namekeeper.words.errors import NamekeeperError


def known_words(kind: str, outside: Outside, folder: Path | None) -> tuple[str, ...]:
    """The words of a kind (``ids``, ``sheets``, ``templates``, ``services``, ``lists``), in a person's order.

    ``folder`` is the collection typed so far, as the keeper wrote it; what cannot be read has no words.
    """
    try:
        return tuple(sorted(_KINDS[kind](outside, outside.folder / folder if folder else None), key=counting_key))
    except (NamekeeperError, OSError):
        return ()


def _ids(_outside: Outside, folder: Path | None) -> Iterable[str]:
    return taken_ids(folder) if folder else ()


def _sheets(outside: Outside, folder: Path | None) -> Iterable[str]:
    collection = CollectionDesk(folder, outside).quiet().load() if folder and folder.is_dir() else None
    return open_workshop(collection).sheets


def _templates(outside: Outside, folder: Path | None) -> Iterable[str]:
    collection = CollectionDesk(folder, outside).quiet().load() if folder and folder.is_dir() else None
    return (template.key for template in open_workshop(collection).templates())


def _services(_outside: Outside, _folder: Path | None) -> Iterable[str]:
    return (service.profile.key for service in SERVICES)


def _lists(outside: Outside, _folder: Path | None) -> Iterable[str]:
    return {word for state in list_states(outside) for word in (state.key, f"{state.key}@{state.slug}")}


_KINDS: MappingProxyType[str, Callable[[Outside, Path | None], Iterable[str]]] = MappingProxyType(
    {"ids": _ids, "sheets": _sheets, "templates": _templates, "services": _services, "lists": _lists}
)
