"""The tag corpus: every field of every tag, every answer (``data/tags.txt``)."""

from __future__ import annotations

from collections import Counter

from namekeeper.evidence.interfaces import NameList
from namekeeper.tasks.lookup import look_up
from tests.reading.corpus import FIELDS, entries, wrong_answer, wrong_fields


def test_the_corpus_is_as_big_as_promised() -> None:
    languages = Counter(entry.language for entry in entries())
    assert sum(languages.values()) >= 250
    assert sum(languages.values()) - languages["en"] >= 40
    assert {"de", "fr", "es", "nl", "pl", "cs", "it"} <= languages.keys()
    assert len({entry.tag for entry in entries()}) == sum(languages.values())


def test_97_percent_of_all_fields_are_right(lists: tuple[NameList, ...]) -> None:
    corpus = entries()
    looked = look_up((entry.tag for entry in corpus), lists)
    wrong = [field for entry, result in zip(corpus, looked, strict=True) for field in wrong_fields(entry, result)]
    given = sum(len(entry.reading) for entry in corpus)  # empty fields are easily right and do not count
    assert len(wrong) <= 0.03 * given, "\n".join(wrong)
    assert len(wrong) <= 0.03 * len(corpus) * len(FIELDS)


def test_no_tag_gets_a_wrong_one_and_97_percent_the_right_answer(lists: tuple[NameList, ...]) -> None:
    corpus = entries()
    wrong, wrong_one = [], []
    for entry, result in zip(corpus, look_up((entry.tag for entry in corpus), lists), strict=True):
        fault = wrong_answer(entry, result)
        wrong += [fault] if fault else []
        wrong_one += [fault] if fault and result.lookup.answer == "one" else []
    assert not wrong_one
    assert len(wrong) <= 0.03 * len(corpus), "\n".join(wrong)


def test_fields_that_need_no_list_are_right_without_one() -> None:
    """By form alone, without any list, sex, size, stage and marks are read the same."""
    from namekeeper.reading.tag import read_tag

    wrong = []
    for entry in entries():
        reading = read_tag(entry.tag)
        sizes = "-".join(f"{size:g}" for size in reading.size_cm or ())
        for key, value in (
            ("cm", sizes),
            ("of", reading.size_of),
            ("price", reading.price),
            ("instar", reading.instar),
        ):
            if value != entry.reading.get(key, ""):
                wrong.append((entry.tag, key, value))
    assert not wrong
