"""``namekeeper history`` and ``namekeeper aka``."""

from __future__ import annotations

from tests.recorded.scenario import Put, Scenario, collection, run, runs
from tests.recorded.scenarios.animals import FEW, ODD, STORY

_NAMES = (
    "Tliltocatl vagans",
    "Brachypelma vagans",
    "Brachypelma smithi",
    "Brachypelma hamorii",
    "Haplopelma lividum",
    "Chromatopelma cyaneopubescens",
    "Grammostola rosea",
    "Avicularia versicolor",
    "Poecilotheria metallica",
    "Scolopendra subspinipes",
)

SCENARIOS = (
    Scenario(
        "history",
        (
            *runs(
                "history few",
                "history few --json",
                "history few S1",
                "history few S1 A1",
                "history few S1 --on 2015-01-01",
                "history few S1 --on 2008 --json",
                "history few S1 --on 1999",
                "history few S1 --on 2015-01-01 --known 2014-05-01",
                "history few S1 --known 2020 --json",
                "history few --year 2021",
                "history few --year 2014 --json",
                "history few --year 1999",
                "history few --year twenty",
                "history few --on soon",
                "history few B9",
                "history few s1",
                "history nowhere",
                "history odd",
            ),
            run("history few S1", terminal=True),
            Put("few/specimens/S1.yaml", STORY.replace("2014-05-03", "2013-05-03")),
            *runs("history few S1", "collection verify few", "collection verify few --accept"),
        ),
        collection("few", FEW | {"S1": STORY}) | collection("odd", ODD),
    ),
    Scenario(
        "aka",
        (
            *(run(f"aka '{name}'") for name in _NAMES),
            *(run(f"aka --json {name}") for name in _NAMES[:4]),
            *runs(
                "aka GBB",
                "aka GBB --json",
                "aka pinktoe",
                "aka 'Chilean rose'",
                "aka B. smithi",
                "aka 'B. vagans' --json",
                "aka Brachypelma",
                "aka 'Tliltocatl vagnas'",
                "aka 'Nullum nomen'",
                "aka 'Nullum nomen' --json",
                "aka ''",
                "aka 'Pterinochilus murinus Pocock, 1897'",
            ),
            run("aka 'Tliltocatl vagans'", terminal=True),
        ),
    ),
)
