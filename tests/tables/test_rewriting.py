"""``tables``: only the cells with outdated names change; formulas, formats, other sheets and columns stay."""

from __future__ import annotations

import io
import zipfile
from collections.abc import Callable
from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from namekeeper.faces.telling.transfer import why_it_stays
from namekeeper.records.specimen import Collection, NameEntry, Settings, Specimen
from namekeeper.tables import xml_parts
from namekeeper.tables.delimited import take_apart
from namekeeper.tables.ods import OdsFile
from namekeeper.tables.open_table import editable, read_table
from namekeeper.tables.xml_parts import each
from namekeeper.tasks.tables import TablePlan, TableWishes, plan_table
from namekeeper.words.dates import PartialDate
from namekeeper.words.errors import InputError, Place
from tests.tables.samples import AUTHOR, NEW, OLD, ods, xlsx


def specimen(identifier: str, *names: tuple[str, str]) -> Specimen:
    entries = tuple(
        NameEntry(name, authorship, PartialDate.of(date(2010 + i, 1, 1))) for i, (name, authorship) in enumerate(names)
    )
    return Specimen(identifier, Place(None, None, identifier), "tag", names=entries)


COLLECTION = Collection(
    "",
    Settings(),
    (
        specimen("INV-0001", (OLD, AUTHOR), (NEW, AUTHOR)),
        specimen("INV-0002", ("Grammostola pulchra", "Mello-Leitão, 1921")),
        specimen(
            "INV-0003", ("Avicularia versicolor", "(Walckenaer, 1837)"), ("Caribena versicolor", "(Walckenaer, 1837)")
        ),
        specimen("INV-0004", ("Lasiodora parahybana", ""), ("Lasiodora striatipes", "")),
        specimen("INV-0005", ("Lasiodora parahybana", ""), ("Lasiodora klugi", "")),
        specimen("INV-0006", ("Euathlus sp", ""), ("Homoeomma chilense", "")),
        specimen("INV-0007", ("Euathlus sp", "")),
    ),
    (),
)


cells = st.text(st.characters(exclude_categories=["Cs"], exclude_characters="\x00"), max_size=8)
rows_of_cells = st.lists(st.lists(cells, min_size=2, max_size=4), min_size=1, max_size=5)


def plan(text: str, column: str | None = None) -> TablePlan:
    return plan_table(COLLECTION, text.encode(), TableWishes(column))


def changes(made: TablePlan) -> list[tuple[int, str, str, str]]:
    return [(change.row, change.column, change.old, change.new) for change in made.changes]


class TestCsv:
    def test_only_the_name_changes(self) -> None:
        text = f'\ufeffid;note;species\r\nINV-0001;"a ""b"" ;c";{OLD}\r\n;{OLD} was fed;"{OLD} {AUTHOR}"\r\n'
        made = plan(text, "species")
        assert changes(made)[0] == (2, "species", OLD, NEW)
        assert made.content.decode() == text.replace(f";{OLD}\r\n", f";{NEW}\r\n").replace(f'"{OLD} (', f'"{NEW} (')

    def test_without_a_column_every_column_is_searched_and_texts_are_listed(self) -> None:
        made = plan(f"a,b\n{OLD},{OLD} was fed\n")
        assert changes(made) == [(2, "a", OLD, NEW)]
        assert [(left.column, why_it_stays(left)) for left in made.left] == [
            ("b", f"now {NEW}; something other than the authorship follows the name")
        ]

    @pytest.mark.parametrize(
        "cell", ["B. vagans male", "male Brachypelma vagans", "Brachypelma cf. vagans", '"""Brachypelma vagans"""']
    )
    @pytest.mark.parametrize("box", ["INV-0001", ""])
    def test_an_outdated_name_among_other_words_is_listed(self, box: str, cell: str) -> None:
        made = plan(f"box,name\nINV-0001,{NEW}\n{box},{cell}\n")
        assert made.changes == ()
        assert [(left.row, why_it_stays(left)) for left in made.left] == [
            (3, f"now {NEW}; the name is shortened or stands among other words")
        ]

    def test_the_specimen_decides_where_the_name_does_not(self) -> None:
        text = "box,name\nINV-0004,Lasiodora parahybana\nINV-0005,Lasiodora parahybana\nINV-0001,B. vagans\n"
        made = plan(text)
        assert [change.new for change in made.changes] == ["Lasiodora striatipes", "Lasiodora klugi", "T. vagans"]
        assert made.left == ()

    def test_an_ambiguous_name_is_listed_and_never_changed(self) -> None:
        made = plan("name\nLasiodora parahybana\nEuathlus sp\n")
        assert made.changes == ()
        assert [why_it_stays(left) for left in made.left] == [
            "may be Lasiodora klugi or Lasiodora striatipes: give the specimen's id",
            "some labels still carry this name: Homoeomma chilense is the other",
        ]
        assert made.content == b"name\nLasiodora parahybana\nEuathlus sp\n"

    def test_the_name_in_force_is_not_touched(self) -> None:
        made = plan("id,name\nINV-0002,Grammostola pulchra\nINV-0007,Euathlus sp\n")
        assert (made.changes, made.left) == ((), ())

    def test_an_outdated_name_that_the_specimen_never_carried_is_listed(self) -> None:
        made = plan(f"id,name\nINV-0002,{OLD}\nINV-0001,Caribena versicolor\nINV-0001,{OLD} fed\n")
        assert made.changes == ()
        assert [(left.row, why_it_stays(left)) for left in made.left] == [
            (2, "INV-0002 never carried this name"),
            (4, f"now {NEW}; something other than the authorship follows the name"),
        ]

    def test_an_unknown_column_is_refused_with_those_there(self) -> None:
        with pytest.raises(InputError, match="no column 'x'") as error:
            plan("a,b\nc,d\n", "x")
        assert "a, b" in error.value.remedy

    def test_a_name_that_the_encoding_lacks_is_refused(self) -> None:
        content = "name;é\nBrachypelma vagans;ü\n".encode("cp1252")
        file = editable(content)
        with pytest.raises(InputError, match="cannot be written in"):
            file.replaced({"": {(2, 0): "Ж"}})

    @given(rows_of_cells, st.sampled_from([",", ";", "\t"]))
    def test_replacing_nothing_gives_the_same_bytes(self, rows: list[list[str]], delimiter: str) -> None:
        quoted = [delimiter.join('"' + cell.replace('"', '""') + '"' for cell in row) for row in rows]
        content = "\n".join(quoted).encode()
        assert take_apart(content).replaced({}) == content


