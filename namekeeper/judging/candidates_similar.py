"""Guesses for a name that no list has: similar spellings, and the same epithet where the genus went."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import partial
from typing import Protocol

from namekeeper.evidence.candidates import MAY_BE_REAL, Candidate, Note, NoteCode, merge
from namekeeper.evidence.interfaces import NameSearch, Near, ScientificNames, SimilarNames
from namekeeper.evidence.statements import GenusRecord, Match, Statement, TaxonName
from namekeeper.judging.nearness import SMALL_GENUS, WrittenName, epithet_edits, nearness, without_stutter
from namekeeper.words.names import ScientificName
from namekeeper.words.spelling import plain_key
from namekeeper.words.terms import How

_SPREAD = 0.25  # a guess that much worse than the best is not shown
_MOVED_SCORE = 0.88


class TagNames(ScientificNames, SimilarNames, NameSearch, Protocol):
    """What a scientific name on a tag needs of a list."""


def similar_genera(word: str, lists: Sequence[TagNames]) -> list[Candidate]:
    """Genus words spelt like ``word``, as guesses."""
    found = []
    for origin in lists:
        for record, distance in origin.similar_genus(word):
            if distance <= (1 if len(word) < 8 else 2):
                taxon = TaxonName(record.genus, rank="genus", higher=(record.family,) if record.family else ())
                score = round(0.6 * (1 - distance / max(len(word), 1)), 2)
                found.append(
                    Candidate.of(taxon, How.SIMILAR, word, origin.edition.source, notes=[MAY_BE_REAL], score=score)
                )
    return merge(found)


def similar(name: ScientificName, lists: Sequence[TagNames], known: GenusRecord | None) -> list[Candidate]:
    found: list[Candidate] = []
    moved = _in_new_genus(name, lists, known) if known else []
    asked = name.canonical
    for origin in lists:
        near = _near(origin, name)
        best = min((item.distance for item in near), default=0)
        rivals = len({item.statement.subject.name for item in near if item.distance == best})
        for item in near:
            found += _of_near(item, asked, origin, rivals)
    ranked = sorted(merge(moved + found), key=lambda candidate: -candidate.score)
    return [candidate for candidate in ranked if candidate.score >= ranked[0].score - _SPREAD]


def _near(origin: TagNames, name: ScientificName) -> list[Near]:
    """Listed names close to the written one, each once: what the list finds, and all that share one whole word."""
    asked = name.canonical
    written = WrittenName.of(asked)
    spellings = tuple(dict.fromkeys((asked, without_stutter(asked))))
    genera = () if name.abbreviated else [spelling.partition(" ")[0] for spelling in spellings]
    crowd = max((origin.crowd(genus, SMALL_GENUS + 1) for genus in genera), default=0)
    close = partial(written.close, crowd=crowd)
    found: dict[str, Statement] = {}
    for spelling in spellings:
        found |= {near.statement.subject.name: near.statement for near in origin.similar(spelling)}
        genus, _, epithet = spelling.partition(" ")
        if not name.abbreviated:
            beside = origin.neighbours(genus, epithet, close)
            found |= {statement.subject.name: statement for statement in beside}
    kept = close(map(plain_key, found))
    return [
        Near(statement, _distance(asked, listed), nearness(asked, listed))
        for listed, statement in found.items()
        if plain_key(listed) in kept
    ]


def _distance(asked: str, listed: str) -> int:
    return epithet_edits(*(plain_key(text).partition(" ")[2] for text in (asked, listed)))


def _of_near(near: Near, asked: str, origin: TagNames, rivals: int) -> Iterator[Candidate]:
    statement = near.statement
    score = round(0.9 * near.score - (0.1 if rivals > 1 else 0.0), 2)
    notes = [Note(NoteCode.SPELT_SIMILARLY, (statement.subject.name,))]
    if _origin_is_silent(origin, statement):
        notes.append(MAY_BE_REAL)
    for taxon in statement.targets or (statement.subject,):
        yield Candidate.of(taxon, How.SIMILAR, asked, origin.edition.source, notes=notes, score=max(score, 0.05))


def _origin_is_silent(origin: TagNames, statement: Statement) -> bool:
    """Whether the list cannot say that the written name does not exist, being complete for no taxon above it."""
    taxa = {*statement.subject.higher, statement.subject.name.split(" ")[0], statement.subject.kingdom or ""}
    return not taxa & set(origin.edition.complete_for)


def _in_new_genus(name: ScientificName, lists: Sequence[TagNames], known: GenusRecord) -> list[Candidate]:
    """The epithet in the genus that took in the written one: computed, so a guess (contract section 1, last rows)."""
    return [
        Candidate.of(
            taxon, How.SIMILAR, name.canonical, origin.edition.source,
            notes=[Note(NoteCode.GENUS_WENT, (known.genus, genus)), MAY_BE_REAL], score=_MOVED_SCORE,
        )
        for genus in known.moved_to
        for origin in lists
        for statement in origin.named(f"{genus} {name.epithet}")
        if statement.match in (Match.SAME, Match.ENDING)
        for taxon in statement.targets
    ]  # fmt: skip
