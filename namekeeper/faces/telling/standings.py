"""The closed words of judgement as a keeper says them; terminal and page take them from here, JSON keeps its own."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from types import MappingProxyType

from namekeeper.evidence.candidates import Candidate
from namekeeper.evidence.verdicts import UNCERTAIN_TAG, ReasonCode, Verdict
from namekeeper.faces.telling.notes import answer_words
from namekeeper.tasks.check import Finding
from namekeeper.words.terms import AnswerKind, EntryStanding, Standing

#: One sentence a standing: what happened to the name on the label.
MEANING = MappingProxyType(
    {
        Standing.CURRENT: "The name is in force.",
        Standing.MOVED: "The same species, now in another genus or at another rank.",
        Standing.RESPELLED: "The same name, spelt otherwise.",
        Standing.MERGED: "Now counted as part of another species.",
        Standing.RENAMED: "Replaced by another name, since the old one was already taken.",
        Standing.DIVIDED: "Split since the label was written: it may be one of several species.",
        Standing.MISAPPLIED: "The trade has used this name for another species.",
        Standing.DOUBTFUL: "A name that cannot be tied to a species with certainty.",
        Standing.OPEN: "Named to the genus only, or under a trade form.",
        Standing.DISPUTED: "The sources you trust do not agree.",
        Standing.UNNAMED: "Only the seller's tag so far.",
        Standing.UNKNOWN: "A list that has every name of the group does not have this one.",
        Standing.UNASKED: "None of those asked has it, and none of them has every name of its group.",
    }
)

#: What the keeper does about it; a name in force is asked about only while the trade still uses it for another.
TO_DO = MappingProxyType(
    {
        Standing.CURRENT: "choose once which it is",
        Standing.MOVED: "take the new name",
        Standing.RESPELLED: "take the new spelling",
        Standing.MERGED: "take the new name, or keep the name of your line",
        Standing.RENAMED: "take the new name",
        Standing.DIVIDED: "choose which it is",
        Standing.MISAPPLIED: "choose which it is",
        Standing.DOUBTFUL: "keep the name, or choose another",
        Standing.OPEN: "see whether an offer fits, or keep the name",
        Standing.DISPUTED: "choose, or decide later",
        Standing.UNNAMED: "choose a name",
        Standing.UNKNOWN: "check the spelling on the tag",
        Standing.UNASKED: "check the spelling, ask the services, or add a larger list",
    }
)

#: The few words of each that stand on a screen; :func:`state` says more where more is known.
STATES = MappingProxyType(
    {
        Standing.CURRENT: "Name in force",
        Standing.MOVED: "Moved to another genus",
        Standing.RESPELLED: "Spelt otherwise now",
        Standing.MERGED: "Now part of another species",
        Standing.RENAMED: "Has a new name, the old one was taken",
        Standing.DIVIDED: "Split into several species",
        Standing.MISAPPLIED: "Used for several species",
        Standing.DOUBTFUL: "Cannot be tied to a species",
        Standing.OPEN: "Known to the genus only",
        Standing.DISPUTED: "Sources disagree",
        Standing.UNNAMED: "No name yet",
        Standing.UNKNOWN: "Not in the list of this group",
        Standing.UNASKED: "Nobody could be asked",
    }
)
_NO_LONGER = "No longer in the newest edition"
#: In place of these, by what decided.
_BY_REASON = MappingProxyType(
    {
        ReasonCode.COMPUTED: "Genus moved, new name only worked out",
        ReasonCode.GENUS_MOVED: "Known to the genus only, which moved",
        ReasonCode.UNAVAILABLE: "Not a published name",
        ReasonCode.CONTRADICTION: "One list gives it several meanings",
        ReasonCode.NO_COMPLETE_SOURCE: "Not in the lists asked so far",
        ReasonCode.COMMON_NAME: "A common name, not a scientific one",
        ReasonCode.NO_LONGER_LISTED: _NO_LONGER,
        ReasonCode.SUCCESSOR: _NO_LONGER,
        ReasonCode.NAMESAKE_EPITHET: _NO_LONGER,
        ReasonCode.ABBREVIATED: "Genus is shortened on the label",
    }
)
#: How many labels: "12 in force, 3 moved".
_COUNTED = MappingProxyType(
    {
        Standing.CURRENT: "in force",
        Standing.MOVED: "moved",
        Standing.RESPELLED: "spelt otherwise",
        Standing.MERGED: "part of another species",
        Standing.RENAMED: "replaced",
        Standing.DIVIDED: "split",
        Standing.MISAPPLIED: "used for several species",
        Standing.DOUBTFUL: "not tied to a species",
        Standing.OPEN: "known to the genus only",
        Standing.DISPUTED: "on which sources disagree",
        Standing.UNNAMED: "without a name",
        Standing.UNKNOWN: "not in the list of their group",
        Standing.UNASKED: "that nobody could be asked about",
    }
)
#: Words of name entries, decisions and comparisons beside the standings.
_DONE = MappingProxyType(
    {
        EntryStanding.AS_LABELLED.value: "as it came",
        EntryStanding.CHOSEN.value: "your choice",
        EntryStanding.CORRECTED.value: "corrected: the name before was wrong from the start",
        EntryStanding.UNDONE.value: "taken back",
        "kept": "name kept",
        "postponed": "decide later",
        "unprinted": "print taken back",
        "new": "new in the list",
        "gone": "no longer in the list",
    }
)
LAGGING = "its edition is older than the change, so it is not counted"
STALE_ANSWER = "an old answer"


def state(verdict: Verdict, label: str) -> str:
    """What is known of the name ``label``, in a few words for a table or beside a picture."""
    standing, choices = verdict.standing, len(verdict.choices)
    if verdict.reasons and verdict.reasons[0].code in _BY_REASON:
        return _BY_REASON[verdict.reasons[0].code]
    match standing:
        case Standing.CURRENT if choices:
            return "Name in force, but sold for others too"
        case Standing.MOVED if verdict.proposed:
            return _moved(label, verdict.proposed.name)
        case Standing.MISAPPLIED:
            return f"One of {choices} species" if choices > 1 else "Sold under another's name"
        case Standing.DIVIDED if choices > 1:
            return f"Split: one of {choices} species"
        case Standing.UNASKED if not verdict.failed:
            return _BY_REASON[ReasonCode.NO_COMPLETE_SOURCE]
        case _:
            return STATES[standing]


def tag_answer(verdict: Verdict) -> str:
    """How far the tag leads of an animal that has no name yet."""
    words = next((one.words for one in verdict.reasons if one.code is ReasonCode.TAG_ONLY), ())
    if not words:
        return MEANING[Standing.UNNAMED]
    clues = [ground.about for choice in verdict.choices for ground in choice.grounds]
    found = [clue for clue in clues if isinstance(clue, Candidate)]
    told = answer_words(AnswerKind(words[0]), found) + (
        "; the tag itself is not sure" if UNCERTAIN_TAG in words else ""
    )
    return f"{told[0].upper()}{told[1:]}."


def _moved(label: str, new: str) -> str:
    """By rank: a subspecies that became a species, a species that became a subspecies, or another genus."""
    before, now = len(label.split()), len(new.split())
    if before == 3 and now == 2:
        return "Now a species of its own"
    if before == 2 and now == 3:
        return "Now a subspecies"
    return STATES[Standing.MOVED]


def beside(finding: Finding, *, stale: bool = False) -> Iterator[str]:
    """What stands beside the state: what the keeper decided, and whether a label waits to be printed."""
    if finding.keeping:
        day = f" on {finding.keeping.recorded}" if finding.keeping.recorded else ""
        yield f"You kept this name{day}" if finding.named else f"You left it without a name{day}"
    elif finding.postponed:
        yield "You decide later"
    if stale:
        yield "Label to print"


def counts(summary: Mapping[str, int]) -> dict[str, int]:
    """Labels by standing, in words that follow a number: 12 "in force", 3 "moved"."""
    return {_COUNTED[Standing(word)]: count for word, count in summary.items()}


def tally(summary: Mapping[str, int]) -> str:
    """The same as a sentence: "12 in force, 3 moved"."""
    return ", ".join(f"{count} {words}" for words, count in counts(summary).items())


def done(word: str, old: str = "", new: str = "") -> str:
    """What happened, or was decided: the standing of an entry, the kind of a decision or of a change between lists.

    ``old`` and ``new`` are the names before and after, where both are known.
    """
    if word == Standing.MOVED:
        told = _moved(old, new) if old and new else "Moved to another genus or rank"
        return f"{told[0].lower()}{told[1:]}"
    if word not in STATES:
        return _DONE.get(word, word)
    told = STATES[Standing(word)]
    return f"{told[0].lower()}{told[1:]}"
