"""Import and export: every row imported or listed, nothing guessed that has two readings, round trips without loss."""

from __future__ import annotations

import csv
import io
import json
import zipfile
from collections.abc import Callable
from dataclasses import replace
from datetime import date
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from namekeeper.records.as_json import as_record
from namekeeper.records.sexes import read_sex
from namekeeper.records.specimen import Collection, Decision, Left, NameEntry, Settings, Sex, Specimen
from namekeeper.storage.emit import specimen_text
from namekeeper.storage.specimen_file import SpecimenReader
from namekeeper.tables.delimited import guarded, take_apart, unguarded
from namekeeper.tables.dwca import as_archive, own_records
from namekeeper.tables.exports import as_csv, as_json, from_csv, from_json
from namekeeper.tables.open_table import read_table
from namekeeper.tables.published import PRIVATE, Publication
from namekeeper.words.date_reading import AmbiguousDateError, read_date
from namekeeper.words.dates import DayOrder, PartialDate
from namekeeper.words.errors import InputError, Place
from tests.conftest import Outcome, Typed, run_here
from tests.tables.samples import ods, xlsx

Command = Callable[..., Outcome]
TODAY = date(2026, 11, 25)
#: Everything goes out, so that everything comes back.
ALL = Publication(TODAY, shared=frozenset(PRIVATE))


class TestDates:
    @pytest.mark.parametrize(
        ("text", "meant"),
        [
            ("2014", "2014"),
            ("2014-05", "2014-05"),
            ("2014-05-03", "2014-05-03"),
            ("2014-5-3", "2014-05-03"),
            ("2014/05/03", "2014-05-03"),
            ("2014-05-03 10:20:30", "2014-05-03"),
            ("2014-05-03T10:20:30Z", "2014-05-03"),
            ("03.05.2014", "2014-05-03"),
            ("3.5.2014", "2014-05-03"),
            ("13/5/2014", "2014-05-13"),
            ("5/13/2014", "2014-05-13"),
            ("5/5/2014", "2014-05-05"),
            ("05/2014", "2014-05"),
            ("3 May 2014", "2014-05-03"),
            ("3rd May 2014", "2014-05-03"),
            ("May 3, 2014", "2014-05-03"),
            ("3. Mai 2014", "2014-05-03"),
            ("14 juillet 2014", "2014-07-14"),
            ("14 juin 2014", "2014-06-14"),
            ("3-May-2014", "2014-05-03"),
            ("Mai 2014", "2014-05"),
            ("März 2014", "2014-03"),
            ("1er août 2014", "2014-08-01"),
            ("3 de mayo de 2014", "2014-05-03"),
            ("Dez. 2014", "2014-12"),
            ("3/2019", "2019-03"),
            ("12.03.2023", "2023-03-12"),
            ("12 marca 2023", "2023-03-12"),
            ("wrzesień 2019", "2019-09"),
        ],
    )
    def test_usual_styles(self, text: str, meant: str) -> None:
        assert str(read_date(text)) == meant

    def test_day_and_month_are_never_guessed(self) -> None:
        with pytest.raises(AmbiguousDateError, match="'3/5/2014' may be 2014-05-03 or 2014-03-05"):
            read_date("3/5/2014")
        assert str(read_date("3/5/2014", DayOrder.DAY_FIRST)) == "2014-05-03"
        assert str(read_date("3/5/2014", DayOrder.MONTH_FIRST)) == "2014-03-05"

    @pytest.mark.parametrize(
        "text",
        ["3.5.14", "2014-00-03", "2014-05-00", "41762", "soon", "31.2.2014", "2014-13", "3 Foo 2014", "", "0000"],
    )
    def test_what_is_no_date_is_refused(self, text: str) -> None:
        with pytest.raises(ValueError, match=r"."):
            read_date(text)

    @pytest.mark.parametrize("text", ["31.02.2024", "0/3/2024", "30/2/2024", "2024-13"])
    def test_a_day_that_is_none_is_quoted_as_written(self, text: str) -> None:
        with pytest.raises(ValueError, match=rf"^'{text}' is no day of the calendar$"):
            read_date(text)

    @given(st.text(max_size=20))
    def test_any_text_is_a_date_or_refused(self, text: str) -> None:
        try:
            found = read_date(text)
        except ValueError:
            return
        assert found.earliest <= found.latest


