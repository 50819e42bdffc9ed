"""Which column of a keeper's table holds the ids of animals, and names that stand as text within formulas.

Layouts are common practice, no source; names of real species (Mendoza & Francke 2020, doi 10.1093/zoolinnean/zlz046).
"""

from __future__ import annotations

import io
from typing import Any

import pytest

from namekeeper.faces.telling.transfer import why_it_stays
from namekeeper.records.specimen import Collection, NameEntry, Settings, Specimen
from namekeeper.tasks.tables import TablePlan, TableWishes, plan_table
from namekeeper.words.dates import PartialDate
from namekeeper.words.errors import InputError, Place

OLD, NEW = "Brachypelma vagans", "Tliltocatl vagans"


def animal(number: int, *names: str) -> Specimen:
    entries = tuple(NameEntry(name, since=PartialDate.parse(str(2014 + i))) for i, name in enumerate(names))
    return Specimen(str(number), Place(), "tag", names=entries)


# Two animals that carried one name and are now two species: only the id in the row tells which is meant.
COLLECTION = Collection(
    "",
    Settings(),
    (animal(1, OLD, NEW), animal(2, OLD, "Tliltocatl albopilosus"), *(animal(n, "Aus bus") for n in range(3, 9))),
    (),
)


def plan(text: str, id_column: str | None = None) -> TablePlan:
    return plan_table(COLLECTION, text.encode(), TableWishes(id_column=id_column))


@pytest.mark.parametrize(
    ("header", "column"),
    [
        ("Qty,Animal,Species", "Animal"),
        ("Menge,Tier,Art", "Tier"),
        ("Anzahl,Nr,Art", "Nr"),
        ("Size,Which one,Species", "Which one"),
        ("No,Animal,Species", "Animal"),
        ("Prix,Mygale,Espèce", "Mygale"),
    ],
)
def test_the_header_goes_before_small_numbers(header: str, column: str) -> None:
    made = plan(f"{header}\n2,1,{OLD}\n1,2,{OLD}\n3,2,{OLD}\n")
    assert [(found.column, found.rows) for found in made.ids] == [(column, 3)]
    assert [change.new for change in made.changes] == [NEW, "Tliltocatl albopilosus", "Tliltocatl albopilosus"]


def test_numbers_that_mean_something_else_are_no_ids() -> None:
    made = plan(f"Qty,Species\n1,{OLD}\n2,{OLD}\n")
    assert made.ids == ()
    assert made.changes == ()
    assert ["give the specimen's id" in why_it_stays(left) for left in made.left] == [True, True]


def test_the_keeper_names_the_column() -> None:
    table = f"No,Animal,Species\n2,1,{OLD}\n"
    assert [change.new for change in plan(table).changes] == [NEW]
    assert [change.new for change in plan(table, "no").changes] == ["Tliltocatl albopilosus"]
    with pytest.raises(InputError, match="no column 'Nothing'") as refused:
        plan(table, "Nothing")
    assert "No, Animal, Species" in refused.value.remedy


def test_a_title_above_the_header_is_no_header() -> None:
    made = plan(f"Feeding 2024,,\n\nAnimal,Species,Date\n1,{OLD},2024\n")
    assert [(change.row, change.column, change.new) for change in made.changes] == [(4, "Species", NEW)]


def workbook(*formulas: str) -> bytes:
    from openpyxl import Workbook

    book = Workbook()
    sheet: Any = book.active
    sheet.append(["Animal", "Text"])
    for formula in formulas:
        sheet.append([1, formula])
    target = io.BytesIO()
    book.save(target)
    return target.getvalue()


@pytest.mark.parametrize(
    ("formula", "listed"),
    [
        (f'="{OLD}"', True),
        (f'=IF(A2>0,"{OLD}","nobody")', True),
        (f'=CONCATENATE("{OLD}"," (female)")', True),
        (f'="{NEW}"', False),
        ('=A2&" crickets"', False),
        ("=SUM(A2:A9)", False),
    ],
)
def test_a_formula_that_holds_an_old_name_is_listed(formula: str, listed: bool) -> None:
    for content in (workbook(formula), f'Animal;Text\n1;"{formula.replace(chr(34), chr(34) * 2)}"\n'.encode()):
        made = plan_table(COLLECTION, content, TableWishes())
        assert made.changes == ()
        assert [why_it_stays(left) for left in made.left] == (
            ["a formula holds this name as text: change it by hand"] if listed else []
        )
        assert made.content == content
