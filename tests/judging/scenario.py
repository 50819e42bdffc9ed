"""Words to write a label by hand: evidence in, verdict out.

``source`` is the paper or list the facts were taken from; species and dates of labels are invented where not said.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from namekeeper.evidence.statements import (
    ActKind,
    Answer,
    Caution,
    Dispute,
    Division,
    Edition,
    GenusRecord,
    Misuse,
    NameStatus,
    Reply,
    Statement,
    TradeForm,
)
from namekeeper.evidence.verdicts import Verdict
from namekeeper.faces.telling.verdicts import why
from namekeeper.judging.question import Question
from namekeeper.judging.verdict import judge
from namekeeper.words.terms import Verification
from tests.judging.build import TODAY, TRUST, act, day, edition, misuse, says, taxon

VERIFIED = Verification.VERIFIED


@dataclass(frozen=True)
class Scenario:
    """One label and what must come of it. ``choices``: names that must be offered; ``words``: told in the reasons."""

    title: str
    source: str
    question: Question
    replies: tuple[Reply, ...]
    standing: str
    target: str = ""
    safe: bool = False
    choices: tuple[str, ...] = ()
    words: str = ""

    def judge(self) -> Verdict:
        return judge(self.question, self.replies, TRUST, TODAY)

    def told(self, verdict: Verdict) -> tuple[str, str, bool, bool, bool]:
        """What is compared: standing, target, safe, choices offered, words told."""
        target = f"{verdict.proposed.name} {verdict.proposed.authorship}".strip() if verdict.proposed else ""
        offered = set(self.choices) <= {choice.name for choice in verdict.choices}
        return (str(verdict.standing), target, verdict.safe, offered, self.words in " | ".join(why(verdict)))

    def expected(self) -> tuple[str, str, bool, bool, bool]:
        return (self.standing, self.target, self.safe, True, True)


def label(name: str, written: str | None, **more: object) -> Question:
    named = taxon(name)
    return Question(named.name, named.authorship, day(written), **more)  # type: ignore[arg-type]


def heard(
    *statements: Statement,
    asked: str = "",
    by: Edition | None = None,
    misuses: Sequence[Misuse] = (),
    divisions: Sequence[Division] = (),
    disputes: Sequence[Dispute] = (),
) -> Answer:
    of = by or (statements[0].edition if statements else edition())
    name = asked or statements[0].asked
    return Answer(of, name, statements, (), tuple(misuses), tuple(divisions), tuple(disputes))


def sunk(old: str, new: str, kind: str, year: str, **more: object) -> Statement:
    """A statement with one act."""
    name, target = taxon(old).name, taxon(new).name
    return says(name, old, new, acts=(act(kind, name, target, year),), **more)  # type: ignore[arg-type]


def valid(name: str, **more: object) -> Statement:
    return says(taxon(name).name, name, name, status=NameStatus.ACCEPTED, **more)  # type: ignore[arg-type]


def split(name: str, into: Sequence[str], since: str, kind: str = "split", sunk_in: str | None = None) -> Division:
    taxa = tuple(taxon(one) for one in into)
    return Division(name, taxa, ActKind(kind), day(since), day(sunk_in), "as published", VERIFIED)


def genus(name: str, to: Sequence[str] = (), *, whole: bool = False, gender: str = "masculine") -> GenusRecord:
    return GenusRecord(name, "Theraphosidae", gender, not whole, tuple(to), whole, "2015", "as published")


MENDOZA_2017 = "Mendoza & Francke 2017, Invertebrate Systematics 31(2): 157-179"
MENDOZA_2020 = "Mendoza & Francke 2020, Zoological Journal of the Linnean Society 188(1): 82-147"
FUKUSHIMA = "Fukushima & Bertani 2017, ZooKeys 659: 1-185"
SMITH_JACOBI = "Smith & Jacobi 2015, British Tarantula Society Journal 30(3): 25-48"
PRENDINI = "Prendini & Loria 2020, Bulletin of the American Museum of Natural History 442"
LOWE = "Lowe & Kovařík 2019, Euscorpius 281; Lourenço et al. 2020; Lowe & Kovařík 2022"

SMITHI = "Brachypelma smithi (F. O. Pickard-Cambridge, 1897)"
HAMORII = "Brachypelma hamorii Tesmoingt, Cleton & Verdez, 1997"
SMITHI_USE = misuse("Brachypelma smithi", [HAMORII], cleared="2017", start="1970")
SMITHI_HEARD = heard(valid(SMITHI), misuses=[SMITHI_USE])

FASCIATUM = "Cyclosternum fasciatum (O. Pickard-Cambridge, 1892)"
FASCIATUS = "Davus fasciatus O. Pickard-Cambridge, 1892"
MAHAFALI = "Lourenço, Goodman & Ramilijaona, 2004"
MINOTAURUS = "Heterometrus minotaurus Plíšková, Kovařík, Košulič & Šťáhlavský, 2016"
LIVIDUM, LIVIDUS = "Haplopelma lividum Smith, 1996", "Cyriopagopus lividus (Smith, 1996)"
HAPLOPELMA = genus("Haplopelma", ["Cyriopagopus"], whole=True, gender="neuter")
DICTATOR, DICTATOR_NOW = "Pandinus dictator (Pocock, 1888)", "Pandinopsis dictator (Pocock, 1888)"
DICTATOR_LISTED = Caution(
    "Pandinopsis dictator",
    "species",
    "law_cites",
    "listed in Appendix II",
    "Pandinus dictator",
    "1994",
    "CITES",
    VERIFIED,
)
VERSICOLOR = sunk(
    "Avicularia versicolor (Walckenaer, 1837)", "Caribena versicolor (Walckenaer, 1837)", "transfer", "2017"
)


def form(genus_word: str, words: str, described: str | None, cited: str) -> TradeForm:
    return TradeForm(genus_word, words, taxon(described) if described else None, cited, VERIFIED)
