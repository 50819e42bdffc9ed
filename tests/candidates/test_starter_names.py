"""Every name that the starter list holds leads where its own tables say (facts and sources stand in those tables)."""

from __future__ import annotations

import csv

import pytest

from namekeeper import resources
from namekeeper.evidence.candidates import Note, NoteCode
from namekeeper.evidence.interfaces import NameList
from namekeeper.tasks.lookup import look_up
from namekeeper.words.spelling import plain_key
from namekeeper.words.terms import AnswerKind, How

pytestmark = pytest.mark.no_cover  # breadth: the lines are reached by the tests beside it

FIRM = (AnswerKind.ONE, AnswerKind.SEVERAL)


def table(name: str) -> list[dict[str, str]]:
    path = resources.data("starter") / f"{name}.csv"
    return list(csv.DictReader(path.read_text(encoding="utf-8").splitlines()))


SPECIES = [row["scientificName"] for row in table("species")]
DOUBTFUL = {row["scientificName"] for row in table("species") if row["status"] == "doubtful"}
FORMER = {row["formerName"]: row["acceptedName"] for row in table("former")}


def chain_of(name: str) -> list[str]:
    """The former names from ``name`` on; behind the last one stands the name in force."""
    seen: list[str] = []
    while name in FORMER and name not in seen:
        seen.append(name)
        name = FORMER[name]
    return seen


def end_of_chain(name: str) -> str:
    chain = chain_of(name)
    return FORMER[chain[-1]] if chain else name


def test_every_listed_species_is_found_first_under_its_own_name(lists: tuple[NameList, ...]) -> None:
    wrong = [
        looked.tag
        for looked in look_up(SPECIES, lists)
        if looked.lookup.answer not in FIRM or looked.lookup.candidates[0].name != looked.tag
    ]
    assert wrong == []


def test_every_former_name_leads_to_the_end_of_its_chain(lists: tuple[NameList, ...]) -> None:
    wrong = []
    leading = [name for name in FORMER if end_of_chain(name) not in DOUBTFUL]
    assert len(leading) > 0.9 * len(FORMER)
    for looked in look_up(leading, lists):
        keys = [candidate.key for candidate in looked.lookup.candidates]
        found = plain_key(end_of_chain(looked.tag)) in keys
        if looked.lookup.answer not in FIRM or not found:
            wrong.append((looked.tag, looked.lookup.answer, keys))
    assert wrong == []


def test_a_former_name_from_memory_is_told_as_such_and_no_other(lists: tuple[NameList, ...]) -> None:
    memory = {row["formerName"] for row in table("former") if row["confidence"] == "memory"}
    recalled = {name: not memory.isdisjoint(chain_of(name)) for name in FORMER}
    tags = sorted(recalled)[::4]
    told = {
        looked.tag: any(note.code is NoteCode.NAME_RECALLED for c in looked.lookup.candidates for note in c.notes)
        for looked in look_up(tags, lists)
        if {c.how for c in looked.lookup.candidates} == {How.FORMER} and looked.lookup.answer is AnswerKind.ONE
    }
    assert 50 < sum(told.values()) < len(told) - 50
    assert [tag for tag, said in told.items() if said != recalled[tag]] == []


@pytest.mark.parametrize("letters", [1, 3])
def test_every_species_is_among_those_of_its_shortened_name(lists: tuple[NameList, ...], letters: int) -> None:
    names = [name for name in SPECIES if len(name.split(" ")) == 2]
    tags = [f"{name[:letters]}. {name.split(' ')[1]}" for name in names]
    wrong = []
    for looked, name in zip(look_up(tags, lists), names, strict=True):
        shown = [candidate.name for candidate in looked.lookup.candidates]
        if name not in shown or (looked.lookup.answer is AnswerKind.ONE and shown != [name]):
            wrong.append((looked.tag, name, shown))
    assert wrong == []


def test_a_doubtful_name_of_the_list_is_never_one(lists: tuple[NameList, ...]) -> None:
    assert DOUBTFUL
    for looked in look_up(sorted(DOUBTFUL), lists):
        assert looked.lookup.answer is not AnswerKind.ONE, looked.tag
        assert looked.lookup.candidates[0].how is How.DOUBTFUL, looked.tag


