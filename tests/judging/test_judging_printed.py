"""A printed label is not made stale by an ending alone, unless the source itself changed it."""

from __future__ import annotations

import pytest

from namekeeper.records.specimen import Decision, NameEntry, Specimen
from namekeeper.tasks.label_memory import status_of
from namekeeper.words.errors import Place
from tests.judging.build import day


@pytest.mark.parametrize(
    ("old", "new", "standing", "according_to", "stale"),
    [
        # only the ending, and no act: World Spider Catalog list of late 2021 prints reduncus
        ("Psalmopoeus reduncum", "Psalmopoeus reduncus", "respelled", "", False),
        # the catalogue corrected the ending of the founding paper
        ("Tliltocatl albopilosum", "Tliltocatl albopilosus", "respelled", "World Spider Catalog", True),
        # Mendoza & Francke 2020
        ("Brachypelma vagans", "Tliltocatl vagans", "moved", "Mendoza & Francke 2020", True),
        ("Brachypelma vagans", "Tliltocatl vagans", "moved", "", True),
        # other letters are more than an ending
        ("Theraphosa leblondi", "Theraphosa blondi", "respelled", "", True),
    ],
)
def test_an_ending_alone(old: str, new: str, standing: str, according_to: str, stale: bool) -> None:
    entries = (
        NameEntry(old, since=day("2010")),
        NameEntry(new, since=day("2024"), standing=standing, according_to=according_to),
    )
    printed = (Decision("printed", day("2012"), name=old),)
    assert status_of(Specimen("S-1", Place(), names=entries, decisions=printed)).stale is stale
    assert status_of(Specimen("S-1", Place(), names=entries)).stale is stale
    assert not status_of(
        Specimen("S-1", Place(), names=entries, decisions=(Decision("printed", None, name=new),))
    ).stale