@pytest.mark.parametrize(
    ("text", "counts"),
    [("1.2.5", (1, 2, 5)), ("0.1", (0, 1, 0)), ("m", (1, 0, 0)), ("♀", (0, 1, 0)), ("Weibchen", (0, 1, 0)),
     ("?", (0, 0, 1)), ("pair", (1, 1, 0)), ("0,1", (0, 1, 0)), ("1,2,5", (1, 2, 5)), ("w", (0, 1, 0)),
     ("1.0", (1, 0, 0)), ("F", (0, 1, 0)), ("samica", (0, 1, 0))],
)  # fmt: skip
def test_sex_as_keepers_write_it(text: str, counts: tuple[int, int, int]) -> None:
    sex = read_sex(text)
    assert sex is not None
    assert (sex.male, sex.female, sex.unsexed) == counts


class TestReadingTables:
    @pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16", "cp1252", "iso8859-15", "mac_roman"])
    @pytest.mark.parametrize("delimiter", [",", ";", "\t", "|"])
    def test_encoding_and_delimiter_are_detected(self, encoding: str, delimiter: str) -> None:
        rows = [
            ["Nr", "Gekauft als", "Käufer"],
            ["1", "Vogelspinne für Anfänger, weiblich; süß", "Müller"],
            ["2", "Größe", "ß"],
        ]
        text = "\r\n".join(delimiter.join(f'"{c}"' if any(d in c for d in ",;") else c for c in row) for row in rows)
        sheet = read_table(text.encode(encoding)).sheets[0]
        assert [list(sheet.headers), *[list(row.cells) for row in sheet.rows]] == rows

    def test_line_breaks_and_quotes_within_cells(self) -> None:
        sheet = read_table(b'a,b\n"x\r\ny","say ""hi"""\n\n,z\n').sheets[0]
        assert [(row.number, row.cells) for row in sheet.rows] == [(2, ("x\r\ny", 'say "hi"')), (4, ("", "z"))]

    def test_a_separator_line_is_obeyed(self) -> None:
        assert read_table(b"sep=;\r\na;b,c\r\n1;2,3\r\n").sheets[0].rows[0].cells == ("1", "2,3")

    def test_xlsx_values_are_read_as_the_keeper_sees_them(self) -> None:
        sheet = read_table(xlsx()).sheets[0]
        assert sheet.headers == ("id", "date", "species", "price", "sum")
        assert sheet.rows[0].cells[:4] == ("INV-0001", "2024-05-03", "Brachypelma vagans", "12.5")
        assert sheet.rows[1].cells[3] == "7"

    def test_ods_values_are_read_and_repeated_rows_stand_for_themselves(self) -> None:
        sheet = read_table(ods()).sheets[0]
        assert sheet.name == "Futter & Co"
        assert [row.number for row in sheet.rows] == [2, 3, 4, 5, 6, 7, 8, 9]
        assert sheet.rows[0].cells == ("INV-0001", "Brachypelma vagans", "3")


SOME = (
    "No.;Sold as;Species;Bought;Sex;Locality;Breeder;Shelf;Remarks\n"
    'T1;"Mex red rump 0.1; 4cm ";Brachypelma vagans (Ausserer, 1875);03.05.2014;f;Campeche;A friend;3;eats well\n'
    "T2;GBB;;3/5/2014;m;;;;\n"
    ";OBT;;2019;?;;;;\n"
    "T1;again;;2019;;;;;\n"
    "T 9;bad id;;2019;;;;;\n"
    "T5;;;2019;;;;;\n"
    "T6;tag;Not!! a name 7;2019;;;;;\n"
    "T7;tag;;2999;;;;;\n"
    "T8;;Avicularia cf. minatrix;2019;many;;;;\n"
)


