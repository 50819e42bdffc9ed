"""Brackets, choices, open nomenclature, hybrids, digests: the parts of a verdict one by one."""

from __future__ import annotations

import pytest

from namekeeper.evidence.statements import ActKind, Division, GenusRecord, Match, Misuse, NameStatus, TradeForm
from namekeeper.evidence.verdicts import Ground, GroundCode, ReasonCode
from namekeeper.judging.change import bracketed, brackets_due, with_brackets
from namekeeper.judging.choices import choice, merged
from namekeeper.judging.question import Question, genus_in_force
from namekeeper.judging.windows import latest_act
from namekeeper.words.terms import Standing, Verification
from tests.judging.build import accepted, act, answer, codes, day, edition, failure, says, taxon, verdict

VERIFIED = Verification.VERIFIED


# Art. 51.3; examples of acts.csv with their papers in data/acts.csv


@pytest.mark.parametrize(
    ("name", "original", "former", "due"),
    [
        ("Ephebopus murinus (Walckenaer, 1837)", "Mygale", None, True),
        ("Psalmopoeus irminia Saager, 1994", "Psalmopoeus", None, False),
        ("Ybyrapora gamba", None, "Avicularia gamba Bertani & Fukushima, 2009", True),
        ("Davus fasciatus", None, "Cyclosternum fasciatum (O. Pickard-Cambridge, 1892)", None),
        ("Caribena versicolor", None, "Avicularia versicolor", None),
        ("Caribena versicolor", None, None, None),
        ("Tliltocatl albopilosus (Valerio, 1980)", None, "Tliltocatl albopilosum (Valerio, 1980)", True),
        ("Avicularia variegata", None, "Avicularia avicularia variegata F. O. Pickard-Cambridge, 1896", False),
        ("Cus bus Jones, 1950", None, "Aus bus Smith, 1900", None),
    ],
)
def test_when_brackets_are_due(name: str, original: str | None, former: str | None, due: bool | None) -> None:
    assert brackets_due(taxon(name, original), taxon(former) if former else None) is due


def test_a_former_name_may_know_the_original_genus() -> None:
    old = taxon("Avicularia versicolor (Walckenaer, 1837)", "Mygale")
    assert brackets_due(taxon("Caribena versicolor Walckenaer, 1837"), old) is True
    assert brackets_due(taxon("Mygale versicolor (Walckenaer, 1837)"), old) is False


def test_brackets_are_put_and_taken() -> None:
    assert with_brackets("Walckenaer, 1837", True) == "(Walckenaer, 1837)"
    assert with_brackets("(Walckenaer, 1837)", False) == "Walckenaer, 1837"
    assert with_brackets("(Walckenaer, 1837)", True) == "(Walckenaer, 1837)"
    assert with_brackets("", True) == ""
    assert bracketed(taxon("Aus bus")) == taxon("Aus bus")


GENUS, COMPUTED = Ground(GroundCode.FOLLOWS_GENUS), Ground(GroundCode.COMPUTED)


def test_choices_are_told_once_with_their_ranges() -> None:
    smithi, hamorii = taxon("Brachypelma smithi", range_="Mexico"), taxon("Brachypelma hamorii", range_="Mexico")
    found = merged([choice(smithi, GENUS), choice(hamorii, GENUS), choice(smithi, COMPUTED), choice(smithi, GENUS)])
    assert [one.name for one in found] == ["Brachypelma hamorii", "Brachypelma smithi"]
    assert found[1].grounds == (GENUS, COMPUTED, Ground(GroundCode.NATIVE_RANGE, ("Mexico",)))


