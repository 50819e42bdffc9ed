"""``namekeeper services`` and the names that services add to ``aka``; a key of the keeper's own."""

from __future__ import annotations

from tests.recorded.scenario import Scenario, collection, run, runs
from tests.recorded.scenarios.animals import FEW

_KEY = {"NAMEKEEPER_SPIDERCATALOG_KEY": "K3Y-of-the-keeper"}

SCENARIOS = (
    Scenario(
        "services",
        (
            *runs("services", "services --json"),
            run("services", terminal=True),
            run("services --live", service="good"),
            run("services --live --json", service="good", days=1),
            run("services", days=2),
            run("services --live --json", service="good", environ=_KEY),
            run("services --live", service="gbif refuses"),
            run("services --live --json", service="refusing"),
            run("services --live", service="a login page"),
            run("services", environ={"NAMEKEEPER_URL_GBIF": "http://example.org"}),
            run("services --live", environ={"NAMEKEEPER_URL_ITIS": "ftp://127.0.0.1"}),
        ),
    ),
    Scenario(
        "services-with-a-key",
        (
            run("check few --json", service="good", environ=_KEY),
            run("check few --services spidercatalog --refresh", service="good", environ=_KEY),
            run("check keyed --services spidercatalog --only A1", service="good"),
            run("check few --services spidercatalog --only A4 --refresh", service="refusing", environ=_KEY),
            run("check few --services spidercatalog --only A1", service="good"),
        ),
        collection("few", FEW)
        | collection("keyed", FEW, "services: {spidercatalog_key: K3Y-of-another, contact: keeper@example.org}\n"),
    ),
    Scenario(
        "aka-online",
        (
            run("aka --online --json Anergates atratulus", service="ant"),
            run("aka --online Anergates atratulus", service="ant"),
            run("aka Anergates atratulus", service="ant"),
            run("aka --online --json Tliltocatl vagans", service="refusing"),
            run("aka --online Tliltocatl vagans", service="good"),
            run("aka --online Nullum nomen", service="refusing"),
        ),
    ),
)
