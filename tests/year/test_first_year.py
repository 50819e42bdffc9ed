"""The scripted year: old tags, three tables, a first print, a death, a sale, a division, young, a reprint, a mistake.

Every step is a command as a keeper types it; files, labels and messages are what is looked at. Invented animals.
"""

from __future__ import annotations

import io
import json
import os
import shutil
from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import UTC, datetime
from pathlib import Path

import pytest
import yaml

from tests.conftest import NOWHERE, Outcome, Typed, run_here
from tests.year.papers import TAGS, english_workbook, german_table, polish_table


@dataclass
class House:
    """A keeper's machine: a folder, a clock that the story moves, and what every step came to."""

    folder: Path
    day: datetime = datetime(2026, 1, 10, 12, tzinfo=UTC)
    told: dict[str, Outcome] = field(default_factory=dict)

    def on(self, month: int, day: int) -> House:
        self.day = datetime(2026, month, day, 12, tzinfo=UTC)
        return self

    def go(self, *words: str, typed: str | None = None) -> Outcome:
        """One command; with ``typed`` a person sits at a terminal and types that."""
        environ = {"NAMEKEEPER_HOME": str(self.folder / "home"), **NOWHERE, "NO_COLOR": "1"}
        stdin, out, err = io.StringIO(), io.StringIO(), io.StringIO()
        if typed is not None:
            stdin, out, err = Typed(typed), Typed(), Typed()
        return run_here(words, self.folder, environ, stdin, out, err, clock=lambda: self.day)

    def step(self, name: str, *words: str, typed: str | None = None) -> None:
        self.told[name] = self.go(*words, typed=typed)

    def text(self, identifier: str) -> str:
        return (self.folder / "mine" / "specimens" / f"{identifier}.yaml").read_text(encoding="utf-8")

    def labels(self, name: str) -> Mapping[str, list[str]]:
        """The lines of every label of a run with ``--json``, by animal."""
        return {one["specimen"]: one["lines"] for one in json.loads(self.told[name].out)["labels"]}


@pytest.fixture(scope="module")
def year(tmp_path_factory: pytest.TempPathFactory, compiled: Path) -> House:
    """The whole year, played once."""
    house = House(tmp_path_factory.mktemp("year"))
    shutil.copytree(compiled, house.folder / "home", copy_function=os.link)
    (house.folder / "spiders.xlsx").write_bytes(english_workbook())
    (house.folder / "tiere.csv").write_bytes(german_table())
    (house.folder / "lista.tsv").write_bytes(polish_table())
    house.step("new", "collection", "new", "mine")
    for tag in TAGS:
        house.step(tag, "collection", "add", "mine", "--tag", tag)
    house.step("english", "collection", "import", "mine", "spiders.xlsx", "--write")
    house.step("german", "collection", "import", "mine", "tiere.csv", "--write")
    house.step("polish", "collection", "import", "mine", "lista.tsv")
    house.step("polish again", "collection", "import", "mine", "lista.tsv", "--dates", "day-first", "--write")
    house.step("check", "check", "mine", "--offline", "--json")
    house.step("settle", "settle", "mine", "--offline", "--write", typed="tq")
    house.step("safe", "settle", "mine", "--offline", "--take-safe", "--write")
    house.step("first labels", "labels", "mine", "--due", "-o", "labels.pdf", "--printed", "--json")
    house.step("nothing due", "labels", "mine", "--due", "-o", "labels.pdf", "--printed")
    house.on(3, 3).step(
        "death", "collection", "left", "mine", "INV-0017", "--how", "died", "--on", "2.3.2026", "--write"
    )
    house.step("sale", "collection", "left", "mine", "INV-0003", "--how", "sold", "--on", "3/2026", "--write")
    house.step("division", "check", "mine", "--offline", "--only", "D2", "--json")
    house.step("divided", "settle", "mine", "--offline", "--take", "D2=Mastigoproctus tohono", "--write")
    house.on(6, 1).step("young", "collection", "add", "mine", "--from", "D3", "--count", "3", "--acquired", "today")
    house.step("summer labels", "labels", "mine", "--due", "-o", "labels.pdf", "--printed", "--json")
    house.step("bad print", "settle", "mine", "--offline", "--undo-print", "D2", "--write")
    house.step("reprint", "labels", "mine", "--stale", "-o", "labels.pdf", "--printed", "--json")
    mistake = ("--correct", "INV-0019=Pterinochilus lugardi", "--by", "Kim")
    house.on(9, 1).step("correction", "settle", "mine", "--offline", *mistake, "--write")
    house.step("corrected label", "labels", "mine", "--stale", "-o", "labels.pdf", "--printed", "--json")
    house.on(12, 31).step("stories", "history", "mine", "--on", "2020", "--json")
    house.step("verify", "collection", "verify", "mine")
    house.step("export", "collection", "export", "mine", "-o", "year.csv")
    house.step("status", "labels", "mine", "--status", "--json")
    return house


