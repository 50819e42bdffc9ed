"""A collection for other programs: CSV and JSON with all that is known, and an archive that may be published."""

from __future__ import annotations

import re
import uuid
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from datetime import UTC
from pathlib import Path
from types import MappingProxyType

from namekeeper.files.memory import recall, remember
from namekeeper.records.specimen import Collection, Specimen
from namekeeper.sources.lists.registry import open_lists
from namekeeper.tables import exports
from namekeeper.tables.dwca import as_archive
from namekeeper.tables.published import LICENCES, PRIVATE, LowestName, Publication
from namekeeper.tasks.check import check_collection
from namekeeper.tasks.desk import CollectionDesk
from namekeeper.tasks.output import Output, OutputKind
from namekeeper.tasks.settings import write_texts
from namekeeper.words.errors import FileError, InputError, Place, Problem

KINDS = ("dwca", "csv", "json")
WITH = PRIVATE
LICENCE_KEYS = tuple(one.identifier for one in LICENCES.values())
_SUFFIX = MappingProxyType({"dwca": ".zip", "csv": ".csv", "json": ".json"})
#: Published identifiers of specimens, kept for good: who cites one must find the same animal under it.
_UUIDS = ".namekeeper-uuids"
_PREFIX = re.compile(r"(?:https?://|urn:)\S{3,}")


@dataclass(frozen=True, slots=True)
class ExportWishes:
    """Kinds of export; for an archive the licence, whose it is, and which private fields go with it."""

    kinds: tuple[str, ...]
    licence: str = ""
    rights_holder: str = ""
    shared: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Exported:
    """Files that were made, how many animals are in them, and the files of animals that could not be read.

    ``licensed``: whether others may use an archive that was made, None without one; ``kept_back``: fields that were
    left out of it.
    """

    files: tuple[Path, ...]
    specimens: int
    problems: tuple[Problem, ...] = ()
    licensed: bool | None = None
    kept_back: tuple[str, ...] = ()

    @property
    def exit_code(self) -> int:
        """0, or 2 if specimens could not be read and are therefore not in the export."""
        return 2 if self.problems else 0


def outputs_of(
    desk: CollectionDesk, target: Path, kinds: tuple[str, ...], *, replace: bool = False
) -> Mapping[str, Output]:
    """Where each kind goes: ``target``, or with several kinds each below its own suffix.

    :param replace: whatever is there may go, and not only an earlier export.
    :raises InputError: for an unknown kind, or a place that is taken or belongs to a collection.
    """
    _require(kinds, KINDS, "kind of export")
    paths = {kind: target if len(kinds) == 1 else target.with_suffix(_SUFFIX[kind]) for kind in dict.fromkeys(kinds)}
    outputs = {kind: Output(path, OutputKind.EXPORT, desk.outside, replace) for kind, path in paths.items()}
    for output in outputs.values():
        output.check()
    return outputs


def export(desk: CollectionDesk, outputs: Mapping[str, Output], wishes: ExportWishes) -> Exported:
    """Write the collection to the place of each kind.

    :raises InputError: for an unknown field.
    :raises FileError: if a file cannot be written.
    """
    collection = desk.open()
    kinds = tuple(outputs)
    _require(wishes.shared, PRIVATE, "field for --with", or_none=True)
    publication = _publication(desk, collection, wishes) if "dwca" in kinds else None
    made = []
    for kind in kinds:
        outputs[kind].write(_content(kind, collection, publication))
        made.append(outputs[kind].place)
    if publication is None:
        return Exported(tuple(made), len(collection.specimens), collection.problems)
    kept_back = tuple(_kept_back(collection, publication.shared))
    licensed = bool(publication.licence)
    return Exported(tuple(made), len(collection.specimens), collection.problems, licensed, kept_back)


def is_licensed(desk: CollectionDesk) -> bool:
    """Whether the settings say under which licence the collection may be published."""
    return bool(_setting(desk.settings().raw, "licence"))


def keep_licence(desk: CollectionDesk, licence: str, rights_holder: str) -> None:
    """Write licence and rights holder into the settings.

    :raises InputError: if the settings cannot be added to.
    :raises FileError: if they cannot be read or written.
    """
    known = LICENCES.get(licence.casefold())
    said = {"licence": known.identifier if known else licence, "rights_holder": rights_holder}
    raw = desk.settings().raw
    write_texts(desk, {key: text for key, text in said.items() if text and not _setting(raw, key)})