@pytest.mark.parametrize(
    ("locality", "left"),
    [
        ("Guerrero", ["Aus bus", "Aus unknown"]),
        ("Playa Azul, Michoacán", ["Aus cus", "Aus unknown"]),
        ("Mexico", ["Aus bus", "Aus cus", "Aus unknown"]),
        ("Nicaragua", ["Aus bus", "Aus cus", "Aus unknown"]),  # no range names it: nothing is dropped
        ("", ["Aus bus", "Aus cus", "Aus unknown"]),
        ("Michoacan", ["Aus cus", "Aus unknown"]),
    ],
)
def test_locality_narrows_choices(locality: str, left: list[str]) -> None:
    choices = [
        choice(taxon("Aus bus", range_="Mexico (Guerrero)"), GENUS),
        choice(taxon("Aus cus", range_="Mexico (Colima, Michoacán)"), GENUS),
        choice(taxon("Aus unknown"), GENUS),
    ]
    assert [one.name for one in merged(choices, locality)] == left


def test_a_locality_never_decides_alone() -> None:
    use = Misuse("Aus bus", "", (taxon("Aus cus", range_="Colima"),), None, None, None, "", VERIFIED)
    told = says("Aus bus", "Aus bus", taxon("Aus bus", range_="Guerrero"))
    found = verdict(Question("Aus bus", locality="Colima"), answer(told)._replace(misuses=(use,)))
    assert [one.name for one in found.choices] == ["Aus cus"]
    assert (found.standing, found.proposed, found.safe) == (Standing.MISAPPLIED, None, False)


def test_a_kept_line_names_the_first_choice() -> None:
    into = (taxon("Poecilotheria subfusca"), taxon("Poecilotheria bara"))
    split = Division("Poecilotheria subfusca", into, ActKind.REVIVAL, day("2026"), None, "invented revival", VERIFIED)
    name = "Poecilotheria subfusca"
    reply = answer(accepted(name, name))._replace(divisions=(split,))
    found = verdict(Question(name, label_date=day("2019"), form="ex bara"), reply)
    assert [one.name for one in found.choices] == ["Poecilotheria bara", "Poecilotheria subfusca"]


def genus(name: str, *to: str, whole: bool = True) -> GenusRecord:
    return GenusRecord(name, None, "masculine", not to, to, whole and bool(to))


def test_a_genus_is_followed_while_it_moved_as_a_whole() -> None:
    # Pérez-Miles 2005; Pérez-Miles, Bonaldo & Miglio 2014, ZooKeys 448: 1-8
    records = (genus("Iracema", "Maraca"), genus("Maraca", "Bumba"), genus("Bumba"))
    assert genus_in_force("Iracema", records) == "Bumba"
    assert genus_in_force("Maraca", records[:2]) == "Bumba"
    assert genus_in_force("Bumba", records) is None
    assert genus_in_force("Xus", records) is None
    assert genus_in_force("Aus", (genus("Aus", "Bus"), genus("Bus", "Aus"))) is None
    assert genus_in_force("Aus", (genus("Aus", "Bus", "Cus"),)) is None


def test_a_genus_that_services_sink_is_a_choice() -> None:
    sunk = says("Aus", "Aus", "Cus", by=edition("gbif", "2026"))
    found = verdict(Question("Aus", qualifier="spp."), answer(sunk))
    assert (found.standing, [one.name for one in found.choices]) == (Standing.OPEN, ["Cus"])


def test_a_species_name_with_a_form_offers_the_described_one() -> None:
    # Grammostola pulchra "Uruguay": common practice, no source; G. quirogai described 2016
    form = TradeForm("Grammostola", "Uruguay", taxon("Grammostola quirogai"), "common practice", Verification.MEMORY)
    name = "Grammostola pulchra"
    found = verdict(Question(name, trade_form="Uruguay", trade_forms=(form,)), answer(accepted(name, name)))
    assert (found.standing, found.safe) == (Standing.CURRENT, False)
    assert [one.name for one in found.choices] == ["Grammostola quirogai"]