class TestXlsx:
    def test_cells_change_and_the_rest_of_the_file_does_not(self) -> None:
        before = xlsx()
        made = plan_table(COLLECTION, before, TableWishes())
        assert changes(made) == [
            (2, "species", OLD, NEW),
            (3, "species", f"{OLD} {AUTHOR}", f"{NEW} {AUTHOR}"),
            (5, "species", f"{OLD} {AUTHOR}", f"{NEW} {AUTHOR}"),
            (6, "species", "B. vagans", "T. vagans"),
            (2, "name", OLD, NEW),
        ]
        old, new = zipfile.ZipFile(io.BytesIO(before)), zipfile.ZipFile(io.BytesIO(made.content))
        assert old.namelist() == new.namelist()
        for name in old.namelist():
            if "worksheets/sheet" not in name:
                assert old.read(name) == new.read(name), name

    def test_formulas_formats_and_values_stay(self) -> None:
        import openpyxl

        before = xlsx()
        content = plan_table(COLLECTION, before, TableWishes("species")).content
        old, new = (openpyxl.load_workbook(io.BytesIO(raw), rich_text=True) for raw in (before, content))
        assert [sheet.title for sheet in new.worksheets] == ["Feeding", "Sales"]
        differing = []
        for a, b in zip(old.worksheets, new.worksheets, strict=True):
            assert str(a.merged_cells) == str(b.merged_cells)
            assert a.dimensions == b.dimensions
            for row_a, row_b in zip(a.iter_rows(), b.iter_rows(), strict=True):
                for cell_a, cell_b in zip(row_a, row_b, strict=True):
                    if hasattr(cell_a, "font"):
                        assert cell_a.style_id == cell_b.style_id
                    if str(cell_a.value) != str(cell_b.value):
                        differing.append(cell_a.coordinate)
        assert differing == ["C2", "C3", "C5", "C6"]
        assert new["Feeding"]["E3"].value == "=SUM(D2:D3)"
        assert new["Feeding"]["C2"].font.italic
        assert new["Feeding"].column_dimensions["C"].width == 31
        rich = new["Feeding"]["C5"].value
        assert [str(run) for run in rich] == [NEW, f" {AUTHOR}"]
        assert rich[0].font.i

    def test_a_formula_is_listed_and_stays(self) -> None:
        # A spreadsheet program stores the result beside the formula; openpyxl writes the formula alone.
        with_result = _with_part(xlsx(), "xl/worksheets/sheet1.xml", b"</f><v />", b"</f><v>%b</v>" % OLD.encode())
        made = plan_table(COLLECTION, with_result, TableWishes("sum"))
        assert made.changes == ()
        assert {why_it_stays(left) for left in made.left} == {
            "a formula: it follows when the table is recalculated",
            "a formula holds this name as text: change it by hand",  # ="Brachypelma vagans" never follows
        }

    def test_a_name_in_several_formats_is_listed(self) -> None:
        from openpyxl import Workbook
        from openpyxl.cell.rich_text import CellRichText, TextBlock
        from openpyxl.cell.text import InlineFont

        book = Workbook()
        assert book.active is not None
        book.active.append(["name"])
        halves = CellRichText(TextBlock(InlineFont(i=True), "Brachypel"), TextBlock(InlineFont(b=True), "ma vagans"))
        book.active["A2"] = halves
        target = io.BytesIO()
        book.save(target)
        made = plan_table(COLLECTION, target.getvalue(), TableWishes())
        assert made.changes == ()
        assert "several formats" in str(made.left[0].why)


