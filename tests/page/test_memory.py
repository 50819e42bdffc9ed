"""A page that stays open for months: what it remembers has bounds, whatever goes on in the collection."""

from __future__ import annotations

import gc
from pathlib import Path

import pytest

from namekeeper.records.specimen import Specimen
from namekeeper.tasks import watch
from namekeeper.tasks.desk import CollectionDesk
from namekeeper.tasks.watch import CollectionWatch, Seen
from tests.conftest import world


def test_of_states_that_are_no_more_only_the_newest_are_remembered(
    tmp_path: Path, home: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(watch, "MOST_EARLIER", 3)
    folder = tmp_path / "animals"
    (folder / "specimens").mkdir(parents=True)
    file = folder / "specimens" / "A-1.yaml"
    looked = CollectionWatch(CollectionDesk(folder, world(tmp_path, home)))
    seen: list[Seen] = []
    for number in range(9):
        file.write_text(f"tag: GBB\nplace: shelf {number}\n", encoding="utf-8")
        seen.append(Seen("A-1", looked.view().collection.specimens[0].revision))
    gc.collect()
    alive = [one for one in gc.get_objects() if isinstance(one, Specimen) and one.id == "A-1"]
    assert len(alive) == 4, "the one there is, and three before it"
    assert [looked.seen(one).stands_at for one in seen[-4:]] == [f"shelf {number}" for number in (5, 6, 7, 8)]
    forgotten = looked.seen(seen[0])
    assert (forgotten.revision, forgotten.stands_at) == (seen[0].revision, "shelf 8"), "still found to be another"
