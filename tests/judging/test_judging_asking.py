"""How a label becomes a question, and which names to ask for it."""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from namekeeper import resources
from namekeeper.evidence.statements import GenusRecord
from namekeeper.evidence.verdicts import ReasonCode
from namekeeper.judging.question import (
    Question,
    follow_up,
    genera_of,
    known_here,
    question_of,
    what_to_ask,
)
from namekeeper.records.specimen import Decision, NameEntry, Specimen
from namekeeper.sources.lists.index_reader import IndexList
from namekeeper.sources.lists.starter import open_starter
from namekeeper.words.errors import Place
from namekeeper.words.gender import WordClass
from tests.judging.build import answer, codes, day, failure, says, verdict


@pytest.fixture(scope="module")
def starter(tmp_path_factory: pytest.TempPathFactory) -> Iterator[IndexList]:
    found = open_starter(resources.data("starter"), tmp_path_factory.mktemp("starter"), print)
    yield found
    found.close()


def kept(entry: NameEntry, *decisions: Decision, locality: str = "") -> Specimen:
    return Specimen("S-1", Place(), acquired=day("2010"), names=(entry,), decisions=decisions, locality=locality)


@pytest.mark.parametrize(
    ("entry", "asked"),
    [
        (NameEntry("Brachypelma vagans"), ("Brachypelma vagans",)),
        (NameEntry("Brachypelma vagans (Ausserer, 1875)"), ("Brachypelma vagans",)),
        (NameEntry("Brachypelma cf. vagans"), ("Brachypelma vagans",)),
        (NameEntry("Brachypelma vagans", qualifier="?"), ("Brachypelma vagans",)),
        (NameEntry("Haplopelma sp."), ("Haplopelma",)),
        (NameEntry("Haplopelma", trade_form="Vietnam"), ("Haplopelma",)),
        (NameEntry("Haplopelma lividum", qualifier="aff."), ("Haplopelma lividum", "Haplopelma")),
        (
            NameEntry("Brachypelma boehmei × Brachypelma baumgarteni"),
            ("Brachypelma boehmei", "Brachypelma baumgarteni"),
        ),
        (NameEntry("Scolopendra subspinipes dehaani"), ("Scolopendra subspinipes dehaani",)),
        (NameEntry("???"), ("???",)),
    ],
)
def test_the_names_to_ask(entry: NameEntry, asked: tuple[str, ...]) -> None:
    assert what_to_ask(question_of(entry)) == asked


def test_what_the_text_of_a_name_holds_counts_too() -> None:
    question = question_of(NameEntry('Haplopelma sp. "Vietnam"', form="ex bara"))
    assert (question.name, question.qualifier, question.trade_form, question.form) == (
        "Haplopelma",
        "sp.",
        "Vietnam",
        "ex bara",
    )
    named = question_of(NameEntry("Brachypelma vagans", authorship="(Ausserer, 1875)"))
    assert (named.name, named.authorship) == ("Brachypelma vagans", "(Ausserer, 1875)")


def test_a_question_carries_what_the_lists_know(starter: IndexList) -> None:
    entry = NameEntry("Haplopelma vonwirthi")
    question = known_here(question_of(entry), [starter])
    assert [record.genus for record in question.genus_records] == ["Haplopelma", "Cyriopagopus"]
    assert question.word_class is WordClass.UNDECIDED
    form = NameEntry("Chilobrachys sp.", trade_form="Electric Blue")
    described = known_here(question_of(form), [starter]).trade_forms
    # Chomphuphuang et al. 2023, ZooKeys 1180: 105-128
    assert [taxon.described_as and taxon.described_as.name for taxon in described] == ["Chilobrachys natanicharum"]
    # CITES lists Pandinus dictator, in Pandinopsis since 2015 (Rossi 2015)
    listed = NameEntry("Pandinus dictator")
    cautions = known_here(question_of(listed), [starter]).cautions
    assert "Pandinus dictator" in {caution.listed_as for caution in cautions}


