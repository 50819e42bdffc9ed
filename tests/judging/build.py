"""Short words to write evidence by hand."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from namekeeper.evidence.statements import (
    Act,
    ActKind,
    Answer,
    Edition,
    Failure,
    FailureKind,
    Match,
    Misuse,
    NameStatus,
    Statement,
    TaxonName,
)
from namekeeper.evidence.verdicts import ReasonCode, Verdict
from namekeeper.judging.ballot import Trust
from namekeeper.judging.question import Question
from namekeeper.judging.verdict import judge
from namekeeper.words.dates import PartialDate
from namekeeper.words.terms import Verification

TODAY = date(2026, 11, 25)
TRUST = Trust()


def day(text: str | None) -> PartialDate | None:
    return PartialDate.parse(text) if text else None


def edition(source: str = "starter", dated: str | None = "2026-10", upstream: str = "", complete: str = "") -> Edition:
    return Edition(
        source,
        source,
        upstream or source,
        dated,
        day(dated),
        "CC0-1.0",
        complete_for=tuple(complete.split(";")) if complete else (),
    )


def taxon(text: str, original: str | None = None, range_: str = "") -> TaxonName:
    """A taxon of "Genus epithet (Author, 1900)"; the authorship begins at a bracket, capital or particle."""
    words = text.split(" ")
    count = 1
    while count < len(words) and words[count][:1].islower() and words[count] not in ("von", "de", "van"):
        count += 1
    higher = tuple(part.strip() for part in range_.split(";")) if range_ else ()
    return TaxonName(" ".join(words[:count]), " ".join(words[count:]), original_genus=original, range=higher)


def act(kind: str, old: str, new: str, year: str = "", *, recalled: bool = False) -> Act:
    basis = Verification.MEMORY if recalled else Verification.VERIFIED
    return Act(ActKind(kind), old, new, year, verification=basis)


def says(
    asked: str,
    subject: str,
    *targets: str | TaxonName,
    status: NameStatus = NameStatus.SYNONYM,
    by: Edition | None = None,
    acts: Sequence[Act] = (),
    match: Match = Match.SAME,
    recalled: bool = False,
    stale: bool = False,
    fault: str | None = None,
) -> Statement:
    ends = tuple(taxon(target) if isinstance(target, str) else target for target in targets)
    return Statement(
        by or edition(),
        asked,
        match,
        taxon(subject),
        status,
        ends,
        tuple(acts),
        Verification.MEMORY if recalled else Verification.VERIFIED,
        stale=stale,
        fault=fault,
    )


def accepted(asked: str, subject: str, *, by: Edition | None = None, match: Match = Match.SAME) -> Statement:
    return says(asked, subject, subject, status=NameStatus.ACCEPTED, by=by, match=match)


def answer(*statements: Statement, by: Edition | None = None, asked: str = "") -> Answer:
    of = by or (statements[0].edition if statements else edition())
    return Answer(of, asked or statements[0].asked, statements)


def failure(asked: str, kind: FailureKind = FailureKind.UNREACHABLE, by: Edition | None = None) -> Failure:
    return Failure(by or edition("gbif", None), asked, kind, "no route to host")


def misuse(
    name: str,
    meant: Sequence[str],
    cleared: str | None = None,
    ended: str | None = None,
    start: str | None = None,
) -> Misuse:
    taxa = tuple(taxon(text) for text in meant)
    return Misuse(name, "", taxa, day(start), day(cleared), day(ended), "as published", Verification.VERIFIED)


def codes(found: Verdict) -> set[ReasonCode]:
    return {reason.code for reason in found.reasons}


def verdict(question: Question | str, *replies: Answer | Failure, written: str | None = None) -> Verdict:
    if isinstance(question, str):
        named = taxon(question)
        question = Question(named.name, named.authorship, day(written))
    return judge(question, replies, TRUST, TODAY)
