"""Sunk, replaced, doubtful and nude names."""

from __future__ import annotations

from namekeeper.evidence.statements import NameStatus
from tests.judging.build import act, says
from tests.judging.scenario import MENDOZA_2020, Scenario, heard, label, sunk

SCENARIOS = (
    Scenario(
        "a sunk species",
        "Hamilton, Hendrixson & Bond 2016, ZooKeys 560: 1-340",
        label("Aphonopelma behlei Chamberlin, 1940", "2012"),
        (heard(sunk("Aphonopelma behlei Chamberlin, 1940", "Aphonopelma marxi (Simon, 1891)", "synonymy", "2016")),),
        "merged",
        "Aphonopelma marxi (Simon, 1891)",
    ),
    Scenario(
        "moved and then sunk: followed to the end",
        "Hüsser 2018, ZooKeys 784; Cifuentes & Bertani 2022, Zootaxa 5101(1)",
        label("Tapinauchenius gigas Caporiacco, 1954", "2015"),
        (
            heard(
                says(
                    "Tapinauchenius gigas",
                    "Tapinauchenius gigas Caporiacco, 1954",
                    "Tapinauchenius plumipes (C. L. Koch, 1842)",
                    acts=(
                        act("transfer", "Tapinauchenius gigas", "Pseudoclamoris gigas", "2018"),
                        act("synonymy", "Pseudoclamoris gigas", "Tapinauchenius plumipes", "2022"),
                    ),
                )
            ),
        ),
        "merged",
        "Tapinauchenius plumipes (C. L. Koch, 1842)",
        words="moved to Pseudoclamoris gigas",
    ),
    Scenario(
        "an emperor of old lists",
        "Gallon 2010 (Citharischius sunk in Pelinobius)",
        label("Citharischius crawshayi Pocock, 1900", "2004"),
        (
            heard(
                says(
                    "Citharischius crawshayi",
                    "Citharischius crawshayi Pocock, 1900",
                    "Pelinobius muticus Karsch, 1885",
                    acts=(act("synonymy", "Citharischius crawshayi", "Pelinobius muticus", "2010"),),
                )
            ),
        ),
        "merged",
        "Pelinobius muticus Karsch, 1885",
    ),
    Scenario(
        "a homonym gets a new name",
        "Kronmüller 2012",
        label("Scolopendra subspinipes cingulatoides Attems, 1938", "2005"),
        (
            heard(
                says(
                    "Scolopendra subspinipes cingulatoides",
                    "Scolopendra subspinipes cingulatoides Attems, 1938",
                    "Scolopendra dawydoffi Kronmüller, 2012",
                    status=NameStatus.REPLACED,
                    acts=(
                        act("replacement", "Scolopendra subspinipes cingulatoides", "Scolopendra dawydoffi", "2012"),
                    ),
                )
            ),
        ),
        "renamed",
        "Scolopendra dawydoffi Kronmüller, 2012",
    ),
    Scenario(
        "doubtful, no successor",
        "Hamilton, Hendrixson & Bond 2016, ZooKeys 560: 1-340",
        label("Aphonopelma radinum (Chamberlin & Ivie, 1939)", "2010"),
        (
            heard(
                says("Aphonopelma radinum", "Aphonopelma radinum (Chamberlin & Ivie, 1939)", status=NameStatus.DOUBTFUL)
            ),
        ),
        "doubtful",
    ),
    Scenario(
        "moved and doubtful in one act",
        MENDOZA_2020,
        label("Brachypelma andrewi Schmidt, 1992", "2012"),
        (
            heard(
                says(
                    "Brachypelma andrewi",
                    "Brachypelma andrewi Schmidt, 1992",
                    acts=(act("transfer", "Brachypelma andrewi", "Tliltocatl andrewi", "2020"),),
                )
            ),
        ),
        "doubtful",
        words="moved to Tliltocatl andrewi",
    ),
    Scenario(
        "a nude name",
        "Cifuentes & Bertani 2022, Zootaxa 5101(1)",
        label("Psalmopoeus maya", "2015"),
        (heard(says("Psalmopoeus maya", "Psalmopoeus maya Witt, 1996", status=NameStatus.UNAVAILABLE)),),
        "open",
    ),
)
