"""A collection and its animals: what was written, what is wrong, which names a label carried."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from types import MappingProxyType

from namekeeper.evidence.verdicts import Verdict
from namekeeper.faces.telling.documents import code, problem_rows
from namekeeper.faces.telling.outdated import outdated_rows
from namekeeper.faces.telling.parts import BLANK, Folded, Grid, Heading, Part, TextLine, counted
from namekeeper.faces.telling.standings import STATES, done
from namekeeper.records.specimen import DatedEntry, Specimen
from namekeeper.tasks.arrivals import Arrived, HeritageCode
from namekeeper.tasks.collection import Changed, Verified
from namekeeper.tasks.facts import Turn
from namekeeper.tasks.history import Histories, SpecimenHistory
from namekeeper.tasks.tag_facts import ReadOff


def changed_document(changed: Changed) -> dict[str, object]:
    """The JSON of the acts of ``collection`` that change animals."""
    return {
        "specimens": list(changed.specimens),
        "written": changed.written,
        "changes": [{"specimen": one.specimen, "field": one.key, "new": one.text} for one in changed.keys],
        "refused": problem_rows(changed.refused),
        "outdated": outdated_rows(changed.outdated),
    }


def changed_parts(changed: Changed, what: str) -> Iterator[Part]:
    """What was done, or would be; ``what`` is the act in the past, such as "counted"."""
    animals = ", ".join(changed.specimens)
    if changed.outdated:
        return
    if changed.ordered:
        yield TextLine(f"{what.capitalize()}: {animals or 'nothing'}")
        return
    yield TextLine(f"Would be {what}: {animals}. Nothing is written without --write.")
    for one in changed.keys:
        yield TextLine(f"  {one.specimen}: {one.key}: {one.text}")


WHEN = "When did it come to you? A date (2019, 3/2019, 12.03.2023), t for today, Enter where it is not known:"


def many(count: int) -> str:
    """A question before many animals are added at once."""
    return f"Add {count} animals, each with a file and a label of its own?"


def read_document(read: ReadOff) -> dict[str, object]:
    """What was read from the tag, for programs."""
    return {"read": dict(read.taken), "left_in_tag": dict(read.left)}


def read_parts(read: ReadOff) -> Iterator[Part]:
    """What was read from the tag into the file, and what has no field there."""
    if read.taken:
        yield TextLine(f"Read from the tag: {fields_in_words(read.taken)}")
    if read.left:
        yield TextLine(f"Only in the tag: {fields_in_words(read.left)}")


def fields_in_words(fields: Mapping[str, str]) -> str:
    """Fields with their texts in one line."""
    return ", ".join(f"{key} {text}" for key, text in fields.items())


_HERITAGE = MappingProxyType(
    {
        HeritageCode.TAKEN: "takes the name of {parents}: {names}",
        HeritageCode.NO_NAME: "has no name yet, as {parents} has none: check the collection for what it may be",
        HeritageCode.NAMES_DIFFER: "takes no name: {parents} carry different ones ({names}); settle what it is",
        HeritageCode.VERDICTS_DIFFER: (
            "takes no name: {names} does not mean the same on {parents}; settle their names first, or that of the young"
        ),
        HeritageCode.IN_QUESTION: (
            "takes no name: that of {parents} is in question ({names}); settle it there, then here"
        ),
    }
)


def heritage(arrived: Arrived) -> Iterator[str]:
    """What became of the parents' name, where animals have parents here."""
    if arrived.heritage is None or not arrived.changed.specimens:
        return
    ids = arrived.changed.specimens
    young = ids[0] if len(ids) == 1 else f"{ids[0]} to {ids[-1]}"
    parents = " and ".join(parent.id for parent in arrived.heritage.parents)
    names = ", ".join(arrived.heritage.names)
    yield f"{young}: {_HERITAGE[arrived.heritage.code].format(parents=parents, names=names)}"


def added_document(arrived: Arrived) -> dict[str, object]:
    """What was read from the tag of new animals, and what became of their parents' name; null without parents here."""
    found = arrived.heritage
    if found is None:
        return {**read_document(arrived.read), "heritage": None}
    parents = [parent.id for parent in found.parents]
    heritage = {"reason": code(found.code), "parents": parents, "parent_names": list(found.names)}
    return {**read_document(arrived.read), "heritage": heritage}


def turn(told: Turn) -> str:
    """Whether the verdict on the label is another with the changed facts."""
    if told.same:
        return f"what is known of the name stays: {_verdict(told.after)}"
    return f"this changes what is known of the name: {_verdict(told.before)}, then {_verdict(told.after)}"


