"""Collections with files that have no end, or none that anybody would read, and what every command says of them.

``python -m tests.storage.endless FOLDER HOME`` makes each below FOLDER, runs the commands in this process and prints
what came of it as JSON; its limits are set by whoever starts it.
"""

from __future__ import annotations

import io
import json
import os
import sys
from collections.abc import Callable, Iterator
from pathlib import Path
from types import MappingProxyType
from urllib.parse import urlsplit

from namekeeper.faces.page.keeping import Keeping
from namekeeper.sources.kept_answers import AnswerCache
from namekeeper.storage.lock import lock_path
from tests.conftest import NOW, NOWHERE, run_here, world
from tests.page.conftest import visitor_of

Maker = Callable[[Path], object]
SETTINGS, DIGESTS = "collection.yaml", ".namekeeper-digests"
SPARSE = 100 * 1024 * 1024
COMMANDS: dict[str, tuple[str, ...]] = {
    "verify": ("collection", "verify", "c", "--json"),
    "check": ("check", "c", "--offline", "--json"),
    "labels": ("labels", "c", "-o", "l.pdf", "--skip-refused", "--no-record", "--replace", "--json"),
    "settle": ("settle", "c", "--take-safe", "--json"),
    "history": ("history", "c", "--json"),
    "export": ("collection", "export", "c", "-o", "e.json", "--as", "json", "--replace"),
}
VIEWS = ("/animals", "/animal/A1", "/decide/A1", "/lists")
#: Also for some cases, since a process that draws is begun for each.
DRAWN, DRAWN_FOR = ("/labels", "/labels/sheet.png"), frozenset({"settings: bomb", "specimens"})


def bomb(first: str = "") -> str:
    """Ten lines that stand for 10 to the tenth texts (a bomb of this kind: MITRE, CWE-776)."""
    lines = ["a: &a [x,x,x,x,x,x,x,x,x,x]"]
    for before, now in zip("abcdefghi", "bcdefghij", strict=True):
        lines.append(f"{now}: &{now} [{','.join(['*' + before] * 10)}]")
    return first + "".join(f"  {line}\n" for line in lines)


def pipe(path: Path) -> None:
    os.mkfifo(path)


def endless(path: Path) -> None:
    path.symlink_to("/dev/zero")


def sparse(path: Path) -> None:
    with path.open("wb") as file:
        file.truncate(SPARSE)


def text(content: str) -> Maker:
    return lambda path: path.write_text(content, encoding="utf-8")


#: Case -> file below the collection, how it is made, and what verify says of it.
CASES: MappingProxyType[str, tuple[str, Maker, str]] = MappingProxyType(
    {
        "settings: pipe": (SETTINGS, pipe, "a pipe or device"),
        "settings: endless": (SETTINGS, endless, "a pipe or device"),
        "settings: sparse": (SETTINGS, sparse, "larger than 1 MB"),
        "settings: bomb": (SETTINGS, text(bomb("labels:\n")), "not followed"),
        "settings: brackets": (SETTINGS, text("[" * 1_000_000), "no"),
        "digests: pipe": (DIGESTS, pipe, "a pipe or device"),
        "digests: endless": (DIGESTS, endless, "a pipe or device"),
        "digests: sparse": (DIGESTS, sparse, "larger than 32 MB"),
        "digests: lines": (DIGESTS, text("\u00e4\n" * 3_000_000), "cannot be read"),
    }
)
TEMPLATES: MappingProxyType[str, tuple[Maker, str]] = MappingProxyType(
    {
        "pipe": (pipe, "a pipe or device"),
        "endless": (endless, "a pipe or device"),
        "sparse": (sparse, "larger than 1 MB"),
        "bomb": (text(bomb("title:\n")), "not followed"),
    }
)
#: All in one collection: the others go on.
SPECIMENS: MappingProxyType[str, tuple[Maker, str]] = MappingProxyType(
    {
        "PIPE": (pipe, "a pipe or device"),
        "ZERO": (endless, "a pipe or device"),
        "SPARSE": (sparse, "larger than 1 MB"),
        "FOLDER": (Path.mkdir, "cannot be read"),
        "BOMB": (text(bomb("tag: x\nnote:\n")), "not followed"),
        "ENTRIES": (text(bomb("tag: x\nnames:\n")), "not followed"),
        "BRACKETS": (text("tag: " + "[" * 1_000_000), "not YAML"),
        "TAG": (text("tag: " + "Brachypelma smithi " * 50_000), "more than 10000 characters"),
        "NAME": (text("names:\n- name: " + "B" * 1_000_000), "more than 1000 characters"),
        "NUMBER": (
            text(f"names:\n- name: A b\n- name: A b\n  standing: undone\n  undoes: {'1' * 9000}\n"),
            "is not the number",
        ),
        "KEYS": (text("".join(f"k{number}: v\n" for number in range(80_000))), "unknown key"),
    }
)


