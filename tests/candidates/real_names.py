"""51,000 real names of arthropods, and a list made of them.

Source: NCBI Taxonomy (public domain), copy of September 2024; binomens below Arthropoda, whole genera drawn by a seed.
Each line of ``data/real_names.txt.xz`` is a genus with its epithets. Nothing but the spelling is used.
"""

from __future__ import annotations

import lzma
import random
from pathlib import Path

from namekeeper.evidence.statements import Edition
from namekeeper.sources.lists.incoming import UsageRow
from namekeeper.sources.lists.index_reader import IndexList
from namekeeper.sources.lists.index_writer import IndexWriter

_FILE = Path(__file__).with_name("data") / "real_names.txt.xz"


def real_names() -> list[str]:
    """All names in alphabetical order."""
    lines = lzma.decompress(_FILE.read_bytes()).decode("ascii").splitlines()
    return [f"{genus} {epithet}" for genus, *epithets in map(str.split, lines) for epithet in epithets]


def parted(unlisted: int, seed: int = 1) -> tuple[list[str], list[str]]:
    """Names for a list, and ``unlisted`` others that it will not have; many of those in genera that it knows."""
    names = real_names()
    random.Random(seed).shuffle(names)
    return names[unlisted:], names[:unlisted]


def listed(names: list[str], place: Path) -> IndexList:
    """A list of these accepted names."""
    with IndexWriter(place) as writer:
        writer.usages(UsageRow(line, str(line), name, rank="species") for line, name in enumerate(names, 1))
        writer.finish(Edition("real", "Real names", "ncbi"))
    return IndexList.open(place)
