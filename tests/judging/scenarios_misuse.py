"""Misuse in the trade against the date of the label."""

from __future__ import annotations

from namekeeper.evidence.statements import Misuse, NameStatus
from tests.judging.build import day, misuse, says, taxon
from tests.judging.scenario import (
    HAMORII,
    MENDOZA_2017,
    SMITHI,
    SMITHI_HEARD,
    SMITHI_USE,
    VERIFIED,
    Scenario,
    heard,
    label,
    sunk,
)

SCENARIOS = (
    Scenario(
        "misuse, label before it was cleared up",
        MENDOZA_2017,
        label(SMITHI, "2009-05-03"),
        (SMITHI_HEARD,),
        "misapplied",
        choices=("Brachypelma hamorii", "Brachypelma smithi"),
        words="2009-05-03",
    ),
    Scenario(
        "the same animal under the older genus",
        f"{MENDOZA_2017}; Euathlus of older books",
        label("Euathlus smithi", "1990"),
        (
            heard(
                says("Euathlus smithi", "Euathlus smithi (F. O. Pickard-Cambridge, 1897)", SMITHI), misuses=[SMITHI_USE]
            ),
        ),
        "misapplied",
        choices=("Brachypelma hamorii", "Brachypelma smithi"),
    ),
    Scenario(
        "cleared up on paper, still going on in the trade",
        MENDOZA_2017,
        label(SMITHI, "2021"),
        (SMITHI_HEARD,),
        "current",
        choices=("Brachypelma hamorii", "Brachypelma smithi"),
        words="still sold for",
    ),
    Scenario(
        "the keeper has decided once",
        MENDOZA_2017,
        label(SMITHI, "2021", decided_once=True),
        (SMITHI_HEARD,),
        "current",
    ),
    Scenario(
        "no date at all: every old meaning is open",
        MENDOZA_2017,
        label(SMITHI, None),
        (SMITHI_HEARD,),
        "misapplied",
        choices=("Brachypelma hamorii",),
    ),
    Scenario(
        "offspring inherit the label date of the parents",
        f"{MENDOZA_2017}; young of 2024 under a label of 2010",
        label(SMITHI, "2010"),
        (SMITHI_HEARD,),
        "misapplied",
        choices=("Brachypelma hamorii",),
    ),
    Scenario(
        "only the year is known, and the paper came out in it",
        MENDOZA_2017,
        label(SMITHI, "2017"),
        (SMITHI_HEARD,),
        "misapplied",
        choices=("Brachypelma hamorii",),
    ),
    Scenario(
        "locality narrows, and still asks",
        f"{MENDOZA_2017}: hamorii in Colima, Jalisco and Michoacán; smithi in Guerrero",
        label(SMITHI, "2009", locality="Colima"),
        (
            heard(
                says(
                    "Brachypelma smithi", SMITHI, taxon(SMITHI, range_="Mexico (Guerrero)"), status=NameStatus.ACCEPTED
                ),
                misuses=[
                    Misuse(
                        "Brachypelma smithi",
                        "",
                        (taxon(HAMORII, range_="Mexico (Colima; Jalisco)"),),
                        day("1970"),
                        day("2017"),
                        None,
                        MENDOZA_2017,
                        VERIFIED,
                    )
                ],
            ),
        ),
        "misapplied",
        choices=("Brachypelma hamorii",),
        words="2009",
    ),
    Scenario(
        "a name sunk whose trade use is another animal",
        "Paula et al. 2014, Zoologia 31(1): 63-80; trade use: common practice, no source",
        label("Acanthoscurria brocklehursti F. O. Pickard-Cambridge, 1896", "2008"),
        (
            heard(
                sunk(
                    "Acanthoscurria brocklehursti F. O. Pickard-Cambridge, 1896",
                    "Acanthoscurria theraphosoides (Doleschall, 1871)",
                    "synonymy",
                    "2014",
                ),
                misuses=[
                    misuse("Acanthoscurria brocklehursti", ["Acanthoscurria geniculata (C. L. Koch, 1841)"], "2014")
                ],
            ),
        ),
        "misapplied",
        choices=("Acanthoscurria geniculata", "Acanthoscurria theraphosoides"),
    ),
)
