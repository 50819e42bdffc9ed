"""What sources say and record, in words: facts in short sentences, the same wherever they are shown."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from types import MappingProxyType

from namekeeper.evidence.candidates import Candidate
from namekeeper.evidence.statements import (
    Act,
    ActKind,
    Caution,
    Dispute,
    Division,
    Edition,
    Failure,
    GenusRecord,
    Misuse,
    NameStatus,
    Statement,
    TaxonName,
    TradeForm,
)
from namekeeper.evidence.verdicts import Claims, Position
from namekeeper.faces.telling.notes import FOUND, notes
from namekeeper.faces.telling.sources import failed
from namekeeper.words.authorship import short_citation
from namekeeper.words.terms import Verification

_LONGEST_CITED = 160  # letters of a citation within a sentence
_ACTS = MappingProxyType(
    {
        ActKind.TRANSFER: "moved to",
        ActKind.SYNONYMY: "made a synonym of",
        ActKind.OBJECTIVE_SYNONYMY: "made a synonym (same type) of",
        ActKind.REPLACEMENT: "replaced by",
        ActKind.SPELLING: "spelt",
        ActKind.RANK: "changed in rank to",
        ActKind.REVIVAL: "revived as",
        ActKind.SPLIT: "split into",
        ActKind.DOUBT: "held doubtful as",
    }
)


def says(statement: Statement) -> str:
    """What a statement says."""
    told = _says(statement)
    if statement.revised:
        return f"{told} (as of {statement.as_of}; the genus was revised in {statement.revised})"
    return told


def _says(statement: Statement) -> str:
    subject, targets = _full(statement.subject), _listed([_full(target) for target in statement.targets])
    if statement.fault:
        return f"{subject}: what the source has of it cannot be followed ({statement.fault})"
    match statement.status:
        case NameStatus.ACCEPTED:
            return f"in force: {subject}"
        case NameStatus.DOUBTFUL:
            return f"{subject} is doubtful, no name in force"
        case NameStatus.UNAVAILABLE:
            return f"{subject} is no name by the Code (not available)"
        case NameStatus.MISAPPLIED:
            return f"{subject} was used for {targets}"
        case NameStatus.AMBIGUOUS:
            return f"{subject} now means any of {targets}"
        case NameStatus.REPLACED if targets:
            return f"{subject} was replaced by {targets}"
        case NameStatus.OBJECTIVE_SYNONYM if targets:
            return f"{subject} is a synonym (by the same type) of {targets}"
        case _ if targets:
            return f"{subject} is a synonym of {targets}"
        case _:
            return f"{subject} leads to no name in force"


_Told = Position | Claims | Edition | Act | Failure | TaxonName | Candidate
_Recorded = Misuse | Division | Dispute | Caution | TradeForm | GenusRecord


def parts(about: _Told | _Recorded | None) -> Mapping[str, object]:
    """What a sentence may say of that which it is about, by the names that stand in the tables of sentences."""
    match about:
        case Position():
            held = "; ".join(says(statement) for statement in about.statements)
            return {"position": f"{_source(about.edition)}: {held}"}
        case Claims():
            return {"sources": _listed([_source(edition) for edition in about.editions])}
        case Edition():
            return {"source": _source(about), "key": about.source}
        case Failure():
            return {"source": _source(about.edition), "failure": failed(about)}
        case Act():
            return {"act": _act(about)}
        case Candidate():
            return {"clue": "; ".join((found_by(about), *notes(about)))}
        case TaxonName():
            return {"taxon": _full(about)}
        case None:
            return {}
        case _:
            return _recorded(about)


def _recorded(about: _Recorded) -> Mapping[str, object]:
    citation = short_citation(about.citation)
    match about:
        case Misuse():
            dates = (("from", about.start), ("cleared up", about.cleared), ("ended", about.ended))
            told = ", ".join((*(f"{word} {day}" for word, day in dates if day), *filter(None, [citation])))
            meant = _listed([taxon.name for taxon in about.meant])
            return {
                "name": about.name, "meant": meant or "other species", "sold_for": meant, "cleared": about.cleared,
                "cited": _cited(about), "dates": f" ({told})" if told else "", "recorded": f"misuse from {about.start}",
            }  # fmt: skip
        case Division():
            since, kind = about.since or "", about.kind.value
            return {
                "name": about.name, "kind": kind, "since": since, "when": f" since {since}" if since else "",
                "cited": _cited(about), "citation": citation, "recorded": f"{kind} {since}".strip(),
            }  # fmt: skip
        case Dispute():
            return {"name": about.name, "cited": _cited(about)}
        case Caution():
            return {"listed_as": about.listed_as, "statement": about.statement, "cited": _first_source(citation)}
        case TradeForm():
            described = about.described_as.name if about.described_as else ""
            return {"form": about.form, "described": described, "citation": citation}
        case GenusRecord():
            return {"genus": about.genus, "cited": f" ({citation})" if about.citation else ""}


def _first_source(citation: str) -> str:
    """A citation that is longer than its sentence bears: the first of its sources, and that there are others."""
    first, parted, _ = citation.partition("; ")
    return f"{first}, and others" if parted and len(citation) > _LONGEST_CITED else citation


def _cited(found: Misuse | Division | Dispute) -> str:
    told = f" ({short_citation(found.citation)})" if found.citation else ""
    return f"{told}; {found.note}" if found.note else told


def _act(done: Act) -> str:
    """One act: both names, what was done, by whom."""
    cited = short_citation(done.citation) or done.year
    recalled = ", from memory" if done.verification is Verification.MEMORY else ""
    return f"{done.old} {_ACTS[done.kind]} {done.new or 'no other name'}" + (f" ({cited}{recalled})" if cited else "")


def found_by(candidate: Candidate) -> str:
    """By what a candidate was found: 'common name "GBB"'."""
    return f'{FOUND[candidate.how]} "{candidate.matched}"'


def _source(edition: Edition) -> str:
    """The source with its edition."""
    return f"{edition.title or edition.source} {edition.edition or ''}".strip()


def _full(taxon: TaxonName) -> str:
    """Name and authorship."""
    return f"{taxon.name} {taxon.authorship}".strip()


def _listed(names: Sequence[str]) -> str:
    """ "a", "a and b", "a, b and c"."""
    return " and ".join(part for part in (", ".join(names[:-1]), names[-1] if names else "") if part)
