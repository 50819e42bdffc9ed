"""The words of a look-up: how far a tag was read, how each candidate was found, and the notes on it.

They stand apart from those of verdicts, so that a look-up loads nothing of a check.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from types import MappingProxyType

from namekeeper.evidence.candidates import Candidate, Note, NoteCode
from namekeeper.evidence.statements import Division, Misuse, TradeForm
from namekeeper.words.terms import AnswerKind, How, Verification

#: How a candidate was found.
FOUND = MappingProxyType(
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
#: How far a tag could be read.
ANSWERS = MappingProxyType(
    {
        AnswerKind.ONE: "one species",
        AnswerKind.SEVERAL: "may be any of these: you choose",
        AnswerKind.GUESS: "no list has all of this; guesses only",
        AnswerKind.GENUS: "the species is not known from this tag",
        AnswerKind.NONE: "names no animal that the lists know",
        AnswerKind.UNASKED: "not in the lists asked; none of them has every name of this group",
    }
)
#: The same of a guess that rests on a listed name, by what all its candidates are told of
GUESSES = MappingProxyType(
    {
        NoteCode.RECALLED: "a common name that no source was seen for: a guess",
        NoteCode.OTHER_ANIMAL: "a word of the tag means other animals than its name: a guess",
        NoteCode.DENIED: "the tag says that it is not this, or only looks like it: a guess",
    }
)
#: One sentence a code: numbers stand for the words of the note, names for parts of what it is about.
SENTENCES = MappingProxyType(
    {
        NoteCode.CROSS_PARENT: "parent of a cross",
        NoteCode.TRADE_FORM: (
            'the trade form "{form}" is given as this species ({basis}); a trade form is no identification'
        ),
        NoteCode.TRADE_USE: "the trade has used {name} for {meant}{recalled}",
        NoteCode.STILL_IN_USE: "cleared up in {cleared}, still in use",
        NoteCode.DIVIDED: "{name} was divided{when}",
        NoteCode.DISPUTED: "sources differ on {0}",
        NoteCode.SOURCE_REMARK: "{0}",
        NoteCode.SOURCE_FAULT: "{0}",
        NoteCode.NO_NAME_IN_FORCE: "no name in force",
        NoteCode.NO_NAME_GIVEN: "the source gives no name in force",
        NoteCode.LISTED_AS: "listed as {0}",
        NoteCode.NAME_RECALLED: "this former name is from memory, no source was seen for it",
        NoteCode.SPELT_BY_SOURCE: "the source spells it {0}",
        NoteCode.SPELT_SIMILARLY: "spelt {0} in the list",
        NoteCode.SUBSPECIES_UNLISTED: "the subspecies {0} is not listed",
        NoteCode.FORMER_GENUS: "{0} is a former genus",
        NoteCode.GENUS_WENT: "{0} went to {1}",
        NoteCode.PART_OF_COMMON: "part of the common name {0}",
        NoteCode.LIKE_COMMON: "similar to the common name {0}",
        NoteCode.ONLY_EPITHET: "only the second word is written",
        NoteCode.TOO_GENERAL: "one word alone, too general to name a species",
        NoteCode.RECALLED: "the common name is from memory, no source was seen for it",
        NoteCode.WORD_NOT_HEARD: 'leaving out "{0}", which no list here has in this name: it may be another animal',
        NoteCode.OTHER_ANIMAL: 'the tag says "{0}", which this animal is not',
        NoteCode.DENIED: "the tag says that it is not this, or only looks like it",
        NoteCode.UNLISTED_BESIDE: 'the tag names "{0}" too, which no list here has',
        NoteCode.LEFT_OUT: 'leaving out "{0}", which means {1} among other animals',
        NoteCode.MAY_BE_REAL: "the written name may be a real one that no list here has",
    }
)


def answer_words(answer: AnswerKind, candidates: Sequence[Candidate]) -> str:
    """How far a tag could be read, and of a guess why it is no more."""
    if answer is AnswerKind.GUESS and candidates:
        shared = set.intersection(*({note.code for note in candidate.notes} for candidate in candidates))
        return next((told for code, told in GUESSES.items() if code in shared), ANSWERS[answer])
    return ANSWERS[answer]


def notes(candidate: Candidate) -> tuple[str, ...]:
    """The notes of a candidate in words, each once."""
    return tuple(dict.fromkeys(part for note in candidate.notes for part in _told_apart(sentence(note))))


def _told_apart(text: str) -> list[str]:
    """The parts of a note, which stand one below another; all begin as the first does."""
    first, *others = text.split("; ")
    return [first, *(part[:1].upper() + part[1:] if first[:1].isupper() else part for part in others)]


def notes_beside(candidate: Candidate, answer: str) -> tuple[str, ...]:
    """The notes of a candidate but for what the answer has said already."""
    return tuple(note for note in notes(candidate) if not answer.startswith(note))


def sentence(note: Note) -> str:
    """One note in words."""
    return SENTENCES[note.code].format(*note.words, **_parts(note.about))


def _parts(about: Misuse | Division | TradeForm | None) -> Mapping[str, object]:
    match about:
        case Misuse():
            recalled = " (from memory, no source seen)" if about.verification is Verification.MEMORY else ""
            meant = " or ".join(taxon.name for taxon in about.meant)
            return {"name": about.name, "meant": meant, "recalled": recalled, "cleared": about.cleared}
        case Division():
            return {"name": about.name, "when": f" in {about.since}" if about.since else ""}
        case TradeForm():
            basis = "from memory, no source seen" if about.verification is Verification.MEMORY else "recorded"
            return {"form": about.form, "basis": basis}
        case None:
            return {}