def _with_part(content: bytes, part: str, old: bytes, new: bytes) -> bytes:
    """The file with ``old`` replaced in one part."""
    target = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(content)) as source, zipfile.ZipFile(target, "w") as made:
        for name in source.namelist():
            raw = source.read(name)
            assert name != part or old in raw, raw
            made.writestr(name, raw.replace(old, new) if name == part else raw)
    return target.getvalue()


class TestOds:
    def test_cells_change_and_every_other_byte_stays(self) -> None:
        before = ods()
        made = plan_table(COLLECTION, before, TableWishes("species"))
        assert changes(made) == [
            (2, "species", OLD, NEW),
            (3, "species", f"{OLD} {AUTHOR}", f"{NEW} {AUTHOR}"),
            (4, "species", OLD, NEW),
            (5, "species", OLD, NEW),
            (6, "species", f"{OLD} {AUTHOR}", f"{NEW} {AUTHOR}"),
        ]
        assert [left.row for left in made.left] == [8, 9]
        old, new = zipfile.ZipFile(io.BytesIO(before)), zipfile.ZipFile(io.BytesIO(made.content))
        for name in old.namelist():
            if name != "content.xml":
                assert old.read(name) == new.read(name), name
        a, b = old.read("content.xml"), new.read("content.xml")
        assert b.count(NEW.encode()) == 4  # the repeated row is one cell
        assert b.replace(NEW.encode(), OLD.encode()) == a
        assert b"of:=[.C2]*2" in b
        assert new.infolist()[0].filename == "mimetype"
        assert new.infolist()[0].compress_type == zipfile.ZIP_STORED

    def test_a_formula_with_the_old_name_is_listed(self) -> None:
        made = plan_table(COLLECTION, ods(), TableWishes("amount"))
        assert (made.changes, [why_it_stays(left) for left in made.left][:1]) == (
            (),
            ["a formula: it follows when the table is recalculated"],
        )

    def test_a_reference_reader_sees_the_new_names(self) -> None:
        from odf.opendocument import load
        from odf.table import TableCell
        from odf.teletype import extractText

        content = plan_table(COLLECTION, ods(), TableWishes("species")).content
        cells = load(io.BytesIO(content)).spreadsheet.getElementsByType(TableCell)
        texts = [extractText(cell) for cell in cells]
        assert texts.count(NEW) == 2
        assert texts.count(f"{NEW} {AUTHOR}") == 2

    def test_a_repeated_row_that_changes_only_in_part_stays(self) -> None:
        file = OdsFile(ods())
        refused = file.unsafe("Futter & Co", {(4, 1): NEW})
        assert list(refused) == [(4, 1)]
        with pytest.raises(InputError, match="safely"):
            file.replaced({"Futter & Co": {(4, 1): NEW}})


class TestHostileFiles:
    def test_declared_entities_are_refused(self) -> None:
        bomb = b'<!DOCTYPE a [<!ENTITY b "bb"><!ENTITY c "&b;&b;">]><a><c>&c;</c></a>'
        with pytest.raises(InputError, match="declares XML entities"):
            each(bomb, frozenset({"c"}), lambda element: None)

    def test_an_external_entity_is_not_read(self) -> None:
        attack = b'<!DOCTYPE a [<!ENTITY b SYSTEM "file:///etc/hostname">]><a><c>&b;</c></a>'
        with pytest.raises(InputError, match="declares XML entities"):
            each(attack, frozenset({"c"}), lambda element: None)

    @pytest.mark.parametrize(
        "content",
        [
            b"PK\x03\x04 cut short",
            b"\xd0\xcf\x11\xe0 old office",
            b"\x00\x01\x02\x00",
            b"PK\x05\x06" + b"\x00" * 18,
        ],
    )
    def test_what_is_no_table_is_refused(self, content: bytes) -> None:
        for read in (read_table, editable):
            with pytest.raises(InputError) as error:
                read(content)
            assert error.value.remedy

    def test_a_part_that_unpacks_without_end_is_refused(self, monkeypatch: pytest.MonkeyPatch) -> None:
        monkeypatch.setattr(xml_parts, "_LARGEST_PART", 1000)
        with pytest.raises(InputError, match="unpacks to more than"):
            editable(ods())

    def test_a_locked_part_is_refused(self) -> None:
        locked = bytearray(ods())
        for sign, offset in ((b"PK\x03\x04", 6), (b"PK\x01\x02", 8)):  # bit 0 of the flags: encrypted (APPNOTE 4.4.4)
            at = locked.find(sign)
            while at >= 0:
                locked[at + offset] |= 1
                at = locked.find(sign, at + 4)
        with pytest.raises(InputError, match="cannot be unpacked"):
            editable(bytes(locked))

    @pytest.mark.parametrize("make", [xlsx, ods])
    def test_a_file_cut_short_anywhere_is_refused(self, make: Callable[[], bytes]) -> None:
        content = make()
        for length in range(2, len(content), max(1, len(content) // 60)):
            for read in (read_table, editable):
                with pytest.raises(InputError):
                    read(content[:length])

    @given(st.binary(max_size=120))
    def test_any_bytes_are_a_table_or_refused(self, content: bytes) -> None:
        try:
            sheets = editable(content).sheets()
        except InputError:
            return
        assert sheets