class TestImport:
    @pytest.fixture
    def table(self, tmp_path: Path, command: Command) -> str:
        (tmp_path / "some.csv").write_text(SOME, encoding="utf-8")
        assert command("collection", "new", "animals").code == 0
        return "some.csv"

    def test_a_dry_run_shows_columns_and_reasons_and_writes_nothing(
        self, tmp_path: Path, command: Command, table: str
    ) -> None:
        shown = command("collection", "import", "animals", table, "--json")
        document = json.loads(shown.out)
        assert shown.code == 1
        assert document["columns"] == {
            "id": "No.", "tag": "Sold as", "name": "Species", "acquired": "Bought", "sex": "Sex",
            "locality": "Locality", "from": "Breeder", "place": "Shelf", "note": "Remarks",
        }  # fmt: skip
        assert [row["row"] for row in document["imported"]] == [2, 4]
        reasons = {row["row"]: row["why"] for row in document["left"]}
        assert reasons == {
            3: "'3/5/2014' may be 2014-05-03 or 2014-03-05",
            5: "the id 'T1' is taken",
            6: "'T 9' cannot be an id: an id is 1 to 40 letters, digits, dots, hyphens and underscores",
            7: "neither a tag nor a name",
            8: "'Not!! a name 7' cannot be read as a name; move what is none to the tag's column",
            9: "acquired '2999' lies in the future",
            10: "'many' is no count like 0.1.0 (male.female.unsexed)",
        }
        assert list((tmp_path / "animals" / "specimens").iterdir()) == []

    def test_written_rows_keep_the_tag_verbatim(self, tmp_path: Path, command: Command, table: str) -> None:
        done = command("collection", "import", "animals", table, "--dates", "month-first", "--write")
        assert done.code == 1
        text = (tmp_path / "animals" / "specimens" / "T1.yaml").read_text()
        assert text == (
            'tag: "Mex red rump 0.1; 4cm "\nacquired: 2014-05-03\nsex: 0.1.0\nlocality: Campeche\nfrom: A friend\n'
            'place: "3"\nnote: eats well\nsize: "4cm"\nnames:\n'
            "  - name: Brachypelma vagans\n    authorship: (Ausserer, 1875)\n"
            "    since: 2014-05-03\n    recorded: 2026-11-25\n    standing: as-labelled\n"
        )
        assert "acquired: 2014-03-05" in (tmp_path / "animals" / "specimens" / "T2.yaml").read_text()
        assert (tmp_path / "animals" / "specimens" / "INV-0001.yaml").exists()
        assert command("collection", "verify", "animals").code == 0

    def test_columns_are_kept_for_the_next_table(self, tmp_path: Path, command: Command, table: str) -> None:
        told = ("--column", "note=Sold as", "--column", "tag=Remarks", "--write")
        command("collection", "import", "animals", table, *told)
        again = json.loads(command("collection", "import", "animals", table, "--json").out)
        assert (again["columns"]["tag"], again["columns"]["note"]) == ("Remarks", "Sold as")

    @pytest.mark.parametrize(
        ("words", "what"),
        [
            (("--column", "tag"), "is not FIELD=HEADER"),
            (("--column", "colour=Sex"), "unknown field 'colour'"),
            (("--column", "tag=Nope"), "no column 'Nope'"),
        ],
    )
    def test_a_wrong_column_is_refused(self, command: Command, table: str, words: tuple[str, ...], what: str) -> None:
        refused = command("collection", "import", "animals", table, *words)
        assert refused.code == 2
        assert what in refused.err

    @pytest.mark.parametrize(
        "content", [b"", b"a,b\n", b"a,b\n1,2\n", b"{}", b'{"specimens": [{"id": 7}]}', b"\x00\x01"]
    )
    def test_what_holds_no_animals_is_refused(self, tmp_path: Path, command: Command, content: bytes) -> None:
        command("collection", "new", "animals")
        (tmp_path / "bad").write_bytes(content)
        refused = command("collection", "import", "animals", "bad", "--write")
        assert refused.code == 2
        assert refused.err.startswith("namekeeper: ")

    def test_on_a_terminal_the_order_of_day_and_month_is_asked(self, tmp_path: Path, home: Path, table: str) -> None:
        environ = {"NAMEKEEPER_HOME": str(home), "NO_COLOR": "1"}
        words = ["collection", "import", "animals", table, "--write"]
        asked = run_here(words, tmp_path, environ, Typed("y\n"), Typed())
        assert asked.code == 1
        assert "is the day first?" in asked.out
        assert "acquired: 2014-05-03" in (tmp_path / "animals" / "specimens" / "T2.yaml").read_text()

    def test_the_talk_tells_encoding_columns_and_rows(self, command: Command, table: str) -> None:
        shown = command("collection", "import", "animals", table)
        assert "Read as utf-8, delimiter ;." in shown.out
        assert "2 rows would be written, 7 left." in shown.out
        assert "Nothing is written without --write." in shown.out

    @pytest.mark.parametrize("kind", ["xlsx", "ods"])
    def test_spreadsheets_are_imported(self, tmp_path: Path, command: Command, table: str, kind: str) -> None:
        (tmp_path / "book").write_bytes(xlsx() if kind == "xlsx" else ods())
        done = command("collection", "import", "animals", "book", "--column", "note=amount" if kind == "ods" else
                       "note=price", "--write", "--json")  # fmt: skip
        document = json.loads(done.out)
        assert document["imported"][0] == {
            "row": 2, "specimen": "INV-0001", "tag": None, "name": "Brachypelma vagans",
            "acquired": "2024-05-03" if kind == "xlsx" else None, "read": {}, "left_in_tag": {},
        }  # fmt: skip
        assert all("is taken" in row["why"] for row in document["left"] if row["row"] < 6)
        text = (tmp_path / "animals" / "specimens" / "INV-0001.yaml").read_text()
        assert "name: Brachypelma vagans\n" in text
        assert ("acquired: 2024-05-03\n" in text) is (kind == "xlsx")

    def test_another_sheet_is_named_and_can_be_read(self, tmp_path: Path, command: Command, table: str) -> None:
        (tmp_path / "book.xlsx").write_bytes(xlsx())
        assert "sheet Feeding (not read: Sales)" in command("collection", "import", "animals", "book.xlsx").out
        second = command("collection", "import", "animals", "book.xlsx", "--sheet", "Sales", "--json")
        assert json.loads(second.out)["columns"] == {"name": "name"}
        refused = command("collection", "import", "animals", "book.xlsx", "--sheet", "Nope")
        assert (refused.code, "its sheets: Feeding, Sales" in refused.err) == (2, True)

    def test_ids_are_found_by_content(self, tmp_path: Path, command: Command, table: str) -> None:
        command("collection", "import", "animals", table, "--write")
        (tmp_path / "more.csv").write_text("Which,Sold as\nT1,x\nINV-0001,y\nT1,z\n")
        document = json.loads(command("collection", "import", "animals", "more.csv", "--json").out)
        assert document["columns"] == {"id": "Which", "tag": "Sold as"}

    def test_a_file_that_is_not_there_is_told(self, command: Command, table: str) -> None:
        refused = command("collection", "import", "animals", "nope.csv")
        assert (refused.code, "cannot be read" in refused.err) == (2, True)


