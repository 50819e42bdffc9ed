"""The one place that knows where the package's own data lie: checkout, editable install or wheel."""

from __future__ import annotations

from pathlib import Path

from namekeeper.words.errors import FileError

_PACKAGE = Path(__file__).resolve().parent


def data(name: str) -> Path:
    """A file or folder of ``namekeeper/data``.

    :raises FileError: if the installation is incomplete.
    """
    return _existing(_PACKAGE / "data" / name)


def label_templates() -> Path:
    """The folder of shipped label templates and sheets."""
    return _shipped("label_templates")


def screen_face() -> Path:
    """The labels' italic, cut down to what a screen needs.

    :raises FileError: if the installation is incomplete.
    """
    return _existing(_PACKAGE / "faces" / "page" / "static" / "label.woff")


def sample_collection() -> Path:
    """The folder of the sample collection."""
    return _shipped("sample_collection")


def _shipped(name: str) -> Path:
    # A wheel carries the two top-level folders inside the package; a checkout has them beside it.
    inside = _PACKAGE / "_shipped" / name
    return inside if inside.is_dir() else _existing(_PACKAGE.parent / name)


def _existing(path: Path) -> Path:
    if not path.exists():
        what = f"the installation is incomplete: {path.name} is missing"
        raise FileError(what, remedy="install namekeeper again")
    return path
