"""``namekeeper collection import`` and ``export``."""

from __future__ import annotations

from tests.recorded.made_files import ods, xlsx
from tests.recorded.scenario import Put, Scenario, collection, run, runs
from tests.recorded.scenarios.animals import FEW, ODD, STORY

_CSV = """\
No;Sold as;Scientific name;Bought;Sex;Where;Remarks
1;B. vagans 0.1;Brachypelma vagans;12.03.2023;f;rack A;"two
lines"
2;GBB;Chromatopelma cyaneopubescens;3/2019;0.1;;
3;Mex red knee;;03/04/2023;m;;
4;;;;;;
5;pinktoe;Avicularia avicularia;31.02.2020;lots;;
3;again;;2020;;;
"""
_GUESSED = "Tag;Fundort\nMygale à genoux rouges;Größe unbekannt, Müllheim\nZebra;Šumava, Říčany\n"
_GRID = (
    ("id", "tag", "name", "acquired"),
    ("X-1", "B. vagans", "Brachypelma vagans", "2014-05-03"),
    ("X-2", "GBB", "", "2020"),
)

SCENARIOS = (
    Scenario(
        "import",
        (
            *runs(
                "collection new mine",
                "collection import mine t.csv",
                "collection import mine t.csv --json",
                "collection import mine t.csv --column 'tag=Sold as' --column id=No --dates day-first",
                "collection import mine t.csv --column 'tag=Sold as' --column name='Scientific name' --dates day",
            ),
            run("collection import mine t.csv --column 'tag=Sold as'", terminal=True, stdin="y\n"),
            *runs(
                "collection import mine t.csv --column 'tag=Sold as' --write",
                "collection import mine t.csv --write --json",
                "collection import mine b.xlsx --write",
                "collection import mine b.ods",
                "collection import mine b.xlsx --sheet Nowhere",
                "collection import mine cp1250.csv",
                "collection import mine macroman.csv --json",
                "collection import mine utf16.csv",
                "collection import mine sep.csv --write",
                "collection verify mine",
                "check mine --offline",
            ),
        ),
        {
            "t.csv": _CSV,
            "b.xlsx": xlsx({"Animals": _GRID}),
            "b.ods": ods({"Animals": _GRID}),
            "cp1250.csv": _GUESSED.replace("à", "a").encode("cp1250"),
            "macroman.csv": _GUESSED.replace("Š", "S").replace("Ř", "R").replace("č", "c").encode("mac_roman"),
            "utf16.csv": b"\xff\xfe" + _GUESSED.encode("utf-16-le"),
            "sep.csv": f"sep=;\n{_GUESSED}",
        },
    ),
    Scenario(
        "import-wrong-use",
        (
            *runs(
                "collection import mine missing.csv",
                "collection import mine .",
                "collection import nowhere t.csv",
                "collection import mine empty.csv",
                "collection import mine cut.xlsx",
                "collection import mine binary.bin",
                "collection import mine t.csv --column tag",
                "collection import mine t.csv --column tga=Tag",
                "collection import mine t.csv --column tag=Nothing",
                "collection import mine t.csv --dates backwards",
                "collection import mine columns.csv",
                "collection import mine taken.csv --write",
                "collection import mine broken.json",
                "collection import mine odd.json",
            ),
        ),
        collection("mine", FEW)
        | {
            "t.csv": "Tag\nGBB\n",
            "empty.csv": "",
            "cut.xlsx": xlsx({"Animals": _GRID})[:200],
            "binary.bin": bytes(range(256)),
            "columns.csv": "a,b\n1,2\n",
            "taken.csv": "id,tag\nA1,GBB\nfresh,OBT\nbad id!,x\n",
            "broken.json": "{",
            "odd.json": '{"version": 1, "specimens": [1, {"id": "Q1"}]}',
        },
    ),
    Scenario(
        "export-and-back",
        (
            *runs(
                "collection export animals -o out.csv",
                "collection export animals -o out.json --as json --json",
                "collection export animals -o out.zip --as dwca",
                "collection export animals -o all --as dwca,csv,json",
                "collection export odd -o odd.csv --as csv,json",
                "collection export animals -o x --as pdf",
                "collection export animals -o missing/x.csv",
                "collection export animals -o out.csv",
                "collection export nowhere -o x.csv",
                "collection new back",
                "collection import back out.json --write",
                "collection new back2",
                "collection import back2 out.csv --write --json",
                "collection new back3",
                "collection import back3 out.zip --write",
                "check back --offline",
            ),
            Put("animals/specimens/Z9.yaml", "names: ["),
            run("collection export animals -o rest.csv"),
        ),
        collection("animals", FEW | {"S1": STORY}, "title: A room\nlocality: Hollin Weir\n") | collection("odd", ODD),
    ),
    Scenario("export-sample", (run("collection export animals -o out --as csv,json,dwca"),), sample="animals"),
)
