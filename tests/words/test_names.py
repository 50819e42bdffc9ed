"""Names as values: round trip, hybrids, capitals, what is refused."""

from __future__ import annotations

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from namekeeper.words.errors import InputError
from namekeeper.words.names import ScientificName
from namekeeper.words.parsing import parse_name
from namekeeper.words.spelling import (
    EndingKey,
    Likeness,
    ending_key,
    letter_key,
    letters_of_ending,
    letters_of_endings,
    match_of,
    plain_key,
    plain_keys,
)

WORD = st.from_regex(r"[a-z]{5,12}(us|a|um|is|i|ensis)", fullmatch=True)
GENUS = st.from_regex(r"[A-Z][a-z]{4,10}(us|a|um|es)", fullmatch=True)
ANY = st.text(max_size=300)


@given(GENUS, WORD, st.one_of(st.just(""), WORD))
def test_a_canonical_name_reads_back_to_itself(genus: str, epithet: str, third: str) -> None:
    canonical = f"{genus} {epithet} {third}".strip()
    name = parse_name(canonical)
    assert name.canonical == canonical
    assert parse_name(name.canonical) == name
    assert parse_name(str(name)) == name
    assert hash(parse_name(str(name))) == hash(name)


@given(ANY)
def test_reading_a_name_gives_a_name_or_says_that_there_is_none(text: str) -> None:
    try:
        name = parse_name(text)
    except InputError:
        return
    assert name.genus or name.parents
    assert parse_name(name.canonical).canonical == name.canonical or name.damaged


@given(ANY)
@example("1A'Þ")
def test_keys_never_fail_and_each_row_holds_the_one_before(text: str) -> None:
    plain = plain_key(text)
    assert plain_key(plain) == plain
    assert plain in plain_keys(text)
    assert ending_key(plain) == ending_key(text)
    assert letter_key(plain) == letter_key(text)
    assert match_of(text, text) is Likeness.SAME


@given(WORD)
def test_an_ending_key_has_no_other_ending_key(epithet: str) -> None:
    key = ending_key(f"Aus {epithet}")
    assert ending_key(key) == key


# Third declension in -er with three endings: Allen & Greenough, New Latin Grammar (1903), section 115
@given(st.lists(st.text("abcdeghiijknorsuvy phtct", max_size=14).map(lambda text: EndingKey(" ".join(text.split())))))
@example([EndingKey("albopilosus"), EndingKey("nigroventris albopilosus"), EndingKey("javanensis"), EndingKey("")])
def test_many_epithets_are_folded_like_one_after_the_other(epithets: list[EndingKey]) -> None:
    each = [" ".join(letters_of_ending(EndingKey(word)) for word in epithet.split(" ")) for epithet in epithets]
    assert letters_of_endings(epithets) == each


@pytest.mark.parametrize("forms", ["celer celeris celere", "acer acris acre", "silvester silvestris silvestre"])
def test_the_genders_of_an_adjective_in_er_are_one_name(forms: str) -> None:
    assert len({ending_key(f"Aus {form}") for form in forms.split()}) == 1


@given(GENUS, WORD)
def test_equal_spellings_have_equal_keys_of_every_row(genus: str, epithet: str) -> None:
    loud = f"  {genus.upper()}   {epithet.title()} "
    assert plain_key(loud) == plain_key(f"{genus} {epithet}")
    assert ending_key(loud) == ending_key(f"{genus} {epithet}")
    assert letter_key(loud) == letter_key(f"{genus} {epithet}")


@pytest.mark.parametrize(
    ("text", "parents"),
    [
        ("Brachypelma boehmei × Brachypelma hamorii", ("Brachypelma boehmei", "Brachypelma hamorii")),
        ("Brachypelma boehmei x hamorii", ("Brachypelma boehmei", "Brachypelma hamorii")),
    ],
)
def test_a_cross_is_read_as_two_parents(text: str, parents: tuple[str, ...]) -> None:
    name = parse_name(text)
    assert tuple(parent.canonical for parent in name.parents) == parents
    assert not name.is_species
    assert parse_name(str(name)) == name


def test_verbatim_text_is_kept_and_is_no_part_of_equality() -> None:
    loud, plain = parse_name("BRACHYPELMA HAMORII"), parse_name("Brachypelma hamorii")
    assert (loud.verbatim, loud) == ("BRACHYPELMA HAMORII", plain)
    assert hash(loud) == hash(plain)


def test_letters_lost_on_the_way_are_reported_not_shortened() -> None:
    name = parse_name("Fusinus eucos\ufffdnius")
    assert name.damaged
    assert name.epithet == "eucos\ufffdnius"


@pytest.mark.parametrize("text", ["", "   ", "12345", "???", "x" * 501, "\x00\x01", "sp.", "=1+1"])
def test_what_is_no_name_is_refused_with_its_text(text: str) -> None:
    with pytest.raises(InputError, match="no scientific name"):
        parse_name(text)


def test_an_empty_name_has_no_parts() -> None:
    assert ScientificName().canonical == ""
    assert not ScientificName().is_species
