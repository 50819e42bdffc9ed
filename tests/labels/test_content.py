"""What a label says, from a specimen and what the lists know."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from namekeeper.labels.content import LabelContent, LabelWishes, NameYears, SpeciesFacts, make_content
from namekeeper.labels.fit import Fitter
from namekeeper.labels.fitted import Misfit, Room
from namekeeper.labels.text import clean, plain
from namekeeper.records.specimen import Decision, NameEntry, Paper, Sex, Specimen
from namekeeper.tasks.label_bench import Workshop
from namekeeper.tasks.label_memory import status_of
from namekeeper.words.terms import MisfitReason
from tests.labels.animals import HAIRS, LISTED, common, moved, specimen, when


def said(one: Specimen, known: SpeciesFacts | None = None, wishes: LabelWishes | None = None) -> dict[str, list[str]]:
    content = make_content(one, known or SpeciesFacts(), wishes or LabelWishes())
    return {name: [plain(variant) for variant in variants] for name, variants in content.fields.items()}


def test_an_animal_whose_name_moved() -> None:
    newest = "2021-02-11 Tliltocatl vagans, moved (Mendoza & Francke 2020)"
    bought = "2014-05-03 bought as “Mex red rump 0.1 4cm”"
    assert said(moved()) == {
        "name": ["Tliltocatl vagans"],
        "id": ["INV-0007"],
        "sex": ["♀"],
        "locality": ["Campeche"],
        "stands": ["rack A 2"],
        "tag": ["bought as “Mex red rump 0.1 4cm”"],
        "origin": ["from spring fair"],
        "common": ["Mexican red rump"],
        "history": [f"{newest} · 2014-05-03 Brachypelma vagans, as labelled · {bought}", f"{newest} · {bought}"],
        "acquired": ["acquired 2014-05-03", "2014-05-03"],
        "authorship": ["(Ausserer, 1875)"],
        "former": ["was Brachypelma vagans"],
        "determined": ["det. .............. 2021-02-11"],
    }


def test_what_cards_beside_the_enclosure_say() -> None:
    papers = (Paper("CITES import", "12/345", when("2016-02-01"), "Brachypelma vagans"), Paper("receipt"))
    entry = NameEntry("Tliltocatl vagans", "(Ausserer, 1875)", since=when("2021"), decided_by="R. Tester")
    years = NameYears("1875", "Eurypelma vagans", (("2020", "Brachypelma vagans"),))
    one = specimen("A1", entry, size="4 cm", price="£30", note="shy", papers=papers)
    known = SpeciesFacts(range=("Mexico", "Belize"), years=years, mark="CB", cautions=(LISTED, HAIRS))
    found = said(one, known, LabelWishes(price=True))
    assert found["size"] == ["4 cm"]
    assert found["price"] == ["£30"]
    assert found["note"] == ["shy"]
    assert found["mark"] == ["captive bred", "CB"]
    assert found["range"] == ["native to Mexico, Belize"]
    assert found["papers"] == ["CITES import 12/345 2016-02-01 for Brachypelma vagans · receipt"]
    assert found["determined"] == ["det. R. Tester 2021"]
    unseen = NameEntry("Tliltocatl vagans", since=when("2021"), decided_by="R. Tester, as a safe proposal")
    assert said(specimen("A1", unseen))["determined"] == ["det. R. Tester 2021"]
    assert found["years"][0] == "described 1875 as Eurypelma vagans · until 2020 Brachypelma vagans"
    assert found["listed"] == ["Listed by CITES 1995 (permits may say Brachypelma)"]
    assert found["reports"] == ["Hairs: Types I and III"]


def test_a_price_is_printed_only_where_it_is_asked_for() -> None:
    assert "price" not in said(specimen("A1", tag="GBB £30", price="£30"))


def test_the_old_name_is_left_away_when_the_keeper_wants_that() -> None:
    assert "former" not in said(moved(), wishes=LabelWishes(former=False))


def test_an_animal_with_only_a_tag_shows_it_in_quotes_marked_as_unsettled() -> None:
    one = specimen("A1", tag="Mex red rump 0.1 4cm")
    assert said(one)["name"] == ["“Mex red rump 0.1 4cm” · unsettled"]
    assert make_content(one, SpeciesFacts(), LabelWishes()).printed_name == "“Mex red rump 0.1 4cm”"


@pytest.mark.parametrize(
    ("sex", "text"),
    [
        (Sex("1.0.0", 1, 0, 0), "♂"),
        (Sex("0.1.0", 0, 1, 0), "♀"),
        (Sex("0.0.1", 0, 0, 1), "unsexed"),
        (Sex("1.2.0", 1, 2, 0), "1.2.0"),
        (Sex("0.0.40", 0, 0, 40), "0.0.40"),
    ],
)
def test_one_animal_by_its_sign_a_group_by_its_counts(sex: Sex, text: str) -> None:
    assert said(specimen("A1", tag="x", sex=sex))["sex"] == [text]


def test_a_long_authorship_has_a_short_form() -> None:
    entry = NameEntry("Aphonopelma chiricahua", "Hamilton, Hendrixson & Bond, 2016")  # ZooKeys 560, 2016
    assert said(specimen("A1", entry))["authorship"] == [entry.authorship, "Hamilton et al., 2016"]


def test_a_line_keeps_its_old_name() -> None:
    assert said(specimen("A1", NameEntry("Brachypelma smithi", form="ex bara")))["form"] == ["line “ex bara”"]


def test_a_common_name_of_the_lists_fills_in_where_the_keeper_wrote_none() -> None:
    known = SpeciesFacts((common("greenbottle blue"),))
    entry = NameEntry("Chromatopelma cyaneopubescens")
    assert said(specimen("A1", entry), known)["common"] == ["Greenbottle blue"]
    assert said(specimen("A1", entry, common="GBB"), known)["common"] == ["GBB"]
    assert "common" not in said(specimen("A1", entry), known, LabelWishes(language="de"))


@given(st.text(max_size=80))
def test_cleaned_text_has_single_blanks_and_is_stable(text: str) -> None:
    once = clean(text)
    assert clean(once) == once
    assert "  " not in once
    assert "\n" not in once


def drawable(workshop: Workshop, one: Specimen) -> LabelContent | Misfit:
    fitter = Fitter(workshop.template("enclosure").layout, Room(60, 30, 2, 2), workshop.measure)
    return fitter.drawable(make_content(one, SpeciesFacts(), LabelWishes()))


def test_every_sign_of_the_trade_and_every_european_letter_can_be_drawn(workshop: Workshop) -> None:
    # Letters of the official languages of the European Union, with Greek and Cyrillic, by memory.
    letters = "ÁÀÂÄÃÅĄĀĂÆÇĆČĎĐÉÈÊËĘĚĒĖĞÍÎÏĮĪŁĽĻŃÑŇŅÓÒÔÖÕŐØŒŔŘŚŠŞȘŤȚÞÚÙÛÜŰŮŪŲÝŸŹŻŽß"
    text = (
        letters
        + letters.lower()
        + "αβγδλμπρσωΆΈΩ АБВГДЖЗИЙЩЮЯабвгджя ♀♂⚥×°–’“”„«»†·½€£ "
        + "45°30′12″N ⚠ 10\N{HYPHEN}12\N{NON-BREAKING HYPHEN}14 ℃ （２）"
    )
    one = specimen("A1", NameEntry("Aus bus", "Author, 1900"), locality=text, common=text, acquired=when("2020"))
    content = make_content(one, SpeciesFacts(), LabelWishes())
    assert drawable(workshop, one) == content
    assert plain(content.fields["common"][0]).endswith("45°30′12″N ⚠ 10-12-14 °C (2)")


@pytest.mark.parametrize("char", ["\U0001f577", "א", "蛛"])
def test_a_character_no_face_has_takes_its_field_away_unless_that_must_stand(workshop: Workshop, char: str) -> None:
    found = drawable(workshop, specimen("A1", NameEntry("Aus bus"), locality=f"near {char}", stage="adult"))
    assert isinstance(found, LabelContent)
    assert found.undrawn == {"locality": char}
    assert "locality" not in found.fields
    assert "stage" in found.fields
    for one in (specimen("A1", tag=char), specimen("A1", NameEntry("Aus bus"), caution=f"mind the {char}")):
        refused = drawable(workshop, one)
        assert isinstance(refused, Misfit)
        assert (refused.reason, refused.character) == (MisfitReason.CHARACTER, char)


@pytest.mark.parametrize(
    ("names", "printed", "stale"),
    [
        (("Aus bus",), (), False),
        (("Aus bus", "Cus bus"), (), True),
        (("Aus bus", "Cus bus"), ("Cus bus",), False),
        (("Aus bus", "Cus bus"), ("Cus bus", "Aus bus"), True),
        ((), (), False),
        ((), ("“tag”",), False),
    ],
)
def test_a_label_is_stale_when_the_enclosure_says_another_name(
    names: tuple[str, ...], printed: tuple[str, ...], stale: bool
) -> None:
    entries = [
        NameEntry(name, since=when(f"20{number}"), standing="moved" if number > 10 else "as-labelled")
        for number, name in enumerate(names, 10)
    ]
    decisions = tuple(Decision("printed", when("2026-01-01"), name=name) for name in printed)
    one = specimen("A1", *entries, tag="tag", decisions=decisions)
    assert status_of(one).stale is stale


@pytest.mark.parametrize(("according_to", "stale"), [("", False), ("Mendoza & Francke 2020", True)])
def test_an_ending_makes_a_label_stale_only_if_an_act_changed_it(according_to: str, stale: bool) -> None:
    # ICZN 31.2: one name in either ending
    names = (
        NameEntry("Tliltocatl albopilosum", since=when("2020"), standing="as-labelled"),
        NameEntry("Tliltocatl albopilosus", since=when("2021"), standing="respelled", according_to=according_to),
    )
    assert status_of(specimen("A1", *names)).stale is stale


def test_a_tag_that_was_settled_makes_the_label_stale() -> None:
    one = specimen("A1", NameEntry("Aus bus", standing="chosen"), tag="bus red")
    assert status_of(one).stale
    assert status_of(one).printed is None
