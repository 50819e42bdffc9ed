"""What is written of a new animal: what the keeper says and what the tag says, and nothing that nobody said."""

from __future__ import annotations

import json
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pypdf
import pytest

from namekeeper.labels.content import LabelWishes, SpeciesFacts, label_name, make_content
from namekeeper.records.specimen import NameEntry, Specimen
from namekeeper.words.errors import Place
from tests.conftest import NOWHERE, Outcome, Typed, run_here

Command = Callable[..., Outcome]


@pytest.fixture(autouse=True)
def animals(command: Command, tmp_path: Path) -> Path:
    assert command("collection", "new", "animals").code == 0
    return tmp_path / "animals" / "specimens"


@pytest.fixture
def at_terminal(tmp_path: Path, home: Path) -> Callable[..., Outcome]:
    """Runs ``collection add animals`` with a person at both ends who types ``lines``."""

    def call(lines: str, *words: str) -> Outcome:
        environ = {"NAMEKEEPER_HOME": str(home), **NOWHERE, "NO_COLOR": "1"}
        return run_here(["collection", "add", "animals", *words], tmp_path, environ, Typed(lines), Typed())

    return call


def lines_of(animals: Path, identifier: str = "INV-0001") -> list[str]:
    return (animals / f"{identifier}.yaml").read_text().splitlines()


class TestDates:
    def test_no_date_is_made_up(self, command: Command, animals: Path) -> None:
        assert command("collection", "add", "animals", "--tag", "x").code == 0
        assert lines_of(animals) == ['tag: "x"']

    @pytest.mark.parametrize(
        ("typed", "written"),
        [("today", "2026-11-25"), ("Today", "2026-11-25"), ("12.03.2023", "2023-03-12"), ("3/2019", "2019-03"),
         ("2019", "2019"), ("3. Mai 2014", "2014-05-03")],
    )  # fmt: skip
    def test_dates_as_people_write_them(self, command: Command, animals: Path, typed: str, written: str) -> None:
        assert command("collection", "add", "animals", "--tag", "x", "--acquired", typed).code == 0
        assert lines_of(animals)[1:] == [f"acquired: {written}"]
        assert command("collection", "add", "animals", "--tag", "y").code == 0
        assert command("collection", "set", "animals", "INV-0002", f"acquired={typed}", "--write").code == 0
        assert lines_of(animals, "INV-0002")[1:] == [f"acquired: {written}"]

    @pytest.mark.parametrize(
        "words",
        [
            ("collection", "add", "animals", "--tag", "x", "--acquired"),
            ("collection", "left", "animals", "A", "--how", "sold", "--on"),
            ("settle", "animals", "--on"), ("history", "animals", "--on"), ("history", "animals", "--known"),
            ("lookup", "GBB", "--on"),
        ],
    )  # fmt: skip
    def test_an_ambiguous_date_is_refused_by_every_command(self, command: Command, words: tuple[str, ...]) -> None:
        done = command(*words, "03/04/2023")
        assert done.code == 2
        assert "'03/04/2023' may be 2023-04-03 or 2023-03-04: write the one that is meant" in done.err

    def test_a_fact_with_an_ambiguous_date_is_refused(self, command: Command, animals: Path) -> None:
        command("collection", "add", "animals", "--tag", "x")
        done = command("collection", "set", "animals", "INV-0001", "acquired=03/04/2023", "--write")
        assert (done.code, lines_of(animals)) == (2, ['tag: "x"'])
        assert "may be 2023-04-03 or 2023-03-04" in done.err

    @pytest.mark.parametrize(("date", "choices"), [((), 7), (("--acquired", "today"), 1)])
    def test_an_old_animal_typed_in_today_keeps_its_choices(
        self, command: Command, date: tuple[str, ...], choices: int
    ) -> None:
        """Barrales-Alcalá et al. 2018 divided *Mastigoproctus giganteus* in seven; the date tells what is meant."""
        command("collection", "add", "animals", "--tag", "Mastigoproctus giganteus", *date)
        (found,) = json.loads(command("check", "animals", "--offline", "--json").out)["results"]
        assert len(found["choices"]) == choices


