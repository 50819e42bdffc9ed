"""Every command that writes, at work in a small world; and what that world must be after one operation failed."""

from __future__ import annotations

import shutil
import zipfile
from dataclasses import dataclass, field
from pathlib import Path

from namekeeper.files.file_layer import NEW
from namekeeper.storage.journal import JOURNAL

_ANIMAL = (
    "tag: '{tag}'\nacquired: 2014-05-03\nsex: 0.0.3\nnames:\n- name: {name}\n  since: 2014\n  recorded: 2014-05-04\n"
)
_MOVED = """- name: Caribena versicolor
  authorship: (Walckenaer, 1837)
  since: 2021-02-11
  recorded: 2021-02-11
  standing: moved
"""
#: By name; each runs in a fresh world.
JOBS: dict[str, tuple[str, ...]] = {
    "new": ("collection", "new", "other"),
    "add": ("collection", "add", "animals", "--tag", "GBB 0.1"),
    "young": ("collection", "add", "animals", "--from", "A-1", "--count", "3"),
    "import": ("collection", "import", "animals", "stock.csv", "--write"),
    "set": ("collection", "set", "animals", "A-1", "place=shelf 2", "--write"),
    "left": ("collection", "left", "animals", "A-1", "--how", "sold", "--write"),
    "count": ("collection", "count", "animals", "A-1", "0.0.2", "--write"),
    "join": ("collection", "join", "animals", "A-1", "A-2", "--write"),
    "accept": ("collection", "verify", "animals", "--accept", "--write"),
    "settle": ("settle", "animals", "--take-safe", "--write", "--offline"),
    "check": ("check", "animals", "--offline", "-o", "report.html"),
    "stock": ("collection", "stock", "animals", "-o", "out.csv"),
    "export": ("collection", "export", "animals", "-o", "out", "--as", "csv,json"),
    "publish": (
        "collection", "export", "animals", "-o", "out.zip", "--as", "dwca",
        "--licence", "CC0-1.0", "--rights-holder", "A. Keeper",
    ),
    "labels": ("labels", "animals", "-o", "out.pdf", "--printed"),
    "preview": ("labels", "animals", "--preview", "out.png", "--no-record"),
    "tables": ("tables", "animals", "food.csv", "--write"),
    "lists add": ("lists", "add", "names.csv", "--as", "mine", "--edition", "2"),
    "lists use": ("lists", "use", "kept@1"),
    "lists remove": ("lists", "remove", "kept", "--yes"),
    "pocket": ("pocket", "animals", "-o", "out.html"),
    "demo": ("demo", "-o", "sample"),
}  # fmt: skip
#: Contents that hold chance, or leave out what could not be read and say so, are looked at by their form.
_ENDS: dict[str, tuple[bytes, ...]] = {
    ".pdf": (b"%%EOF", b"%%EOF\n"),
    ".html": (b"</html>", b"</html>\n"),
    ".csv": (b"\n",),
    ".json": (b"}\n",),
    ".png": (b"IEND\xaeB`\x82",),
}


@dataclass(frozen=True)
class SmallWorld:
    """A keeper's folder with a collection and tables, and our own folders in ``home``."""

    root: Path
    home: Path = field(init=False)

    def __post_init__(self) -> None:
        object.__setattr__(self, "home", self.root / "home")

    @classmethod
    def made(cls, root: Path, compiled: Path) -> SmallWorld:
        """``compiled`` is a home in which the starter list is compiled."""
        shutil.copytree(compiled, root / "home")
        specimens = root / "animals" / "specimens"
        specimens.mkdir(parents=True)
        (root / "animals" / "collection.yaml").write_text("# mine\ntitle: Mine\n", encoding="utf-8")
        text = _ANIMAL.format(tag="Mex red rump", name="Brachypelma vagans")
        moved = _ANIMAL.format(tag="Martinique", name="Avicularia versicolor") + _MOVED
        for identifier, own in {"A-1": text, "A-2": text, "A-3": moved}.items():
            (specimens / f"{identifier}.yaml").write_text(own, encoding="utf-8")
        tables = {
            "stock.csv": "Name,Place\nBrachypelma vagans,shelf 1\nGrammostola rosea,shelf 2\n",
            "food.csv": "animal,fed\nAvicularia versicolor,2026-01-01\n",
            "names.csv": "name\nTliltocatl vagans\n",
        }
        for name, text in tables.items():
            (root / name).write_text(text, encoding="utf-8")
        return cls(root)

    def copy(self, place: Path) -> SmallWorld:
        """The same elsewhere, with the compiled index linked: nobody writes into it."""
        place.mkdir(parents=True)
        indexes = {path.relative_to(self.root): path for path in self.root.rglob("*.sqlite")}
        shutil.copytree(self.root, place, dirs_exist_ok=True, ignore=shutil.ignore_patterns("*.sqlite"))
        for name, path in indexes.items():
            (place / name).hardlink_to(path)
        return SmallWorld(place)

    def kept(self) -> dict[str, bytes]:
        """The keeper's files but for our own memory among them."""
        return {
            str(path.relative_to(self.root)): path.read_bytes()
            for path in sorted(self.root.rglob("*"))
            if path.is_file()
            and not path.is_relative_to(self.home)
            and not path.name.startswith(".namekeeper-")
            and not path.name.endswith(NEW)
        }

    def left_over(self) -> list[str]:
        """Drafts and journals that should be gone."""
        return [
            str(path.relative_to(self.root))
            for path in self.root.rglob("*")
            if path.name.endswith((NEW, ".part")) or path.name == JOURNAL
        ]


def whole(path: Path, before: dict[str, bytes], after: dict[str, bytes], name: str) -> bool:
    """Whether a file is as it was, or as the job makes it."""
    content = path.read_bytes()
    if content in (before.get(name), after.get(name)):
        return True
    if name not in after:
        return False
    return zipfile.is_zipfile(path) if path.suffix == ".zip" else content.endswith(_ENDS.get(path.suffix, ()))
