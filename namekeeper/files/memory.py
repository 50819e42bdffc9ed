"""Small things remembered from one command to the next, each a JSON file of its own: read with care, written whole."""

from __future__ import annotations

import json
from pathlib import Path

from namekeeper.files.file_layer import DiskFiles, replace_whole
from namekeeper.files.lenient_json import json_of
from namekeeper.files.reading import LARGEST_OWN, read_file
from namekeeper.words.errors import FileError, Place

_REMEDY = "make the folder writable, or delete the file: it only remembers"


def recall(path: Path) -> object:
    """What was remembered at ``path``; None if nothing was.

    :raises FileError: if the file cannot be read or is no JSON.
    """
    try:
        return json_of(read_file(path, LARGEST_OWN))
    except FileNotFoundError:
        return None
    except (OSError, ValueError) as error:
        raise FileError("what was remembered cannot be read", remedy=_REMEDY, place=Place(str(path))) from error


def remember(path: Path, document: object) -> None:
    """Keep ``document`` at ``path`` in place of what was remembered there.

    :raises FileError: if it cannot be written; what was remembered before is then still there.
    """
    try:
        content = json.dumps(document, ensure_ascii=False, indent=1).encode()
        path.parent.mkdir(parents=True, exist_ok=True)
    except (OSError, UnicodeEncodeError) as error:
        msg = f"cannot be remembered: {error}"
        raise FileError(msg, remedy=_REMEDY, place=Place(str(path))) from error
    replace_whole(DiskFiles(), path, content + b"\n")
