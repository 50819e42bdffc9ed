"""Read a collection's folder: every specimen that can be read, and every problem in one go."""

from __future__ import annotations

import gc
import os
from collections import defaultdict
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import date
from pathlib import Path

from namekeeper.files.file_layer import DiskFiles, replace_whole
from namekeeper.files.reading import LARGEST_OWN, read_file, refuse_unseen, remedy_for
from namekeeper.records.identifiers import (
    conflict_copy_of,
    copies,
    counting_key,
    evicted,
    fault_of_id,
    is_of_the_system,
)
from namekeeper.records.specimen import Collection, Settings, Specimen
from namekeeper.storage.digests import Digests, changed_past, read_digests
from namekeeper.storage.journal import DIGESTS, JOURNAL, SPECIMENS, content_digest
from namekeeper.storage.specimen_file import SpecimenReader, read_settings
from namekeeper.storage.yaml_text import TextFault, decode
from namekeeper.words.errors import FileError, InputError, Place, Problem

SETTINGS = "collection.yaml"
_SUFFIX = ".yaml"
_MOST_GONE = 1000  # files told one by one


def load_collection(folder: Path, today: date) -> Collection:
    """The collection in ``folder``; what is wrong in the files is in ``problems`` and the rest goes on.

    File names in places are relative to the folder.

    :raises FileError: if there is no such folder or it cannot be listed.
    """
    require_folder(folder)
    problems: list[Problem] = []
    settings = _settings(folder, problems)
    known = _digests(folder, problems)
    with _collector_paused():
        specimens = tuple(_specimens(folder, today, known, problems))
    problems.extend(_copy(specimen, original) for specimen, original in copies(specimens))
    return Collection(str(folder), settings, specimens, tuple(problems))


def require_folder(folder: Path) -> None:
    """See that there is a folder.

    :raises FileError: if there is none, or if the system does not tell.
    """
    if os.path.isdir(folder):  # noqa: PTH112 - says no where Path would raise, as for a name too long
        return
    refuse_unseen(folder)
    what = "no such folder" if not os.path.exists(folder) else "this is a file, not a folder"  # noqa: PTH110 - never raises
    remedy = f"make one: namekeeper collection new {folder}"
    if '"' in str(folder):  # a shell of Windows took the mark behind a backslash for a part of the path
        remedy = "leave out the backslash in front of the closing quotation mark"
    raise FileError(what, remedy=remedy, place=Place(str(folder)))


def load_settings(folder: Path) -> Settings:
    """The settings alone; what is wrong in them is left out."""
    return _settings(folder, [])


@contextmanager
def _collector_paused() -> Iterator[None]:
    """What is made while reading stays and holds no cycles: looking for some took a fifth of the time."""
    running = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if running:
            gc.enable()


def write_output(path: Path, content: bytes) -> None:
    """Write a page, sheet, picture or export, but never among a collection's own files, whichever collection it is.

    :raises InputError: if the place belongs to a collection.
    :raises FileError: if it cannot be written.
    """
    refuse_own_place(path)
    replace_whole(DiskFiles(), path, content)


def refuse_own_place(path: Path) -> None:
    """Refuse a place among a collection's own files.

    :raises InputError: if it is one.
    """
    real = Path(os.path.realpath(path))
    within = real.parent.name == SPECIMENS and (real.suffix == _SUFFIX or (real.parent.parent / SETTINGS).exists())
    if within or real.name in (SETTINGS, DIGESTS, JOURNAL):
        msg = f"{path} is a place for a collection's own files"
        raise InputError(msg, remedy="choose another place for -o")


def taken_ids(folder: Path) -> frozenset[str]:
    """Ids of all files among the specimens, readable or not, and of those that are not on this machine."""
    names = DiskFiles().names(folder / SPECIMENS)
    return frozenset((*(Path(name).stem for name in names if name.endswith(_SUFFIX)), *evicted(names).values()))


def specimen_file(identifier: str) -> str:
    """Path of a specimen's file below the collection, with ``/``."""
    return f"{SPECIMENS}/{identifier}{_SUFFIX}"


def _settings(folder: Path, problems: list[Problem]) -> Settings:
    if (folder / JOURNAL).exists():
        remedy = "run namekeeper collection verify on this folder"
        problems.append(Problem("a change was interrupted and waits to be completed", remedy, Place(JOURNAL)))
    try:
        text = decode(read_file(f"{folder / SETTINGS}"))[1]
    except FileNotFoundError:
        return Settings()
    except OSError as error:
        problems.append(_unreadable(SETTINGS, error))
        return Settings()
    except TextFault as fault:
        problems.append(Problem(fault.what, fault.remedy, Place(SETTINGS, fault.line)))
        return Settings()
    settings, found = read_settings(text, SETTINGS)
    problems.extend(found)
    return settings


