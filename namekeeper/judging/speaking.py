"""Which statements speak on the name of a label: spelling, kingdom and homonyms, over all sources together."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from namekeeper.evidence.statements import Answer, Match, Statement
from namekeeper.judging.change import name_key, same_author

_ANIMALS = frozenset({"", "animalia", "metazoa"})


def speaking(answers: Sequence[Answer], name: str, authorship: str) -> Iterator[tuple[Answer, tuple[Statement, ...]]]:
    """Every answer on ``name`` with those of its statements that may decide; silent ones are left out.

    A source speaks by its best match only. A match by letters (row 3 of contract section 1) holds only while exactly
    one name of all sources folds so. Of homonyms those with another author than the label's drop out, if one with
    the label's author is listed anywhere: two nominal taxa need both (contract section 1, last row).
    """
    heard = [(answer, _best(answer)) for answer in answers if answer.asked == name]
    told = [said for _, statements in heard for said in statements]
    guarded = len({name_key(said.subject.name) for said in told}) > 1
    named = any(same_author(said.subject.authorship, authorship) for said in told)
    for answer, statements in heard:
        kept = [
            said
            for said in statements
            if not (guarded and said.match is Match.LETTERS)
            and not (named and same_author(said.subject.authorship, authorship) is False)
        ]
        if kept:
            yield answer, tuple(sorted(kept, key=_order))


def _best(answer: Answer) -> list[Statement]:
    told = [said for said in answer.statements if said.match.speaks and _animal(said)]
    best = next((match for match in Match if any(said.match is match for said in told)), None)
    return [said for said in told if said.match is best]


def _animal(said: Statement) -> bool:
    """A name of another kingdom is no name of an animal, however it is spelt (Art. 1.4, 52.7)."""
    return (said.subject.kingdom or "").casefold() in _ANIMALS


def _order(said: Statement) -> tuple[str, str, str, str]:
    return (said.subject.name, said.subject.authorship, said.status, said.subject.identifier or "")
