"""Sixty animals that are hard to label: invented but for their names, which are real or of the trade's kinds."""

from __future__ import annotations

from typing import Any

from namekeeper.evidence.statements import Caution
from namekeeper.labels.content import SpeciesFacts
from namekeeper.records.specimen import NameEntry, Sex, Specimen
from tests.labels.animals import BITE, HAIRS, LISTED, caution, common, specimen, when

# Long names: a soldier fly of Brunetti, 1923, from memory; the others in NCBI Taxonomy and the lists.
_NAMES = (
    ("Parastratiosphecomyia stratiosphecomyioides", "(Brunetti, 1923)"),
    ("Chromatopelma cyaneopubescens", "(Strand, 1907)"),
    ("Pseudhapalopus spinulopalpus", "Schmidt & Weinmann, 1997"),
    ("Brachypelma hamorii", "Tesmongt, Cleton & Verdez, 1997"),
    ("Tliltocatl vagans", "(Ausserer, 1875)"),
    ("Grammostola pulchra", "Mello-Leitão, 1921"),
)
_FORMS: tuple[dict[str, Any], ...] = (
    {},
    {"qualifier": "cf."},
    {"qualifier": "sp.", "trade_form": "Sabah Red"},
    {"form": "ex chordatus RCF"},
    {"qualifier": "?"},
)
# Latin with marks of many languages, Greek and Cyrillic, which the shipped faces draw; four scripts that they do not.
_PLACES = (
    "Paraguaná", "Đắk Lắk", "Łódź", "Ελλάδα", "Карпаты", "", "Santa Cruz de la Sierra, Andrés Ibáñez",
    "海南", "القاهرة", "नेपाल", "กาญจนบุรี",
)  # fmt: skip
_OWN = ("", "fast; never open alone", "bites through the ventilation; use the long tongs, and wear gloves and glasses")
_CAUTIONS: tuple[tuple[Caution, ...], ...] = (
    (),
    (BITE,),
    (HAIRS, LISTED),
    (BITE, HAIRS, caution("defensive_chemicals"), LISTED, caution("law_us")),
)


def hard_animals() -> list[tuple[Specimen, SpeciesFacts]]:
    """All of them; every list above runs against the others."""
    found = []
    for number in range(58):
        name, authorship = _NAMES[number % len(_NAMES)]
        form = _FORMS[number // 2 % len(_FORMS)]
        entry = NameEntry(name, authorship, since=when("2021-02-11"), **form)
        before = NameEntry("Brachypelma vagans", "(Ausserer, 1875)", since=when("2014-05-03"))
        names = () if number % 10 == 9 else (before, entry) if number % 3 else (entry,)
        one = specimen(
            f"HARD-{number:02}" if number % 4 else f"The.long-id_of.the.second_rack-{number:02}",
            *names,
            tag="Mex red rump 0.1 4cm",
            acquired=when("2014-05-03") if number % 5 else None,
            sex=(Sex("0.1.0", 0, 1, 0), Sex("3.12.40", 3, 12, 40), None)[number % 3],
            locality=_PLACES[number % len(_PLACES)],
            stands_at="rack A 2" if number % 2 else "",
            origin=("spring fair",) if number % 3 else (),
            caution=_OWN[number // 3 % len(_OWN)],
        )
        known = (common("Mexican red rump"),) if number % 2 else ()
        found.append((one, SpeciesFacts(known, _CAUTIONS[number % len(_CAUTIONS)])))
    return [*found, *_bare()]


def _bare() -> list[tuple[Specimen, SpeciesFacts]]:
    """Two of which nothing is known: a tag that says nothing, and a name alone."""
    return [
        (specimen("A", tag="?"), SpeciesFacts()),
        (specimen("B", NameEntry("Grammostola pulchra")), SpeciesFacts()),
    ]
