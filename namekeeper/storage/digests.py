"""The one side file by which a past entry changed outside the tool is noticed.

One line a specimen: its id and a short digest of each name entry, oldest first. Lines merge well under version control.
"""

from __future__ import annotations

import hashlib
import io
import re
from collections.abc import Iterator, Mapping, Sequence
from operator import attrgetter

from namekeeper.records.identifiers import fault_of_id
from namekeeper.records.specimen import NameEntry, Specimen
from namekeeper.storage.file_keys import ENTRY_KEYS
from namekeeper.storage.journal import DIGESTS
from namekeeper.words.errors import Place, Problem

_HEAD = "# Digests of name entries, kept by namekeeper to notice changes of the past. Keep this file with the folder.\n"
_LENGTH = 12  # hexadecimal digits: 48 bits, enough to notice a change that nobody forges

#: Lines told; a file with more that cannot be read is another file.
_TOLD = 100

_DIGEST = re.compile(rf"[0-9a-f]{{{_LENGTH}}}")

_texts = attrgetter("since", "recorded", *(key for key in ENTRY_KEYS if key not in ("since", "recorded")))
Digests = Mapping[str, tuple[str, ...]]


def _entry_digest(entry: NameEntry) -> str:
    """Digest of what an entry says; independent of quotes, order and indents in the file."""
    since, recorded, *texts = _texts(entry)
    dates = f"{since.text if since else ''}\x1f{recorded.text if recorded else ''}\x1f"
    text = dates + "\x1f".join(texts)
    if "\n" in text:  # line ends at the end of a block scalar depend on what follows it in the file
        text = "\x1f".join(part.rstrip("\r\n") for part in text.split("\x1f"))
    return hashlib.blake2b(text.encode("utf-8", "surrogatepass"), digest_size=_LENGTH // 2).hexdigest()


def read_digests(content: bytes | None) -> tuple[Digests, tuple[Problem, ...]]:
    """What the side file holds, and the lines of it that cannot be read; those count for nothing."""
    known: dict[str, tuple[str, ...]] = {}
    problems: list[Problem] = []
    for number, line in enumerate(io.BytesIO(content or b""), 1):  # one at a time: there may be any number of them
        words = line.decode("utf-8", "replace").split()
        if not words or words[0].startswith("#"):
            continue
        if fault_of_id(words[0]) is None and all(map(_DIGEST.fullmatch, words[1:])):
            if words[1:]:
                known[words[0]] = max(known.get(words[0], ()), tuple(words[1:]), key=len)  # after a merge: the longer
        else:
            remedy = "delete the line; the entries themselves are in specimens/"
            problems.append(Problem("a line of digests that cannot be read", remedy, Place(DIGESTS, number)))
            if len(problems) == _TOLD:
                what = "no line of digests behind this one was read"
                problems.append(
                    Problem(what, "is this another file? put the right one in its place", Place(DIGESTS, number))
                )
                break
    return known, tuple(problems)


def write_digests(known: Digests) -> bytes:
    """The side file's content, sorted by id."""
    return (_HEAD + "".join(f"{name} {' '.join(known[name])}\n" for name in sorted(known) if known[name])).encode()


def digests_of(specimen: Specimen) -> tuple[str, ...]:
    """Digests of all entries of a specimen."""
    return tuple(map(_entry_digest, specimen.names))


def changed_past(specimen: Specimen, known: Sequence[str]) -> Iterator[Problem]:
    """Entries that no longer say what they said when the tool last wrote this specimen."""
    remedy = "put the old text back, or accept it: namekeeper collection verify FOLDER --accept --write"
    if len(specimen.names) < len(known):
        what = f"{len(known) - len(specimen.names)} past name entries are gone"
        yield Problem(what, remedy, Place(specimen.place.file, 1, specimen.id))
    for number, (entry, digest) in enumerate(zip(specimen.names, known, strict=False), 1):
        if _entry_digest(entry) != digest:
            what = f"past name entry {number} was changed outside namekeeper"
            yield Problem(what, remedy, Place(specimen.place.file, entry.line, specimen.id))
