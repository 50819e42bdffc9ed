"""Verdicts in words: reasons, what speaks for a choice, and who said what; the only place of these sentences."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from datetime import datetime
from types import MappingProxyType
from typing import NamedTuple

from namekeeper.evidence.candidates import Candidate
from namekeeper.evidence.statements import Failure, Statement
from namekeeper.evidence.verdicts import Choice, Ground, GroundCode, Reason, ReasonCode, Said, Silence, Verdict
from namekeeper.faces.telling.documents import code
from namekeeper.faces.telling.evidence import found_by, parts, says
from namekeeper.faces.telling.notes import notes
from namekeeper.faces.telling.sources import failed
from namekeeper.faces.telling.standings import done, state

_R, _G = ReasonCode, GroundCode
_UNSEEN = "not to be taken unseen: "

#: One sentence a code: numbers stand for the words of the reason, names for parts of what it is about.
REASONS = MappingProxyType(
    {
        _R.GENUS_MOVED: "the whole genus {0} is now {1}; which species the animal is stays open",
        _R.GENUS_DIVIDED: "the genus {0} went to more than one genus: please choose",
        _R.OPEN: '"{0}" on a label names no species: only its genus is followed',
        _R.OPEN_FORM: "a trade form names no species: only its genus is followed",
        _R.OPEN_GENUS: "the label names no species: only its genus is followed",
        _R.FORM_DESCRIBED: 'the form "{form}" is given as {described}: offered, not taken',
        _R.MISUSE: "{name} on a label written {0}: the trade used it for {meant}{cited}",
        _R.MISUSE_UNDATED: "{name} on a label of unknown date: the trade used it for {meant}{cited}",
        _R.MISUSE_BY_SOURCE: "{position}",
        _R.DIVISION: "{name} means several species by {kind} {since}{cited}; this label was written {0}",
        _R.DIVISION_UNDATED: (
            "{name} means several species by {kind} {since}{cited}; when this label was written is not known"
        ),
        _R.DISPUTE: "published sources differ on {name}{cited}",
        _R.UNKNOWN: "{0} is not in {sources}, said to have every name of its group",
        _R.COMPUTED: "no source has {0}; {1} is only worked out, since the whole genus went to {2}",
        _R.TAKEN: "the whole genus went to {0}, which has a {taxon}: whether that is the same species, no source says",
        _R.NO_COMPLETE_SOURCE: (
            "{0} is in none of the lists asked, and none of them has every name of its group: the name may be right"
        ),
        _R.COMMON_NAME: "{0} is a common name, and no source here has a taxon in force under it as a scientific one",
        _R.NO_LONGER_LISTED: "{0} is no longer in {source}; {1} had it",
        _R.SUCCESSOR: "{source} has {2} under the identifier that {0} had in {1}: a proposal, not a statement",
        _R.NAMESAKE_EPITHET: (
            "{source} has {2}, new since {1} and of the same epithet and family as {0}: a proposal, not a statement"
        ),
        _R.OTHERS_SILENT: "{source} is newer, said to have every name of the group, and does not list {0}",
        _R.ABBREVIATED: "the genus is abbreviated: write it out, or look the name up as a tag",
        _R.FAILED: "{source} {failure}",
        _R.BROKEN: "{position}",
        _R.CONTRADICTION: "{position}: the same spelling stands for more than one name, none is picked",
        _R.DIFFER: "the sources you trust differ on the name in force",
        _R.POSITION: "{position}",
        _R.DOUBTFUL: "{position}",
        _R.UNAVAILABLE: "{position}",
        _R.SEVERAL: "{position}",
        _R.CURRENT: "{position}",
        _R.RESPELLED: "{position}",
        _R.RENAMED: "{position}",
        _R.MOVED: "{position}",
        _R.MERGED: "{position}",
        _R.ACT: "{act}",
        _R.BRACKETS_DUE: (
            "{source}: the source prints {0}; the species stands in another genus than its first,"
            " so by the Code (Art. 51.3) it is {1}"
        ),
        _R.BRACKETS_NOT_DUE: (
            "{source}: the source prints {0}; the species stands in the genus of its first description,"
            " so by the Code (Art. 51.3) it is {1}"
        ),
        _R.SPELLING_ACT: "the source itself changed the spelling to {0}",
        _R.MARKS_ONLY: "only marks, hyphens or capitals differ: the source prints {0}",
        _R.ENDING_ONLY: "only the ending differs: the source prints {0}",
        _R.LETTERS_ONLY: "other letters of one name: the source prints {0}",
        _R.MAY_BE_OWN: "{0} may also be a species of its own: no list asked is complete for its group",
        _R.TAG_ONLY: "nothing was settled yet: only the tag",
        _R.HYBRID: "a hybrid: each parent is judged, nothing is changed unseen",
        _R.PARENT: "{0}: {1}; {reason}",
        _R.MISUSE_GOES_ON: (
            "{name} is still sold for {sold_for} (cleared up {cleared}): please settle once which it is"
        ),
        _R.UNCERTAIN: '"{0}": the name follows the species, the identification is uncertain',
        _R.LINE_KEEPS_NAME: "the line keeps its name: {0}",
        _R.LAGGING: "not counted, since its edition is older than the change: {position}",
        _R.DOUBTED: "{position}",
        _R.LISTED_AS: "papers may carry {listed_as}: {statement} ({cited}); local rules decide",
        _R.UNSAFE_TYPE: _UNSEEN + "more happened than a move to another genus or another spelling",
        _R.UNSAFE_MEANING: _UNSEEN + "the name may mean another species",
        _R.UNSAFE_OTHER_DATE: (
            _UNSEEN + "recorded for this name, though not for the date of this label: {recorded}"
        ),
        _R.UNSAFE_DOUBTED: _UNSEEN + "doubted by {source}",
        _R.UNSAFE_TARGET_DOUBTED: _UNSEEN + "{0} itself is doubted by {source}",
        _R.UNSAFE_TARGET_DENIED: _UNSEEN + "another source sends {0} itself elsewhere, {position}",
        _R.UNSAFE_UNCERTAIN: _UNSEEN + "the identification is uncertain ({0})",
        _R.UNSAFE_TRADE_FORM: _UNSEEN + "the label names a trade form",
        _R.UNSAFE_OUTDATED: _UNSEEN + "the status is as of {0}, and the genus was revised in {1}",
        _R.UNSAFE_NO_AUTHORSHIP: _UNSEEN + "no source gives an authorship of {0}",
        _R.UNSAFE_UNFOUNDED: (
            _UNSEEN + "no source that was checked and is up to date gives this name for the spelling on the label"
        ),
    }
)  # fmt: skip
#: The same of what speaks for a choice.
GROUNDS = MappingProxyType(
    {
        _G.CLUE: "{clue}",
        _G.BY_SOURCE: "by {source}",
        _G.MEANT_BY: "meant, by {source}",
        _G.ONE_READING: "one reading of {source}",
        _G.SPELT_SIMILARLY: "spelt similarly in {source}: only a guess",
        _G.PROPER_SENSE: "{0} in its proper sense ({source})",
        _G.ONE_SIDE: "one side of a dispute{cited}",
        _G.SOLD_AS: "sold as {name}{dates}",
        _G.COVERED: "{name} covered it before the {kind}{when} ({citation})",
        _G.DESCRIBED_FORM: 'given as the described species behind "{form}" ({citation})',
        _G.FOLLOWS_GENUS: "where the whole genus went",
        _G.COMPUTED: "only worked out from the move of the whole genus; no source gives this name",
        _G.COMMON_NAME: '"{0}" is a common name of it in {source}',
        _G.STANDS_THERE: "stands where the genus went; the same species only if the author is the same",
        _G.GENUS_PART: "part of {genus} moved here{cited}",
        _G.GENUS_REST: "the rest of the genus stays",
        _G.GENUS_SUNK: "{key} makes {0} a synonym of it",
        _G.SAME_IDENTIFIER: "has the same identifier in {source}",
        _G.SAME_EPITHET: "has the same epithet, and is new in {source}",
        _G.NATIVE_RANGE: "native range: {all}",
    }
)  # fmt: skip


class SourceLine(NamedTuple):
    """One line of a report on one source; ``asked`` is when it was asked, None for now."""

    source: str
    edition: str | None
    asked: datetime | None
    stale: bool
    lagging: bool
    says: str
    link: str | None
    licence: str | None
    holds: str  # the status of the name there, "silent", or why the source could not be asked
    targets: tuple[str, ...]  # the names it sends to


def why(verdict: Verdict) -> tuple[str, ...]:
    """The reasons of a verdict, the deciding one first."""
    return tuple(text for _, text in dict.fromkeys((one.code, sentence(one)) for one in verdict.reasons))


def in_short(verdict: Verdict) -> str:
    """The standing with the deciding reason, for JSON."""
    return f"{verdict.standing}: {_deciding(verdict)}"


def in_words(verdict: Verdict, label: str) -> str:
    """The same for a keeper's eyes."""
    return f"{state(verdict, label)}: {_deciding(verdict)}"