def turn_document(told: Turn | None) -> dict[str, object]:
    """The same for programs; null where no fact was changed that the verdict may rest on."""
    if told is None:
        return {"verdict": None}
    before, after = str(told.before.standing), str(told.after.standing)
    return {"verdict": {"before": before, "after": after, "changed": not told.same}}


def _verdict(verdict: Verdict) -> str:
    told = STATES[verdict.standing]
    return f"{told} ({verdict.proposed.name})" if verdict.proposed else told


def verified_document(verified: Verified) -> dict[str, object]:
    """The JSON of ``collection verify`` (contract section 5)."""
    found = verified.collection
    return {
        "count": len(found.specimens),
        "problems": problem_rows(found.problems),
        "questions": problem_rows(verified.questions),
    }


_MOST_QUESTIONS = 3  # told one by one


def verified_parts(verified: Verified) -> Iterator[Part]:
    """Every problem of a collection's files, a line each, and what only its keeper can tell."""
    collection = verified.collection
    if not collection.problems:
        yield TextLine(f"{counted(len(collection.specimens), 'animal')}, no problems.")
    asked = verified.questions
    for problem in (*collection.problems, *(asked if len(asked) <= _MOST_QUESTIONS else ())):
        yield TextLine(str(problem))
    if len(asked) > _MOST_QUESTIONS:
        yield BLANK
        yield Folded(
            f"{counted(len(asked), 'animal')} came on the day of the first entry, by their files. Where one did not,"
            " correct acquired: or delete it; version 0.1 wrote that day where none was given."
            f" {', '.join(question.place.specimen or '' for question in asked)}."
        )


def new_document(folder: str, made: Sequence[str]) -> dict[str, object]:
    """The JSON of ``collection new``."""
    return {"folder": folder, "made": list(made)}


def new_parts(folder: str) -> Iterator[Part]:
    """An empty collection was made; ``folder`` as the keeper typed it."""
    yield TextLine(f"A new collection: {folder}")
    yield TextLine(f'Add an animal: namekeeper collection add {folder} --tag "what the seller wrote"')


def history_document(found: Histories) -> dict[str, object]:
    """The JSON of ``history`` (contract section 5)."""
    return {
        "specimens": [
            {
                "specimen": history.specimen.id,
                "tag": history.specimen.tag or None,
                "left": _left(history.specimen),
                "entries": [_entry(dated) for dated in history.entries],
                "on": {
                    "date": history.on.isoformat(),
                    "name": name.name if (name := history.name) else None,
                    "label": history.label or None,
                },
            }
            for history in found.told
        ],
        "problems": problem_rows(found.problems),
    }


def _left(specimen: Specimen) -> dict[str, object] | None:
    gone = specimen.left
    return {"date": str(gone.date) if gone.date else None, "how": gone.how} if gone else None


def _entry(dated: DatedEntry) -> dict[str, object]:
    entry = dated.entry
    return {
        "name": entry.name,
        "authorship": entry.authorship,
        "since": entry.since.text if entry.since else None,
        "recorded": entry.recorded.text if entry.recorded else None,
        "standing": entry.standing,
        "according_to": entry.according_to,
        "source": entry.source,
        "retrieved": entry.retrieved,
        "link": entry.link,
        "licence": entry.licence,
        "decided_by": entry.decided_by,
        "note": entry.note,
        "form": entry.form,
        "qualifier": entry.qualifier,
        "trade_form": entry.trade_form,
        "undone": dated.undone,
        "undoes": int(entry.undoes) if entry.undoes else None,
    }


def history_parts(history: SpecimenHistory, *, by_day: bool = False) -> Iterator[Part]:
    """The dated names of one specimen; ``by_day`` says the one on the label that day first."""
    specimen = history.specimen
    yield Heading(specimen.id)
    if specimen.tag:
        yield TextLine(f"tag: {specimen.tag}")
    if by_day:
        yield TextLine(f"on {history.on}: {history.label or 'only the tag'}")
    rows = [_history_row(dated, printed) for dated, printed in history.rows()]
    yield Grid(("since", "recorded", "name", "what happened", "why"), rows)
    # Below the table and not in it: a link that is folded can be neither followed nor copied.
    for link in dict.fromkeys(dated.entry.link for dated in history.entries if dated.entry.link):
        yield TextLine(link)
    if specimen.left:
        yield TextLine(f"left {specimen.left.date or ''}: {specimen.left.how}")


def _history_row(dated: DatedEntry, printed: str) -> tuple[str, ...]:
    entry = dated.entry
    happened = done(entry.standing) + ("; taken back later" if dated.undone else "")
    if entry.undoes:
        happened += f" (name {entry.undoes} of this list)"
    why = "; ".join(text for text in (entry.according_to, entry.source, entry.form, entry.note) if text)
    return (str(entry.since or ""), str(entry.recorded or ""), f"{printed} {entry.authorship}".strip(), happened, why)
