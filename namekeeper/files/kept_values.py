"""Frozen values of our own in a file of our own, read back as the classes that are named and as nothing else.

The format is Python's pickle, whose loading is done in C; what it may build is limited as its documentation shows
(docs.python.org/3/library/pickle.html, "Restricting Globals"), so that a damaged or foreign file builds nothing else.
"""

from __future__ import annotations

import io
import pickle
from collections.abc import Collection
from contextlib import suppress
from pathlib import Path

from namekeeper.files.file_layer import DiskFiles, replace_whole
from namekeeper.words.errors import FileError


class _Reader(pickle.Unpickler):
    def __init__(self, content: bytes, classes: Collection[type]) -> None:
        super().__init__(io.BytesIO(content))
        self._classes = {(one.__module__, one.__qualname__): one for one in classes}

    def find_class(self, module_name: str, global_name: str) -> type:
        found = self._classes.get((module_name, global_name))
        if found is None:
            msg = f"{module_name}.{global_name} is no value that is kept"
            raise pickle.UnpicklingError(msg)
        return found


def recall_values(path: Path, classes: Collection[type]) -> object:
    """What was kept at ``path``; None if nothing was, or if it cannot be read: it is made anew."""
    try:
        return _Reader(path.read_bytes(), classes).load()
    except Exception:
        return None


def keep_values(path: Path, values: object) -> None:
    """Keep ``values`` in place of what was kept there; where it cannot be written, nothing is kept."""
    with suppress(OSError, FileError):
        path.parent.mkdir(parents=True, exist_ok=True)
        replace_whole(DiskFiles(), path, pickle.dumps(values, protocol=5))
