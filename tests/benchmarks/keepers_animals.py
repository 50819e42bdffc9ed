"""A collection like a keeper's for the benchmarks: many names, a date each, localities; by a fixed seed.

Names are of the starter list: in force, former, and misspelt by one or two errors (one in eight). Each stands on some
five labels, which differ in date and locality, and most labels have an earlier name. Two in three give an authorship.
"""

from __future__ import annotations

import random
from collections.abc import Sequence
from pathlib import Path
from typing import TypeVar

from namekeeper.evidence.statements import NameStatus
from namekeeper.files.places import Places
from namekeeper.records.specimen import NameEntry, Sex, Specimen
from namekeeper.sources.lists.registry import starter
from namekeeper.storage.emit import specimen_text
from namekeeper.words.dates import PartialDate
from namekeeper.words.errors import NOWHERE
from tests.benchmarks.lists_names import damaged

DISTINCT_NAMES = 2000
_SEED = 2111
_PLACES = ("Campeche", "Oaxaca", "Guerrero, Mexico", "Minas Gerais", "Bahia", "Tamil Nadu", "Kerala", "Sabah", "Negros")
_AREAS = ("Mexico", "Brazil", "Peru", "Colombia", "Ecuador", "India", "Sri Lanka", "Vietnam", "Malaysia", "Kenya")
_T = TypeVar("_T")
_Named = tuple[str, str]  # name and authorship


def fill(folder: Path, count: int, places: Places) -> None:
    """Specimens as keepers have them: a tag, a few facts, and for most a second name."""
    chance = random.Random(_SEED)
    names = keepers_names(places)
    dealt = [names[number % len(names)] for number in range(count)]
    chance.shuffle(dealt)
    (folder / "specimens").mkdir(parents=True)
    for number, named in enumerate(dealt):
        specimen = _specimen(number, named, chance.choice(names), chance)
        (folder / "specimens" / f"{specimen.id}.yaml").write_text(specimen_text(specimen), encoding="utf-8")


def keepers_names(places: Places, count: int = DISTINCT_NAMES) -> list[_Named]:
    """So many distinct names, each with the authorship that the list gives it, or its right spelling."""
    chance = random.Random(_SEED)
    own = starter(places, print)
    said = [told for name in own.whole().every_name() if " " in name for told in own.named(name)[:1]]
    own.close()
    written = {told.subject.name: told.subject.authorship for told in said}
    former = [told.subject.name for told in said if told.status is not NameStatus.ACCEPTED]
    current = [told.subject.name for told in said if told.status is NameStatus.ACCEPTED]
    wrong = {
        bad.capitalize(): written[good]
        for good, bad in damaged(current, count, _SEED)
        if bad.isascii() and bad.isprintable() and bad.count(" ") == good.count(" ") and bad.capitalize() not in written
    }
    chosen = [*_some(current, count * 5 // 8, chance), *_some(former, count // 4, chance)]
    named = [(name, written[name]) for name in chosen]
    return [*named, *_some(list(wrong.items()), count - len(named), chance)]


def _some(values: Sequence[_T], count: int, chance: random.Random) -> list[_T]:
    return chance.sample(values, min(count, len(values)))


def _specimen(number: int, named: _Named, earlier: _Named, chance: random.Random) -> Specimen:
    since = PartialDate.parse(f"{2008 + number % 18}-{chance.randint(1, 12):02d}-{chance.randint(1, 28):02d}")
    before = PartialDate.parse(f"{since.earliest.year - 1}-05")
    entries = [
        *([NameEntry(*earlier, before, before)] if number % 3 else []),
        NameEntry(named[0], named[1] if chance.random() < 2 / 3 else "", since, since),
    ]
    locality = chance.choice((*_PLACES, *_AREAS)) if number % 2 else ""
    return Specimen(
        f"INV-{number:05d}",
        NOWHERE,
        f"tag as the seller wrote it, number {number} 0.1 4cm",
        entries[0].since,
        Sex.parse("0.1.0"),
        locality=locality,
        names=tuple(entries),
    )
