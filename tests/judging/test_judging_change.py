"""Kinds of change told apart from stem, author, year, brackets and acts (contract section 4)."""

from __future__ import annotations

import pytest

from namekeeper.evidence.statements import NameStatus
from namekeeper.judging.change import kind_of_change
from tests.judging.build import act, taxon

SYNONYM, OBJECTIVE, REPLACED = NameStatus.SYNONYM, NameStatus.OBJECTIVE_SYNONYM, NameStatus.REPLACED

# Sources: acts.csv rows of the reference tables as named, whose papers stand in data/acts.csv beside.
CASES = [
    # Fukushima & Bertani 2017, ZooKeys 659: 1-185
    ("Avicularia versicolor (Walckenaer, 1837)", "Caribena versicolor (Walckenaer, 1837)", SYNONYM, "moved"),
    ("Avicularia gamba Bertani & Fukushima, 2009", "Ybyrapora gamba (Bertani & Fukushima, 2009)", SYNONYM, "moved"),
    # Gabriel 2016, Arachnology 17(2): 61-92: ending and brackets change with the genus
    (
        "Cyclosternum fasciatum (O. Pickard-Cambridge, 1892)",
        "Davus fasciatus O. Pickard-Cambridge, 1892",
        SYNONYM,
        "moved",
    ),
    ("Cyclosternum pentalore (Simon, 1888)", "Davus pentaloris (Simon, 1888)", SYNONYM, "moved"),
    # a homotypic pair flagged objective is still the same type under another genus
    ("Avicularia versicolor (Walckenaer, 1837)", "Caribena versicolor (Walckenaer, 1837)", OBJECTIVE, "moved"),
    # Fukushima & Bertani 2017: subspecies raised to species
    (
        "Avicularia avicularia variegata F. O. Pickard-Cambridge, 1896",
        "Avicularia variegata F. O. Pickard-Cambridge, 1896",
        SYNONYM,
        "moved",
    ),
    # species made a subspecies: Stromatopelma calceatum griseipes, World Spider Catalog list of late 2021
    ("Stromatopelma griseipes (Pocock, 1897)", "Stromatopelma calceatum griseipes (Pocock, 1897)", SYNONYM, "moved"),
    # Gallon 2010: another epithet
    ("Pelinobius crawshayi (Pocock, 1900)", "Pelinobius muticus Karsch, 1885", SYNONYM, "merged"),
    ("Pelinobius crawshayi (Pocock, 1900)", "Pelinobius muticus Karsch, 1885", OBJECTIVE, "merged"),
    # Kronmüller 2012: a new name for a homonym
    (
        "Scolopendra subspinipes cingulatoides Attems, 1938",
        "Scolopendra dawydoffi Kronmüller, 2012",
        REPLACED,
        "renamed",
    ),
    # catalogue ending -us: World Spider Catalog list of late 2021
    ("Tliltocatl albopilosum (Valerio, 1980)", "Tliltocatl albopilosus (Valerio, 1980)", SYNONYM, "respelled"),
    (
        "Aphonopelma iodium (Chamberlin & Ivie, 1939)",
        "Aphonopelma iodius (Chamberlin & Ivie, 1939)",
        SYNONYM,
        "respelled",
    ),
    # one spelling, two nominal taxa: Code Art. 57.2, example Culex affinis
    ("Culex affinis Adams, 1903", "Aedes affinis (Stephens, 1825)", SYNONYM, "merged"),
    # Code Art. 57.3.1, example: same author, other year
    ("Frontina acroglossoides Townsend, 1891", "Chaetogaedia acroglossoides (Townsend, 1926)", SYNONYM, "merged"),
    # an author that is not given contradicts nobody
    ("Avicularia versicolor", "Caribena versicolor (Walckenaer, 1837)", SYNONYM, "moved"),
    ("Avicularia versicolor", "Caribena versicolor", SYNONYM, "moved"),
    # -i/-ii (33.4) and other letters (58.7) in one genus
    ("Theraphosa blondii (Latreille, 1804)", "Theraphosa blondi (Latreille, 1804)", SYNONYM, "respelled"),
    ("Aus litoralis Smith, 1900", "Aus littoralis Smith, 1900", SYNONYM, "respelled"),
    # calidus and callidus are two words (Art. 58, example): only the same author makes them one
    ("Chrysops calidus Smith, 1900", "Chrysops callidus Jones, 1920", SYNONYM, "merged"),
]


