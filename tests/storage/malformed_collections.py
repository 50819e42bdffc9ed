"""Whole collections with one thing wrong, made with fixed seeds: the right file and line, and nothing written.

``python -m tests.storage.malformed_collections [COUNT]`` makes COUNT of them (200) and prints what is wrong.
"""

from __future__ import annotations

import io
import json
import sys
import tempfile
from pathlib import Path
from random import Random

from tests.conftest import NOWHERE, Outcome, run_here
from tests.storage.malformed import malformed

MALFORMED = list(malformed())
GOOD = b"names:\n- {name: Brachypelma vagans, since: 2014-05-03, recorded: 2014-05-03, standing: as-labelled}\n"
SETTINGS = ("title: T", "locality: L", "by: K", "trust_order: [a]")
#: A line in the settings that is wrong in itself.
WRONG = (
    "titel: T",
    "title: [a]",
    "\tby: x",
    "title: 'open",
    "locality: {a: b}",
    "title: @x",
    "by: \x00",
    "by: &a [*a]",
    "? [x]",
    "<<<<<<< mine",
)
COMMANDS = (("collection", "verify", "c", "--json"), ("check", "c", "--offline"), ("settle", "c", "--take-safe"))


def made(folder: Path, seed: int) -> tuple[str, int | None]:
    """A collection with one fault; the file and line that have to be named."""
    random = Random(seed)
    specimens = folder / "c" / "specimens"
    specimens.mkdir(parents=True)
    (specimens / "A1.yaml").write_bytes(GOOD)
    kind = ("specimen", "settings", "case", "digests", "specimen")[seed % 5]
    if kind == "specimen":
        _, content, line = MALFORMED[random.randrange(len(MALFORMED))]
        (specimens / "BAD.yaml").write_bytes(content)
        return "specimens/BAD.yaml", line
    if kind == "case":
        (specimens / "X7.yaml").write_bytes(GOOD)
        (specimens / "x7.yaml").write_bytes(GOOD)
        return "specimens/X7.yaml", None
    if kind == "digests":
        lines = ["# head", *(f"B{number} " for number in range(random.randrange(9))), "\u00e4 zzz"]
        (folder / "c" / ".namekeeper-digests").write_bytes("\n".join(lines).encode())
        return ".namekeeper-digests", len(lines)
    lines = list(SETTINGS[: random.randrange(1, 5)])
    lines.append(WRONG[random.randrange(len(WRONG))])
    (folder / "c" / "collection.yaml").write_bytes(("\n".join(lines) + "\n").encode())
    return "collection.yaml", len(lines)


def files_in(folder: Path) -> dict[str, bytes]:
    return {str(path): path.read_bytes() for path in folder.rglob("*") if path.is_file()}


def faults(folder: Path, home: Path, seed: int) -> list[str]:
    """What is not as it should be with the collection of that seed."""
    file, line = made(folder, seed)
    before = files_in(folder)
    environ = {"NAMEKEEPER_HOME": str(home), **NOWHERE}
    done: list[Outcome] = [run_here(words, folder, environ, io.StringIO()) for words in COMMANDS]
    found = [f"{seed}: {words[0]}: {one.code}" for words, one in zip(COMMANDS, done, strict=True) if one.code != 2]
    found += [f"{seed}: a traceback" for one in done if "Traceback" in one.err]
    problems = json.loads(done[0].out)["problems"]
    first = min((one for one in problems if one["file"] == file), key=lambda one: one["line"] or 0, default=None)
    if first is None or (first["line"], bool(first["remedy"])) != (line, True):
        found.append(f"{seed}: {file}:{line} is not named, but {problems}")
    return found + ([f"{seed}: something was written"] if files_in(folder) != before else [])


def main(count: int) -> int:
    told: list[str] = []
    with tempfile.TemporaryDirectory() as root:
        for seed in range(count):
            told += faults(Path(root) / str(seed), Path(root) / "home", seed)
    print(*told, f"{count} collections, {count * len(COMMANDS)} commands, {len(told)} faults", sep="\n")
    return 1 if told else 0


if __name__ == "__main__":
    sys.exit(main(int(sys.argv[1]) if len(sys.argv) > 1 else 200))
