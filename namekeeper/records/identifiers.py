"""Ids of specimens: what may be one, which differ only in case, and what else stands among their files."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from itertools import count

from namekeeper.records.specimen import Specimen

_SHAPE = re.compile(r"[A-Za-z0-9._-]{1,40}")
_USUAL = re.compile(r"[A-Za-z]{1,20}[-_][0-9]{1,19}")  # most ids, known to be good without a closer look
# Names that Windows keeps for devices, with any extension
# (learn.microsoft.com/windows/win32/fileio/naming-a-file; stated from memory).
_DEVICES = re.compile(r"(?:con|prn|aux|nul|com[0-9]|lpt[0-9])(?:\..*)?", re.IGNORECASE)
_CONFLICT_COPY = re.compile(
    r"conflict|\(\d+\)$|[ _-]copy$|\.(?:orig|bak|base|local|remote|mine|theirs)$|~$", re.IGNORECASE
)
#: What a program that syncs leaves in place of a file that it keeps on its server only.
_EVICTED = re.compile(r"\.(.+)\.yaml\.icloud", re.IGNORECASE)
#: What file managers leave in every folder.
_OF_THE_SYSTEM = frozenset({"desktop.ini", "thumbs.db", "icon\r"})
_DIGITS = re.compile(r"([0-9]{1,18})")
_COUNTED = re.compile(r"(.*?)(\d+)")


def fault_of_id(text: str) -> str | None:
    """Why ``text`` cannot be the id of a specimen, or None if it can."""
    if _USUAL.fullmatch(text):
        return None
    if not _SHAPE.fullmatch(text):
        return "an id is 1 to 40 letters, digits, dots, hyphens and underscores"
    if text.startswith(".") or text.endswith("."):
        return "an id neither begins nor ends with a dot"
    if is_device_name(text):
        return f"'{text}' is kept by Windows for a device"
    return None


def is_device_name(text: str) -> bool:
    """Whether Windows keeps this name for a device, whatever follows its first dot."""
    return _DEVICES.fullmatch(text) is not None


def counting_key(text: str) -> tuple[tuple[int, int, str], ...]:
    """By this, texts are in the order of a person who counts: A2 before A10, capitals or not; equal ones as written."""
    parts = filter(None, _DIGITS.split(text.casefold()))
    return (*((0, int(part), "") if part.isdecimal() else (1, 0, part) for part in parts), (-1, 0, text))


def conflict_copy_of(stem: str, stems: Iterable[str]) -> str | None:
    """The file whose copy this is, if ``stem`` is of the kind that syncing and merging leave beside the real one."""
    if _USUAL.fullmatch(stem) or _CONFLICT_COPY.search(stem) is None:
        return None
    return next((other for other in stems if other != stem and stem.startswith(other)), None)


def copies(specimens: Sequence[Specimen]) -> Iterator[tuple[Specimen, Specimen]]:
    """Specimens with the one that each seems to be a copy of: its id and something behind, and the same animal.

    Programs that sync name the other version of a file after the machine it came from (``INV-0001-LAPTOP-2``). The
    same animal is one of the same tag, day of arrival and first name.
    """
    by_id = {specimen.id: specimen for specimen in specimens}
    for specimen in specimens:
        starts = (specimen.id[:end] for end in range(1, len(specimen.id)) if not specimen.id[end].isalnum())
        original = next((by_id[start] for start in starts if start in by_id), None)
        if original is not None and _animal(original) == _animal(specimen):
            yield specimen, original


def _animal(specimen: Specimen) -> tuple[object, ...]:
    first = specimen.names[0].name if specimen.names else ""
    return (specimen.tag, specimen.acquired, first)


def evicted(names: Iterable[str]) -> dict[str, str]:
    """Ids of specimens whose files are not on this machine, by the name of what stands in their place."""
    return {name: found[1] for name in names if (found := _EVICTED.fullmatch(name))}


def is_of_the_system(name: str) -> bool:
    """Whether a file is one that file managers leave anywhere, and nobody's problem."""
    return name.casefold() in _OF_THE_SYSTEM


def free_ids(taken: Iterable[str], prefix: str = "INV-") -> Iterator[str]:
    """Ids after the highest ``prefix`` number in ``taken``, without end; four digits, more where needed."""
    found = (_COUNTED.fullmatch(text.casefold()) for text in taken)
    numbers = [int(match[2]) for match in found if match and match[1] == prefix.casefold() and len(match[2]) <= 12]
    return (f"{prefix}{number:04d}" for number in count(max(numbers, default=0) + 1))
