"""``namekeeper lists``: tables and archives, editions, encodings, fetching, wrong use."""

from __future__ import annotations

from tests.recorded.made_files import coldp_archive, dwc_archive, zipped
from tests.recorded.scenario import Put, Run, Scenario, collection, run, runs
from tests.recorded.scenarios.animals import FEW

_TABLE = """\
id,name,authorship,status,accepted_id,rank,common,range
1,Tliltocatl vagans,"(Ausserer, 1875)",accepted,,species,Mexican red rump,Mexico
2,Brachypelma vagans,"(Ausserer, 1875)",synonym,1,species,,
3,Inventaria nova,"Roe, 1999",accepted,,species,Moon spider,Exampleland
4,Inventaria vetus,"Roe, 1990",doubtful,,species,,
5,Inventaria,"Roe, 1990",accepted,,genus,,
6,Aus bus,,nonsense,,species,,
7,,,accepted,,species,,
8,Inventaria falsa,"Roe, 2001",synonym,99,species,,
"""
_DOUBTED, _SUNK = '4,Inventaria vetus,"Roe, 1990",doubtful,,', '4,Inventaria vetus,"Roe, 1990",synonym,3,'
_NEWER = _TABLE.replace("3,Inventaria nova", "3,Nuntia nova").replace(_DOUBTED, _SUNK)
_WORDS = "Art;Verfasser;Bemerkung\nBrachypelma kahlenbergi;Rudloff, 2008;Größe 6 cm\nAvicularia žižkai;Říha, 1999;ěšč\n"


def _added(name: str) -> tuple[Run, ...]:
    key = name.partition(".")[0]
    return (
        run(f"lists add {name} --as {key} --column name=Art --json"),
        run("aka --json 'Avicularia žižkai'"),
        run(f"lists remove {key} --yes"),
    )


