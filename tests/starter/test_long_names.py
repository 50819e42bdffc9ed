"""Common names of many words: read whole, however many small words join them."""

from __future__ import annotations

from namekeeper.evidence.interfaces import NameList
from namekeeper.tasks.lookup import look_up
from tests.starter.tables import name_in_force, rows


def test_the_longest_names_are_read_whole(lists: tuple[NameList, ...]) -> None:
    long = {
        row["vernacularName"]: row["scientificName"] for row in rows("common") if row["vernacularName"].count(" ") > 3
    }
    assert len(long) > 50
    for name, found in zip(long, look_up(long, lists), strict=True):
        assert [text.casefold() for text in found.reading.common] == [name.casefold()]
        assert name_in_force(long[name]) in {candidate.name for candidate in found.lookup.candidates}