def test_no_step_fails(year: House) -> None:
    """1 is "something to look at": a row that is left, a name that waits."""
    looked_at = {"polish", "check", "settle", "safe", "division", "divided", "bad print", "correction"}
    assert {name for name, outcome in year.told.items() if outcome.code == 1} == looked_at
    assert {name for name, outcome in year.told.items() if outcome.code not in (0, 1)} == set()


class TestTags:
    @pytest.mark.parametrize(("number", "tag"), list(enumerate(TAGS, 1)))
    def test_what_a_tag_says_stands_in_the_file_and_nothing_else(self, year: House, number: int, tag: str) -> None:
        held = yaml.load(year.text(f"INV-{number:04d}"), yaml.BaseLoader)
        beside = ("tag", "names", "decisions", "left")
        assert held["tag"] == tag
        assert {key: text for key, text in held.items() if key not in beside} == TAGS[tag]

    @pytest.mark.parametrize("tag", [tag for tag in TAGS if TAGS[tag]])
    def test_and_is_told(self, year: House, tag: str) -> None:
        said = ", ".join(f"{key} {text}" for key, text in TAGS[tag].items())
        assert f"Read from the tag: {said}" in year.told[tag].out


class TestTables:
    def test_a_workbook_with_title_gap_and_total(self, year: House) -> None:
        out = year.told["english"].out
        assert "3 rows written, 0 left." in out
        for said in ("a title above the header", "a sum", "1 empty", "Mood", "--column note='Mood'"):
            assert said in out
        assert year.text("S2").splitlines()[:4] == [
            'tag: "Avicularia metallica"', "acquired: 2018-03-01", "sex: 1.0.0", "from: a fair",
        ]  # fmt: skip

    def test_german_headers_and_a_tag_with_a_price(self, year: House) -> None:
        assert year.text("D1").splitlines() == [
            'tag: "Vogelspinne GBB 45 €"', "acquired: 2020-03-12", "sex: 0.1.0", "place: Regal 2", 'size: "5 cm"',
            'price: "45 €"', "decisions:", "  - kind: printed", "    recorded: 2026-01-10",
            '    name: "“Vogelspinne GBB”"', "    note: enclosure on a4-3x8-70x37",
        ]  # fmt: skip
        assert "sex: 1.1.0" in year.text("D3")

    def test_a_date_that_nobody_can_tell_is_left_and_told(self, year: House) -> None:
        assert "'03/04/2023' may be 2023-04-03 or 2023-03-04" in year.told["polish"].out
        assert "1 row would be written, 1 left." in year.told["polish"].out
        assert "acquired: 2023-04-03" in year.text("P2")
        assert "acquired: 2016-03-12" in year.text("P1")


class TestNames:
    def test_exact_names_are_taken_with_one_key(self, year: House) -> None:
        out = year.told["settle"].out
        assert "16 tags name a species exactly as the lists have it. Take all 16?" in out
        assert "Stopped; what was decided is written." in out
        assert "name: Grammostola rosea" in year.text("INV-0008")

    def test_what_needs_no_judgement(self, year: House) -> None:
        """Mendoza & Francke 2020, Zoological Journal of the Linnean Society 188."""
        entry = yaml.load(year.text("P1"), yaml.BaseLoader)["names"][-1]
        assert (entry["name"], entry["standing"]) == ("Tliltocatl albopilosus", "moved")

    def test_an_old_label_of_a_divided_species_keeps_its_choices(self, year: House) -> None:
        """Barrales-Alcalá, Francke & Prendini 2018, Bulletin of the American Museum of Natural History 418."""
        (found,) = json.loads(year.told["division"].out)["results"]
        assert (found["standing"], len(found["choices"])) == ("divided", 7)
        held = yaml.load(year.text("D2"), yaml.BaseLoader)["names"]
        assert [(one["name"], one["standing"], one["since"]) for one in held] == [
            ("Mastigoproctus giganteus", "as-labelled", "2015-03"),
            ("Mastigoproctus tohono", "divided", "2026-03-03"),
        ]
        assert held[-1]["form"] == "ex giganteus"

    def test_young_take_the_name_and_nothing_is_written_into_the_parent(self, year: House) -> None:
        assert year.told["young"].err == "INV-0026 to INV-0028: takes the name of D3: Pandinus imperator\n"
        assert year.text("INV-0026").splitlines()[:6] == [
            "acquired: 2026-06-01", "sex: 0.0.1", "from: D3", "names:", "  - name: Pandinus imperator",
            "    since: 2015",
        ]  # fmt: skip
        assert "divided" not in year.text("D3")

    def test_a_mistake_is_corrected_and_stays_visible(self, year: House) -> None:
        held = yaml.load(year.text("INV-0019"), yaml.BaseLoader)["names"]
        assert [(one["name"], one["standing"], one["decided_by"]) for one in held] == [
            ("Pterinochilus murinus", "chosen", "keeper"), ("Pterinochilus lugardi", "corrected", "Kim"),
        ]  # fmt: skip

    def test_what_a_label_said_on_a_day(self, year: House) -> None:
        stories = {one["specimen"]: one["on"]["name"] for one in json.loads(year.told["stories"].out)["specimens"]}
        assert (stories["D2"], stories["P1"]) == ("Mastigoproctus giganteus", "Brachypelma albopilosum")


