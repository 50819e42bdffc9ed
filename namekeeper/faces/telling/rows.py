"""One label in few words, as it stands in a list of animals: what happened, what it may be, whose turn it is."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from types import MappingProxyType

from namekeeper.evidence.statements import Act
from namekeeper.evidence.verdicts import Verdict
from namekeeper.tasks.check import Finding
from namekeeper.tasks.settle import Planned
from namekeeper.words.dates import PartialDate
from namekeeper.words.terms import Standing

#: What the keeper does next, as the word on the button.
TURNS = MappingProxyType(
    {
        Standing.CURRENT: "Choose",
        Standing.DIVIDED: "Choose",
        Standing.MISAPPLIED: "Choose",
        Standing.DISPUTED: "Compare",
        Standing.UNNAMED: "Name it",
    }
)
_ENDS = MappingProxyType(
    {
        Standing.MERGED: " Your line can keep its old name beside it.",
        Standing.MOVED: " Same species, nothing to judge.",
        Standing.RESPELLED: " Same species, nothing to judge.",
        Standing.DISPUTED: " You can wait.",
        Standing.DOUBTFUL: " You can keep the name.",
    }
)
_MOST_NAMES = 3
MONTHS = (
    "January", "February", "March", "April", "May", "June",
    "July", "August", "September", "October", "November", "December",
)  # fmt: skip


#: The facts of an animal by their words in its file.
FACT_WORDS = MappingProxyType(
    {
        "place": "Where it stands",
        "note": "Note",
        "sex": "Count: male.female.unsexed",
        "stage": "Stage",
        "common": "Common name",
        "caution": "Caution",
        "locality": "Locality it came from",
        "acquired": "Here since (2014-05-03, 2014-05 or 2014)",
        "from": "From: a seller, or parents' numbers with ; between",
        "size": "Size",
        "price": "Price",
    }
)
_DONE_MANY = MappingProxyType({"undone": "were taken back", "unprinted": "count as not printed"})
_DONE = MappingProxyType(
    {
        "kept": "keeps its name",
        "postponed": "is for later",
        "undone": "was taken back",
        "unprinted": "counts as not printed",
    }
)


def written(changes: Sequence[Planned]) -> str:
    """What was written, in one line; empty where nothing was."""
    done = [one for one in changes if one.written]
    if not done:
        return ""
    if len(done) > 1:
        kinds = {one.standing for one in done}
        what = _DONE_MANY.get(next(iter(kinds)) if len(kinds) == 1 else "", "have a new name now")
        return f"{len(done)} labels {what}. Written."
    (one,) = done
    if one.standing in _DONE:
        back = f": it is {one.new} again" if one.standing == "undone" and one.new and one.new != one.old else ""
        return f"{one.specimen} {_DONE[one.standing]}{back}. Written."
    return f"{one.specimen} is {one.label} now. Written."


def offer(finding: Finding) -> str:
    """What the label may say instead, in one or two short sentences; empty where nothing is offered."""
    verdict = finding.verdict
    if verdict.standing is Standing.UNNAMED:
        return _fits(len(verdict.choices))
    if verdict.proposed:
        year = _year(verdict)
        end = _ENDS.get(verdict.standing, "") if verdict.safe or verdict.standing is Standing.MERGED else ""
        return f"{verdict.proposed.name}{f', since {year}' if year else ''}.{end}"
    names = [choice.name for choice in verdict.choices]
    if not names:
        return "You can wait, or ask a larger list." if verdict.standing is Standing.UNASKED else ""
    more = f" or {len(names) - _MOST_NAMES} more" if len(names) > _MOST_NAMES else ""
    told = names if not more else names[:_MOST_NAMES]
    listed = ", ".join(told) + more if more else " or ".join(filter(None, (", ".join(told[:-1]), told[-1])))
    return f"{listed}.{_ENDS.get(verdict.standing, '')}"


def turn(finding: Finding) -> str:
    """The word on the button of that label; empty where there is nothing to do."""
    if not finding.to_look_at:
        return ""
    return "Take it" if finding.verdict.safe else TURNS.get(finding.verdict.standing, "Decide")


_PAPERS = MappingProxyType({(210, 297): "A4", (216, 279): "Letter"})


def sheet_words(paper: tuple[Fraction, Fraction], places: int, measures: str) -> str:
    """A kind of sheet as it stands on its packet: "A4, 24 stickers of 70 x 37 mm"."""
    size = (round(paper[0]), round(paper[1]))
    name = _PAPERS.get(size, f"{size[0]} x {size[1]} mm")
    return f"{name}, {places} stickers of {measures} mm" if places > 1 else f"Labels from a roll, {measures} mm"


def day_in_words(day: PartialDate | None) -> str:
    """A day, month or year as one says it: "12 April 2008", "March 2012", "2014"."""
    if day is None:
        return ""
    month = f"{MONTHS[day.earliest.month - 1]} {day.earliest.year}"
    if day.earliest == day.latest:
        return f"{day.earliest.day} {month}"
    return month if day.earliest.month == day.latest.month else str(day.earliest.year)


def _fits(count: int) -> str:
    return f"The tag fits {count} species." if count > 1 else f"The tag fits {count or 'no'} species known here."


def _year(verdict: Verdict) -> str:
    """The year of the act that decided."""
    return next((reason.about.year for reason in verdict.reasons if isinstance(reason.about, Act)), "")
