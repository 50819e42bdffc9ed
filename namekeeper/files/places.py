"""Where this machine keeps our cache, state and added lists; ``NAMEKEEPER_HOME`` moves all of it."""

from __future__ import annotations

import os
from collections.abc import Mapping
from pathlib import Path
from typing import NamedTuple


class Places(NamedTuple):
    """What can be fetched again, what is going on, what was added; each folder is made by its first writer."""

    cache: Path
    state: Path
    data: Path

    @classmethod
    def from_environ(cls, environ: Mapping[str, str]) -> Places:
        """The folders of this user, or all three below ``NAMEKEEPER_HOME`` where that is set."""
        home = environ.get("NAMEKEEPER_HOME")
        if home:
            root = at_home(home).absolute()
            return cls(root / "cache", root / "state", root / "data")
        from platformdirs import PlatformDirs

        dirs = PlatformDirs("namekeeper", appauthor=False)
        return cls(dirs.user_cache_path, dirs.user_state_path, dirs.user_data_path)


def at_home(text: str) -> Path:
    """A path as a shell would take it: ``~`` is the home of this user, ``~name`` that of another if there is one."""
    return Path(os.path.expanduser(text))  # noqa: PTH111 - Path raises for a user that nobody knows


def documents(environ: Mapping[str, str]) -> Path:
    """Where this user keeps documents; below ``NAMEKEEPER_HOME`` where that is set, so that it can stay on a stick."""
    home = environ.get("NAMEKEEPER_HOME")
    if home:
        return at_home(home).absolute() / "documents"
    from platformdirs import user_documents_path

    return user_documents_path()
