"""What every reader of list files keeps, whatever its format: one suite, run on each reader and its own example.

Every example holds *Tliltocatl vagans* and its former name *Brachypelma vagans* (Mendoza & Francke 2020,
doi 10.1093/zoolinnean/zlz046).
"""

from __future__ import annotations

import json
import shutil
from collections.abc import Callable
from pathlib import Path
from random import Random

from namekeeper.evidence.statements import ListWishes
from namekeeper.sources.lists import adding
from namekeeper.sources.lists.adding import build, edition_of, open_source
from namekeeper.sources.lists.index_reader import IndexList
from namekeeper.sources.lists.list_file import ListReader, Skips
from namekeeper.words.errors import NamekeeperError
from tests.conftest import Outcome

EXAMPLES = Path(__file__).parent / "examples"
Command = Callable[..., Outcome]


def example_of(reader: ListReader, folder: Path) -> Path:
    """A copy of the reader's example in ``folder``; a folder is packed."""
    found = [path for path in EXAMPLES.iterdir() if path.name == reader.key or path.stem == reader.key]
    assert len(found) == 1, f"a reader needs one example: tests/lists/examples/{reader.key}"
    (example,) = found
    if example.is_dir():
        return Path(shutil.make_archive(str(folder / reader.key), "zip", example))
    return Path(shutil.copy(example, folder))


def list_of(path: Path) -> IndexList:
    """The index of a list file."""
    skips, wishes = Skips(), ListWishes()
    with open_source(path, wishes, skips) as source:
        build(source.list, edition_of("example", source.list.described(), wishes), path.with_suffix(".index"), skips)
    assert (skips.listed, skips.faults) == ([], [])
    return IndexList.open(path.with_suffix(".index"))


def is_recognised(reader: ListReader, folder: Path) -> None:
    """Among all readers the example is the one reader's; its name goes into what the keeper is told."""
    assert reader in adding.READERS, "a line in READERS is missing"
    with open_source(example_of(reader, folder), ListWishes(), Skips()) as source:
        assert source.kind == reader.kind
    assert reader.called in adding.formats()
    assert len({each.key for each in adding.READERS}) == len(adding.READERS)


def is_streamed_as_often_as_asked(reader: ListReader, folder: Path) -> None:
    """Every stream of rows can be had again, and is the same."""
    with open_source(example_of(reader, folder), ListWishes(), Skips()) as source:
        for rows in (source.list.usages, source.list.commons, source.list.areas, source.list.relations):
            first = list(rows())
            assert list(rows()) == first
        usages = list(source.list.usages())
    assert {"Tliltocatl vagans", "Brachypelma vagans"} <= {" ".join(row.name.split()[:2]) for row in usages}
    assert all(row.line > 0 for row in usages)


def is_added_by_the_command(reader: ListReader, folder: Path, command: Command) -> None:
    """The command takes it, says what it is, and its names answer; its help names the format."""
    path = example_of(reader, folder)
    added = command("lists", "add", path.name, "--as", "mine")
    assert added.code == 0, added.err
    assert f" from a {reader.kind}" in added.out
    document = json.loads(command("lists", "add", path.name, "--as", "again", "--json").out)
    assert document["skipped"] == []
    assert document["names"] > 1
    assert reader.called in " ".join(command("lists", "add", "--help").out.split())


def keeps_columns_to_itself(reader: ListReader, folder: Path, command: Command) -> None:
    """Headers can be named where the reader says so, and are refused in words elsewhere."""
    path = example_of(reader, folder)
    refused = command("lists", "add", path.name, "--as", "mine", "--column", "name=No such header")
    assert refused.code == 2
    assert ("no column 'No such header'" in refused.err) == reader.takes_columns
    assert ("an archive declares its own" in refused.err) != reader.takes_columns


def survives_damage(reader: ListReader, folder: Path) -> None:
    """Whatever bytes are others or missing: names, skips or an error in words."""
    whole = example_of(reader, folder).read_bytes()
    told = 0
    for seed in range(60):
        random = Random(seed)
        content = bytearray(whole[: random.randrange(len(whole))] if seed % 3 == 0 else whole)
        for _ in range(random.randint(1, 4) if content else 0):
            content[random.randrange(len(content))] = random.randrange(256)
        path = folder / f"damaged-{seed}"
        path.write_bytes(content)
        skips, wishes = Skips(), ListWishes()
        try:
            with open_source(path, wishes, skips) as source:
                build(source.list, edition_of("x", source.list.described(), wishes), path.with_suffix(".index"), skips)
        except NamekeeperError as error:
            told += bool(error.what)
    assert told > 5, "some damage makes a list unreadable, and is told in words"