# Texts that are stable under NFC, as the file format asks (contract: names NFC); no lone surrogates.
texts = st.text(st.characters(categories=["L", "N", "P", "S", "Zs", "Cc"], max_codepoint=0x24F), max_size=12).map(
    str.strip
)
full_texts = texts.filter(bool)
dates = st.sampled_from(["2014", "2014-05", "2014-05-03", "2021-12-31"]).map(PartialDate.parse)


def entry(**fields: Any) -> NameEntry:
    """Of these fields alone: of a tuple all would be filled, the line of its file too."""
    return NameEntry(**fields)


def decision(**fields: Any) -> Decision:
    """Of these fields alone, likewise."""
    return Decision(**fields)


entries = st.builds(
    entry, name=full_texts, authorship=texts, since=st.none() | dates, standing=st.just("moved"),
    according_to=texts, note=texts, link=texts, qualifier=texts, form=texts, decided_by=texts,
)  # fmt: skip
decisions = st.builds(decision, kind=st.sampled_from(["kept", "printed"]), recorded=st.none() | dates, note=texts)
specimens = st.builds(
    Specimen,
    id=st.just("INV-0001"),
    place=st.just(Place()),
    tag=full_texts | st.sampled_from(["=1+1", "'=x", "-a", "@b", "\ttab", "line\nbreak", "+'"]),
    acquired=st.none() | dates,
    sex=st.none() | st.sampled_from(["0.1.0", "1.2", "0012.1.5"]).map(Sex.parse),
    locality=texts,
    origin=st.lists(full_texts, max_size=3).map(tuple),
    stands_at=texts,
    note=texts,
    left=st.none() | st.builds(Left, date=st.none() | st.just(PartialDate.parse("2022")), how=full_texts),
    names=st.lists(entries, max_size=3).map(tuple),
    decisions=st.lists(decisions, max_size=2).map(tuple),
)
collections = st.lists(specimens, max_size=3).map(
    lambda made: Collection("", Settings(title="T & <co>"), tuple(numbered(made)), ())
)


