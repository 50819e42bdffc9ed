"""Italics of names: genus and species group italic, all else upright (ICZN Appendix B6: recommended type)."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from namekeeper.labels.naming import name_runs, name_text
from namekeeper.records.specimen import NameEntry
from tests.labels.animals import italic_text, real_names


@pytest.mark.parametrize(
    "marked",
    [
        "<Brachypelma smithi>",
        "<Brachypelma> cf. <smithi>",
        "<Cyriocosmus> aff. <ritae>",
        "<Brachypelma smithi>?",
        "<Phormingochilus> sp. “Sabah Red”",
        '<Grammostola> sp. "Concepción"',
        "<Cubaris> sp. Rubber ducky",
        "<Aphonopelma> (<Gosipelma>) <steindachneri>",
        "<Psalmopoeus cambridgei> × <Psalmopoeus irminia>",
        "<Pandinus imperator> x <P. dictator>",
        "<Avicularia avicularia> morph 6",
        "<Hysterocrates gigas> complex",
        "<Dynastes hercules> subsp. <lichyi>",
        "<Dynastes hercules lichyi>",
        "Theraphosidae",  # higher taxa upright
        "Theraphosinae sp.",
        "Isopoda",
        "<Isopoda villosa>",  # the spider genus of that spelling, not the order
    ],
)
def test_only_words_of_the_genus_and_species_group_are_italic(marked: str) -> None:
    text = marked.replace("<", "").replace(">", "")
    assert italic_text(name_runs(text)) == marked


@given(st.text(alphabet=st.characters(codec="utf-8", exclude_categories=["Cs"]), min_size=1, max_size=60))
def test_no_letter_is_lost_or_added(text: str) -> None:
    assert "".join(run.text for run in name_runs(text)) == text


def test_every_plain_real_name_is_italic_as_a_whole() -> None:
    wrong = [name for name in real_names() if italic_text(name_runs(name)) != f"<{name}>"]
    assert wrong == []


@pytest.mark.parametrize(
    ("entry", "text"),
    [
        (NameEntry("Brachypelma smithi", qualifier="cf."), "Brachypelma cf. smithi"),
        (NameEntry("Brachypelma cf. smithi", qualifier="cf."), "Brachypelma cf. smithi"),
        (NameEntry("Brachypelma smithi", qualifier="?"), "Brachypelma smithi?"),
        (NameEntry("Brachypelma", qualifier="sp."), "Brachypelma sp."),
        (NameEntry("Phormingochilus", qualifier="sp.", trade_form="Sabah Red"), "Phormingochilus sp. “Sabah Red”"),
        (NameEntry('Phormingochilus sp. "Sabah Red"', trade_form="Sabah Red"), 'Phormingochilus sp. "Sabah Red"'),
        (NameEntry("Hysterocrates gigas", qualifier="complex"), "Hysterocrates gigas complex"),
        (NameEntry("  Aus \n bus "), "Aus bus"),
    ],
)
def test_qualifier_and_trade_form_stand_where_they_belong(entry: NameEntry, text: str) -> None:
    assert name_text(entry) == text