@pytest.mark.parametrize(
    ("tag", "name"),
    [
        ("Latrodectus tredecim-guttatus", "Latrodectus tredecimguttatus"),
        ("Latrodectus 13-guttatus 0.1 2cm", "Latrodectus tredecimguttatus"),
        ("L. 13guttatus", "Latrodectus tredecimguttatus"),
        ("Orthodera Novae-Zealandiae", "Orthodera novaezealandiae"),
    ],
)
def test_a_hyphen_or_numeral_in_an_epithet_does_not_count(lists: tuple[NameList, ...], tag: str, name: str) -> None:
    """Contract section 1, row 1; numerals by Art. 32.5.2.6."""
    (looked,) = look_up([tag], lists)
    assert (looked.lookup.answer, [c.name for c in looked.lookup.candidates]) == (AnswerKind.ONE, [name])


@pytest.mark.parametrize(
    ("tag", "answer", "qualifier"),
    [
        ("B. boehmei cf", AnswerKind.ONE, "cf."),
        ("Brachypelma boehmei (cf.) 0.1", AnswerKind.ONE, "cf."),
        ("cf. GBB", AnswerKind.ONE, "cf."),
        ("Brachypelma boehmei aff.", AnswerKind.GENUS, "aff."),
    ],
)
def test_a_qualifier_behind_the_name_counts(
    lists: tuple[NameList, ...], tag: str, answer: AnswerKind, qualifier: str
) -> None:
    (looked,) = look_up([tag], lists)
    assert (looked.lookup.answer, looked.reading.qualifier, looked.reading.uncertain) == (answer, qualifier, True)


@pytest.mark.parametrize(
    ("tag", "answer", "names"),
    [
        # Parted from its genus by other words an epithet is read as a nickname; both rows by contract section 2
        ("Poecilotheria 0.1 hamorii", AnswerKind.SEVERAL, ["Brachypelma hamorii", "Poecilotheria"]),
        ("Poecilotheria (hamorii)", AnswerKind.SEVERAL, ["Brachypelma hamorii", "Poecilotheria"]),
        ("Brachypelma 0.1 smithi", AnswerKind.SEVERAL, ["Brachypelma hamorii", "Brachypelma smithi"]),
        # In force in a genus that part of the written one went to: Fukushima & Bertani 2017, ZooKeys 659
        ("Avicularia Antilles pinktoe", AnswerKind.ONE, ["Caribena versicolor"]),
    ],
)
def test_a_genus_alone_bears_on_the_other_words(
    lists: tuple[NameList, ...], tag: str, answer: AnswerKind, names: list[str]
) -> None:
    (looked,) = look_up([tag], lists)
    assert (looked.lookup.answer, sorted(c.name for c in looked.lookup.candidates)) == (answer, names)


@pytest.mark.parametrize(
    ("tag", "names"),
    [
        ("Brachypelma boehmei hybrid", ["Brachypelma boehmei"]),
        ("B. boehmei Hybride 0.1 5cm", ["Brachypelma boehmei"]),
        ("Brachypelma boehmei x sp.", ["Brachypelma boehmei"]),
        ("B. boehmei x", ["Brachypelma boehmei"]),
        ("GBB hybrid", ["Chromatopelma cyaneopubescens"]),
        ("Brachypelma boehmei x baumgarteni", ["Brachypelma baumgarteni", "Brachypelma boehmei"]),
    ],
)
def test_a_cross_is_never_one_whoever_the_other_parent_is(
    lists: tuple[NameList, ...], tag: str, names: list[str]
) -> None:
    """Contract section 2, ``one``: a single species; the words are common practice, no source."""
    (looked,) = look_up([tag], lists)
    assert (looked.lookup.answer, sorted(c.name for c in looked.lookup.candidates)) == (AnswerKind.SEVERAL, names)
    assert all(Note(NoteCode.CROSS_PARENT) in c.notes for c in looked.lookup.candidates)


@pytest.mark.parametrize("tag", ["B. boehmei x3", "3x B. boehmei", "B. boehmei 2x 5cm"])
def test_a_count_is_no_cross(lists: tuple[NameList, ...], tag: str) -> None:
    (looked,) = look_up([tag], lists)
    assert (looked.lookup.answer, looked.reading.qualifier) == (AnswerKind.ONE, "")
