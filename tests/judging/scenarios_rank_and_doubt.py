"""Ranks, lagging lists, recalled and computed names."""

from __future__ import annotations

from namekeeper.words.gender import WordClass
from tests.judging.build import act, edition, says, taxon
from tests.judging.scenario import (
    FUKUSHIMA,
    HAPLOPELMA,
    LOWE,
    MAHAFALI,
    SMITH_JACOBI,
    Scenario,
    genus,
    heard,
    label,
    sunk,
    valid,
)

WHOLE_MOVE = (HAPLOPELMA, genus("Cyriopagopus"))
ANOTHERS = taxon("Cyriopagopus vonwirthi Roth, 1950")

SCENARIOS = (
    Scenario(
        "a list of the year between says the opposite and lags",
        LOWE,
        label(f"Grosphus mahafaliensis {MAHAFALI}", "2010"),
        (
            heard(
                says(
                    "Grosphus mahafaliensis",
                    f"Grosphus mahafaliensis {MAHAFALI}",
                    f"Teruelius mahafaliensis ({MAHAFALI})",
                    acts=(act("transfer", "Grosphus mahafaliensis", "Teruelius mahafaliensis", "2022"),),
                )
            ),
            heard(valid(f"Grosphus mahafaliensis {MAHAFALI}", by=edition("copy", "2021"))),
        ),
        "moved",
        f"Teruelius mahafaliensis ({MAHAFALI})",
        True,
        words="not counted",
    ),
    Scenario(
        "a revived genus: the original combination and no brackets",
        "Acuña et al. 2025, ZooKeys 1233: 139-193",
        label("Orphnaecus philippinus (Schmidt, 1999)", "2016"),
        (
            heard(
                sunk(
                    "Orphnaecus philippinus (Schmidt, 1999)",
                    "Selenobrachys philippinus Schmidt, 1999",
                    "transfer",
                    "2025",
                )
            ),
        ),
        "moved",
        "Selenobrachys philippinus Schmidt, 1999",
        True,
    ),
    Scenario(
        "a subspecies raised to a species",
        FUKUSHIMA,
        label("Avicularia avicularia variegata F. O. Pickard-Cambridge, 1896", "2010"),
        (
            heard(
                sunk(
                    "Avicularia avicularia variegata F. O. Pickard-Cambridge, 1896",
                    "Avicularia variegata F. O. Pickard-Cambridge, 1896",
                    "rank",
                    "2017",
                )
            ),
        ),
        "moved",
        "Avicularia variegata F. O. Pickard-Cambridge, 1896",
        True,
    ),
    Scenario(
        "a species made a subspecies",
        "World Spider Catalog list of late 2021",
        label("Stromatopelma griseipes (Pocock, 1897)", "2005"),
        (
            heard(
                says(
                    "Stromatopelma griseipes",
                    "Stromatopelma griseipes (Pocock, 1897)",
                    "Stromatopelma calceatum griseipes (Pocock, 1897)",
                )
            ),
        ),
        "moved",
        "Stromatopelma calceatum griseipes (Pocock, 1897)",
        True,
    ),
    Scenario(
        "recalled, not seen: never safe",
        "iNaturalist taxonomy as seen in July 2026",
        label("Nhandu chromatus", "2012"),
        (
            heard(
                says(
                    "Nhandu chromatus",
                    "Nhandu chromatus Schmidt, 2004",
                    "Vitalius chromatus (Schmidt, 2004)",
                    recalled=True,
                )
            ),
        ),
        "moved",
        "Vitalius chromatus (Schmidt, 2004)",
        False,
        words="no source that was checked",
    ),
    Scenario(
        "a stale copy: never safe",
        FUKUSHIMA,
        label("Avicularia versicolor", "2014"),
        (
            heard(
                says(
                    "Avicularia versicolor",
                    "Avicularia versicolor (Walckenaer, 1837)",
                    "Caribena versicolor (Walckenaer, 1837)",
                    stale=True,
                )
            ),
        ),
        "moved",
        "Caribena versicolor (Walckenaer, 1837)",
        False,
    ),
    Scenario(
        "the genus moved as a whole, no source has the species: computed, never safe",
        SMITH_JACOBI,
        label("Haplopelma vonwirthi", "2010", genus_records=(HAPLOPELMA, genus("Cyriopagopus"))),
        (heard(asked="Haplopelma vonwirthi"),),
        "moved",
        "Cyriopagopus vonwirthi",
        False,
        words="only worked out",
    ),
    Scenario(
        "computed with agreement, where the word class is known",
        f"{SMITH_JACOBI}; gender of Cyriopagopus, genera list",
        label(
            "Haplopelma salangense",
            "2010",
            genus_records=(HAPLOPELMA, genus("Cyriopagopus")),
            word_class=WordClass.ADJECTIVE,
        ),
        (heard(asked="Haplopelma salangense"),),
        "moved",
        "Cyriopagopus salangensis",
        False,
    ),
    Scenario(
        "the new genus has that epithet by another author: a homonym, so nothing is computed",
        "International Code of Zoological Nomenclature, Articles 53.3 and 57.3 (names invented)",
        label("Haplopelma vonwirthi Braun, 1900", "2010", genus_records=WHOLE_MOVE, namesakes=(ANOTHERS,)),
        (heard(asked="Haplopelma vonwirthi"),),
        "unasked",
        choices=("Cyriopagopus vonwirthi",),
        words="has a Cyriopagopus vonwirthi Roth, 1950",
    ),
    Scenario(
        "the same, and a list of the family lacks the name",
        "International Code of Zoological Nomenclature, Articles 53.3 and 57.3 (names invented)",
        label("Haplopelma vonwirthi Braun, 1900", "2010", genus_records=WHOLE_MOVE, namesakes=(ANOTHERS,)),
        (heard(asked="Haplopelma vonwirthi", by=edition("complete", complete="Theraphosidae")),),
        "unknown",
        choices=("Cyriopagopus vonwirthi",),
        words="has a Cyriopagopus vonwirthi Roth, 1950",
    ),
    Scenario(
        "the label gives no author: nobody can tell whether it is the namesake",
        "International Code of Zoological Nomenclature, Articles 53.3 and 57.3 (names invented)",
        label("Haplopelma vonwirthi", "2010", genus_records=WHOLE_MOVE, namesakes=(ANOTHERS,)),
        (heard(asked="Haplopelma vonwirthi"),),
        "unasked",
        choices=("Cyriopagopus vonwirthi",),
        words="whether that is the same species, no source says",
    ),
    Scenario(
        "the new genus has that very species: computed all the same",
        "International Code of Zoological Nomenclature, Article 51.3 on brackets (names invented)",
        label("Haplopelma vonwirthi Roth, 1950", "2010", genus_records=WHOLE_MOVE, namesakes=(ANOTHERS,)),
        (heard(asked="Haplopelma vonwirthi"),),
        "moved",
        "Cyriopagopus vonwirthi (Roth, 1950)",
    ),
)