SCENARIOS = (
    Scenario(
        "lists-of-tables",
        (
            *runs(
                "lists",
                "lists --json",
                "lists add t.csv --as mine --edition 2023 --licence CC0-1.0 --citation 'Mine 2023'",
                "lists add newer.csv --as mine --edition 2024 --complete-for Inventaria --keep-current",
                "lists",
                "lists --json",
                "lookup --offline --json 'Inventaria nova' 'moon spiders' 'I. vetus' 'Inventaria falsa'",
                "lists compare mine@2023 mine@2024",
                "lists compare mine@2023 mine@2024 --json",
                "lists compare mine@2023 newer.csv --collection animals -o changes.html",
                "lists compare t.csv t.csv",
                "lists use mine@2024",
                "check animals --offline",
                "check animals --offline --json --only N1 --only N2",
                "settle animals --offline --take-safe --write --json",
                "aka 'Inventaria nova'",
                "lookup --offline 'Inventaria unheard'",
                "lists use mine@2023 --json",
                "lists remove mine@2024 --yes",
                "lists remove mine --json --yes",
                "lists",
            ),
        ),
        {"t.csv": _TABLE, "newer.csv": _NEWER}
        | collection(
            "animals",
            {
                "N1": "names:\n  - name: Inventaria nova\n    since: 2020\n    recorded: 2020\n",
                "N2": "names:\n  - name: Inventaria vetus\n    since: 2020\n    recorded: 2020\n",
                "N3": "names:\n  - name: Inventaria absens\n    since: 2020\n    recorded: 2020\n",
            },
        ),
    ),
    Scenario(
        "lists-of-archives",
        (
            *runs(
                "lists add dwca.zip --as spiders --edition 2024-05 --licence CC0-1.0 --json",
                "lists add dwca.zip --as copy --upstream spiders --complete-for Theraphosidae",
                "lists add coldp.zip --as coldp",
                "lists --json",
                "lists",
                "check few --offline --json",
                "aka Tliltocatl vagans --json",
                "lookup --offline Rotfuss",
                "lookup --offline --json 'Tliltocatl unheardus'",
                "lists compare spiders coldp",
                "lists add nothing.zip --as x",
                "lists add half.zip --as x",
                "lists add doctype.zip --as x",
                "lists add cut.zip --as x",
                "lists",
            ),
        ),
        {
            "dwca.zip": dwc_archive(),
            "coldp.zip": coldp_archive(),
            "nothing.zip": zipped({"readme.txt": "no names here\n"}),
            "half.zip": zipped({"meta.xml": "<archive"}),
            "doctype.zip": zipped({"meta.xml": '<!DOCTYPE a [<!ENTITY b "c">]><archive>&b;</archive>'}),
            "cut.zip": dwc_archive()[:300],
        }
        | collection("few", FEW),
    ),
    Scenario(
        "lists-in-encodings",
        (
            *_added("utf8.csv"),
            *_added("marked.csv"),
            *_added("cp1250.csv"),
            *_added("macroman.csv"),
            *_added("utf16.csv"),
            *_added("utf16le.csv"),
            *_added("sep.csv"),
            *_added("tabs.tsv"),
        ),
        {
            "utf8.csv": _WORDS,
            "marked.csv": f"\ufeff{_WORDS}",
            "cp1250.csv": _WORDS.encode("cp1250"),
            "macroman.csv": _WORDS.replace("ž", "z").replace("Ř", "R").replace("ěšč", "é").encode("mac_roman"),
            "utf16.csv": b"\xff\xfe" + _WORDS.encode("utf-16-le"),
            "utf16le.csv": _WORDS.encode("utf-16-le"),
            "sep.csv": f"sep=;\n{_WORDS}",
            "tabs.tsv": _WORDS.replace(";", "\t"),
        },
    ),
    Scenario(
        "lists-fetched",
        (
            run("lists fetch Theraphosidae --as col", service="catalogue"),
            run("lists fetch Theraphosidae --as col2 --json --complete-for Theraphosidae", service="catalogue"),
            run("lists"),
            run("check few --offline --json"),
            run("lists fetch Nonesuchidae --as none", service="catalogue"),
            run("lists fetch Theraphosidae --as starter", service="catalogue"),
            run("lists fetch Theraphosidae --as refused", service="refusing"),
            run("lists fetch Theraphosidae --as login", service="a login page"),
            run("lists fetch Theraphosidae --as x", environ={"NAMEKEEPER_URL_CHECKLISTBANK": "http://example.org"}),
        ),
        collection("few", FEW),
    ),
    Scenario(
        "lists-wrong-use",
        (
            *runs(
                "lists add t.csv --as starter",
                "lists add t.csv --as ../evil",
                "lists add t.csv --as A",
                "lists add t.csv --as mine --column name",
                "lists add t.csv --as mine --column nane=Name",
                "lists add t.csv --as mine --column name=Nothing",
                "lists add missing.csv --as mine",
                "lists add . --as mine",
                "lists add empty.csv --as mine",
                "lists add headless.csv --as mine",
                "lists add binary.csv --as mine",
                "lists add ragged.csv --as mine",
                "lists add ragged.csv --as mine --edition ../1",
                "lists add t.csv --as mine --edition 1",
                "lists add t.csv --as mine --edition 1",
                "lists compare mine other",
                "lists compare t.csv ../../x",
                "lists compare mine t.csv --collection nowhere",
                "lists remove other",
                "lists remove ../mine",
                "lists use mine@9",
                "lists use mine",
                "lists --json bogus",
            ),
            Put("t.csv", "name,status\nAus bus,\n" + "Aus bus,odd\n" * 12),
            *runs(
                "lists add t.csv --as mine --edition 2",
                "lists remove mine@2 --yes",
                "lists remove mine@1 --yes",
                "lists",
            ),
        ),
        {
            "t.csv": "Name\nAus bus\n",
            "empty.csv": "",
            "headless.csv": "Aus bus,x\nAus cus,y\n",
            "binary.csv": bytes(range(256)),
            "ragged.csv": 'name,status\nAus bus,accepted,extra\n"Aus cus\n',
        },
    ),
)
