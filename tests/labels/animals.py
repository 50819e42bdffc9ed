"""Invented animals with real names, and what a list would say of them; shared by the tests of labels."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from pathlib import Path

from namekeeper.evidence.statements import Caution, CommonName, Edition, TaxonName
from namekeeper.labels.content import LabelContent, LabelWishes, SpeciesFacts, make_content
from namekeeper.labels.text import Run
from namekeeper.records.specimen import NameEntry, Sex, Specimen
from namekeeper.tasks.label_bench import Workshop
from namekeeper.tasks.label_choices import Choices
from namekeeper.tasks.label_plan import LabelPlan, plan_of
from namekeeper.words.dates import PartialDate
from namekeeper.words.errors import Place
from namekeeper.words.terms import Verification

DAY = date(2026, 11, 25)
EDITION = Edition("test", "Test list", "test")


def when(text: str) -> PartialDate:
    return PartialDate.parse(text)


def caution(topic: str, statement: str = "reported", listed_as: str = "", year: str = "") -> Caution:
    return Caution("Aus", "genus", topic, statement, listed_as, year, "", Verification.VERIFIED)


def common(text: str) -> CommonName:
    return CommonName(text, "en", TaxonName("Aus bus"), "common", EDITION, usual=True)


HAIRS = caution("urticating_setae", "Types I and III")
BITE = caution("venom_report", "Of medical importance")
LISTED = caution("law_cites", "Appendix II", "Brachypelma", "1995")


def specimen(identifier: str, *names: NameEntry, **fields: object) -> Specimen:
    place = Place(f"specimens/{identifier}.yaml", 1, identifier)
    return Specimen(identifier, place, names=names, **fields)  # type: ignore[arg-type]


def moved() -> Specimen:
    """An animal whose name changed (Mendoza & Francke 2020, doi:10.1093/zoolinnean/zlz046)."""
    return specimen(
        "INV-0007",
        NameEntry("Brachypelma vagans", "(Ausserer, 1875)", since=when("2014-05-03")),
        NameEntry(
            "Tliltocatl vagans",
            "(Ausserer, 1875)",
            since=when("2021-02-11"),
            standing="moved",
            according_to="Mendoza & Francke 2020",
        ),
        tag="Mex red rump 0.1 4cm",
        acquired=when("2014-05-03"),
        sex=Sex("0.1.0", 0, 1, 0),
        locality="Campeche",
        common="Mexican red rump",
        stands_at="rack A 2",
        origin=("spring fair",),
    )


def animals() -> list[tuple[Specimen, SpeciesFacts]]:
    """Eight that between them show everything a label can say."""
    return [
        (moved(), SpeciesFacts(cautions=(HAIRS, LISTED))),
        (
            specimen(
                "INV-0012",
                NameEntry("Chromatopelma cyaneopubescens", "(Strand, 1907)", since=when("2021-11-02")),
                acquired=when("2021-11-02"),
                sex=Sex("1.0.0", 1, 0, 0),
                locality="Paraguaná, Venezuela",
            ),
            SpeciesFacts((common("greenbottle blue"),), (HAIRS,)),
        ),
        (
            specimen(
                "INV-0101",
                NameEntry("Poecilotheria metallica", "Pocock, 1899", since=when("2023-01")),
                acquired=when("2023-01"),
                sex=Sex("1.2.0", 1, 2, 0),
            ),
            SpeciesFacts((common("Gooty sapphire ornamental"),), (BITE, LISTED)),
        ),
        (
            specimen(
                "X3",
                NameEntry("Parastratiosphecomyia stratiosphecomyioides", "Brunetti, 1923"),
                acquired=when("2024"),
            ),
            SpeciesFacts(),
        ),
        (
            specimen(
                "INV-0044",
                NameEntry("Phormingochilus", qualifier="sp.", trade_form="Sabah Red"),
                acquired=when("2019-03-09"),
                sex=Sex("0.0.6", 0, 0, 6),
            ),
            SpeciesFacts(cautions=(BITE,)),
        ),
        (
            specimen("INV-0045", NameEntry("Brachypelma smithi", qualifier="cf."), acquired=when("2020-06-01")),
            SpeciesFacts(cautions=(HAIRS, LISTED)),
        ),
        (
            specimen("INV-0046", tag="P. metallica / regalis? 0.1 5-6cm", sex=Sex("0.0.1", 0, 0, 1)),
            SpeciesFacts(cautions=(BITE,)),
        ),
        (
            specimen(
                "INV-0047",
                NameEntry("Pterinochilus murinus", "Pocock, 1897", form="ex chordatus RCF", since=when("2017-09-30")),
                acquired=when("2017-09-30"),
                caution="fast; never open alone",
            ),
            SpeciesFacts(cautions=(BITE,)),
        ),
    ]


def planned(workshop: Workshop, sheet: str, template: str, count: int = 8, **wishes: object) -> LabelPlan:
    """A plan of the first animals, repeated as often as needed."""
    eight = animals()
    chosen = [eight[number % len(eight)] for number in range(count)]
    wish = LabelWishes(title="Insect room, Hollin Weir", **wishes)  # type: ignore[arg-type]
    return plan_of(chosen, workshop, Choices(sheet=sheet, template=template), wish, DAY)


def content_of(name: str, identifier: str = "INV-0001", **fields: object) -> LabelContent:
    """A content of a name and what else is given."""
    entry = NameEntry(name, "Author, 1900", since=when("2020-01-01"))
    one = specimen(identifier, entry, acquired=when("2020-01-01"), **fields)
    return make_content(one, SpeciesFacts(cautions=(HAIRS, BITE)), LabelWishes())


def real_names() -> list[str]:
    """5,000 names; see the head of the file for their source."""
    lines = Path(__file__).with_name("real_names.txt").read_text(encoding="utf-8").splitlines()
    return [line for line in lines if not line.startswith("#")]


def italic_text(runs: Sequence[Run]) -> str:
    """Runs as text with italics in angle brackets."""
    return "".join(f"<{run.text}>" if run.italic else run.text for run in runs)
