"""Cautions: a union in graded forms, word first, and never a promise that an animal is harmless."""

from __future__ import annotations

import re
from itertools import combinations, permutations

import pytest

from namekeeper.evidence.statements import CautionWeight
from namekeeper.labels.cautions import reports, warnings
from namekeeper.labels.content import LabelWishes, SpeciesFacts, make_content
from namekeeper.labels.label_words import BY_LANGUAGE, Topic, words_in
from namekeeper.labels.pages import Markings
from namekeeper.labels.text import plain
from tests.labels.animals import BITE, HAIRS, LISTED, caution, moved

ALL = (BITE, HAIRS, caution("defensive_chemicals"), LISTED, caution("law_us"))


def forms(*cautions: object, name: str = "Tliltocatl vagans", own: str = "") -> list[str]:
    found = warnings(cautions, name, own)  # type: ignore[arg-type]
    return [plain(form) for form in found.forms()]


def test_nothing_recorded_prints_nothing() -> None:
    assert forms() == []


def test_every_topic_has_three_forms_each_no_longer_than_the_one_before() -> None:
    for count in range(1, len(ALL) + 1):
        for chosen in combinations(ALL, count):
            long, middle, short = forms(*chosen)
            assert len(long) >= len(middle) >= len(short)


def test_the_word_stands_first_in_bold_in_every_form() -> None:
    for form in warnings(ALL, "Aus bus").forms():
        assert [piece[0].text for piece in form] == [topic.value for topic in Topic]
        assert all(piece[0].strong for piece in form)


def test_order_of_the_cautions_does_not_matter() -> None:
    assert len({tuple(forms(*order)) for order in permutations(ALL)}) == 1


def test_a_listing_tells_year_and_the_name_a_permit_may_carry() -> None:
    long, middle, _ = forms(LISTED)
    assert long == "Listed by CITES 1995 (permits may say Brachypelma): check the current list"
    assert middle == "Listed CITES 1995 as Brachypelma: check the current list"
    assert "permits" not in forms(LISTED, name="Brachypelma")[0]


@pytest.mark.parametrize("statement", ["Old World: none", "None on the abdomen", "Types I and III"])
def test_an_absence_is_no_caution_whatever_its_words(statement: str) -> None:
    assert forms(caution("urticating_setae", statement)._replace(weight=CautionWeight.NONE)) == []


@pytest.mark.parametrize("statement", ["Type V on the palps, none on the abdomen", "None", "mostly mild"])
def test_the_words_of_a_statement_never_silence_it(statement: str) -> None:
    assert forms(caution("urticating_setae", statement))[-1] == "Hairs: protect eyes"


def test_a_family_found_mostly_mild_does_not_put_bite_on_every_label_but_a_genus_of_note_does() -> None:
    mild = caution("venom_report", "A review of 363 published bites")._replace(weight=CautionWeight.MILD)
    assert forms(mild) == []
    assert forms(mild, BITE)[-1] == "Bite: medical help"


def test_the_keepers_own_words_come_last_and_are_never_replaced() -> None:
    long, middle, short = forms(HAIRS, own="fast")
    assert long.endswith("Caution fast")
    assert middle.endswith("Caution fast")
    assert short == "Hairs: protect eyes · Caution fast"
    assert forms(own="fast") == ["Caution fast"]


def test_cautions_are_turned_off_only_by_the_keeper() -> None:
    known = SpeciesFacts(cautions=(HAIRS,))
    assert "caution" in make_content(moved(), known, LabelWishes()).fields
    assert "caution" not in make_content(moved(), known, LabelWishes(cautions=False)).fields


@pytest.mark.parametrize("language", BY_LANGUAGE)
def test_every_language_says_of_every_topic_what_to_do(language: str) -> None:
    found = [warnings([one], "Aus bus", language=language).forms() for one in ALL]
    seen: set[str] = set()
    for forms_of_one in found:
        long, middle, short = (plain(form) for form in (forms_of_one[0], forms_of_one[-2], forms_of_one[-1]))
        assert len(long) >= len(middle) >= len(short)
        (word, *_), seen_before = forms_of_one[0][0], len(seen)
        assert word.strong
        seen.add(word.text)
        assert len(seen) == seen_before + 1, "every topic has a word of its own"
        assert len(short.removeprefix(word.text).strip(" :\N{NO-BREAK SPACE}")) > 5, "the shortest form says what to do"
        assert "{" not in long + middle + short


def test_a_label_in_another_language_has_its_words() -> None:
    assert plain(warnings([HAIRS], "Aus bus", language="de-AT").forms()[-1]) == "Brennhaare: Augen schützen"
    own = warnings([], "Aus bus", "sehr schnell", "de").forms()
    assert plain(own[0]) == "Vorsicht sehr schnell"
    content = make_content(moved(), SpeciesFacts(cautions=(HAIRS,)), LabelWishes(language="de"))
    assert plain(content.fields["former"][0]) == "früher Brachypelma vagans"
    assert content.languages == {"name": "la", "reports": "en"}


def test_where_there_are_no_words_they_are_english_and_said_to_be() -> None:
    content = make_content(moved(), SpeciesFacts(cautions=(HAIRS,)), LabelWishes(language="it"))
    assert plain(content.fields["caution"][0]) == "Hairs irritate skin and can harm eyes"
    assert content.languages["caution"] == "en"
    assert words_in("it") == words_in("en")


def test_names_in_cautions_are_italic() -> None:
    for form in warnings([LISTED], "Tliltocatl vagans").forms()[:2]:
        assert [run.text for run in form[0] if run.italic] == ["Brachypelma"]


def test_reports_say_the_word_of_a_topic_once() -> None:
    eyes = caution("urticating_setae", "Injury of the eye has been reported.")
    bite = caution("venom_report", "Local pain")
    full, first = reports([HAIRS, bite, eyes, HAIRS])
    hairs = "Hairs: Types I and III. Injury of the eye has been reported."
    assert [plain((piece,)) for piece in full] == ["Bite: Local pain", hairs]
    assert [plain((piece,)) for piece in first] == ["Bite: Local pain", "Hairs: Types I and III"]


@pytest.mark.parametrize("language", sorted(BY_LANGUAGE))
def test_a_page_of_several_says_which_in_the_language_of_the_labels(language: str) -> None:
    text = Markings("Labels", "list", language, words_in(language).page).footer_of(2, 13)
    assert text.startswith("list · ")
    assert re.findall(r"\d+", text) == ["2", "13"]