def _digests(folder: Path, problems: list[Problem]) -> Digests:
    try:
        content = read_file(f"{folder / DIGESTS}", LARGEST_OWN)
    except FileNotFoundError:
        content = None
    except OSError as error:
        problems.append(_unreadable(DIGESTS, error))
        content = None
    known, found = read_digests(content)
    problems.extend(found)
    return known


def _specimens(folder: Path, today: date, known: Digests, problems: list[Problem]) -> Iterator[Specimen]:
    names = _names(folder, problems)
    stems = _stems(names, problems)
    reader = SpecimenReader(today)
    base = f"{folder / SPECIMENS}{os.sep}"
    for stem in stems:
        file = specimen_file(stem)
        try:
            content = read_file(f"{base}{stem}{_SUFFIX}")
            text = decode(content)[1]
        except OSError as error:
            problems.append(_unreadable(file, error))
            continue
        except TextFault as fault:
            problems.append(Problem(fault.what, fault.remedy, Place(file, fault.line, stem)))
            continue
        specimen, found = reader.read(text, stem, file, content_digest(content))
        problems.extend(found)
        if specimen is not None:
            if stem in known:
                problems.extend(changed_past(specimen, known[stem]))
            yield specimen
    problems.extend(_gone(sorted(known.keys() - {*stems, *evicted(names).values()})))


def _gone(stems: list[str]) -> Iterator[Problem]:
    """Files that were there once; the digests may speak of more than anybody would read."""
    remedy = "bring the file back; for an animal that left, write left: into it instead of deleting it"
    for stem in stems[:_MOST_GONE]:
        yield Problem("the file of a specimen with a history is gone", remedy, Place(specimen_file(stem)))
    if len(stems) > _MOST_GONE:
        yield Problem(f"{len(stems) - _MOST_GONE} more such files are gone", remedy, Place(SPECIMENS))


def _names(folder: Path, problems: list[Problem]) -> list[str]:
    """What stands among the specimens, in the order in which a person counts."""
    try:
        return sorted(os.listdir(folder / SPECIMENS), key=counting_key)  # noqa: PTH208 - names only
    except FileNotFoundError:
        remedy = f"make it: namekeeper collection new {folder}"
        problems.append(Problem("there is no folder specimens here", remedy, Place(SPECIMENS)))
        return []
    except OSError as error:
        problems.append(_unreadable(SPECIMENS, error))
        return []


def _stems(names: list[str], problems: list[Problem]) -> list[str]:
    """Ids whose files are worth reading, in the same order."""
    stems = [name.removesuffix(_SUFFIX) for name in names if name.endswith(_SUFFIX) and not name.startswith(".")]
    by_case = defaultdict(list)
    for stem in stems:
        by_case[stem.casefold()].append(stem)
    problems.extend(_strangers(names))
    return [stem for stem in stems if not _refused(stem, stems, by_case[stem.casefold()], problems)]


def _strangers(names: list[str]) -> Iterator[Problem]:
    away = evicted(names)
    for name in names:
        if name in away:
            remedy = "download it: open it once, or tell the program that syncs to keep this folder on this machine"
            what = "its file is kept on a server only and is not on this machine"
            yield Problem(what, remedy, Place(f"{SPECIMENS}/{name}", None, away[name]))
        elif not name.endswith(_SUFFIX) and not name.startswith(".") and not is_of_the_system(name):
            remedy = "a specimen's file ends in .yaml; rename it, or move it out of specimens/"
            yield Problem("no specimen's file", remedy, Place(f"{SPECIMENS}/{name}"))


def _refused(stem: str, stems: list[str], same: list[str], problems: list[Problem]) -> bool:
    place = Place(specimen_file(stem), None, stem)
    fault, original = fault_of_id(stem), conflict_copy_of(stem, stems)
    if original is not None:
        what = f"looks like a copy of {original} that syncing or merging left"
        problems.append(Problem(what, "compare the two, keep one, move the other out of specimens/", place))
    elif fault is not None:
        problems.append(Problem(f"the file name is no id: {fault}", "rename the file", place))
    elif len(same) > 1:
        what = f"ids that differ only in case: {', '.join(same)}"
        problems.append(Problem(what, "rename one of the files", place))
    else:
        return False
    return True


def _copy(specimen: Specimen, original: Specimen) -> Problem:
    what = f"is the same animal as {original.id}: the same tag, day of arrival and first name"
    remedy = "a copy that syncing left? compare the two and move one out of specimens/; else tell them apart by the tag"
    return Problem(what, remedy, specimen.place)


def _unreadable(file: str, error: OSError) -> Problem:
    remedy = remedy_for(error, "check the file and its permissions")
    return Problem(f"cannot be read: {error.strerror}", remedy, Place(file))