def test_a_hybrid_with_an_open_parent_proposes_nothing() -> None:
    parents = ("Brachypelma vagans", "Brachypelma smithi")
    moved = answer(
        says("Brachypelma vagans", "Brachypelma vagans (Ausserer, 1875)", "Tliltocatl vagans (Ausserer, 1875)")
    )
    found = verdict(Question(parents[0], parents=parents), moved, failure("Brachypelma smithi"))
    assert (found.standing, found.proposed, found.safe, found.failed) == (Standing.UNASKED, None, False, ("gbif",))
    assert found.rule == "H"
    both = verdict(Question(parents[0], parents=parents), moved, answer(accepted(parents[1], parents[1])))
    assert both.proposed is not None
    assert both.proposed.name == "Tliltocatl vagans × Brachypelma smithi"


def test_a_label_from_the_future_has_no_date() -> None:
    use = Misuse("Aus bus", "", (taxon("Aus cus"),), None, day("2017"), None, "", VERIFIED)
    reply = answer(accepted("Aus bus", "Aus bus"))._replace(misuses=(use,))
    assert verdict("Aus bus", reply, written="2031").standing is Standing.MISAPPLIED
    assert verdict("Aus bus", reply, written="2026").standing is Standing.CURRENT


def test_the_digest_changes_only_when_something_new_is_said() -> None:
    old, new = "Aus bus Smith, 1900", "Cus bus (Smith, 1900)"
    one = answer(says("Aus bus", old, new, by=edition("a", "2020")))
    base = verdict(old, one).digest
    assert verdict(old, answer(says("Aus bus", old, new, by=edition("a", "2026")))).digest == base
    assert verdict(old, one, answer(says("Aus bus", old, new, by=edition("b", "2026")))).digest == base
    assert verdict(old, one, failure("Aus bus")).digest == base
    assert verdict(old, answer(says("Aus bus", old, "Dus bus (Smith, 1900)"))).digest != base
    assert verdict(old, one, answer(accepted("Aus bus", old, by=edition("c", "2026")))).digest != base


def test_acts_without_a_readable_year_have_no_date() -> None:
    assert (
        latest_act((act("transfer", "Aus bus", "Cus bus"), act("transfer", "Aus bus", "Cus bus", "before 1990")))
        is None
    )
    assert str(latest_act((act("transfer", "A", "B", "2001"), act("transfer", "B", "C", "2010")))) == "2010"


def test_of_homonyms_the_label_may_name_one() -> None:
    # Art. 57.2: Culex affinis Stephens, 1825 and Culex affinis Adams, 1903
    told = answer(
        accepted("Culex affinis", "Culex affinis Stephens, 1825"),
        says("Culex affinis", "Culex affinis Adams, 1903", "Culex other Theobald, 1910"),
    )
    assert verdict("Culex affinis", told).standing is Standing.DISPUTED
    assert verdict("Culex affinis Stephens, 1825", told).standing is Standing.CURRENT
    assert verdict("Culex affinis Adams, 1903", told).standing is Standing.MERGED
    assert verdict("Culex affinis Nobody, 1950", told).standing is Standing.DISPUTED


def test_homonyms_in_different_lists_are_told_apart_by_the_author_of_the_label() -> None:
    one = answer(accepted("Culex affinis", "Culex affinis Stephens, 1825", by=edition("a", "2020")))
    two = answer(
        says("Culex affinis", "Culex affinis Adams, 1903", "Culex other Theobald, 1910", by=edition("b", "2020"))
    )
    assert verdict("Culex affinis Stephens, 1825", one, two).standing is Standing.CURRENT
    assert verdict("Culex affinis Adams, 1903", one, two).standing is Standing.MERGED
    assert verdict("Culex affinis", one, two).standing is Standing.DISPUTED


def test_homonyms_of_one_list_are_two_choices() -> None:
    # Articles 52.1 and 53.3: two nominal taxa of one spelling; the authors are invented
    told = answer(accepted("Aus bus", "Aus bus Smith, 1900"), accepted("Aus bus", "Aus bus Jones, 1950"))
    found = verdict("Aus bus", told)
    assert (found.standing, found.rule) == (Standing.DISPUTED, "D09")
    assert {(one.name, one.authorship) for one in found.choices} == {
        ("Aus bus", "Smith, 1900"),
        ("Aus bus", "Jones, 1950"),
    }
    assert len(found.choices) == 2


