"""Findings made by hand, so that settling is tested without any list."""

from __future__ import annotations

from datetime import UTC, datetime

from namekeeper.evidence.statements import Act, ActKind, Edition, Match, NameStatus, Statement, TaxonName
from namekeeper.evidence.verdicts import Choice, Ground, GroundCode, Position, Reason, ReasonCode, Said, Verdict
from namekeeper.records.specimen import Decision, NameEntry, Specimen
from namekeeper.tasks.check import Finding
from namekeeper.words.dates import PartialDate
from namekeeper.words.errors import Place
from namekeeper.words.terms import Standing

AUTHOR = "(Ausserer, 1875)"


def entry(name: str = "Brachypelma vagans", **words: str) -> NameEntry:
    since = PartialDate.parse(words.pop("since", "2014-05-03"))
    return NameEntry(name, AUTHOR, since, PartialDate.parse("2014-05-04"), **words)  # type: ignore[arg-type]


def specimen(identifier: str = "A1", *entries: NameEntry, decisions: tuple[Decision, ...] = ()) -> Specimen:
    return Specimen(identifier, Place(None, 1, identifier), "Mex red rump", names=entries, decisions=decisions)


def statement(
    target: str,
    edition: Edition,
    status: NameStatus = NameStatus.SYNONYM,
    *,
    subject: str = "",
    link: str | None = None,
) -> Statement:
    """What a source says of ``subject`` (Brachypelma vagans): where it leads, or that it is doubtful."""
    old = TaxonName(subject or "Brachypelma vagans", AUTHOR)
    ends = (TaxonName(target, AUTHOR),) if target else ()
    return Statement(edition, old.name, Match.SAME, old, status, ends, link=link)


def verdict(
    standing: Standing = Standing.MOVED,
    proposed: str | None = "Tliltocatl vagans",
    choices: tuple[str, ...] = (),
    *,
    safe: bool = False,
    digest: str = "d1",
) -> Verdict:
    """A verdict with one statement that speaks for the proposal, one that lags, and the act's citation."""
    asked = datetime(2026, 11, 1, tzinfo=UTC)
    lags = Said(statement(proposed or "", Edition("old", "old", "old", "2019")), asked, lagging=True)
    starter = Edition("starter", "starter", "starter", "2026.1", licence="CC0")
    speaks = Said(statement(proposed or "", starter, link="https://a.example/x"), asked)
    cited = "Mendoza, J. & Francke, O. F. (2020). Systematic revision"
    act = Reason(ReasonCode.ACT, about=Act(ActKind.TRANSFER, "Brachypelma vagans", proposed or "", "2020", cited))
    return Verdict(
        standing,
        "rule",
        TaxonName(proposed, AUTHOR) if proposed else None,
        safe,
        tuple(Choice(name, "Author, 1900", (Ground(GroundCode.FOLLOWS_GENUS),)) for name in choices),
        (lags, speaks),
        (Reason(ReasonCode.POSITION, about=Position(starter, ())), act),
        (),
        digest,
    )


def finding(of: Specimen, judged: Verdict) -> Finding:
    present = of.entry_in_force()
    return Finding(of, present, present.name if present else of.tag, of.label_date(), judged)