class TestQuestion:
    @pytest.mark.parametrize(
        ("typed", "written"),
        [("t\n", ["acquired: 2026-11-25"]),
         ("\n", []), ("", []), ("unknown\n", []), ("3/2019\n", ["acquired: 2019-03"]),
         ("03/04/2023\nsoon\n2023-04-03\n", ["acquired: 2023-04-03"])],
    )  # fmt: skip
    def test_one_question_at_a_terminal(
        self, at_terminal: Callable[..., Outcome], animals: Path, typed: str, written: list[str]
    ) -> None:
        done = at_terminal(typed, "--tag", "x")
        assert done.code == 0
        assert lines_of(animals)[1:] == written
        assert done.out.count("When did it come to you?") == max(1, typed.count("\n"))

    @pytest.mark.parametrize("more", [("--acquired", "unknown"), ("--acquired", "2019"), ("--json",)])
    def test_no_question_where_it_is_answered(self, at_terminal: Callable[..., Outcome], more: tuple[str, ...]) -> None:
        assert "When did it come" not in at_terminal("", "--tag", "x", *more).out


class TestTag:
    def test_what_the_tag_says_stands_in_the_file(self, command: Command, animals: Path) -> None:
        done = command("collection", "add", "animals", "--tag", "GBB 0.1 5-6cm BL CB £30", "--json")
        assert lines_of(animals) == ['tag: "GBB 0.1 5-6cm BL CB £30"', "sex: 0.1.0", 'size: "5-6cm BL"', 'price: "£30"']
        document = json.loads(done.out)
        assert document["read"] == {"sex": "0.1.0", "size": "5-6cm BL", "price": "£30"}
        assert document["left_in_tag"] == {"source": "CB"}

    def test_and_is_told(self, command: Command) -> None:
        done = command("collection", "add", "animals", "--tag", "GBB 0.1 L5 CB £30")
        assert done.out.splitlines()[1:] == [
            "Read from the tag: sex 0.1.0, stage L5, price £30", "Only in the tag: source CB",
        ]  # fmt: skip

    def test_the_seller_is_where_the_animal_is_from(self, command: Command, animals: Path) -> None:
        done = command("collection", "add", "animals", "--tag", "GBB 0.1 gekauft bei Uwe Sonnental")
        assert lines_of(animals)[1:] == ["sex: 0.1.0", "from: Uwe Sonnental"]
        assert "Read from the tag: sex 0.1.0, from Uwe Sonnental" in done.out
        command("collection", "add", "animals", "--tag", "GBB @spider.barn", "--from", "INV-0001")
        assert lines_of(animals, "INV-0002")[-1].startswith("from: INV-0001")

    def test_what_the_keeper_says_goes_before(self, command: Command, animals: Path) -> None:
        command("collection", "add", "animals", "--tag", "GBB 0.1 Campeche", "--sex", "1,0", "--locality", "Yucatan")
        assert lines_of(animals)[1:] == ["sex: 1.0.0", "locality: Yucatan"]

    @pytest.mark.parametrize(
        ("tag", "count", "sex"),
        [("GBB 0.0.3", 3, ["sex: 0.0.1"]), ("GBB 0.1", 2, ["sex: 0.1.0"]), ("GBB 1.2", 3, []), ("GBB 0.0.9", 3, [])],
    )
    def test_several_animals_of_one_tag(
        self, command: Command, animals: Path, tag: str, count: int, sex: list[str]
    ) -> None:
        command("collection", "add", "animals", "--tag", tag, "--count", str(count))
        assert [lines_of(animals, f"INV-{n:04d}")[1:] for n in range(1, count + 1)] == [sex] * count

    @pytest.mark.parametrize("sex", ["0,1", "w", "f", "0.1", "0.1.0", "♀"])
    def test_a_sex_is_read_alike_everywhere(self, command: Command, animals: Path, sex: str) -> None:
        command("collection", "add", "animals", "--tag", "x", "--sex", sex)
        command("collection", "add", "animals", "--tag", "y")
        assert command("collection", "set", "animals", "INV-0002", f"sex={sex}", "--write").code == 0
        (animals / "A.yaml").write_text(f'tag: z\nsex: "{sex}"\n')
        exported = command("collection", "export", "animals", "-o", "all.json", "--as", "json")
        assert exported.code == 0
        rows = json.loads((animals.parents[1] / "all.json").read_text())["specimens"]
        assert {row["sex"] for row in rows} <= {"0.1", "0.1.0"}
        assert command("collection", "count", "animals", "A", sex, "--write").code == 0

    def test_an_imported_tag_fills_what_no_column_says(self, command: Command, tmp_path: Path, animals: Path) -> None:
        (tmp_path / "t.csv").write_text("id,tag,sex\nT1,GBB 0.1 4cm 30 €,\nT2,GBB 0.1,m\n")
        done = command("collection", "import", "animals", "t.csv", "--write")
        assert "sex 0.1.0, size 4cm, price 30 €" in done.out
        assert lines_of(animals, "T1")[1:] == ["sex: 0.1.0", 'size: "4cm"', 'price: "30 €"']
        assert lines_of(animals, "T2")[1:] == ["sex: 1.0.0"]


