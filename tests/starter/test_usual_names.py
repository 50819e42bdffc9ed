"""Of several common names of a species in one language, the usual one: by a source, or common practice (no source)."""

from __future__ import annotations

from collections import Counter

from namekeeper.evidence.interfaces import NameList
from tests.starter.tables import rows, species


def marked() -> list[tuple[str, str, str]]:
    usual = [row for row in rows("common") if row["usual"]]
    assert {row["kind"] for row in usual} == {"common"}
    return [(row["scientificName"], row["language"], row["vernacularName"]) for row in usual]


def test_one_name_a_species_and_language_is_usual() -> None:
    assert len(marked()) >= 170
    assert [key for key, count in Counter(key[:2] for key in marked()).items() if count > 1] == []
    assert [name for name, _, _ in marked() if name not in species()] == []


def test_most_usual_names_say_what_makes_them_so() -> None:
    usual = [row for row in rows("common") if row["usual"]]
    told = [row for row in usual if "usual:" in row["note"]]
    assert len(told) >= 140
    # an article that opens with the name, or the one common name that the taxonomy database shows
    assert {source for row in told for source in row["source"].split(";")} & {"wikipedia-en", "ncbi-taxonomy"}
    assert [row for row in told if row["confidence"] != "verified"] == []


def test_the_usual_name_comes_first_on_the_card_that_labels_print(lists: tuple[NameList, ...]) -> None:
    for name, language, usual in marked():
        card = lists[0].card(name)
        assert card is not None, name
        first = next(one.text for one in card.common if one.language == language and one.kind == "common")
        assert first == usual, name
