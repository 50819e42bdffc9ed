"""The starter list, compiled for tests into a folder of their own."""

from __future__ import annotations

import csv
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from namekeeper import resources
from namekeeper.evidence.interfaces import NameList
from namekeeper.sources.lists.starter import open_starter


@contextmanager
def opened_starter(cache: Path) -> Iterator[tuple[NameList, ...]]:
    """The lists that a fresh installation asks."""
    starter = open_starter(resources.data("starter"), cache, lambda words: None)
    try:
        yield (starter,)
    finally:
        starter.close()


def starter_names() -> list[str]:
    """Accepted species of the starter list, as its table has them."""
    table = resources.data("starter") / "species.csv"
    rows = csv.DictReader(table.read_text(encoding="utf-8").splitlines())
    return [
        row["scientificName"] for row in rows if row["status"] == "accepted" and len(row["scientificName"].split()) == 2
    ]


def starter_commons() -> list[tuple[str, str]]:
    """Common names of the starter list with the taxon each stands for, as its table has them."""
    table = resources.data("starter") / "common.csv"
    rows = csv.DictReader(table.read_text(encoding="utf-8").splitlines())
    return [(row["vernacularName"], row["scientificName"]) for row in rows]