def collection(root: Path) -> Path:
    """A collection with two good animals."""
    folder = root / "c"
    (folder / "specimens").mkdir(parents=True)
    for identifier in ("A1", "A2"):
        (folder / "specimens" / f"{identifier}.yaml").write_text(
            "names:\n- name: Brachypelma smithi\n", encoding="utf-8"
        )
    return folder


def templates(root: Path, home: Path) -> Iterator[tuple[str, object]]:
    """What is said of a template that has no end; the others are there."""
    folder = collection(root) / "label_templates"
    environ = {"NAMEKEEPER_HOME": str(home), **NOWHERE}
    for name, (make, _) in TEMPLATES.items():
        (folder / name).mkdir(parents=True)
        make(folder / name / "layout.yaml")
        done = run_here(("labels", "c", "-o", "t.pdf", "--template", name), root, environ, io.StringIO())
        yield name, [done.code, done.out, done.err]
    for name, words in (("list", ("labels", "c", "--templates")), ("labels", COMMANDS["labels"])):
        done = run_here(words, root, environ, io.StringIO())
        yield name, [done.code, done.out, done.err]


def of_ours(root: Path, home: Path) -> Iterator[tuple[str, object]]:
    """What is said where state, added lists and kept answers are pipes: all of it is used, and nothing waits."""
    folder = collection(root)
    taken = folder / "specimens" / "A1.yaml"
    taken.write_text(
        "names:\n- {name: Brachypelma vagans, since: 2014-05-03, recorded: 2014-05-03}\n", encoding="utf-8"
    )
    places = world(root, home).places
    kept = AnswerCache(places.cache / "services" / "gbif", lambda _text: None)
    kept.put("http://127.0.0.1:9/v2/species/match/metadata", {"x": 1}, NOW)
    for path in (*kept.folder.iterdir(), lock_path(places, folder), places.state / "outputs.json"):
        path.parent.mkdir(parents=True, exist_ok=True)
        path.unlink(missing_ok=True)
        pipe(path)
    (places.data / "lists" / "pointer").mkdir(parents=True)
    pipe(places.data / "lists" / "pointer" / "current")
    (places.data / "lists" / "index").mkdir(parents=True)
    (places.data / "lists" / "index" / "current").write_text("1\n", encoding="utf-8")
    pipe(places.data / "lists" / "index" / "1.sqlite")
    environ = {"NAMEKEEPER_HOME": str(home), **NOWHERE}
    more = {
        "lists": ("lists",),
        "services": ("services",),
        "write": ("settle", "c", "--take-safe", "--write"),
        "online": ("check", "c", "--services", "gbif"),
    }
    for name, words in (COMMANDS | more).items():
        done = run_here(words, root, environ, io.StringIO())
        yield name, [done.code, done.out, done.err]


def answers(root: Path, home: Path, case: str) -> Iterator[tuple[str, object]]:
    """What every command and view says: its exit code, and its document or its text."""
    environ = {"NAMEKEEPER_HOME": str(home), **NOWHERE}
    for name, words in COMMANDS.items():
        done = run_here(words, root, environ, io.StringIO())
        yield name, [done.code, json.loads(done.out) if "--json" in words and done.out else done.out, done.err]
    page = Keeping.of(world(root, home))
    page.patience = 60.0  # of a busy machine
    try:
        page.open(root / "c")
        visitor = visitor_of(page)
        visitor.get(urlsplit(visitor.guard.start_link).path)
        for view in (*VIEWS, *(DRAWN if case in DRAWN_FOR else ())):
            answer = visitor.get(view)
            yield view, [answer.status_code, answer.data.decode("utf-8", "replace"), ""]
    finally:
        page.end(5)


def main(root: Path, home: Path) -> None:
    told: dict[str, dict[str, object]] = {}
    for number, (case, (file, make, _)) in enumerate(CASES.items()):
        here = root / str(number)
        make(collection(here) / file)
        told[case] = dict(answers(here, home, case))
    folder = collection(root / "all")
    for identifier, (make, _) in SPECIMENS.items():
        make(folder / "specimens" / f"{identifier}.yaml")
    told["specimens"] = dict(answers(root / "all", home, "specimens"))
    told["templates"] = dict(templates(root / "templates", home))
    told["ours"] = dict(of_ours(root / "ours", home))
    print(json.dumps(told))


if __name__ == "__main__":
    main(Path(sys.argv[1]), Path(sys.argv[2]))