def _require(given: Iterable[str], known: tuple[str, ...], what: str, *, or_none: bool = False) -> None:
    unknown = [one for one in given if one not in known]
    if unknown or not (or_none or tuple(given)):
        message = f"unknown {what} '{''.join(unknown[:1])}'"
        raise InputError(message, remedy="use one or more of: " + ", ".join(known))


def _content(kind: str, collection: Collection, publication: Publication | None) -> bytes:
    if publication is not None and kind == "dwca":
        return as_archive(collection, publication)
    return exports.as_csv(collection) if kind == "csv" else exports.as_json(collection)


def _publication(desk: CollectionDesk, collection: Collection, wishes: ExportWishes) -> Publication:
    raw = collection.settings.raw
    return Publication(
        desk.today,
        wishes.licence or _setting(raw, "licence"),
        wishes.rights_holder or _setting(raw, "rights_holder"),
        frozenset(wishes.shared),
        _identifiers(desk, collection),
        _known_names(desk, collection),
    )


def _setting(raw: Mapping[str, object], key: str) -> str:
    value = raw.get(key, "")
    return value.strip() if isinstance(value, str) else ""


def _identifiers(desk: CollectionDesk, collection: Collection) -> Mapping[str, str]:
    """Identifiers by specimen: below the keeper's own prefix, else a UUID (RFC 9562) that is kept with the folder.

    :raises InputError: if the prefix is no address and no URN, or the kept identifiers are damaged.
    """
    prefix = _setting(collection.settings.raw, "id_prefix")
    if prefix:
        if not _PREFIX.fullmatch(prefix):
            what = f"id_prefix: '{prefix}' is neither a web address nor a URN"
            raise InputError(
                what, remedy="write one such as https://example.org/animals/", place=Place("collection.yaml")
            )
        return {one.id: f"{prefix}{one.id}" for one in collection.specimens}
    place = desk.folder / _UUIDS
    kept = recall(place)
    known = kept if isinstance(kept, dict) else {}
    if kept is not None and not all(isinstance(text, str) and _is_uuid(text) for text in known.values()):
        what = "the identifiers of earlier exports are damaged"
        raise FileError(
            what, remedy="bring the file back from a copy; animals must keep theirs", place=Place(str(place))
        )
    fresh = {one.id: _new_uuid(desk, one) for one in collection.specimens if one.id not in known}
    if fresh:
        remember(place, known | fresh)
    return {one.id: f"urn:uuid:{(known | fresh)[one.id]}" for one in collection.specimens}


def _new_uuid(desk: CollectionDesk, specimen: Specimen) -> str:
    """From the moment, the animal's file and its id: no other collection has all three."""
    moment = desk.outside.clock().astimezone(UTC).isoformat()
    said = f"{moment} {specimen.id} {specimen.revision}"
    return str(uuid.uuid5(uuid.NAMESPACE_OID, said))


def _is_uuid(text: str) -> bool:
    try:
        return str(uuid.UUID(text)) == text
    except ValueError:
        return False


def _known_names(desk: CollectionDesk, collection: Collection) -> Mapping[str, LowestName]:
    """For animals without a name the genus that all candidates of their tag share, by the lists of this machine."""
    unnamed = tuple(one for one in collection.specimens if one.entry_in_force() is None)
    if not unnamed:
        return {}
    asked = Collection(collection.folder, collection.settings, unnamed, ())
    with open_lists(desk.outside.places, desk.outside.notice) as lists:
        report = check_collection(asked, lists, desk.today)
    genera = {
        finding.specimen.id: {choice.name.split()[0] for choice in finding.verdict.choices}
        for finding in report.findings
    }
    return {key: LowestName(next(iter(found)), "genus") for key, found in genera.items() if len(found) == 1}


def _kept_back(collection: Collection, shared: frozenset[str]) -> Iterator[str]:
    """Private fields that hold anything in the collection and are not shared."""
    ids = {one.id for one in collection.specimens}
    holds = {
        "from": any(origin not in ids for one in collection.specimens for origin in one.origin),
        "place": any(one.stands_at for one in collection.specimens),
        "note": any(one.note for one in collection.specimens),
        "price": any(one.price for one in collection.specimens),
        "papers": any(one.papers for one in collection.specimens),
    }
    return (key for key in PRIVATE if holds[key] and key not in shared)