leaves = st.none() | st.booleans() | st.integers() | st.text()
keys = st.sampled_from(["id", "names", "left", "from", "sex", "tag"])
foreign = st.recursive(leaves, lambda inner: st.lists(inner) | st.dictionaries(keys, inner))


def numbered(made: list[Specimen]) -> list[Specimen]:
    return [replace(each, id=f"A{i}", place=Place(None, 1, f"A{i}")) for i, each in enumerate(made)]


class TestRoundTrips:
    @given(collections)
    def test_json(self, collection: Collection) -> None:
        assert from_json(as_json(collection)) == collection.specimens

    @given(collections)
    def test_csv(self, collection: Collection) -> None:
        content = as_csv(collection)
        rows = list(from_csv(read_table(content).sheets[0]))
        assert tuple(made for _, made in rows) == collection.specimens

    @given(collections)
    def test_no_cell_of_the_csv_is_a_formula(self, collection: Collection) -> None:
        """OWASP, CSV Injection: = + - @ tab and carriage return must not begin a cell."""
        for record in take_apart(as_csv(collection)).records:
            assert not any(field.text.startswith(("=", "+", "-", "@", "\t", "\r", "\n")) for field in record)

    @given(collections)
    def test_darwin_core(self, collection: Collection) -> None:
        assert own_records(as_archive(collection, ALL)) == collection.specimens

    @settings(max_examples=200)
    @given(specimens)
    def test_the_file_of_a_specimen(self, specimen: Specimen) -> None:
        read, problems = SpecimenReader(TODAY).read(specimen_text(specimen), "INV-0001", "x.yaml")
        assert problems == ()
        assert read is not None
        assert as_record(read) == as_record(specimen)

    @given(st.text())
    def test_guarding_is_reversible(self, text: str) -> None:
        assert unguarded(guarded(text)) == text

    @given(foreign)
    def test_foreign_data_are_refused_with_a_reason(self, data: object) -> None:
        try:
            (read,) = from_json(json.dumps({"specimens": [data]}).encode())
        except InputError as error:
            told = error
        else:
            assert read.id
            return
        assert told.remedy

    def test_several_kinds_at_once_and_what_is_refused(self, tmp_path: Path, command: Command) -> None:
        command("collection", "new", "a")
        command("collection", "add", "a", "--tag", "x")
        made = json.loads(command("collection", "export", "a", "-o", "all", "--as", "dwca,csv,json", "--json").out)
        assert [Path(path).name for path in made["files"]] == ["all.zip", "all.csv", "all.json"]
        for words, what in (
            (("-o", "x", "--as", "pdf"), "unknown kind of export 'pdf'"),
            (("-o", "a/specimens/INV-0001.yaml"), "own files"),
            (("-o", "a/collection.yaml"), "own files"),
            (("-o", "nowhere/x.csv"), "cannot be written"),
        ):
            refused = command("collection", "export", "a", *words)
            assert (refused.code, what in refused.err) == (2, True), refused
        (tmp_path / "a" / "specimens" / "B.yaml").write_text("tagg: x\n")
        partly = command("collection", "export", "a", "-o", "x.csv")
        assert (partly.code, "unknown key 'tagg'" in partly.err) == (2, True)

    @pytest.mark.parametrize("kind", ["csv", "json", "dwca"])
    def test_through_the_command_line(self, tmp_path: Path, command: Command, kind: str) -> None:
        (tmp_path / "some.csv").write_text(SOME, encoding="utf-8")
        for folder in ("a", "b"):
            command("collection", "new", folder)
        command("collection", "import", "a", "some.csv", "--write")
        command("collection", "left", "a", "T1", "--how", "sold", "--on", "2021-06", "--write")
        assert command("collection", "export", "a", "-o", f"x.{kind}", "--as", kind).code == 0
        assert command("collection", "import", "b", f"x.{kind}", "--write").code == 0
        read = [
            {path.name: path.read_bytes() for path in (tmp_path / folder / "specimens").iterdir()} for folder in "ab"
        ]
        assert read[0].keys() == read[1].keys()
        assert command("collection", "verify", "b").code == 0
        second = command("collection", "import", "b", f"x.{kind}", "--write", "--json")
        assert second.code == 1
        assert all("is taken" in row["why"] for row in json.loads(second.out)["left"])


