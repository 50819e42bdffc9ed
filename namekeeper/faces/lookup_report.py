"""The answer to a tag in words, for a terminal of any width."""

from __future__ import annotations

from collections.abc import Sequence
from types import MappingProxyType

from namekeeper.evidence.candidates import Candidate
from namekeeper.faces.console import Console, fold, printable
from namekeeper.reading.reading import HYBRID, Reading
from namekeeper.tasks.lookup import Looked
from namekeeper.words.terms import AnswerKind, How

_ANSWERS = MappingProxyType(
    {
        AnswerKind.ONE: "one species",
        AnswerKind.SEVERAL: "may be any of these: you choose",
        AnswerKind.GUESS: "no list has this name; similar ones, as guesses only",
        AnswerKind.GENUS: "the species is not known from this tag",
        AnswerKind.NONE: "names no animal that the lists know",
        AnswerKind.UNASKED: "not in the lists asked; none of them has every name of this group",
    }
)
_HOW = MappingProxyType(
    {
        How.ACCEPTED: "name in force",
        How.FORMER: "former name",
        How.EQUIVALENT: "same name, other ending or letters",
        How.ABBREVIATED: "shortened name",
        How.COMMON: "common name",
        How.MISAPPLIED: "trade usage",
        How.DOUBTFUL: "no name in force",
        How.GENUS: "genus",
        How.SIMILAR: "similar",
    }
)
_WIDEST = 100


def show(results: Sequence[Looked], console: Console) -> None:
    """One block a tag: the tag, the answer, the candidates, what holds for all of them, what else the tag says."""
    for looked in results:
        console.heading(looked.tag)
        console.put_folded(_answer(looked), 2)
        candidates = looked.lookup.candidates
        common = _notes_of_all(candidates)
        for candidate in candidates:
            _show_candidate(candidate, common, console)
        if common:
            console.put()
            console.put_folded(" ".join(map(_sentence, common)), 2)
        read = _read(looked.reading)
        if read:
            console.put_folded(f"Also read: {read}.", 2)
        if looked.reading.leftover:
            console.put_folded(f"Not understood: {looked.reading.leftover}", 2)


def _answer(looked: Looked) -> str:
    qualifier = looked.reading.qualifier
    doubt = f"; the tag itself is not sure ({qualifier})" if qualifier else ""
    if qualifier == HYBRID:
        doubt = "; the tag says that it is a cross"
    return _sentence(_ANSWERS[looked.lookup.answer] + (doubt if looked.reading.uncertain else ""))


def _sentence(text: str) -> str:
    return f"{text[0].upper()}{text[1:]}" + ("" if text.endswith(".") else ".")


def _notes(candidate: Candidate) -> list[str]:
    return candidate.note.split("; ") if candidate.note else []


def _notes_of_all(candidates: Sequence[Candidate]) -> list[str]:
    """Notes that every one of several candidates carries: said once, below."""
    if len(candidates) < 2:
        return []
    return [note for note in _notes(candidates[0]) if all(note in _notes(other) for other in candidates[1:])]


def _show_candidate(candidate: Candidate, said_below: Sequence[str], console: Console) -> None:
    width = min(console.width, _WIDEST)
    name = printable(f"{candidate.name} {candidate.authorship}".strip())
    lines = fold(name, width - 4)
    styled = console.style(printable(candidate.name), "name")
    lines[0] = lines[0].replace(printable(candidate.name), styled, 1)
    console.out.write("\n  * " + "\n    ".join(lines) + "\n")
    console.put_folded(_why(candidate), 4)
    if candidate.range:
        console.put_folded("from " + ", ".join(candidate.range), 4)
    for note in _notes(candidate):
        if note not in said_below:
            console.put_folded(note, 4)


def _why(candidate: Candidate) -> str:
    how = (
        _HOW[candidate.how]
        if candidate.is_species or candidate.how is not How.COMMON
        else f"{candidate.rank}, common name"
    )
    by = f" (by {', '.join(candidate.sources)})" if candidate.sources else ""
    agree = f"; {candidate.clues} clues agree" if candidate.clues > 1 else ""
    return f'{how} for "{candidate.matched}"{agree}{by}'


def _read(reading: Reading) -> str:
    size = ""
    if reading.size_cm:
        low, high = reading.size_cm
        of = {"body": " body", "legspan": " leg span"}.get(reading.size_of, "")
        size = f"{low:g} cm{of}" if low == high else f"{low:g} to {high:g} cm{of}"
    parts = (
        ("sex", reading.sex), ("size", size), ("stage", reading.stage), ("instar", reading.instar),
        ("trade form", f'"{reading.trade_form}"' if reading.trade_form else ""), ("from", reading.locality),
        ("origin", reading.source_mark), ("price", reading.price), ("former name", ", ".join(reading.former)),
    )  # fmt: skip
    return "; ".join(f"{label} {value}" for label, value in parts if value)
