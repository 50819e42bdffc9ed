"""Words for what sources say: facts in short sentences, the same wherever they are shown."""

from __future__ import annotations

from collections.abc import Sequence

from namekeeper.evidence.statements import (
    Act,
    ActKind,
    Answer,
    Edition,
    Failure,
    FailureKind,
    NameStatus,
    Statement,
    TaxonName,
)
from namekeeper.evidence.verdicts import Said
from namekeeper.judging.votes import Vote
from namekeeper.words.citations import short_citation
from namekeeper.words.terms import Verification

_ACTS = {
    ActKind.TRANSFER: "moved to",
    ActKind.SYNONYMY: "sunk in",
    ActKind.OBJECTIVE_SYNONYMY: "sunk (same type) in",
    ActKind.REPLACEMENT: "replaced by",
    ActKind.SPELLING: "spelt",
    ActKind.RANK: "changed in rank to",
    ActKind.REVIVAL: "revived as",
    ActKind.SPLIT: "split into",
    ActKind.DOUBT: "held doubtful as",
}
_FAILURES = {
    FailureKind.OFFLINE: "not asked, working offline",
    FailureKind.UNREACHABLE: "could not be reached",
    FailureKind.REFUSED: "refused the question",
    FailureKind.BAD_REPLY: "sent a reply that cannot be read",
    FailureKind.BROKEN: "cannot be read on this machine",
}


def full(taxon: TaxonName) -> str:
    """Name and authorship."""
    return f"{taxon.name} {taxon.authorship}".strip()


def listed(names: Sequence[str]) -> str:
    """ "a", "a and b", "a, b and c"."""
    return " and ".join(part for part in (", ".join(names[:-1]), names[-1] if names else "") if part)


def source_of(edition: Edition) -> str:
    """The source with its edition, as it stands in a sentence."""
    return f"{edition.title or edition.source} {edition.edition or ''}".strip()


def act(done: Act) -> str:
    """One act: both names, what was done, by whom."""
    cited = short_citation(done.citation) or done.year
    recalled = ", from memory" if done.verification is Verification.MEMORY else ""
    return f"{done.old} {_ACTS[done.kind]} {done.new or 'no other name'}" + (f" ({cited}{recalled})" if cited else "")


def says(statement: Statement) -> str:
    """What a statement says, in one line."""
    subject, targets = full(statement.subject), listed([full(target) for target in statement.targets])
    if statement.fault:
        return f"{subject}: its own data cannot be followed, {statement.fault}"
    match statement.status:
        case NameStatus.ACCEPTED:
            return f"in force: {subject}"
        case NameStatus.DOUBTFUL:
            return f"{subject} is doubtful, no name in force"
        case NameStatus.UNAVAILABLE:
            return f"{subject} is not an available name"
        case NameStatus.MISAPPLIED:
            return f"{subject} was used for {targets}"
        case NameStatus.AMBIGUOUS:
            return f"{subject} now means any of {targets}"
        case NameStatus.REPLACED if targets:
            return f"{subject} was replaced by {targets}"
        case _:
            return (
                f"{subject} is a {statement.status.value} of {targets}"
                if targets
                else f"{subject} leads to no name in force"
            )


def said(statement: Statement, asked_of: Answer, lagging: bool) -> Said:
    """The line of a report on one statement."""
    edition = statement.edition
    return Said(
        edition.source,
        edition.edition,
        statement.retrieved or asked_of.retrieved,
        statement.stale or asked_of.stale,
        lagging,
        says(statement),
        statement.link or edition.link,
        edition.licence,
    )


def silent(answer: Answer) -> Said:
    """The line on a source that does not list the name."""
    edition = answer.edition
    words = f"does not list {answer.asked}"
    return Said(
        edition.source, edition.edition, answer.retrieved, answer.stale, False, words, edition.link, edition.licence
    )


def unheard(failure: Failure) -> Said:
    """The line on a source that could not be asked."""
    edition = failure.edition
    words = f"{_FAILURES[failure.kind]}" + (f": {failure.why}" if failure.why else "")
    return Said(edition.source, edition.edition, None, False, False, words, failure.link, edition.licence)


def position(vote: Vote) -> str:
    """What a vote comes to, with its source."""
    return f"{source_of(vote.edition)}: {'; '.join(says(statement) for statement in vote.statements)}"
