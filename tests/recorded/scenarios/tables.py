"""``namekeeper tables``: new names into CSV, XLSX and ODS."""

from __future__ import annotations

from tests.recorded.made_files import ods, xlsx
from tests.recorded.scenario import Put, Scenario, collection, run, runs
from tests.recorded.scenarios.animals import FEW, STORY

_LOG = (
    "animal;species;date\nA1;Brachypelma vagans;2024\n;Nonesuch unlisted;2024\nA1;B. vagans;=TODAY()\n"
    "A3;Avicularia avicularia;2024\n;Brachypelma vagans (Ausserer, 1875);\n;Eurypelma vagans;\nB9;Brachypelma smithi;\n"
)
_SHEET = (
    ("id", "species", "note"),
    ("A1", "Brachypelma vagans", "fed & watered"),
    ("A1", "Brachypelma vagans (Ausserer, 1875)", "twice"),
    ("", "B. vagans", ""),
    ("A3", "Avicularia avicularia", "Brachypelma vagans"),
)

SCENARIOS = (
    Scenario(
        "tables-csv",
        (
            *runs("tables animals log.csv", "settle animals --offline --take-safe --write"),
            *runs(
                "tables animals log.csv",
                "tables animals log.csv --json",
                "tables animals log.csv --column species --write",
                "tables animals log.csv --write --json",
                "tables animals log.csv -o log.csv --write",
                "tables animals log.csv -o new.csv --write",
                "tables animals log.csv -o missing/new.csv --write",
                "tables animals log.csv --column nothing",
                "tables animals cp1252.csv --write",
                "tables animals crlf.csv --write",
                "tables animals missing.csv",
                "tables animals .",
                "tables animals empty.csv",
                "tables animals binary.bin",
                "tables nowhere log.csv",
            ),
            run("tables animals log.csv", terminal=True),
        ),
        collection("animals", FEW | {"S1": STORY})
        | {
            "log.csv": _LOG,
            "cp1252.csv": "species,Größe\nBrachypelma vagans,groß\n".encode("cp1252"),
            "crlf.csv": 'species,"a ""b"""\r\n"Brachypelma vagans","x, y"\r\n',
            "empty.csv": "",
            "binary.bin": bytes(range(256)),
        },
    ),
    Scenario(
        "tables-of-spreadsheets",
        (
            run("settle animals --offline --take-safe --write"),
            *runs(
                "tables animals log.xlsx",
                "tables animals log.xlsx --write",
                "tables animals log.xlsx --json --column species -o two.xlsx --write",
                "tables animals log.ods --json",
                "tables animals log.ods --write",
                "tables animals cut.xlsx --write",
                "tables animals cut.ods --write",
                "tables animals no.xlsx",
            ),
            Put("animals/specimens/Z9.yaml", "names: ["),
            run("tables animals log.ods"),
        ),
        collection("animals", FEW | {"S1": STORY})
        | {
            "log.xlsx": xlsx({"Feeding": _SHEET, "Sales & more": _SHEET[:2]}),
            "log.ods": ods({"Futter & Co": _SHEET}),
            "cut.xlsx": xlsx({"Feeding": _SHEET})[:150],
            "cut.ods": ods({"Feeding": _SHEET})[:150],
            "no.xlsx": "species\nBrachypelma vagans\n",
        },
    ),
)
