"""Hybrids: each parent is judged, neither is ever changed unseen."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from hashlib import blake2b

from namekeeper.evidence.statements import TaxonName
from namekeeper.evidence.verdicts import Reason, Verdict
from namekeeper.judging.values import Question
from namekeeper.words.terms import Standing

SIGN = " × "

# What asks most of the keeper first; the first of these that a parent has is the standing of the hybrid.
_GRAVEST = (
    Standing.UNASKED,
    Standing.DISPUTED,
    Standing.MISAPPLIED,
    Standing.DIVIDED,
    Standing.UNKNOWN,
    Standing.DOUBTFUL,
    Standing.OPEN,
    Standing.MERGED,
    Standing.RENAMED,
    Standing.MOVED,
    Standing.RESPELLED,
    Standing.CURRENT,
)


def parents(question: Question) -> tuple[Question, ...]:
    """One question a parent, with the date of the label."""
    return tuple(replace(question, name=name, authorship="", parents=(), trade_forms=()) for name in question.parents)


def combined(question: Question, verdicts: Sequence[Verdict]) -> Verdict:
    """The verdict on the hybrid: the gravest standing, a proposal only where no parent needs a choice, never safe."""
    standing = min((verdict.standing for verdict in verdicts), key=_GRAVEST.index)
    changed = any(verdict.proposed for verdict in verdicts)
    settled = all(verdict.proposed or verdict.standing is Standing.CURRENT for verdict in verdicts)
    clear = changed and settled and not any(verdict.choices for verdict in verdicts)
    now = [v.proposed.name if v.proposed else name for v, name in zip(verdicts, question.parents, strict=True)]
    told = zip(question.parents, verdicts, strict=True)
    reasons = [
        Reason("parent", f"{name}: {v.standing.value}; {reason.words}") for name, v in told for reason in v.reasons
    ]
    lines = tuple(dict.fromkeys(line for verdict in verdicts for line in verdict.statements))
    choices = tuple(dict.fromkeys(choice for verdict in verdicts for choice in verdict.choices))
    failed = tuple(dict.fromkeys(source for verdict in verdicts for source in verdict.failed))
    word = blake2b("\n".join(verdict.digest for verdict in verdicts).encode(), digest_size=8).hexdigest()
    return Verdict(
        standing,
        "H",
        TaxonName(SIGN.join(now), rank="hybrid") if clear else None,
        False,
        choices,
        lines,
        (Reason("hybrid", "a hybrid: each parent is judged, nothing is changed unseen"), *reasons),
        failed,
        word,
    )
