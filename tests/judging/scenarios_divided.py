"""Splits and revivals against the date of the label."""

from __future__ import annotations

from tests.judging.build import edition, says
from tests.judging.scenario import MINOTAURUS, PRENDINI, Scenario, heard, label, split, sunk, valid

SCENARIOS = (
    Scenario(
        "a split after the label",
        "Hamilton, Hendrixson & Silvestre Bringas 2024, ZooKeys 1210: 61-98",
        label("Aphonopelma chiricahua Hamilton, Hendrixson & Bond, 2016", "2019"),
        (
            heard(
                valid("Aphonopelma chiricahua Hamilton, Hendrixson & Bond, 2016"),
                divisions=[
                    split(
                        "Aphonopelma chiricahua",
                        ["Aphonopelma chiricahua", "Aphonopelma jacobii Hamilton & Hendrixson, 2024"],
                        "2024",
                    )
                ],
            ),
        ),
        "divided",
        choices=("Aphonopelma chiricahua", "Aphonopelma jacobii"),
    ),
    Scenario(
        "the same name on a younger label",
        "Hamilton, Hendrixson & Silvestre Bringas 2024, ZooKeys 1210: 61-98",
        label("Aphonopelma chiricahua Hamilton, Hendrixson & Bond, 2016", "2025"),
        (
            heard(
                valid("Aphonopelma chiricahua Hamilton, Hendrixson & Bond, 2016"),
                divisions=[
                    split(
                        "Aphonopelma chiricahua",
                        ["Aphonopelma chiricahua", "Aphonopelma jacobii Hamilton & Hendrixson, 2024"],
                        "2024",
                    )
                ],
            ),
        ),
        "current",
    ),
    Scenario(
        "a split and a move in one paper",
        f"{PRENDINI}: a subspecies raised beside the species",
        label("Heterometrus swammerdami Simon, 1872", "2015"),
        (
            heard(
                sunk(
                    "Heterometrus swammerdami Simon, 1872",
                    "Gigantometrus swammerdami (Simon, 1872)",
                    "transfer",
                    "2020",
                ),
                divisions=[
                    split(
                        "Heterometrus swammerdami",
                        ["Gigantometrus swammerdami (Simon, 1872)", "Gigantometrus titanicus (Couzijn, 1981)"],
                        "2020",
                    )
                ],
            ),
        ),
        "divided",
        choices=("Gigantometrus swammerdami", "Gigantometrus titanicus"),
    ),
    Scenario(
        "a revived species, label from the years it was sunk",
        f"{PRENDINI}; Kawai et al. 2023, Euscorpius 373",
        label("Heterometrus laevigatus (Thorell, 1876)", "2021"),
        (
            heard(
                valid("Heterometrus laevigatus (Thorell, 1876)"),
                divisions=[
                    split(
                        "Heterometrus laevigatus",
                        ["Heterometrus laevigatus (Thorell, 1876)", MINOTAURUS],
                        "2023",
                        "revival",
                        "2020",
                    )
                ],
            ),
        ),
        "divided",
        choices=("Heterometrus laevigatus", "Heterometrus minotaurus"),
    ),
    Scenario(
        "a revived species, label from before it was sunk",
        f"{PRENDINI}; Kawai et al. 2023, Euscorpius 373",
        label("Heterometrus laevigatus (Thorell, 1876)", "2018"),
        (
            heard(
                valid("Heterometrus laevigatus (Thorell, 1876)"),
                divisions=[
                    split(
                        "Heterometrus laevigatus",
                        ["Heterometrus laevigatus (Thorell, 1876)", MINOTAURUS],
                        "2023",
                        "revival",
                        "2020",
                    )
                ],
            ),
        ),
        "current",
    ),
    Scenario(
        "a copy from the years it was sunk lags",
        f"{PRENDINI}; Kawai et al. 2023, Euscorpius 373",
        label(MINOTAURUS, "2018"),
        (
            heard(
                valid(MINOTAURUS), divisions=[split("Heterometrus minotaurus", [MINOTAURUS], "2023", "revival", "2020")]
            ),
            heard(
                says(
                    "Heterometrus minotaurus",
                    MINOTAURUS,
                    "Heterometrus laevigatus (Thorell, 1876)",
                    by=edition("copy", "2021"),
                )
            ),
        ),
        "current",
        words="not counted",
    ),
)
