"""Findings made by hand, so that settling is tested without any list."""

from __future__ import annotations

from datetime import UTC, datetime

from namekeeper.evidence.statements import TaxonName
from namekeeper.evidence.verdicts import Choice, Reason, Said, Verdict
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
    lags = Said("old", "2019", asked, False, True, f"in force: {proposed}", None, None)
    says = f"accepted: {proposed} {AUTHOR}"
    speaks = Said("starter", "2026.1", asked, False, False, says, "https://a.example/x", "CC0")
    act = Reason("act", f"Brachypelma vagans moved to {proposed}", "Mendoza & Francke 2020")
    return Verdict(
        standing,
        "rule",
        TaxonName(proposed, AUTHOR) if proposed else None,
        safe,
        tuple(Choice(name, "Author, 1900", f"why {name}") for name in choices),
        (lags, speaks),
        (Reason("rule", "because"), act),
        (),
        digest,
    )


def finding(of: Specimen, judged: Verdict) -> Finding:
    present = of.entry_in_force()
    return Finding(of, present, present.name if present else of.tag, of.label_date(), judged)
