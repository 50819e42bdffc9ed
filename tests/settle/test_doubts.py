"""A doubt on a tag (cf., aff., ?) goes along with the name that is taken, unless the keeper says that it is certain.

Darwin Core, identificationQualifier: "a brief phrase or a standard term ("cf.", "aff.") to express the determiner's
doubts about the Identification", as in "aff. agrifolia var. oxyadenia" beside the genus.
"""

from __future__ import annotations

import io
from datetime import date
from pathlib import Path

import pytest

from namekeeper.labels.naming import name_text
from namekeeper.records.specimen import NameEntry
from namekeeper.storage.specimen_file import SpecimenReader
from tests.conftest import NOWHERE, Typed, run_here

NAME = "Brachypelma hamorii"
#: Tags by the doubt that a name taken from them has; words by language are common practice, no source
TAGS = {
    "Brachypelma cf. hamorii 0.1": "cf.", "B. cf hamorii": "cf.", "Brachypelma hamorii?": "?",
    "Brachypelma ?hamorii 4cm": "?", "Brachypelma hamorii (?)": "?", "maybe Brachypelma hamorii": "?",
    "evtl. Brachypelma hamorii 0.0.1": "?", "peut-être Brachypelma hamorii": "?", "chyba Brachypelma hamorii": "?",
    "Brachypelma hamorii hybrid": "hybrid", "Brachypelma hamorii": "",
}  # fmt: skip
GENUS = {
    "Avicularia aff. minatrix": ("Avicularia", "aff. minatrix", ""), "Avicularia sp.": ("Avicularia", "sp.", ""),
    'Avicularia sp. "Ecuador"': ("Avicularia", "sp.", "Ecuador"), "Avicularia?": ("Avicularia", "?", ""),
}  # fmt: skip


def animals_of(folder: Path, tags: list[str]) -> Path:
    animals = folder / "animals"
    (animals / "specimens").mkdir(parents=True)
    for number, tag in enumerate(tags):
        (animals / "specimens" / f"A{number}.yaml").write_text(f"tag: '{tag}'\n")
    return animals


def settled(animals: Path, home: Path, *words: str, keys: str = "") -> str:
    environ = {"NAMEKEEPER_HOME": str(home), "NO_COLOR": "1", **NOWHERE}
    line = ["settle", "animals", "--offline", "--write", *words]
    stdin, stdout = (Typed(keys), Typed()) if keys else (io.StringIO(), None)
    outcome = run_here(line, animals.parent, environ, stdin, stdout)
    return outcome.out + outcome.err


def entries(animals: Path, identifier: str) -> tuple[NameEntry, ...]:
    text = (animals / "specimens" / f"{identifier}.yaml").read_text()
    specimen, problems = SpecimenReader(date(2026, 11, 25)).read(text, identifier, f"{identifier}.yaml")
    assert specimen is not None, problems
    return specimen.names


def test_a_candidate_that_is_taken_has_the_doubt_of_its_tag(tmp_path: Path, home: Path) -> None:
    animals = animals_of(tmp_path, list(TAGS))
    words = [word for number in range(len(TAGS)) for word in ("--take", f"A{number}={NAME}")]
    told = settled(animals, home, *words)
    for number, (tag, doubt) in enumerate(TAGS.items()):
        (entry,) = entries(animals, f"A{number}")
        assert (entry.name, entry.qualifier) == (NAME, doubt), tag
        assert (f"A{number}: the tag is not sure ({doubt})" in told) is bool(doubt), tag


def test_a_genus_has_what_the_tag_says_instead_of_the_species(tmp_path: Path, home: Path) -> None:
    animals = animals_of(tmp_path, list(GENUS))
    settled(animals, home, *[w for number in range(len(GENUS)) for w in ("--take", f"A{number}=Avicularia")])
    found = {tag: entries(animals, f"A{number}")[0] for number, tag in enumerate(GENUS)}
    assert {tag: (one.name, one.qualifier, one.trade_form) for tag, one in found.items()} == GENUS
    assert name_text(found["Avicularia aff. minatrix"]) == "Avicularia aff. minatrix"


def test_a_keeper_who_knows_better_takes_the_bare_name_and_is_told(tmp_path: Path, home: Path) -> None:
    animals = animals_of(tmp_path, ["Brachypelma cf. hamorii 0.1"])
    told = settled(animals, home, "--take", f"A0={NAME}", "--certain")
    assert [entry.qualifier for entry in entries(animals, "A0")] == [""]
    assert f"A0: {NAME} without the doubt that stood there (cf.)" in told


def test_the_doubt_on_a_label_can_be_left_out_later(tmp_path: Path, home: Path) -> None:
    animals = animals_of(tmp_path, ["Brachypelma cf. hamorii 0.1"])
    settled(animals, home, "--take", f"A0={NAME}")
    settled(animals, home, "--take", f"A0={NAME}", "--certain")
    assert [entry.qualifier for entry in entries(animals, "A0")] == ["cf.", ""]


@pytest.mark.parametrize(("keys", "doubt"), [("t", "cf."), ("ct", ""), ("cct", "cf."), (f"n{NAME}\n", "cf.")])
def test_at_the_terminal_the_doubt_is_shown_and_a_key_leaves_it_out(
    tmp_path: Path, home: Path, keys: str, doubt: str
) -> None:
    animals = animals_of(tmp_path, ["Brachypelma cf. hamorii 0.1"])
    shown = settled(animals, home, keys=keys)
    assert 'A name is taken with "cf."; c changes that.' in shown
    assert [entry.qualifier for entry in entries(animals, "A0")] == [doubt]
    assert (f"-> {'Brachypelma cf. hamorii' if doubt else NAME} (" in shown) is True
