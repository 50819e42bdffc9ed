"""The JSON of a check goes out as it is made, and what a large collection takes has a bound."""

from __future__ import annotations

import io
import json
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

from namekeeper.faces.console import Console
from namekeeper.faces.telling.check import check_document
from namekeeper.files.places import Places
from namekeeper.tasks.check import check_folder
from namekeeper.tasks.desk import CollectionDesk
from namekeeper.tasks.online import ServiceWishes
from tests.benchmarks import collection_memory
from tests.benchmarks.keepers_animals import fill
from tests.conftest import world


def test_every_row_is_out_before_the_next_is_made(tmp_path: Path, home: Path) -> None:
    folder = tmp_path / "c"
    (folder / "specimens").mkdir(parents=True)
    for number in range(5):
        (folder / "specimens" / f"A{number}.yaml").write_text("tag: Brachypelma smithi\n", encoding="utf-8")
    report = check_folder(CollectionDesk.at(folder, world(tmp_path, home)), ServiceWishes(offline=True))
    document, out = check_document(report), io.StringIO()
    rows = document["results"]
    assert isinstance(rows, Iterator)

    def watched() -> Iterator[object]:
        for number, row in enumerate(rows):
            assert out.getvalue().count('"specimen"') == number
            yield row

    Console(out, io.StringIO()).json({**document, "results": watched()})
    assert [row["specimen"] for row in json.loads(out.getvalue())["results"]] == [f"A{number}" for number in range(5)]


LINUX = pytest.mark.skipif(not sys.platform.startswith("linux"), reason="the most memory is read as Linux tells it")


@LINUX
def test_a_check_of_some_thousand_animals_is_small(tmp_path: Path) -> None:
    """105 MB, most of it for what is remembered of 2,000 names, which has a bound."""
    fill(tmp_path / "many", 4000, Places.from_environ({"NAMEKEEPER_HOME": str(tmp_path / "home")}))
    assert collection_memory.megabytes(tmp_path / "many", tmp_path / "home") < 160


@LINUX
@pytest.mark.long
def test_a_check_of_100_000_animals_takes_so_much_an_animal_and_no_more(capsys: pytest.CaptureFixture[str]) -> None:
    """354 MB in all, 3,420 bytes each; it was 538 MB when the document was made before it was written."""
    assert collection_memory.main(100_000) == 0, capsys.readouterr().out
