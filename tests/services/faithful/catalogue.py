"""What the faithful servers list: the names of the starter list, in force and former, as one catalogue."""

from __future__ import annotations

import csv
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import cache

from namekeeper import resources
from namekeeper.words.spelling import ending_key, plain_key

#: Common names that no list has: invented, for the services that are asked common names only.
INVENTED = {
    "Lanternfoot Example Tarantula": "Tliltocatl vagans",
    "Quillback Example Scorpion": "Pandinus imperator",
    "Waxen Example Mantis": "Hymenopus coronatus",
}
#: Common names as the services carry them: the invented ones, and one of the trade (common practice, no source).
COMMON = INVENTED | {"Goliath birdeater": "Theraphosa blondi"}


@dataclass(frozen=True)
class Usage:
    """A name; ``accepted`` is the key of the name in force for it. ``line``: ranks and names above, root first."""

    key: str
    name: str
    authorship: str
    rank: str
    accepted: str
    line: tuple[tuple[str, str], ...]

    @property
    def in_force(self) -> bool:
        return self.accepted == self.key

    @property
    def label(self) -> str:
        return f"{self.name} {self.authorship}".strip()

    @property
    def lsid(self) -> str:
        return f"urn:lsid:nmbe.ch:spidersp:{int(self.key[1:]):06d}"

    @property
    def is_spider(self) -> bool:
        return ("order", "Araneae") in self.line


def _rows(name: str) -> Iterator[dict[str, str]]:
    with resources.data(f"starter/{name}").open(encoding="utf-8", newline="") as file:
        yield from csv.DictReader(file)


@cache
def _above() -> dict[str, tuple[str, str]]:
    """Rank and parent of every higher taxon."""
    return {row["taxon"]: (row["rank"], row["parent"]) for row in _rows("taxa.csv")}


def _line(genus: str, family: str) -> tuple[tuple[str, str], ...]:
    found = [("genus", genus)]
    taxon = family
    while taxon in _above():
        rank, parent = _above()[taxon]
        found.append((rank, taxon))
        taxon = parent
    return tuple(reversed(found))


@cache
def usages() -> dict[str, Usage]:
    """All names by key."""
    species = [row for row in _rows("species.csv") if row["status"] == "accepted"]
    keys = {row["scientificName"]: f"T{number:05d}" for number, row in enumerate(species)}
    found = {
        keys[row["scientificName"]]: Usage(
            keys[row["scientificName"]],
            row["scientificName"],
            row["authorship"],
            row["rank"],
            keys[row["scientificName"]],
            _line(row["scientificName"].split()[0], row["family"]),
        )
        for row in species
    }
    former = {row["formerName"]: row for row in _rows("former.csv")}
    for number, (name, row) in enumerate(former.items(), len(found)):
        end = row["acceptedName"]
        for _ in range(9):
            end = former[end]["acceptedName"] if end in former else end
        if end in keys:
            rank = "subspecies" if len(name.split()) == 3 else "species"
            key = f"T{number:05d}"
            found[key] = Usage(key, name, row["authorship"], rank, keys[end], found[keys[end]].line)
    genera = {usage.line[-1][1]: usage for usage in found.values() if usage.in_force}
    for number, (genus, usage) in enumerate(genera.items(), 50_000):
        key = f"T{number:05d}"
        found[key] = Usage(key, genus, "Author, 1900", "genus", key, usage.line[:-1])
    return found


@cache
def by_plain() -> dict[str, tuple[Usage, ...]]:
    """Names by their spelling but for capitals and marks."""
    return _grouped(plain_key)


@cache
def by_stem() -> dict[str, tuple[Usage, ...]]:
    """Names by their spelling but for endings, as the servers' indexes fold them."""
    return _grouped(ending_key)


def _grouped(fold: Callable[[str], str]) -> dict[str, tuple[Usage, ...]]:
    found: dict[str, list[Usage]] = {}
    for usage in usages().values():
        found.setdefault(fold(usage.name), []).append(usage)
    return {key: tuple(own) for key, own in found.items()}


def accepted_of(usage: Usage) -> Usage:
    """The name in force."""
    return usages()[usage.accepted]