def shown(path: Path) -> str:
    """The words of the one page of a PDF."""
    (page,) = pypdf.PdfReader(path).pages
    return " ".join(page.extract_text().split())


def test_a_female_is_one_on_the_label_and_her_price_is_not(command: Command, tmp_path: Path) -> None:
    command("collection", "add", "animals", "--tag", "GBB 0.1 £30 blue")
    assert command("labels", "animals", "-o", "labels.pdf", "--template", "display").code == 0
    page = shown(tmp_path / "labels.pdf")
    assert "♀" in page
    assert "GBB 0.1 blue" in page
    assert "30" not in page
    command("settle", "animals", "--take", "INV-0001=Chromatopelma cyanopubescens", "--write")
    command("labels", "animals", "-o", "after.pdf", "--template", "display")
    page = shown(tmp_path / "after.pdf")
    assert "Chromatopelma cyanopubescens" in page
    assert "30" not in page


@pytest.mark.parametrize(
    ("tag", "shown"),
    [
        ("GBB 0.1 £30", "GBB 0.1"), ("30 € GBB", "GBB"), ("GBB - 30 EUR - CB", "GBB - - CB"), ("GBB sold", "GBB sold"),
        ("P. metallica 5cm", "P. metallica 5cm"), ("£30", "unsettled"), ("T. vagans /", "T. vagans /"),
    ],
)  # fmt: skip
def test_a_label_says_what_the_tag_says_but_the_price(tag: str, shown: str) -> None:
    specimen = Specimen("A", Place(), tag=tag)
    assert label_name(specimen) == f"“{shown}”"
    settled = replace(specimen, names=(NameEntry("Tliltocatl vagans"),))
    fields = make_content(settled, SpeciesFacts(), LabelWishes()).fields
    said = " ".join(run.text for name in ("tag", "history") for piece in fields[name][0] for run in piece)
    assert said.count(f"bought as “{shown}”") == 2
    assert "30" not in said


class TestMany:
    def test_more_than_fifty_want_a_yes(self, command: Command, animals: Path) -> None:
        done = command("collection", "add", "animals", "--tag", "x", "--count", "51")
        assert (done.code, list(animals.iterdir())) == (2, [])
        assert done.err == (
            "namekeeper: Add 51 animals, each with a file and a label of its own was not confirmed (add --yes)\n"
        )
        assert command("collection", "add", "animals", "--tag", "x", "--count", "51", "--yes").code == 0
        assert len(list(animals.iterdir())) == 51

    @pytest.mark.parametrize(("typed", "made"), [("y\n\n", 51), ("n\n", 0), ("", 0)])
    def test_a_keeper_is_asked(self, at_terminal: Callable[..., Outcome], animals: Path, typed: str, made: int) -> None:
        done = at_terminal(typed, "--tag", "x", "--count", "51")
        assert (done.code, len(list(animals.iterdir()))) == (0 if made else 2, made)

    @pytest.mark.parametrize("count", ["0", "-1", "1001", "1000000", "9" * 30])
    def test_a_number_beyond_all_sense_is_refused(self, command: Command, animals: Path, count: str) -> None:
        done = command("collection", "add", "animals", "--tag", "x", "--count", count, "--yes")
        assert (done.code, list(animals.iterdir())) == (2, [])
        assert "a count is from 1 to 1000" in done.err
        assert "a group under one label" in done.err
