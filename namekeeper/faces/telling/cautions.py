"""Cautions in words: what is published on the harm an animal can do, and which laws name it; never advice."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from types import MappingProxyType

from namekeeper.evidence.statements import Caution, CautionWeight
from namekeeper.faces.telling.documents import Rows, code
from namekeeper.words.authorship import short_citation
from namekeeper.words.terms import Verification

#: What a statement is about that is on no law.
_SUBJECTS = MappingProxyType(
    {"urticating_setae": "Urticating hairs", "venom_report": "Bite or sting", "defensive_chemicals": "Defence"}
)
#: Stands below every list of cautions.
NO_ADVICE = "Reports and lists, no advice: ask a doctor, a vet, your authority."


def caution_lines(cautions: Iterable[Caution]) -> Iterator[str]:
    """A line a caution: first what warns, with its source, then what is mild or was not found, then laws.

    A statement on a law says itself whose law it is, which list, and as of when; beside it stands the name that papers
    may carry, and that no source was seen where that is so.
    """
    for caution in sorted(cautions, key=_order):
        subject = _SUBJECTS.get(caution.topic)
        yield f"{subject}: {caution.statement} ({_source(caution)})" if subject else _law(caution)


def _source(caution: Caution) -> str:
    source = short_citation(caution.citation)
    return f"{source}, {caution.year}" if caution.year and caution.year not in source else source


def _law(caution: Caution) -> str:
    papers = f"; papers may carry the name {caution.listed_as}" if caution.listed_as else ""
    unseen = "" if caution.verification is Verification.VERIFIED else " (recalled, no source seen)"
    return f"{caution.statement}{papers}{unseen}"


def _order(caution: Caution) -> tuple[bool, bool, str]:
    return caution.topic not in _SUBJECTS, caution.weight is not CautionWeight.WARNS, caution.topic


def caution_rows(cautions: Iterable[Caution]) -> Rows:
    """The same for JSON, with the taxon that each row is on."""
    return [
        {
            "taxon": one.taxon,
            "topic": one.topic,
            "statement": one.statement,
            "listed_as": one.listed_as or None,
            "year": one.year or None,
            "weight": code(one.weight) if one.weight else None,
            "source": one.citation,
            "verified": one.verification is Verification.VERIFIED,
        }
        for one in sorted(cautions, key=_order)
    ]
