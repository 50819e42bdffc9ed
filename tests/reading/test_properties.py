"""Any text can be read: spans and leftover cover the tag, time grows with its length, nothing is dropped."""

from __future__ import annotations

import sys
import unicodedata

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from namekeeper.evidence.interfaces import NameList
from namekeeper.reading.draft import Draft
from namekeeper.reading.lexicon import every_phrase, phrases
from namekeeper.reading.reading import Reading
from namekeeper.reading.tag import LONGEST_TAG, read_tag
from namekeeper.tasks.lookup import ListNames
from tests.reading.corpus import entries

TAGS = [entry.tag for entry in entries()]
PIECES = st.sampled_from(
    ["0.1", "1.0.3", "P. ", "smithi", "Brachypelma ", '"', "½", "″", "(", ")", "/", "?", "♀", "MM", "mm", "£", "€",
     "ex ", "sp. ", "cf. ", "×", " x ", "&amp;", "&#9792;", "<i>", "’", "–", "\u202e", "\u200d", "e\u0301", "\ufe0f",
     "🕷", "L4", "5", "cm", " ", "\t", "\x00", "\x1f", "\x1b[31m", "オス", "ß", "İ", "ﬁ", "𝔖"]
)  # fmt: skip
TEXTS = st.one_of(
    st.text(max_size=400),
    st.lists(PIECES, max_size=60).map("".join),
    st.tuples(st.sampled_from(TAGS), st.sampled_from(TAGS)).map(" ".join),
    st.tuples(st.sampled_from(TAGS), st.text(max_size=20)).map("".join),
)


def counts(letter: str) -> bool:
    """Neither white space nor punctuation (contract section 2); lone marks belong to a letter before them."""
    return not letter.isspace() and unicodedata.category(letter)[0] not in "PM" and letter not in "\u200d\ufe0f"


def assert_covers(reading: Reading) -> None:
    tag = reading.tag
    covered: set[int] = set()
    last = 0
    for span in reading.spans:
        assert last <= span.start < span.end <= len(tag), "spans are in order, inside the tag, not overlapping"
        last = span.end
        covered.update(range(span.start, span.end))
    left = list(reading.leftover)
    for place, letter in enumerate(tag):
        if place not in covered and counts(letter):
            assert letter in left, f"{letter!r} at {place} is neither in a span nor left over"
            left.remove(letter)


@given(TEXTS)
def test_spans_and_leftover_cover_any_tag(text: str) -> None:
    reading = read_tag(text)
    assert reading.tag == text
    assert_covers(reading)


@given(TEXTS)
@settings(max_examples=60)
def test_the_same_with_the_help_of_a_list(lists: tuple[NameList, ...], text: str) -> None:
    names = ListNames(lists)
    reading = read_tag(text, names)
    assert_covers(reading)
    assert read_tag(text, names) == reading


@pytest.mark.parametrize("tag", TAGS)
def test_spans_and_leftover_cover_the_corpus(lists: tuple[NameList, ...], tag: str) -> None:
    reading = read_tag(tag, ListNames(lists))
    assert_covers(reading)
    for common in reading.commons:
        assert 0 <= common.start < common.end <= len(tag)
    for clue in reading.clues:
        assert 0 <= clue.start < clue.end <= len(tag)
        assert clue.name.epithet.lower() in tag[clue.start : clue.end].lower()


@pytest.mark.parametrize(
    "piece",
    ["a", "0.1 ", "P. ", '"', "(", "1/", "<", "&", "e\u0301", "\u0301", "Brachypelma ", "B. smithi/", "x ", "ex ",
     "sp. ", "£1 ", "Smith & ", "5-", "1 ", "\x00", "L4 ", "?"],
)  # fmt: skip
def test_long_tags_are_read_in_linear_time(piece: str) -> None:
    """Four times the text, at most four times the calls and a few (time itself: tests/benchmarks/reading_speed.py)."""
    short, long = (calls(piece, length) for length in (LONGEST_TAG // 4, LONGEST_TAG))
    assert long <= 4 * short + 500


def calls(piece: str, length: int) -> int:
    """Calls of functions, in Python or C, while a text of that length is read."""
    text = (piece * (length // len(piece) + 1))[:length]
    read_tag(text)  # the vocabulary is built once
    count = 0

    def note(frame: object, event: str, argument: object) -> None:
        nonlocal count
        count += event in ("call", "c_call")

    before = sys.getprofile()
    sys.setprofile(note)
    try:
        reading = read_tag(text)
    finally:
        sys.setprofile(before)
    assert reading.tag == text
    return count


def test_a_tag_that_is_too_long_is_left_over_whole() -> None:
    text = "Brachypelma hamorii " * 600
    reading = read_tag(text)
    assert (reading.leftover, reading.clues, reading.spans) == (text, (), ())


def test_every_phrase_is_found_by_its_first_word() -> None:
    """Phrases are folded a letter at a time: none may stand under a letter with which its folded words do not begin."""
    lost = []
    for kind, _, phrase in every_phrase():
        draft = Draft(phrase)
        if not any(phrases(draft.words(), draft.text, frozenset({kind}))):
            lost.append(phrase)
    assert lost == ["×", "F0", "F1", "F2", "F3", "F4", "F5"]  # no words: patterns read them
