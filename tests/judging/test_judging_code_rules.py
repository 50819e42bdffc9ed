"""The Code's rules on worked examples; sources stand in the data files."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from namekeeper.words.gender import WordClass, agree, forms_of, word_class_of
from namekeeper.words.spelling import ending_key
from tests.judging import code_rules
from tests.judging.tally import Tally


@pytest.mark.parametrize(
    "count",
    [code_rules.gender, code_rules.word_class, code_rules.citation, code_rules.homonymy, code_rules.priority],
    ids=lambda count: str(count.__name__),
)
def test_worked_examples_come_out_right_or_are_argued(count: Callable[[], Tally]) -> None:
    tally = count()
    assert tally.wrong == []
    assert tally.right > 0


# Wrong strings that were in print and must be recognised as the same name (ids of data/gender.csv name the sources).
PRINTED = [
    ("Tliltocatl albopilosum", "Tliltocatl albopilosus"),  # Z060
    ("Ramulus reginus", "Ramulus regina"),  # Z073
    ("Glomeris marginatus", "Glomeris marginata"),  # Z076
    ("Deroceras gavdosensis", "Deroceras gavdosense"),  # Z088
    ("Camponotus ligniperdus", "Camponotus ligniperda"),  # Z089
    ("Pachistopelma pulchra", "Pachistopelma pulchrum"),  # Z091
    ("Davus zebratum", "Davus zebratus"),  # Z092
    ("Chaetopelma jerusalemensis", "Chaetopelma jerusalemense"),  # Z093
    ("Lasius nigra", "Lasius niger"),  # Z074
]


@pytest.mark.parametrize(("wrong", "right"), PRINTED)
def test_a_wrong_ending_in_print_is_the_same_name(wrong: str, right: str) -> None:
    assert ending_key(wrong) == ending_key(right)


def test_an_unknown_gender_changes_nothing() -> None:
    # Dolichothele: endings are mixed in the catalogue itself (World Spider Catalog list of late 2021)
    assert agree("exilis", "uncertain", WordClass.ADJECTIVE) == "exilis"
    assert agree("auratum", "", WordClass.ADJECTIVE) == "auratum"


def test_an_undecided_word_counts_as_a_noun() -> None:
    # Art. 31.2.2
    assert word_class_of("murinus") is WordClass.UNDECIDED
    assert agree("murinus", "feminine", WordClass.UNDECIDED) == "murinus"


@pytest.mark.parametrize(
    "forms",
    [
        ("geniculatus", "geniculata", "geniculatum"),
        ("regalis", "regalis", "regale"),
        ("niger", "nigra", "nigrum"),
        ("argentinensis", "argentinensis", "argentinense"),
        ("asper", "aspera", "asperum"),
        ("silvester", "silvestris", "silvestre"),
        ("leucos", "leuca", "leucon"),
    ],
)
def test_agreement_goes_round_the_genders(forms: tuple[str, str, str]) -> None:
    genders = ("masculine", "feminine", "neuter")
    for given in dict.fromkeys(forms):
        if given != "leuca":  # indistinguishable from leuca of leucus
            assert tuple(agree(given, gender, WordClass.ADJECTIVE) for gender in genders) == forms


def test_a_word_without_such_an_ending_has_no_forms() -> None:
    assert forms_of("caatingai") is None
    assert agree("hentzi", "neuter", WordClass.ADJECTIVE) == "hentzi"