def _deciding(verdict: Verdict) -> str:
    return sentence(verdict.reasons[0]) if verdict.reasons else "decide it first"


def sentence(reason: Reason) -> str:
    """One reason."""
    about = reason.about
    if isinstance(about, Reason):  # of a parent, whose standing is the last word
        return REASONS[reason.code].format(*map(done, reason.words), reason=sentence(about))
    return REASONS[reason.code].format(*reason.words, **parts(about))


def grounds(choice: Choice) -> str:
    """What speaks for a choice; what another ground says already is not said again."""
    return _joined(map(_ground, choice.grounds))


def told_apart(choices: Sequence[Choice]) -> tuple[str, tuple[str, ...]]:
    """What speaks for several choices alike, and for each of them alone."""
    told = [[*(part for ground in choice.grounds for part in _parts(ground)), *_range(choice)] for choice in choices]
    common = [part for part in told[0] if all(part in other for other in told)] if len(told) > 1 else []
    return _joined(common), tuple(_joined(part for part in own if part not in common) for own in told)


def _joined(texts: Iterable[str]) -> str:
    told = ""
    for text in texts:
        if text not in told:
            told = f"{told}; {text}" if told else text
    return told


def _range(choice: Choice) -> Iterator[str]:
    """The native range, where it is no ground already."""
    if choice.range:
        yield _ground(Ground(GroundCode.NATIVE_RANGE, choice.range))


def _parts(ground: Ground) -> tuple[str, ...]:
    """A ground with the notes on a candidate one by one."""
    if isinstance(ground.about, Candidate):
        return (found_by(ground.about), *notes(ground.about))
    return (_ground(ground),)


def _ground(ground: Ground) -> str:
    return GROUNDS[ground.code].format(*ground.words, all=", ".join(ground.words), **parts(ground.about))


def lines(verdict: Verdict) -> tuple[SourceLine, ...]:
    """Who said what, each line once."""
    return tuple(dict.fromkeys(_line(said) for said in verdict.statements))


def _line(said: Said) -> SourceLine:
    text, holds, targets = _told(said.told)
    return SourceLine(
        said.source, said.edition, said.retrieved, said.stale, said.lagging, text, said.link, said.licence, holds,
        targets,
    )  # fmt: skip


def _told(told: Statement | Silence | Failure) -> tuple[str, str, tuple[str, ...]]:
    match told:
        case Statement():
            return says(told), code(told.status), tuple(target.name for target in told.targets)
        case Silence():
            return f"does not list {told.asked}", "silent", ()
        case Failure():
            return failed(told), code(told.kind), ()
