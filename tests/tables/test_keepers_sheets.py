"""Spreadsheets as keepers make them: headers of five languages, names in parts, titles, sums, merged cells.

Layouts and headers are common practice, no source; rows are invented around real names (the World Spider Catalog).
"""

from __future__ import annotations

import csv
import io
import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from tests.conftest import Outcome

Command = Callable[..., Outcome]


def imported(command: Command, table: str, *more: str) -> dict[str, Any]:
    """The document of an import into a new collection, written."""
    command("collection", "new", "animals")
    found: dict[str, Any] = json.loads(command("collection", "import", "animals", table, "--json", *more).out)
    return found


def files(folder: Path) -> dict[str, str]:
    return {path.stem: path.read_text(encoding="utf-8") for path in (folder / "animals" / "specimens").iterdir()}


LANGUAGES = {
    "german": (
        "Nr.;Gattung;Art;Geschl.;gekauft am;Größe (cm);Züchter;Preis in €;Fundort;Bemerkung\n"
        "T1;Brachypelma;hamorii;w;12.03.2023;4;Müller;35;Colima;frisst gut\n"
    ),
    "french": (
        "Numéro;Genre;Espèce;Sexe;Acheté le;Taille;Éleveur;Prix;Localité;Remarques\n"
        "T1;Brachypelma;hamorii;femelle;12.03.2023;4;Müller;35;Colima;frisst gut\n"
    ),
    "spanish": (
        "Código;Género;Especie;Sexo;Fecha de compra;Tamaño;Criador;Precio;Localidad;Notas\n"
        "T1;Brachypelma;hamorii;hembra;12.03.2023;4;Müller;35;Colima;frisst gut\n"
    ),
    "polish": (
        "Lp.;Rodzaj;Gatunek;Płeć;Data zakupu;Wielkość;Hodowca;Cena;Pochodzenie;Uwagi\n"
        "T1;Brachypelma;hamorii;samica;12.03.2023;4;Müller;35;Colima;frisst gut\n"
    ),
    "english": (
        "Inv. no.;Genus;Species;M/F;Date bought;Size (cm);Breeder;Price paid;Locality;Comments\n"
        "T1;Brachypelma;hamorii;F;12.03.2023;4;Müller;35;Colima;frisst gut\n"
    ),
}


@pytest.mark.parametrize("language", LANGUAGES)
def test_the_same_table_in_five_languages(tmp_path: Path, command: Command, language: str) -> None:
    (tmp_path / "t.csv").write_text(LANGUAGES[language], encoding="utf-8")
    document = imported(command, "t.csv", "--write")
    assert (document["left"], document["unread"]["columns"]) == ([], [])
    assert files(tmp_path)["T1"] == (
        'acquired: 2023-03-12\nsex: 0.1.0\nlocality: Colima\nfrom: Müller\nnote: frisst gut\nsize: "4"\nprice: "35"\n'
        "names:\n  - name: Brachypelma hamorii\n    since: 2023-03-12\n    recorded: 2026-11-25\n"
        "    standing: as-labelled\n"
    )


@pytest.mark.parametrize(
    ("header", "row", "name"),
    [
        ("Genus,Species", "Brachypelma,hamorii", "Brachypelma hamorii"),
        ("Genus,Species,Subspecies", "Avicularia,avicularia,variegata", "Avicularia avicularia variegata"),
        ("Genus,Subgenus,Species", "Lycosa,Hogna,radiata", "Lycosa radiata"),
        ("Genus,Species,Author,Year,Brackets", "Tliltocatl,vagans,Ausserer,1875,yes", "Tliltocatl vagans"),
        ("Genus,Name", "Brachypelma,hamorii", "Brachypelma hamorii"),  # a lone word in lower case is no name
        ("Genus,Species", "Brachypelma,Brachypelma hamorii", "Brachypelma hamorii"),
        ("Genus,Species", "Brachypelma,B. hamorii", "Brachypelma hamorii"),
        ("Genus,Species", "Brachypelma,", "Brachypelma"),
        ("Species", "Brachypelma hamorii", "Brachypelma hamorii"),
    ],
)  # fmt: skip
def test_names_in_parts(tmp_path: Path, command: Command, header: str, row: str, name: str) -> None:
    (tmp_path / "t.csv").write_text(f"id,{header}\nT1,{row}\n", encoding="utf-8")
    document = imported(command, "t.csv", "--write")
    assert document["left"] == []
    assert f"- name: {name}\n" in files(tmp_path)["T1"]
    assert ("(Ausserer, 1875)" in files(tmp_path)["T1"]) is ("Author" in header)


