"""The lists of names on this machine, and what changes from one edition to another."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from datetime import date

from namekeeper.faces.telling.parts import Folded, Grid, Heading, Part, TextLine, counted
from namekeeper.faces.telling.sources import ages
from namekeeper.faces.telling.standings import done
from namekeeper.tasks.lists import Added, Compared, ListState

RowNote = tuple[int, str, str]  # line (0: none can be named), why, file
_SHOWN_ROWS = 10


def removing(editions: Sequence[tuple[str, str]]) -> str:
    """A question before a list goes; ``editions`` as key and edition."""
    which = ", ".join(f"{key} {edition}" for key, edition in editions)
    return f"Remove {which} from this machine?"


def added_document(added: Added) -> dict[str, object]:
    """The JSON of ``lists add`` (contract section 5), with how the columns were understood."""
    return {
        "key": added.key,
        "edition": added.edition,
        "names": added.names,
        "in_use": added.in_use,
        "format": added.kind,
        "columns": dict(added.columns),
        **guess_document(added.guessed),
        **_fetched_document(added),
        "skipped_count": added.skips.count,
        "skipped_reasons": _reasons_document(added.skips.reasons),
        "skipped": _rows_document(added.skips.listed),
        "faults_count": added.skips.fault_count,
        "faults_reasons": _reasons_document(added.skips.fault_reasons),
        "faults": _rows_document(added.skips.faults),
    }


def guess_document(guessed: Mapping[str, Sequence[str]]) -> dict[str, object]:
    """How the letters of a table were read, where that is a guess, and what else they may be."""
    words = {name: list(some) for name, some in guessed.items()}
    return {"guessed_encoding": next(iter(guessed), None), "guessed_words": words}


def guess_parts(guessed: Mapping[str, Sequence[str]]) -> Iterator[Part]:
    """The words of a table whose encoding is a guess, as they were read and as they may be meant."""
    for number, (name, words) in enumerate(guessed.items()):
        if number == 0:
            shown = f": {', '.join(words)}" if words else "."
            yield TextLine(f"Letters read as {name}, which is a guess{shown}")
        elif words:
            yield TextLine(f"They fit {name} as well (--encoding {name}): {', '.join(words)}")
    if guessed:
        yield TextLine("Where letters are wrong, name the encoding (--encoding) or save the table as UTF-8.")


def _fetched_document(added: Added) -> dict[str, object]:
    """What came of a fetch: former names, and names that the catalogue counts and did not give."""
    fetched = added.fetched
    return {"former": fetched.former if fetched else None, "missing": fetched.missing if fetched else None}


def _fetched_parts(added: Added) -> Iterator[Part]:
    fetched = added.fetched
    if fetched is None:
        return
    yield TextLine(f"Former names among them: {fetched.former}")
    if fetched.hardly_any_former:
        yield TextLine("This list knows hardly any former names: that an old name is not in it says little.")
    if fetched.missing:
        yield TextLine(
            f"The catalogue counts {fetched.missing} more and gave others twice instead: so the list is not taken as "
            "complete. Fetch it again later."
        )


def _rows_document(rows: Sequence[RowNote]) -> list[dict[str, object]]:
    return [{"line": line, "why": why, "file": file or None} for line, why, file in rows]


def added_parts(added: Added) -> Iterator[Part]:
    """How a file was understood, what came of it, and what was left out."""
    if added.columns:
        yield TextLine(
            "Columns: " + ", ".join(f"{field} = {header}" for field, header in sorted(added.columns.items()))
        )
    yield from guess_parts(added.guessed)
    yield TextLine(f"{added.key} {added.edition}: {counted(added.names, 'name')} from a {added.kind}")
    yield from _fetched_parts(added)
    if not added.in_use:
        yield TextLine(f"Not in use yet: namekeeper lists use {added.key}@{added.edition}")
    yield from _row_parts("Left out", added.skips.reasons, added.skips.listed)
    yield from _row_parts("Kept, but wrong in the list", added.skips.fault_reasons, added.skips.faults)
    if added.exit_code:
        yield TextLine("Much was left out: look at the reasons before you trust the list.")


def _reasons_document(reasons: Mapping[str, int]) -> list[dict[str, object]]:
    """How often each reason was met, the most frequent first; "…" stands for what differs from row to row."""
    return [{"why": why, "count": count} for why, count in Counter(reasons).most_common()]


def _row_parts(what: str, reasons: Mapping[str, int], rows: Sequence[RowNote]) -> Iterator[Part]:
    """Up to ten rows are listed; of more, how many for each reason comes first."""
    count = sum(reasons.values())
    if not count:
        return
    yield TextLine(f"{what}: {count}")
    if count > _SHOWN_ROWS:
        for why, times in Counter(reasons).most_common(_SHOWN_ROWS):
            yield TextLine(f"  {times} x {why}")
    for line, why, file in rows[:_SHOWN_ROWS]:
        place = f"line {line}" if line else "a row"
        yield TextLine(f"  {file + ', ' if file else ''}{place}: {why}")
    if count > _SHOWN_ROWS:
        yield TextLine("  ... (--json lists more)")


def lists_document(states: Sequence[ListState]) -> dict[str, object]:
    """All lists."""
    return {"lists": [_list(state) for state in states]}


def _list(state: ListState) -> dict[str, object]:
    edition = state.edition
    return {
        "key": state.key,
        "edition": state.slug,
        "in_use": state.in_use,
        "names": state.names,
        "bytes": state.size,
        "readable": edition is not None,
        "title": edition.title if edition else None,
        "dated": str(edition.dated) if edition and edition.dated else None,
        "licence": edition.licence if edition else None,
        "citation": edition.citation if edition else None,
        "complete_for": list(edition.complete_for) if edition else [],
    }


def lists_parts(states: Sequence[ListState], today: date) -> Iterator[Part]:
    """Every list on this machine, and how old the starter list is."""
    rows = [
        (
            one.key,
            one.slug,
            "yes" if one.in_use else "",
            str(one.names) if one.edition else "cannot be read",
            ", ".join(one.edition.complete_for) if one.edition else "",
            (one.edition.licence or "") if one.edition else "",
        )
        for one in states
    ]
    yield Grid(("list", "edition", "in use", "names", "has every name of", "licence"), rows)
    for line in ages((one.edition for one in states if one.edition), today):
        yield Folded(line)


def compare_document(found: Compared) -> dict[str, object]:
    """The JSON of ``lists compare`` (contract section 5), with the specimens where a collection was given."""
    rows = [{"id": c.id, "old": c.old or None, "new": c.new or None, "kind": c.kind} for c in found.changes]
    specimens = found.specimens and [
        {"specimen": s.specimen, "label": s.label, "old": s.old or None, "new": s.new or None, "kind": s.kind}
        for s in found.specimens
    ]
    return {"changes": rows, "specimens": specimens}


def used_document(key: str, edition: str) -> dict[str, object]:
    """The JSON of ``lists use``."""
    return {"key": key, "edition": edition}


def removed_document(editions: Sequence[tuple[str, str]]) -> dict[str, object]:
    """The JSON of ``lists remove``; each as KEY@EDITION, which is how commands take it."""
    return {"removed": [f"{key}@{edition}" for key, edition in editions]}


def compare_parts(found: Compared) -> Iterator[Part]:
    """Counts, the specimens first, then every change."""
    tally = Counter(change.kind for change in found.changes).most_common()
    counts = ", ".join(f"{count} {done(kind)}" for kind, count in tally)
    changes = counted(len(found.changes), "change")
    yield TextLine(f"{changes}: {counts}" if found.changes else "No name has changed.")
    if found.specimens is not None:
        yield Heading("Animals it touches")
        if not found.specimens:
            yield TextLine("None.")
        yield Grid(
            ("label", "name on it", "before", "now", "what happened"),
            [(one.specimen, one.label, one.old, one.new, done(one.kind, one.old, one.new)) for one in found.specimens],
        )
    if found.changes:
        yield Heading("Names")
        yield Grid(
            ("before", "now", "what happened", "identifier"),
            [
                (change.old, change.new, done(change.kind, change.old, change.new), change.id)
                for change in found.changes
            ],
        )


def compare_page(old: str, new: str, found: Compared) -> str:
    """What changes from one edition to another, as one self-contained HTML page."""
    from namekeeper.faces.telling.pages import rendered

    tally = dict(Counter(change.kind for change in found.changes).most_common())
    specimens = found.specimens or ()
    return rendered(
        "compare.html.j2", old=old, new=new, changes=found.changes, specimens=specimens, tally=tally, done=done
    )