def test_letters_hold_only_while_one_name_of_all_lists_folds_so() -> None:
    # Art. 58.7; contract section 1, third row
    letters = says("Aus litoralis", "Aus littoralis Smith, 1900", "Aus littoralis Smith, 1900", match=Match.LETTERS)
    alone = verdict("Aus litoralis", answer(letters._replace(status=NameStatus.ACCEPTED)))
    assert (alone.standing, alone.safe) == (Standing.RESPELLED, False)
    assert ReasonCode.MAY_BE_OWN in codes(alone)  # nobody here would know if both were species
    whole = edition("whole", "2026-10", complete="Aus")
    sure = verdict("Aus litoralis", answer(letters._replace(status=NameStatus.ACCEPTED, edition=whole)))
    assert (sure.standing, ReasonCode.MAY_BE_OWN in codes(sure)) == (Standing.RESPELLED, False)
    exact = answer(accepted("Aus litoralis", "Aus litoralis Jones, 1950", by=edition("other", "2020")))
    assert verdict("Aus litoralis", answer(letters), exact).standing is Standing.CURRENT
    third = says(
        "Aus litoralis", "Aus litthoralis Brown, 1800", "Aus litthoralis", by=edition("c"), match=Match.LETTERS
    )
    assert verdict("Aus litoralis", answer(letters), answer(third)).standing is Standing.UNASKED


@pytest.mark.parametrize(
    ("label", "listed", "told"),
    [
        # Art. 32.5.2.1 and 32.5.2.3: marks and hyphens; Art. 31.2: the ending
        ("Aus m\u00fclleri", "Aus mulleri", ReasonCode.MARKS_ONLY),
        ("Aus novae-hollandiae", "Aus novaehollandiae", ReasonCode.MARKS_ONLY),
        ("Aus gracile", "Aus gracilis", ReasonCode.ENDING_ONLY),
    ],
)
def test_what_differs_is_said(label: str, listed: str, told: ReasonCode) -> None:
    found = verdict(label, answer(says(label, listed, listed, status=NameStatus.ACCEPTED)))
    assert (found.standing, told in codes(found)) == (Standing.RESPELLED, True)
    assert ReasonCode.MAY_BE_OWN not in codes(found)


@pytest.mark.parametrize(
    ("kingdom", "heard"), [("Animalia", True), ("Metazoa", True), (None, True), ("Plantae", False)]
)
def test_only_animals_speak(kingdom: str | None, heard: bool) -> None:
    told = accepted("Aus bus", "Aus bus")
    told = told._replace(subject=told.subject._replace(kingdom=kingdom))
    assert (verdict("Aus bus", answer(told)).standing is Standing.CURRENT) is heard


def test_a_form_described_in_another_genus_than_the_whole_move_asks() -> None:
    # von Wirth & Striffler 2005, Arthropoda 13(2): 2-27; the form went as Haplopelma sp. "aureopilosum"
    described = taxon("Ornithoctonus aureotibialis von Wirth & Striffler, 2005")
    form = TradeForm("Haplopelma", "aureopilosum", described, "von Wirth & Striffler 2005", VERIFIED)
    records = (genus("Haplopelma", "Cyriopagopus"), genus("Cyriopagopus"))
    question = Question(
        "Haplopelma", qualifier="sp.", trade_form="aureopilosum", trade_forms=(form,), genus_records=records
    )
    found = verdict(question, answer(asked="Haplopelma"))
    assert (found.standing, found.proposed) == (Standing.OPEN, None)
    assert [one.name for one in found.choices] == ["Cyriopagopus", "Ornithoctonus aureotibialis"]