@pytest.mark.parametrize(
    ("cells", "name", "qualifier"),
    [
        ("Brachypelma,cf. hamorii", "Brachypelma hamorii", "cf."),
        ("Avicularia,sp.", "Avicularia", "sp."),
        ("Cubaris,sp. \"Rubber Ducky\"", "Cubaris", "sp."),
    ],
)  # fmt: skip
def test_doubt_in_the_column_of_species_is_kept(
    tmp_path: Path, command: Command, cells: str, name: str, qualifier: str
) -> None:
    buffer = io.StringIO()
    csv.writer(buffer).writerows([["Genus", "Species"], cells.split(",")])
    (tmp_path / "t.csv").write_text(buffer.getvalue(), encoding="utf-8")
    imported(command, "t.csv", "--write")
    (text,) = files(tmp_path).values()
    assert f"- name: {name}\n" in text
    assert f"qualifier: {qualifier}\n" in text


def test_a_lone_word_in_lower_case_is_never_a_name(tmp_path: Path, command: Command) -> None:
    (tmp_path / "t.csv").write_text("id,Species\nT1,hamorii\n", encoding="utf-8")
    imported(command, "t.csv", "--write")
    assert files(tmp_path)["T1"] == 'tag: "hamorii"\n'


class TestWhatIsNotRead:
    SHEET = (
        "My spiders 2024;;;;\n\nNr;Tier;Gekauft;Temperament;Fütterung\n"
        "1;Chromatopelma cyaneopubescens;2020;ruhig;Montag\n"
        ";;;;\nNr;Tier;Gekauft;Temperament;Fütterung\n2;Brachypelma hamorii;2021;;Montag\nSumme;2;;;\n"
    )

    def test_columns_and_rows_are_told_with_a_sample(self, tmp_path: Path, command: Command) -> None:
        (tmp_path / "t.csv").write_text(self.SHEET, encoding="utf-8")
        document = imported(command, "t.csv")
        assert [row["row"] for row in document["imported"]] == [4, 7]
        assert document["left"] == []
        assert document["unread"]["columns"] == [
            {"column": "Temperament", "sample": "ruhig", "cells": 1, "suggestion": "note"},
            {"column": "Fütterung", "sample": "Montag", "cells": 2, "suggestion": "note"},
        ]
        assert document["unread"]["rows"] == [
            {"row": 1, "sample": "My spiders 2024", "why": "title"},
            {"row": 5, "sample": "", "why": "empty"},
            {"row": 6, "sample": "Nr", "why": "header"},
            {"row": 8, "sample": "Summe", "why": "total"},
        ]
        said = command("collection", "import", "animals", "t.csv").out
        for words in ("Columns that are not read", "--column note='Fütterung'", "a title above the header", "a sum"):
            assert words in said

    def test_merged_cells_and_other_sheets_of_a_spreadsheet(self, tmp_path: Path, command: Command) -> None:
        from openpyxl import Workbook

        book = Workbook()
        sheet: Any = book.active
        sheet.title = "Animals"
        rows = ("Collection||", "Genus|Species|Date", "Brachypelma|hamorii|2020", "|smithi|2021", "Scorpions||",
                "Pandinus|imperator|2019")  # fmt: skip
        for row in rows:
            sheet.append([cell or None for cell in row.split("|")])
        sheet.merge_cells("A1:C1")
        sheet.merge_cells("A3:A4")
        sheet.merge_cells("A5:C5")
        book.create_sheet("Feeding").append(["day", "what"])
        book["Feeding"].append(["Monday", "crickets"])
        book.save(tmp_path / "t.xlsx")
        document = imported(command, "t.xlsx", "--write")
        assert [row["why"] for row in document["unread"]["rows"]] == ["title", "heading"]
        assert document["unread"]["merged"] == 1
        assert document["unread"]["sheets"] == [{"sheet": "Feeding", "rows": 1, "header": ["day", "what"]}]
        assert "Brachypelma smithi" in "".join(files(tmp_path).values())

    def test_a_spreadsheet_of_a_wrong_extent_loses_no_row(self, tmp_path: Path, command: Command) -> None:
        """ISO/IEC 29500-1, 18.3.1.35: dimension is what the writer says of the used range; some say A1 whatever is."""
        import re
        import zipfile

        from openpyxl import Workbook

        book = Workbook()
        sheet: Any = book.active
        for row in (["id", "tag"], *([f"T{n}", "GBB"] for n in range(40))):
            sheet.append(row)
        book.save(tmp_path / "right.xlsx")
        with zipfile.ZipFile(tmp_path / "right.xlsx") as right, zipfile.ZipFile(tmp_path / "t.xlsx", "w") as wrong:
            for member in right.namelist():
                part = right.read(member)
                wrong.writestr(member, re.sub(rb'<dimension ref="[^"]*"', b'<dimension ref="A1"', part))
        assert len(imported(command, "t.xlsx")["imported"]) == 40


