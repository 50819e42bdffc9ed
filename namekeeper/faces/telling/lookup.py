"""What a tag may mean."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from typing import NamedTuple

from namekeeper.evidence.candidates import Candidate
from namekeeper.faces.telling.documents import code, failure_rows
from namekeeper.faces.telling.notes import FOUND, answer_words, notes, notes_beside
from namekeeper.faces.telling.parts import BLANK, Folded, Heading, NameItem, Part
from namekeeper.tasks.lookup import Looked
from namekeeper.tasks.tags import TagAnswers
from namekeeper.words.terms import AnswerKind, How


def lookup_document(answers: TagAnswers) -> dict[str, object]:
    """The JSON of ``lookup`` (contract section 2); ``too_long`` are the numbers, from 1, of tags that were left out."""
    return {
        "results": [
            {
                "tag": looked.tag,
                "reading": _reading(looked),
                "answer": code(looked.lookup.answer),
                "candidates": [_candidate(candidate) for candidate in looked.lookup.candidates],
                "failures": failure_rows(filter(None, [looked.failure])),
            }
            for looked in answers.looked
        ],
        "too_long": list(answers.too_long),
        "failures": failure_rows(answers.failures),
    }


def _reading(looked: Looked) -> dict[str, object]:
    reading = looked.reading
    return {
        "scientific": list(reading.scientific),
        "former": list(reading.former),
        "common": list(reading.common),
        "qualifier": reading.qualifier or None,
        "uncertain": reading.uncertain,
        "trade_form": reading.trade_form or None,
        "locality": reading.locality or None,
        "sex": reading.sex or None,
        "size_cm": list(reading.size_cm) if reading.size_cm else None,
        "size_of": reading.size_of or None,
        "stage": reading.stage or None,
        "instar": reading.instar or None,
        "source_mark": reading.source_mark or None,
        "price": reading.price or None,
        "seller": reading.seller or None,
        "cross": looked.is_cross,
        "denied": reading.negated,
        "unheard": [word.text for word in reading.unheard],
        "alternatives": [word.text for word in reading.alternatives],
        "leftover": reading.leftover,
        "spans": [{"field": span.field, "start": span.start, "end": span.end} for span in reading.spans],
    }


def _candidate(candidate: Candidate) -> dict[str, object]:
    return {
        "name": candidate.name,
        "authorship": candidate.authorship,
        "rank": candidate.rank,
        "how": code(candidate.how),
        "matched": candidate.matched,
        "score": round(candidate.score, 2),
        "range": list(candidate.range),
        "sources": list(candidate.sources),
        "clues": candidate.clues,
        "note": "; ".join(notes(candidate)) or None,
        "notes": list(dict.fromkeys(code(note.code) for note in candidate.notes)),
    }


def lookup_parts(results: Iterable[Looked]) -> Iterator[Part]:
    """One section a tag: the answer, the candidates, what holds for all of them, what else the tag says."""
    for looked in results:
        yield Heading(looked.tag)
        yield Folded(_answer(looked), 2)
        candidates = looked.lookup.candidates
        answer = answer_words(*looked.lookup)
        common = _notes_of_all(candidates, answer)
        for candidate in candidates:
            yield from _candidate_parts(candidate, notes_beside(candidate, answer), common)
        if common:
            yield BLANK
            yield Folded(" ".join(map(_sentence, common)), 2)
        read = _also_read(looked)
        if read:
            yield Folded(f"Also read: {read}.", 2)
        strange = _not_understood(looked)
        if strange:
            yield Folded(f"Not understood: {strange}", 2)


def _answer(looked: Looked) -> str:
    if looked.failure:
        return _sentence(f"not looked up: {looked.failure.why}")
    qualifier = looked.reading.qualifier
    doubt = f"; the tag itself is not sure ({qualifier})" if qualifier else "; the tag itself is not sure"
    if looked.is_cross:
        doubt = "; the tag says that it is a cross"
    return _sentence(answer_words(*looked.lookup) + (doubt if looked.reading.uncertain else ""))


def _sentence(text: str) -> str:
    return f"{text[0].upper()}{text[1:]}" + ("" if text.endswith(".") else ".")


def _notes_of_all(candidates: Sequence[Candidate], answer: str) -> list[str]:
    """Notes that every one of several candidates carries: said once, below."""
    if len(candidates) < 2:
        return []
    first, *others = (notes_beside(candidate, answer) for candidate in candidates)
    return [note for note in first if all(note in other for other in others)]


def _candidate_parts(candidate: Candidate, told: Sequence[str], said_below: Sequence[str]) -> Iterator[Part]:
    yield NameItem(candidate.name, candidate.authorship)
    yield Folded(_why(candidate), 4)
    if candidate.range:
        yield Folded("from " + ", ".join(candidate.range), 4)
    for note in _but(told, said_below):
        yield Folded(note, 4)


def _why(candidate: Candidate) -> str:
    how = (
        FOUND[candidate.how]
        if candidate.is_species or candidate.how is not How.COMMON
        else f"{candidate.rank}, common name"
    )
    by = f" (by {', '.join(candidate.sources)})" if candidate.sources else ""
    agree = f"; {candidate.clues} clues agree" if candidate.clues > 1 else ""
    return f'{how} for "{candidate.matched}"{agree}{by}'


def _also_read(looked: Looked) -> str:
    reading, size = looked.reading, _size(looked)
    amount = "price" if any(map(str.isdigit, reading.price)) else ""  # "sold" is no price
    parts = (
        ("sex", reading.sex), ("size", size), ("stage", reading.stage), ("instar", reading.instar),
        ("trade form", f'"{reading.trade_form}"' if reading.trade_form else ""), ("from", reading.locality),
        ("origin", reading.source_mark), (amount, reading.price), ("seller", reading.seller),
        ("former name", ", ".join(reading.former)),
    )  # fmt: skip
    return "; ".join(f"{label} {value}".strip() for label, value in parts if value)


def _size(looked: Looked) -> str:
    """The size in centimetres; one in inches as written, since two decimals would be more than was measured."""
    if not looked.reading.size_cm:
        return ""
    low, high = looked.reading.size_cm
    of = {"body": " body", "legspan": " leg span"}.get(looked.reading.size_of, "")
    sizes = (looked.tag[span.start : span.end] for span in looked.reading.spans if span.field == "size")
    written = next(text for text in sizes if any(map(str.isnumeric, text)))
    if not any(unit in written.lower() for unit in ("cm", "mm")):
        low, high = round(low, 1), round(high, 1)
        written = f" ({written})"
    else:
        written = ""
    return f"{low:g} cm{of}{written}" if low == high else f"{low:g} to {high:g} cm{of}{written}"


def _but(told: Sequence[str], others: Sequence[str]) -> list[str]:
    return [note for note in told if note not in others]


def _not_understood(looked: Looked) -> str:
    """What is in no field and what brought no candidate, in the order of the tag."""
    matched = {candidate.matched for candidate in looked.lookup.candidates}
    noted = " ".join(word for candidate in looked.lookup.candidates for note in candidate.notes for word in note.words)
    strange = [
        clue.text
        for clue in looked.reading.commons
        if clue.text not in matched
        and clue.text not in noted
        and any(clue.start <= word.start < clue.end for word in looked.reading.unheard)
    ]
    return ", ".join(filter(None, (looked.reading.leftover, *strange)))


class CandidateCard(NamedTuple):
    """One candidate for a tag in words; ``notes`` without those that hold for all candidates."""

    candidate: Candidate
    why: str
    notes: tuple[str, ...]


class TagCard(NamedTuple):
    """One tag in words, for a face that lays it out itself."""

    tag: str
    answer: str
    candidates: tuple[CandidateCard, ...]
    of_all: tuple[str, ...]  # notes on every candidate
    also_read: str
    not_understood: str
    only: str  # the one species it means, empty where the keeper has to choose
    names: tuple[str, ...]  # scientific names that stand in the sentences


def tag_card(looked: Looked) -> TagCard:
    """What a tag may mean, in the parts of :func:`lookup_parts`."""
    answer = answer_words(*looked.lookup)
    shared = _notes_of_all(looked.lookup.candidates, answer)
    cards = tuple(
        CandidateCard(one, _why(one), tuple(map(_sentence, _but(notes_beside(one, answer), shared))))
        for one in looked.lookup.candidates
    )
    species = [one.name for one in looked.lookup.candidates if one.is_species]
    only = species[0] if looked.lookup.answer is AnswerKind.ONE and species else ""
    written = (clue.text for clue in looked.reading.clues)
    names = tuple(dict.fromkeys((*(one.name for one in looked.lookup.candidates), *written)))
    of_all = tuple(map(_sentence, shared))
    return TagCard(looked.tag, _answer(looked), cards, of_all, _also_read(looked), _not_understood(looked), only, names)
