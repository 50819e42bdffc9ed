"""Moved and respelled names, and what is never taken unseen."""

from __future__ import annotations

from namekeeper.evidence.statements import NameStatus
from tests.judging.build import act, says
from tests.judging.scenario import (
    FASCIATUM,
    FASCIATUS,
    FUKUSHIMA,
    LOWE,
    MAHAFALI,
    MENDOZA_2020,
    VERSICOLOR,
    Scenario,
    heard,
    label,
    sunk,
    valid,
)

SCENARIOS = (
    Scenario(
        "a move that changes nothing but the genus",
        FUKUSHIMA,
        label("Avicularia versicolor", "2014"),
        (heard(VERSICOLOR),),
        "moved",
        "Caribena versicolor (Walckenaer, 1837)",
        True,
    ),
    Scenario(
        "brackets appear with the new genus",
        FUKUSHIMA,
        label("Avicularia gamba Bertani & Fukushima, 2009", "2012"),
        (
            heard(
                sunk(
                    "Avicularia gamba Bertani & Fukushima, 2009",
                    "Ybyrapora gamba (Bertani & Fukushima, 2009)",
                    "transfer",
                    "2017",
                )
            ),
        ),
        "moved",
        "Ybyrapora gamba (Bertani & Fukushima, 2009)",
        True,
    ),
    Scenario(
        "a source forgets the brackets: they are checked, not trusted",
        FUKUSHIMA,
        label("Avicularia gamba", "2012"),
        (
            heard(
                sunk(
                    "Avicularia gamba Bertani & Fukushima, 2009",
                    "Ybyrapora gamba Bertani & Fukushima, 2009",
                    "transfer",
                    "2017",
                )
            ),
        ),
        "moved",
        "Ybyrapora gamba (Bertani & Fukushima, 2009)",
        True,
        words="Art. 51.3",
    ),
    Scenario(
        "a move with a change of ending",
        MENDOZA_2020,
        label("Brachypelma albopilosum Valerio, 1980", "2015-06"),
        (
            heard(
                sunk(
                    "Brachypelma albopilosum Valerio, 1980",
                    "Tliltocatl albopilosus (Valerio, 1980)",
                    "transfer",
                    "2020",
                )
            ),
        ),
        "moved",
        "Tliltocatl albopilosus (Valerio, 1980)",
        True,
    ),
    Scenario(
        "the ending as the founding paper printed it",
        f"{MENDOZA_2020}; World Spider Catalog list of late 2021",
        label("Tliltocatl albopilosum (Valerio, 1980)", "2021"),
        (
            heard(
                sunk(
                    "Tliltocatl albopilosum (Valerio, 1980)",
                    "Tliltocatl albopilosus (Valerio, 1980)",
                    "spelling",
                    "2020",
                )
            ),
        ),
        "respelled",
        "Tliltocatl albopilosus (Valerio, 1980)",
        True,
        words="the source itself changed the spelling",
    ),
    Scenario(
        "only the ending differs and no source ever changed it",
        "World Spider Catalog list of late 2021",
        label("Psalmopoeus reduncum", "2021"),
        (
            heard(
                says(
                    "Psalmopoeus reduncum",
                    "Psalmopoeus reduncus (Karsch, 1880)",
                    "Psalmopoeus reduncus (Karsch, 1880)",
                    status=NameStatus.ACCEPTED,
                )
            ),
        ),
        "respelled",
        "Psalmopoeus reduncus (Karsch, 1880)",
        True,
        words="only the ending differs",
    ),
    Scenario(
        "-ius is right in a neuter genus",
        "English Wikipedia, Aphonopelma iodius (2024): neuter comparative",
        label("Aphonopelma iodius", "2018"),
        (heard(valid("Aphonopelma iodius (Chamberlin & Ivie, 1939)")),),
        "current",
    ),
    Scenario(
        "ending and brackets change together",
        "Gabriel 2016, Arachnology 17(2): 61-92",
        label(FASCIATUM, "2012"),
        (heard(sunk(FASCIATUM, FASCIATUS, "transfer", "2016")),),
        "moved",
        FASCIATUS,
        True,
    ),
    Scenario(
        "an older genus name takes over a newer one",
        "Pérez-Miles, Gabriel & Sherwood 2019, Arachnology 18(2)",
        label("Ami yupanquii Pérez-Miles, Gabriel & Gallon, 2008", "2011"),
        (
            heard(
                sunk(
                    "Ami yupanquii Pérez-Miles, Gabriel & Gallon, 2008",
                    "Neischnocolus yupanquii (Pérez-Miles, Gabriel & Gallon, 2008)",
                    "transfer",
                    "2019",
                )
            ),
        ),
        "moved",
        "Neischnocolus yupanquii (Pérez-Miles, Gabriel & Gallon, 2008)",
        True,
    ),
    Scenario(
        "a genus name replaced twice",
        "Pérez-Miles 2005; Pérez-Miles, Bonaldo & Miglio 2014, ZooKeys 448: 1-8",
        label("Iracema cabocla Pérez-Miles, 2000", "2002"),
        (
            heard(
                says(
                    "Iracema cabocla",
                    "Iracema cabocla Pérez-Miles, 2000",
                    "Bumba cabocla (Pérez-Miles, 2000)",
                    acts=(
                        act("transfer", "Iracema cabocla", "Maraca cabocla", "2005"),
                        act("transfer", "Maraca cabocla", "Bumba cabocla", "2014"),
                    ),
                )
            ),
        ),
        "moved",
        "Bumba cabocla (Pérez-Miles, 2000)",
        True,
        words="Maraca cabocla moved to Bumba cabocla",
    ),
    Scenario(
        "moved, moved back, moved again",
        LOWE,
        label(f"Grosphus mahafaliensis {MAHAFALI}", "2010"),
        (
            heard(
                says(
                    "Grosphus mahafaliensis",
                    f"Grosphus mahafaliensis {MAHAFALI}",
                    f"Teruelius mahafaliensis ({MAHAFALI})",
                    acts=(
                        act("transfer", "Grosphus mahafaliensis", "Teruelius mahafaliensis", "2019"),
                        act("transfer", "Teruelius mahafaliensis", "Grosphus mahafaliensis", "2020"),
                        act("transfer", "Grosphus mahafaliensis", "Teruelius mahafaliensis", "2022"),
                    ),
                )
            ),
        ),
        "moved",
        f"Teruelius mahafaliensis ({MAHAFALI})",
        True,
        words="Teruelius mahafaliensis moved to Grosphus mahafaliensis",
    ),
)