class TestLabels:
    def test_the_first_print_is_everything(self, year: House) -> None:
        labels = year.labels("first labels")
        assert len(labels) == len(TAGS) + 8
        assert year.told["nothing due"].err == "every enclosure says the name in force\n"

    def test_sexes_are_signs_and_no_price_is_there(self, year: House) -> None:
        labels = {identifier: " ".join(lines) for identifier, lines in year.labels("first labels").items()}
        assert "“GBB 0.1 4cm”" in labels["INV-0001"]
        for identifier in ("INV-0001", "INV-0008", "INV-0019", "D1"):
            assert "♀" in labels[identifier]
        for identifier in ("INV-0003", "INV-0010", "INV-0023"):
            assert "♂" in labels[identifier]
        priced = [tag for tag in TAGS if "price" in TAGS[tag]]
        assert len(priced) == 5
        for text in labels.values():
            assert not any(sign in text for sign in ("£", "€", "EUR", "zł", "Kč"))

    def test_who_left_gets_no_label(self, year: House) -> None:
        assert "left: {date: 2026-03-02, how: died}" in year.text("INV-0017")
        assert "left: {date: 2026-03, how: sold}" in year.text("INV-0003")
        assert (year.told["death"].out, year.told["sale"].out) == ("Left: INV-0017\n", "Left: INV-0003\n")
        assert not {"INV-0003", "INV-0017"} & {one["specimen"] for one in json.loads(year.told["status"].out)["status"]}

    def test_summer_prints_what_changed_and_the_young(self, year: House) -> None:
        labels = year.labels("summer labels")
        assert sorted(labels) == ["D2", "INV-0026", "INV-0027", "INV-0028"]
        assert "was Mastigoproctus giganteus · line “ex giganteus”" in " ".join(labels["D2"])

    def test_a_print_that_did_not_come_out_is_printed_again(self, year: House) -> None:
        assert sorted(year.labels("reprint")) == ["D2"]
        kinds = [one["kind"] for one in yaml.load(year.text("D2"), yaml.BaseLoader)["decisions"]]
        assert kinds == ["printed", "printed", "unprinted", "printed"]

    def test_a_mistake_is_no_history_of_the_animal(self, year: House) -> None:
        (lines,) = year.labels("corrected label").values()
        assert lines[0] == "Pterinochilus lugardi"
        assert not any("murinus" in line for line in lines)

    def test_at_the_end_every_enclosure_is_right(self, year: House) -> None:
        assert [one for one in json.loads(year.told["status"].out)["status"] if one["stale"]] == []


def test_the_files_are_sound_and_go_out_whole(year: House) -> None:
    assert year.told["verify"].out.startswith("36 animals, no problems.\n")
    assert "36 animals" in year.told["export"].out
    assert len((year.folder / "year.csv").read_text(encoding="utf-8").splitlines()) == 37


def test_from_nothing_to_the_first_label_takes_three_commands_and_one_key(tmp_path: Path) -> None:
    house = House(tmp_path)
    house.step("new", "collection", "new", "mine", typed="")
    house.step("add", "collection", "add", "mine", "--tag", "GBB 0.1 £30", "--acquired", "today", typed="t")
    house.step("labels", "labels", "mine", "-o", "labels.pdf", "--json")
    assert [outcome.code for outcome in house.told.values()] == [0, 0, 0]
    (lines,) = house.labels("labels").values()
    assert lines[0] == "Chromatopelma cyaneopubescens"
    assert any("♀" in line for line in lines)
    assert (tmp_path / "labels.pdf").read_bytes().startswith(b"%PDF")
