"""Sources that differ."""

from __future__ import annotations

from namekeeper.evidence.statements import Dispute
from tests.judging.build import edition, says, taxon
from tests.judging.scenario import VERIFIED, VERSICOLOR, Scenario, heard, label, sunk, valid

SCENARIOS = (
    Scenario(
        "two papers that differ, kept side by side",
        "Longhorn & Gabriel 2019 against Mendoza & Francke 2020",
        label("Brachypelma fossorium Valerio, 1980", "2010"),
        (
            heard(
                asked="Brachypelma fossorium",
                disputes=[
                    Dispute(
                        "Brachypelma fossorium",
                        (
                            taxon("Sandinista lanceolatum (Simon, 1891)"),
                            taxon("Stichoplastoris fossorius (Valerio, 1980)"),
                        ),
                        "both papers",
                        VERIFIED,
                    )
                ],
            ),
        ),
        "disputed",
        choices=("Sandinista lanceolatum", "Stichoplastoris fossorius"),
    ),
    Scenario(
        "two sources of the same year that differ on the genus",
        "Huang & Chen 2013; breeders and authors keep Dorcus",
        label("Dorcus titanus (Boisduval, 1835)", "2010"),
        (
            heard(
                sunk("Dorcus titanus (Boisduval, 1835)", "Serrognathus titanus (Boisduval, 1835)", "transfer", "2013")
            ),
            heard(valid("Dorcus titanus (Boisduval, 1835)", by=edition("inaturalist-export", "2026"))),
        ),
        "disputed",
        choices=("Dorcus titanus", "Serrognathus titanus"),
    ),
    Scenario(
        "a copy that lags",
        "World Spider Catalog list of late 2021 against Zamani et al. 2025, ZooKeys 1247: 89-126",
        label("Monocentropus longimanus Pocock, 1903", "2026"),
        (
            heard(
                sunk("Monocentropus longimanus Pocock, 1903", "Satyrex longimanus (Pocock, 1903)", "transfer", "2025")
            ),
            heard(valid("Monocentropus longimanus Pocock, 1903", by=edition("checklistbank", "2021-12"))),
        ),
        "moved",
        "Satyrex longimanus (Pocock, 1903)",
        True,
        words="not counted",
    ),
    Scenario(
        "two copies of one catalogue have one vote",
        "copies of the World Spider Catalog of 2020 and 2024",
        label("Avicularia versicolor", "2014"),
        (
            heard(VERSICOLOR),
            heard(valid("Avicularia versicolor (Walckenaer, 1837)", by=edition("a", "2020", "wsc"))),
            heard(
                says(
                    "Avicularia versicolor",
                    "Avicularia versicolor (Walckenaer, 1837)",
                    "Caribena versicolor (Walckenaer, 1837)",
                    by=edition("b", "2024", "wsc"),
                )
            ),
        ),
        "moved",
        "Caribena versicolor (Walckenaer, 1837)",
        True,
    ),
    Scenario(
        "one spelling, two nominal taxa, the label names no author",
        "Code Art. 57.2, example Culex affinis",
        label("Culex affinis", "2000"),
        (
            heard(
                valid("Culex affinis Stephens, 1825"),
                sunk("Culex affinis Adams, 1903", "Culex other Aus, 1920", "synonymy", "1950"),
            ),
        ),
        "disputed",
    ),
)