@pytest.mark.parametrize(
    ("cells", "sex"),
    [
        (("male", "3"), "3.0.0"), (("", "5"), "0.0.5"), (("f", "1"), "0.1.0"), (("0,1", ""), "0.1.0"),
        (("2x w", ""), "0.2.0"), (("f?", ""), "0.0.1"), (("samiec", "2 szt."), "2.0.0"),
    ],
)  # fmt: skip
def test_sex_and_number_stand_in_columns_of_their_own(
    tmp_path: Path, command: Command, cells: tuple[str, str], sex: str
) -> None:
    (tmp_path / "t.csv").write_text(f"id;tag;Sex;Qty\nT1;GBB;{cells[0]};{cells[1]}\n", encoding="utf-8")
    imported(command, "t.csv", "--write")
    assert f"sex: {sex}\n" in files(tmp_path)["T1"]


def test_counts_of_each_sex_and_what_became_of_the_animal(tmp_path: Path, command: Command) -> None:
    table = (
        "id;tag;♂;♀;unsexed;died on;sold\nT1;roaches;2;5;30;;\nT2;GBB;;1;;03.04.2023;no\nT3;OBT;;;1;;2022-05\n"
        "T4;GBB;many;;;;\nT5;GBB;;1;;soon;\n"
    )
    (tmp_path / "t.csv").write_text(table, encoding="utf-8")
    document = imported(command, "t.csv", "--write")
    assert "sex: 2.5.30\n" in files(tmp_path)["T1"]
    assert "2023-04-03" in files(tmp_path)["T2"]
    assert "how: died" in files(tmp_path)["T2"]
    assert "how: sold" in files(tmp_path)["T3"]
    assert [row["why"] for row in document["left"]] == [
        "'many' is no number of animals",
        "'soon' is no date that can be read, such as 2019, 3/2019, 12.03.2023 or 2023-03-12",
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("header", "cells", "suggestion"),
    [
        ("Kaufdatum ca.", ("3.5.2020", "1.1.2021"), "acquired"),
        ("Kaufjahr/Kaufdatum", ("2020", "2021"), "acquired"),
        ("GeodeticDatum", ("WGS84", "WGS84"), "note"),
        ("modified", ("2009-06-03", "2009-06-04"), "note"),
        ("when", ("2020-05-03", "2021-01-01"), "acquired"),
        ("Geschlechtt", ("m", "w"), "sex"),
        ("which", ("m", "f"), "sex"),
        ("Farbe", ("rot", "blau"), "note"),
    ],
)
def test_what_a_column_may_be_is_suggested(
    tmp_path: Path, command: Command, header: str, cells: tuple[str, str], suggestion: str
) -> None:
    rows = [("tag", header), ("GBB", cells[0]), ("OBT", cells[1])]
    (tmp_path / "t.csv").write_text("\n".join(";".join(row) for row in rows), encoding="utf-8")
    (column,) = imported(command, "t.csv")["unread"]["columns"]
    assert (column["column"], column["sample"], column["suggestion"]) == (header, cells[0], suggestion)
