"""Change facts of an animal: one value in its file, every other byte stays; the tag and the names are not facts."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date
from types import MappingProxyType
from typing import NamedTuple

from namekeeper.evidence.verdicts import Verdict
from namekeeper.records.sexes import read_sex
from namekeeper.records.specimen import Paper, Specimen
from namekeeper.storage.emit import Texts, paper_fields
from namekeeper.storage.wanted import AddPaper, FileChange, MadeFor, SetKey
from namekeeper.tasks.collection import Changed, carried_out
from namekeeper.tasks.desk import CollectionDesk, find
from namekeeper.tasks.judge_again import JudgeAgain
from namekeeper.words.date_reading import read_date
from namekeeper.words.dates import PartialDate
from namekeeper.words.errors import InputError

#: What can be set, in the words of the file.
FACTS = (
    "place",
    "note",
    "sex",
    "stage",
    "common",
    "caution",
    "locality",
    "acquired",
    "from",
    "size",
    "price",
    "papers",
)
_SET_OTHERWISE = MappingProxyType(
    {
        "tag": "the tag is the seller's and stays as it was written",
        "names": "use namekeeper settle",
        "decisions": "use namekeeper settle",
        "left": "use namekeeper collection left",
    }
)
_PAPER = "papers=KIND; NUMBER; DATE; NAME"


class Turn(NamedTuple):
    """The verdict on a label before and after its facts were changed."""

    before: Verdict
    after: Verdict

    @property
    def same(self) -> bool:
        """Whether the same is said, so that nothing has to be decided anew."""
        return (self.before.standing, self.before.digest) == (self.after.standing, self.after.digest)


@dataclass(frozen=True, slots=True)
class FactsSet:
    """What came of it; ``turn`` None unless a fact was changed that the verdict may rest on."""

    changed: Changed
    turn: Turn | None = None


def set_facts(
    desk: CollectionDesk, identifier: str, facts: Sequence[tuple[str, str]], *, write: bool, revision: str = ""
) -> FactsSet:
    """Set facts of one animal, without ``write`` only what would be; an empty value empties one, ``papers`` adds one.

    ``from`` may be given more than once, for the ids of several parents. ``revision`` is the state of the file that
    the keeper saw; a file in another state is left as it is. Without it the file counts as it is now.

    :raises InputError: for an unknown id or fact, one given twice, or a value that cannot be one.
    """
    collection = desk.open()
    specimen = find(collection, identifier)
    values: dict[str, list[str]] = {}
    for name, text in facts:
        _must_be_a_fact(name)
        values.setdefault(name, []).append(_checked(name, text.strip(), desk.today))
    for name, texts in values.items():
        if len(texts) > 1 and name not in ("from", "papers"):
            what = f"{name} was given twice"
            raise InputError(what, remedy="leave one out")
    made_for = MadeFor(replace(specimen, revision=revision or specimen.revision))
    changes = [change for name, texts in values.items() for change in _changes(specimen.id, name, texts, made_for)]
    changed = carried_out(desk, changes, write=write)
    return FactsSet(changed, None if changed.outdated else _turn(JudgeAgain(desk, collection), specimen, values))


def _must_be_a_fact(name: str) -> None:
    if name not in FACTS:
        what = f"'{name}' cannot be set"
        raise InputError(what, remedy=_SET_OTHERWISE.get(name, "one of: " + ", ".join(FACTS)))


def _changes(identifier: str, name: str, texts: Sequence[str], made_for: MadeFor) -> list[FileChange]:
    if name == "papers":
        return [AddPaper(identifier, paper_fields(_paper(text)), made_for) for text in texts]
    if name == "from":
        return [SetKey(identifier, name, Texts(tuple(texts)), made_for)]
    return [SetKey(identifier, name, texts[0], made_for)]


def _checked(name: str, text: str, today: date) -> str:
    """The text as it stands in the file."""
    try:
        if text and name == "acquired":
            return today.isoformat() if text.casefold() == "today" else str(read_date(text))
        sex = read_sex(text) if name == "sex" else None
        return sex.text if sex else text
    except ValueError as error:
        what = f"{name}: {error}"
        raise InputError(what, remedy="leave it empty where it is not known") from None


def _paper(text: str) -> Paper:
    kind, number, day, name, *more = (*(part.strip() for part in text.split(";")), "", "", "")
    if not kind or any(more):
        what = f"'{text}' is no paper"
        raise InputError(what, remedy=f'write "{_PAPER}"; all but the kind may be left out')
    try:
        return Paper(kind, number, read_date(day) if day else None, name)
    except ValueError as error:
        what = f"papers: {error}"
        raise InputError(what, remedy=f'write "{_PAPER}"') from None


def _turn(judge: JudgeAgain, specimen: Specimen, values: Mapping[str, Sequence[str]]) -> Turn | None:
    """The verdict before and after, by the lists and answers here, where it may rest on what was changed."""
    if not values.keys() & {"acquired", "locality"}:
        return None
    acquired = values.get("acquired")
    after = replace(
        specimen,
        revision="",  # it stands in no file
        acquired=specimen.acquired if acquired is None else PartialDate.parse(acquired[0]) if acquired[0] else None,
        locality=values.get("locality", [specimen.locality])[0],
    )
    (old,), (new,) = (judge.findings([one]) for one in (specimen, after))
    return Turn(old.verdict, new.verdict)