@pytest.mark.parametrize(("old", "new", "status", "kind"), CASES, ids=lambda value: str(value)[:40])
def test_the_kind_follows_from_names_and_authors(old: str, new: str, status: NameStatus, kind: str) -> None:
    assert kind_of_change(taxon(old), taxon(new), status) == kind


def test_an_act_of_synonymy_on_the_way_outweighs_the_spelling() -> None:
    # Cifuentes & Bertani 2022: T. gigas moved in 2018, sunk in 2022; the chain ends in another species
    acts = (
        act("transfer", "Tapinauchenius gigas", "Pseudoclamoris gigas", "2018"),
        act("synonymy", "Pseudoclamoris gigas", "Tapinauchenius plumipes", "2022"),
    )
    old, new = taxon("Tapinauchenius gigas Caporiacco, 1954"), taxon("Tapinauchenius plumipes (C. L. Koch, 1842)")
    assert kind_of_change(old, new, SYNONYM, acts) == "merged"


def test_a_source_that_says_spelling_is_believed_for_other_letters() -> None:
    old, new = taxon("Theraphosa leblondi"), taxon("Theraphosa blondi (Latreille, 1804)")
    spelling = act("spelling", old.name, new.name)
    assert kind_of_change(old, new, SYNONYM, (spelling,)) == "respelled"
    assert kind_of_change(old, new, SYNONYM) == "merged"


def test_a_corrected_ending_in_the_new_genus_is_still_a_move() -> None:
    acts = (
        act("spelling", "Brachypelma albopilosa", "Brachypelma albopilosum"),
        act("transfer", "Brachypelma albopilosum", "Tliltocatl albopilosus", "2020"),
    )
    old, new = taxon("Brachypelma albopilosa"), taxon("Tliltocatl albopilosus (Valerio, 1980)")
    assert kind_of_change(old, new, SYNONYM, acts) == "moved"


def test_a_corrected_spelling_and_a_transfer_are_still_a_move() -> None:
    acts = (
        act("spelling", "Theraphosa leblondi", "Theraphosa blondi"),
        act("transfer", "Theraphosa blondi", "Cus blondi"),
    )
    assert kind_of_change(taxon("Theraphosa leblondi"), taxon("Cus blondi"), SYNONYM, acts) == "moved"


def test_an_objective_synonym_of_the_same_epithet_keeps_its_type_under_another_genus() -> None:
    # Art. 61.3.3: objective synonyms have one name-bearing type; invented names
    sunk = act("objective_synonymy", "Aus bus", "Cus bus")
    old = taxon("Aus bus Smith, 1900")
    assert kind_of_change(old, taxon("Cus bus (Smith, 1900)"), NameStatus.OBJECTIVE_SYNONYM, (sunk,)) == "moved"
    assert kind_of_change(old, taxon("Cus dus (Smith, 1901)"), NameStatus.OBJECTIVE_SYNONYM, (sunk,)) == "merged"


def test_a_homonym_replaced_by_a_name_of_the_same_stem_and_another_author_is_renamed() -> None:
    old, new = taxon("Aus bus Smith, 1900"), taxon("Cus bus Jones, 1950")  # invented
    assert kind_of_change(old, new, NameStatus.REPLACED) == "renamed"
    assert kind_of_change(old, new, SYNONYM) == "merged"


def test_a_name_in_force_is_current() -> None:
    same = taxon("Psalmopoeus irminia Saager, 1994")
    assert kind_of_change(same, same, NameStatus.ACCEPTED) == "current"