def described() -> Collection:
    names = (
        NameEntry("Brachypelma vagans", "(Ausserer, 1875)", PartialDate.parse("2014"), qualifier="cf."),
        NameEntry("Tliltocatl vagans", "(Ausserer, 1875)", PartialDate.parse("2021-02-11"), standing="moved",
                  according_to="Mendoza & Francke 2020", source="starter 2026.1", decided_by="keeper"),
    )  # fmt: skip
    parent = Specimen("A1", Place(), "Mex red rump", PartialDate.parse("2014"), Sex.parse("0.1.0"), names=names)
    child = Specimen("A2", Place(), 'tag, with "quotes"\nand a second line', origin=("A1", "a seller"), names=names[1:])
    return Collection("", Settings(title="Back room"), (parent, child), ())


@pytest.mark.filterwarnings("ignore::DeprecationWarning")
class TestArchiveInAReferenceReader:
    """python-dwca-reader (PyPI), written at the Belgian Biodiversity Platform, is the reference here."""

    def test_core_extensions_and_metadata_are_found(self, tmp_path: Path) -> None:
        from dwca.read import DwCAReader

        path = tmp_path / "a.zip"
        path.write_bytes(as_archive(described(), ALL))
        with DwCAReader(str(path)) as reader:
            assert reader.descriptor is not None
            assert reader.descriptor.core.type == "http://rs.tdwg.org/dwc/terms/Occurrence"
            assert reader.metadata is not None
            assert reader.metadata.find("dataset/title").text == "Back room"
            first, second = list(reader)
            assert first.id == "A1"
            assert first.data[term("scientificName")] == "Tliltocatl vagans (Ausserer, 1875)"
            assert first.data[term("sex")] == "female"
            assert first.data[term("basisOfRecord")] == "LivingSpecimen"
            assert first.data[term("degreeOfEstablishment")] == "captive"
            assert first.data[term("previousIdentifications")] == "Brachypelma vagans (Ausserer, 1875)"
            assert second.data[term("verbatimLabel")] == 'tag, with "quotes"\nand a second line'
            history = [row for row in first.extensions if row.rowtype.endswith("/Identification")]
            # Darwin Core: scientificName excludes the qualifier, the label's words stay beside it.
            assert [row.data[term("identificationQualifier")] for row in history] == ["cf.", ""]
            assert history[0].data[term("scientificName")] == "Brachypelma vagans (Ausserer, 1875)"
            assert history[0].data[term("verbatimIdentification")] == "Brachypelma cf. vagans"
            # GBIF's extension: the current identification stands in the core and in the history.
            assert history[-1].data[term("scientificName")] == first.data[term("scientificName")]
            assert history[-1].data[term("dateIdentified")] == first.data[term("dateIdentified")]
            (relation,) = [row for row in second.extensions if row.rowtype.endswith("/ResourceRelationship")]
            assert relation.data[term("relationshipOfResource")] == "offspring of"
            assert relation.data[term("relatedResourceID")] == "A1"

    def test_every_term_is_a_darwin_core_term(self, tmp_path: Path) -> None:
        """Names of the Darwin Core list of terms (2026-05-26) that the archive uses, copied from that list."""
        from dwca.read import DwCAReader

        path = tmp_path / "a.zip"
        path.write_bytes(as_archive(described(), ALL))
        with DwCAReader(str(path)) as reader:
            assert reader.descriptor is not None
            files = [reader.descriptor.core, *reader.descriptor.extensions]
            terms = {term.rpartition("/")[2] for file in files for term in file.terms}
        assert terms <= set(TERMS.split())