def test_a_form_of_the_species_itself_is_no_choice() -> None:
    # Pterinochilus murinus and its colour codes: common practice, no source
    name = "Pterinochilus murinus"
    form = TradeForm("Pterinochilus", "Kigoma", taxon(name), "common practice", Verification.MEMORY)
    found = verdict(Question(name, trade_form="Kigoma", trade_forms=(form,)), answer(accepted(name, name)))
    assert (found.standing, found.choices) == (Standing.CURRENT, ())


def test_a_recorded_split_or_misuse_is_never_safe_whatever_the_date() -> None:
    # Prendini & Loria 2020: moved and split in one paper; a label of 2023 still carries the old combination
    name, now = "Heterometrus swammerdami Simon, 1872", "Gigantometrus swammerdami (Simon, 1872)"
    told = answer(says("Heterometrus swammerdami", name, now))
    split = Division("Heterometrus swammerdami", (taxon(now), taxon("Gigantometrus titanicus")), ActKind.SPLIT,
                     day("2020"), None, "Prendini & Loria 2020", VERIFIED)  # fmt: skip
    young = verdict(name, told._replace(divisions=(split,)), written="2023")
    assert (young.standing, young.safe) == (Standing.MOVED, False)
    use = Misuse("Heterometrus swammerdami", "", (taxon("Aus bus"),), day("1990"), None, None, "", VERIFIED)
    early = verdict(name, told._replace(misuses=(use,)), written="1985")
    assert (early.standing, early.safe) == (Standing.MOVED, False)
    over = use._replace(ended=day("2010"))
    assert verdict(name, told._replace(misuses=(over,)), written="2015").safe
    assert verdict(name, told, written="2015").safe


def test_a_synonym_in_part_is_never_safe_even_with_one_target() -> None:
    old, new = "Aus bus Smith, 1900", "Cus bus (Smith, 1900)"
    part = answer(says("Aus bus", old, new, status=NameStatus.AMBIGUOUS, by=edition("gbif", "2026")))
    alone = verdict(old, part, written="2010")
    assert (alone.standing, alone.proposed, alone.safe) == (Standing.DIVIDED, None, False)
    assert [one.name for one in alone.choices] == ["Cus bus"]
    beside = verdict(old, part, answer(says("Aus bus", old, new)), written="2010")
    assert (beside.standing, beside.safe) == (Standing.MOVED, True)


@pytest.mark.parametrize(
    ("written", "year", "asked"),
    [("2010", "2017", True), ("2017", "2017", True), ("2018", "2017", False), (None, "2017", True), ("2018", "", True),
     ("2018", "about 2017", True)],
)  # fmt: skip
def test_a_label_younger_than_the_partial_move_of_its_genus_is_settled(
    written: str | None, year: str, asked: bool
) -> None:
    # Fukushima & Bertani 2017, ZooKeys 659: 1-185: some species left Avicularia
    record = GenusRecord("Avicularia", None, "feminine", True, ("Caribena", "Ybyrapora"), moved_year=year)
    question = Question("Avicularia", label_date=day(written), qualifier="sp.", genus_records=(record,))
    found = verdict(question, answer(asked="Avicularia"))
    assert found.standing is Standing.OPEN
    assert bool(found.choices) is asked


@pytest.mark.parametrize(
    ("qualifier", "is_open"),
    [("sp.", True), ("sp", True), ("spp.", True), ("sp. nov.", True), ("aff.", True), ("nr.", True), ("sp. aff.", True),
     ("indet.", True), ("cf.", False), ("?", False), ("complex", False), ("ex gr.", False), ("ssp.", False)],
)  # fmt: skip
def test_which_signs_leave_the_species_open(qualifier: str, is_open: bool) -> None:
    # open nomenclature: Bengtson 1988, Palaeontology 31: 223-227; Sigovini, Keppel & Tagliapietra 2016
    question = Question("Aus bus", qualifier=qualifier)
    found = verdict(question, answer(accepted("Aus bus", "Aus bus")))
    assert (found.standing is Standing.OPEN) is is_open
