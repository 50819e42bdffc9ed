"""The answer to a tag in words, for a terminal of any width."""

from __future__ import annotations

from collections.abc import Sequence
from types import MappingProxyType

from namekeeper.faces.console import Console, fold, printable
from namekeeper.judging.candidate import Candidate
from namekeeper.reading.reading import Reading
from namekeeper.tasks.lookup import Looked
from namekeeper.words.terms import AnswerKind, How

_ANSWERS = MappingProxyType(
    {
        AnswerKind.ONE: "one species",
        AnswerKind.SEVERAL: "may be any of these: you choose",
        AnswerKind.GUESS: "no such name in the lists; similar ones, as guesses only",
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
    """One block a tag: the tag, the answer, the candidates, what else the tag says."""
    for looked in results:
        console.heading(looked.tag)
        console.put_folded(_answer(looked), 2)
        for candidate in looked.lookup.candidates:
            _show_candidate(candidate, console)
        read = _read(looked.reading)
        if read:
            console.put_folded(f"Also read: {read}", 2)
        if looked.reading.leftover:
            console.put_folded(f"Not understood: {looked.reading.leftover}", 2)


def _answer(looked: Looked) -> str:
    told = _ANSWERS[looked.lookup.answer]
    doubt = f"; the tag itself is not sure ({looked.reading.qualifier})" if looked.reading.uncertain else ""
    return f"{told[0].upper()}{told[1:]}{doubt}."


def _show_candidate(candidate: Candidate, console: Console) -> None:
    width = min(console.width, _WIDEST)
    name = printable(f"{candidate.name} {candidate.authorship}".strip())
    lines = fold(name, width - 4)
    styled = console.style(printable(candidate.name), "name")
    lines[0] = lines[0].replace(printable(candidate.name), styled, 1)
    console.out.write("\n  * " + "\n    ".join(lines) + "\n")
    console.put_folded(_why(candidate), 4)
    if candidate.range:
        console.put_folded("from " + ", ".join(candidate.range), 4)
    if candidate.note:
        console.put_folded(candidate.note, 4)


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