TERMS = """
occurrenceID organismID catalogNumber scientificName scientificNameAuthorship identificationQualifier
verbatimIdentification dateIdentified nameAccordingTo vernacularName verbatimLabel sex individualCount
lifeStage locality country kingdom taxonRank license rightsHolder occurrenceRemarks disposition
previousIdentifications dynamicProperties basisOfRecord degreeOfEstablishment nomenclaturalCode
identificationID identifiedBy identificationReferences identificationRemarks resourceID relationshipOfResource
relatedResourceID
"""


def term(name: str) -> str:
    return f"http://rs.tdwg.org/dwc/terms/{name}"


@pytest.mark.parametrize(
    ("name", "columns"),
    [
        ("Cubaris sp.", ("Cubaris", "sp.", "Cubaris sp.")),
        ('Cubaris sp. "Rubber Ducky"', ("Cubaris", 'sp. "Rubber Ducky"', 'Cubaris sp. "Rubber Ducky"')),
        ("Avicularia cf. minatrix", ("Avicularia minatrix", "cf.", "Avicularia cf. minatrix")),
        ("??", ("Animalia", "", "??")),  # what is no name is an animal, and stands word for word beside it
    ],
)
def test_a_qualifier_within_the_name_is_told_apart(name: str, columns: tuple[str, str, str]) -> None:
    """Darwin Core: scientificName excludes the qualifier, which goes to identificationQualifier."""
    animal = Specimen("A1", Place(), "tag", names=(NameEntry(name),))
    content = as_archive(Collection("", Settings(), (animal,), ()), ALL)
    with zipfile.ZipFile(io.BytesIO(content)) as archive:
        (row,) = csv.DictReader(io.StringIO(archive.read("occurrence.csv").decode()))
    terms = ("scientificName", "identificationQualifier", "verbatimIdentification")
    assert tuple(row[key] for key in terms) == columns


def test_the_same_collection_gives_the_same_bytes() -> None:
    assert as_archive(described(), ALL) == as_archive(described(), ALL)


def test_an_archive_of_others_is_no_export_of_ours() -> None:
    target = io.BytesIO()
    with zipfile.ZipFile(target, "w") as archive:
        archive.writestr("occurrence.csv", "id,scientificName\n1,Felis catus\n")
    assert own_records(target.getvalue()) is None
    assert read_table(target.getvalue()).sheets[0].rows[0].cells == ("1", "Felis catus")