def test_the_class_of_an_epithet_is_asked_where_a_name_may_be_computed(starter: IndexList) -> None:
    entry = NameEntry("Haplopelma geniculatum")  # an invented combination, to compute from
    question = known_here(question_of(entry), [starter])
    assert question.word_class is WordClass.ADJECTIVE
    found = verdict(question, answer(asked="Haplopelma geniculatum"))
    assert found.proposed is not None
    assert (found.standing, found.proposed.name, found.safe) == ("moved", "Cyriopagopus geniculatus", False)


def test_a_name_where_the_genus_went_is_no_computed_one(starter: IndexList) -> None:
    # Haplopelma went to Cyriopagopus as a whole, Smith & Jacobi 2015; the combination and its author are invented
    entry = NameEntry("Haplopelma paganum", authorship="Braun, 1900")
    question = known_here(question_of(entry), [starter])
    assert [name.name for name in question.namesakes] == ["Cyriopagopus paganus"]
    found = verdict(question, answer(asked="Haplopelma paganum"))
    assert (found.standing, found.proposed) == ("unasked", None)
    assert [choice.name for choice in found.choices] == ["Cyriopagopus paganus"]
    assert known_here(question_of(NameEntry("Haplopelma sp.")), [starter]).namesakes == ()


def test_a_name_is_decided_once_it_was_kept_or_chosen() -> None:
    entry = NameEntry("Brachypelma smithi")
    chosen = NameEntry("Brachypelma smithi", decided_by="keeper")
    assert not kept(entry).decided_once(entry)
    assert kept(chosen).decided_once(chosen)
    assert kept(entry, Decision("kept", None, name="Brachypelma smithi")).decided_once(entry)
    assert not kept(entry, Decision("kept", None, name="Brachypelma hamorii")).decided_once(entry)
    assert not kept(entry, Decision("postponed", None, name="Brachypelma smithi")).decided_once(entry)


def test_new_names_are_asked_after() -> None:
    told = says("Aus bus", "Aus bus Smith, 1900", "Cus bus (Smith, 1900)")
    assert follow_up("Aus bus", [answer(told), failure("Aus bus")]) == ("Cus bus",)
    assert follow_up("Cus bus", [answer(says("Cus bus", "Cus bus", "Cus bus"))]) == ()


def test_records_of_a_genus_follow_it_and_end_in_a_circle() -> None:
    records = {
        "Aus": GenusRecord("Aus", None, None, False, ("Bus",), True),
        "Bus": GenusRecord("Bus", None, None, False, ("Aus",), True),
    }
    found = genera_of(Question("Aus cus"), lambda genus: [records[genus]] if genus in records else [])
    assert [record.genus for record in found] == ["Aus", "Bus"]
    assert verdict(Question("Aus cus", genus_records=found), answer(asked="Aus cus")).standing == "unasked"


@pytest.mark.parametrize(
    ("text", "name", "qualifier", "trade_form", "parents"),
    [
        ("Poecilotheria regalis x P. ornata", "Poecilotheria regalis × P. ornata", "", "",
         ("Poecilotheria regalis", "Poecilotheria ornata")),
        ("Poecilotheria bara hybrid", "Poecilotheria bara", "hybrid", "", ()),
        ("Hadrurus sp. nov.", "Hadrurus", "sp.", "", ()),
        ("Hadrurus sp. 1", "Hadrurus", "sp.", "1", ()),
        ("Brachypelma smithi?", "Brachypelma smithi", "?", "", ()),
    ],
)  # fmt: skip
def test_hybrids_and_new_species_in_words(
    text: str, name: str, qualifier: str, trade_form: str, parents: tuple[str, ...]
) -> None:
    question = question_of(NameEntry(text))
    assert (question.name, question.qualifier, question.trade_form, question.parents) == (
        name,
        qualifier,
        trade_form,
        parents,
    )


def test_a_word_that_is_no_genus_names_nothing() -> None:
    found = verdict(question_of(NameEntry("GBB")), answer(asked="Gbb"))
    assert found.standing == "unasked"
    short = verdict(question_of(NameEntry("B. smithi")), answer(asked="B. smithi"))
    assert short.standing == "unasked"
    assert ReasonCode.ABBREVIATED in codes(short)
