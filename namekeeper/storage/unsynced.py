"""Collections on a file system that cannot sync a folder, as some shares on a network: noted once for each."""

from __future__ import annotations

from contextlib import suppress
from pathlib import Path

from namekeeper.files.memory import recall, remember
from namekeeper.words.errors import FileError

_MEMORY = "unsynced.json"  # in the state folder: paths of collections of which it was told
_REMEMBERED = 100  # collections at most, the newest


def unsynced_note(state: Path, root: Path) -> tuple[str, ...]:
    """What is to be known of ``root``, the first time; nothing afterwards. Told again where it cannot be remembered."""
    place, name = state / _MEMORY, str(root)
    known: object = None
    with suppress(FileError):
        known = recall(place)
    told = [one for one in known if isinstance(one, str)] if isinstance(known, list) else []
    if name in told:
        return ()
    with suppress(FileError):
        remember(place, [*told, name][-_REMEMBERED:])
    what = "the file system there cannot promise that a change outlasts a power cut: keep a copy elsewhere (said once)"
    return (f"{name}: {what}",)
