"""``namekeeper check``: the sample collection, odd names, damaged files, services."""

from __future__ import annotations

from tests.recorded.scenario import Content, Put, Remove, Scenario, collection, run, runs
from tests.recorded.scenarios.animals import FEW, ODD, STORY

DAMAGED: dict[str, Content] = {
    "D-01": "names: [",
    "D-02": "tag: x\nsxe: 1.0.0\n",
    "D-03": "tag: x\ntag: y\n",
    "D-04": "",
    "D-05": "- a\n- list\n",
    "D-06": "tag: x\nacquired: yesterday\n",
    "D-07": "tag: x\nsex: lots\n",
    "D-08": "tag: x\nnames: &n\n  - name: Brachypelma vagans\n    since: 2010\n    recorded: 2010\n",
    "D-09": b"tag: Mygale \xe0 genoux\n",
    "D-10": "tag: x\n\tsex: 0.1.0\n",
    "D-11": "tag: x\nnames:\n  - since: 2010\n    recorded: 2010\n",
    "D-12": "tag: x\nnames:\n  - name: Brachypelma vagans\n    standing: nonsense\n",
    "D-13": "tag: fine 0.1\nnames:\n  - name: Brachypelma vagans\n    since: 2010\n    recorded: 2010\n",
    "bad id!": "tag: x\n",
    "d-13": "tag: x\n",
    "D-14": "tag: x\nnames:\n  - name: Brachypelma vagans\n    since: 2030\n    recorded: 2010\n",
    "D-15": "tag: x\ntag2: !!python/object:os.system ls\n",
    "D-16": "tag: x\ndecisions:\n  - kind: nonsense\n    recorded: 2020\n",
}

_SETTINGS = "trust_order: [starter]\nservices: [gbif]\ntitle: A room\n"

SCENARIOS = (
    Scenario(
        "check-sample",
        (
            *runs(
                "check animals --offline",
                "check animals --offline -o report.html",
                "check animals --offline -o report.html --json --only HW-001",
                "check animals --offline --only HW-002 --only HW-013",
                "check animals --offline --only HW-999",
                "check animals --offline --since-last",
                "check animals --offline --since-last",
                "check animals --services none --only HW-011",
            ),
            Put("animals/specimens/HW-002.yaml", "tag: GBB\nnames:\n  - name: Haplopelma minax\n    since: 2009\n"),
            Remove("animals/specimens/HW-001.yaml"),
            *runs("check animals --offline --since-last", "check animals --offline --since-last --json"),
            run("check animals --offline --only HW-011", terminal=True),
            run("check animals --offline --only HW-011 --json", terminal=True),
        ),
        sample="animals",
    ),
    Scenario("check-sample-json", (run("check animals --offline --json"),), sample="animals"),
    Scenario(
        "check-odd-names",
        (
            *runs(
                "check odd --offline",
                "check odd --offline --json",
                "check odd --offline --only O-05 --json",
                "check odd --offline --only o-05",
                "check odd/ --offline --only O-01 -o odd/report.html",
                "check odd --offline -o odd/specimens/O-01.yaml",
                "check odd --offline -o missing/report.html",
            ),
            run("check odd --offline", terminal=True),
            run("check odd --offline --only O-06", days=4000),
            *runs("lookup --offline x", "check empty --offline", "check empty --offline --json", "check few --offline"),
        ),
        collection("odd", ODD, "title: Odd ones\ntrust_order: [starter]\n")
        | {"empty/collection.yaml": "title: Empty\n"}
        | collection("few", FEW | {"S1": STORY}),
    ),
    Scenario(
        "check-damaged-files",
        (
            *runs(
                "check damaged --offline",
                "check damaged --offline --json",
                "check damaged --offline --only D-13",
                "check damaged --offline --only D-01",
                "collection verify damaged",
                "collection verify damaged --json",
                "history damaged",
                "settle damaged --offline --take-safe --write",
                "labels damaged --status",
                "check nowhere --offline",
                "check damaged/specimens/D-01.yaml --offline",
                "check notes --offline",
                "check settings --offline",
                "collection verify settings",
                "check settings2 --offline",
                "check settings3 --offline",
            ),
        ),
        collection("damaged", DAMAGED)
        | {"notes/readme.txt": "no collection\n"}
        | collection("settings", FEW, "titel: A room\ntrust_order: starter\nservices: [gbiff]\n")
        | collection("settings2", FEW, "title: [\n")
        | collection("settings3", FEW, "labels: {colour: red}\nprinter: {offset: [1]}\nlocality: [a]\n"),
    ),
    Scenario(
        "check-online",
        (
            run("check few --json", service="accepting"),
            run("check few", service="accepting"),
            run("check few --offline --json"),
            run("check few --refresh --services gbif", service="accepting", days=2),
            run("check few --max-age 1 --services inaturalist --json", service="accepting", days=3),
            run("check few --refresh", service="gbif refuses", days=4),
            run("check few", service="accepting", days=400),
            run("check few --services gbif,itis --only A1", service="accepting"),
            run("check few --services gbiff"),
            run("check few --services none --json --only A1", service="accepting"),
            run("check few --refresh --offline --only A1"),
            run("check few --max-age -1 --only A1", service="accepting"),
            run("check few --only A1", terminal=True, service="accepting"),
        ),
        collection("few", FEW),
    ),
    Scenario(
        "check-services-fail",
        (
            run("check odd --json --only O-04 --only O-05", service="refusing"),
            run("check odd --only O-04 --only O-05", service="refusing"),
            run("check odd --only O-04 --only O-08", service="no sense"),
            run("check odd --only O-04 --services gbif", service="a login page"),
            run("check odd --only O-04 --since-last", service="accepting"),
            run("check odd --only O-04 --since-last --refresh", service="refusing"),
            run("check set --only A1 --json", service="gbif refuses"),
            run("check set --only A1", environ={"NAMEKEEPER_URL_GBIF": "http://example.org"}),
        ),
        collection("odd", ODD) | collection("set", FEW, _SETTINGS),
    ),
)
