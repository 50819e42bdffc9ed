"""``namekeeper labels``: sheets and templates, what is remembered as printed, settings, wrong use."""

from __future__ import annotations

from tests.recorded.scenario import Put, Scenario, collection, run, runs
from tests.recorded.scenarios.animals import FEW, ODD, STORY

_L = "labels animals -o out.pdf"
_MINE = """\
title: Our room
labels:
  sheet: mine
  template: vial
  qr: no
  cautions: no
  was: no
  sheets:
    mine: {paper: a4, grid: 2x2, label: [90, 40], first: [10, 20]}
printer: {offset: [0.5, -1.25], scale: [1.005, 1]}
"""
_WRONG = (
    "labels: {sheet: mine}",
    "labels: all",
    "labels: {cautions: perhaps}",
    "labels: {copies: many}",
    "labels: {sheets: {mine: {paper: a4, grid: 9x9, label: [70, 37], first: [0, 0]}}}",
    "printer: {scale: [1, 2]}",
)

SCENARIOS = (
    Scenario(
        "labels-sheets-and-templates",
        (
            *runs(
                "labels --sheets",
                "labels --sheets --json",
                "labels --templates --json",
                "labels --test-page a4-3x8-70x37 -o test.pdf",
                "labels --test-page letter-3x10-66.7x25.4 -o test2.pdf --json",
                "labels --test-page a4-3x8 -o test3.pdf",
                "labels --test-page a4-3x8-70x37",
                "labels animals --sheets",
            ),
        ),
        collection("animals", FEW, _MINE),
    ),
    Scenario(
        "labels-of-the-sample",
        (
            run("labels animals -o all.pdf --no-record"),
            run("labels animals -o one.pdf --no-record --json --only HW-011"),
        ),
        sample="animals",
    ),
    Scenario(
        "labels-templates",
        (
            *runs(
                f"{_L} --no-record --json",
                f"{_L} --no-record --template vial --sheet a4-7x27-25.4x10",
                f"{_L} --no-record --template shelf --sheet letter-2x10-101.6x25.4",
                f"{_L} --no-record --template display --sheet a4-cut-2x4-105x74 --json",
                f"{_L} --no-record --sheet roll-62x29 --only S1",
                f"{_L} --no-record --sheet roll-40x20 --only S1 --only A2",
                f"{_L} --no-record --qr id --only S1 --only A1",
                f"{_L} --no-record --qr https://example.org/{{id}} --only S1",
                "labels odd -o odd.pdf --no-record --json",
                "labels odd -o odd.pdf --no-record --template vial --skip-refused",
            ),
        ),
        collection("animals", FEW | {"S1": STORY}) | collection("odd", ODD),
    ),
    Scenario(
        "labels-remembered",
        (
            *runs(
                "labels animals --status",
                "labels animals --status --json",
                f"{_L} --stale --json --printed",
                "labels animals --status",
                f"{_L} --stale --printed",
                f"{_L} --only A1 --used 1-2,4 --printed",
                f"{_L} --only A2 --json",
                f"{_L} --drawer --json --printed",
                "settle animals --offline --take-safe --write",
                "labels animals --status --json",
                "labels animals -o stale.pdf --stale --printed",
                "settle animals --offline --undo A1 --write",
                "settle animals --offline --undo-print A1 --by Somebody --write",
                "labels animals --status",
                f"{_L} --template display --sheet a4-cut-2x2-105x148.5 --only S1 --printed",
                "history animals A1",
                "collection verify animals",
                f"{_L} --start 23 --copies 2 --order place --json --printed",
                f"{_L} --order name --json --no-record",
            ),
        ),
        collection("animals", FEW | {"S1": STORY}),
    ),
    Scenario(
        "labels-preview-and-settings",
        (
            *runs("labels animals --preview page.png", "labels animals --preview page.png --page 3"),
            Put("animals/collection.yaml", _MINE),
            *runs(f"{_L} --json --printed", "labels animals --preview page.png -o page.pdf --no-record"),
            *(step for text in _WRONG for step in (Put("animals/collection.yaml", f"{text}\n"), run(_L))),
        ),
        collection("animals", FEW | {"S1": STORY}),
    ),
    Scenario(
        "labels-wrong-use",
        (
            *runs(
                "labels animals",
                "labels",
                "labels nowhere -o out.pdf",
                f"{_L} --sheet a4-3x8",
                f"{_L} --sheet roll-0x5",
                f"{_L} --template poster",
                f"{_L} --only B-9",
                f"{_L} --only a1 --printed",
                f"{_L} --start 25",
                f"{_L} --start 0",
                f"{_L} --start 2 --drawer",
                f"{_L} --used 1-24",
                f"{_L} --used a",
                f"{_L} --copies 0",
                f"{_L} --order size",
                f"{_L} --printer office",
                f"{_L} --qr https://example.org",
                "labels animals -o missing/out.pdf",
                "labels empty -o out.pdf",
            ),
            Put("animals/specimens/E1.yaml", 'tag: "red knee \U0001f577 0.1"\n'),
            *runs(f"{_L} --json", f"{_L} --skip-refused --json --printed", f"{_L} --only E1 --skip-refused"),
            Put("animals/specimens/E2.yaml", "names: ["),
            *runs(f"{_L} --only A1 --no-record", "labels animals --status"),
        ),
        collection("animals", FEW) | {"empty/collection.yaml": "title: Empty\n"},
    ),
)
