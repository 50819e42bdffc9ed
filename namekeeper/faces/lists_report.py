"""What the commands on lists say: tables, documents and a page."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from namekeeper.faces.console import Console
from namekeeper.sources.lists.compare import EditionChange
from namekeeper.sources.lists.list_file import Skip
from namekeeper.sources.lists.store import Stored
from namekeeper.tasks.lists import Added, Touched

_SHOWN_SKIPS = 10


def show_added(added: Added, console: Console) -> None:
    """How a file was understood, what came of it, and what was left out."""
    if added.columns:
        console.put("Columns: " + ", ".join(f"{field} = {header}" for field, header in sorted(added.columns.items())))
    console.put(f"{added.key} {added.edition}: {added.names} names from a {added.kind}")
    if not added.in_use:
        console.put(f"Not in use yet: namekeeper lists use {added.key}@{added.edition}")
    _show_skips("Left out", added.skips.count, added.skips.listed, console)
    _show_skips("Kept, but wrong in the list", added.skips.fault_count, added.skips.faults, console)


def _show_skips(what: str, count: int, listed: Sequence[Skip], console: Console) -> None:
    if not count:
        return
    console.put(f"{what}: {count}")
    for skip in listed[:_SHOWN_SKIPS]:
        place = f"line {skip.line}" if skip.line else "a row"
        console.put(f"  {skip.file + ', ' if skip.file else ''}{place}: {skip.why}")
    if count > _SHOWN_SKIPS:
        console.put("  ... (--json lists more)")


def added_document(added: Added) -> dict[str, object]:
    """Contract section 5, with how the columns were understood."""
    return {
        "key": added.key,
        "edition": added.edition,
        "names": added.names,
        "in_use": added.in_use,
        "columns": dict(added.columns),
        "skipped_count": added.skips.count,
        "skipped": [_skip_document(skip) for skip in added.skips.listed],
        "faults_count": added.skips.fault_count,
        "faults": [_skip_document(fault) for fault in added.skips.faults],
    }


def _skip_document(skip: Skip) -> dict[str, object]:
    return {"line": skip.line, "why": skip.why, **({"file": skip.file} if skip.file else {})}


def show_lists(stored: Sequence[Stored], console: Console) -> None:
    """Every list on this machine."""
    rows = [
        (
            one.key,
            one.slug,
            "yes" if one.in_use else "",
            str(one.names) if one.edition else "cannot be read",
            ", ".join(one.edition.complete_for) if one.edition else "",
            (one.edition.licence or "") if one.edition else "",
        )
        for one in stored
    ]
    console.table(("list", "edition", "in use", "names", "complete for", "licence"), rows)


def lists_document(stored: Sequence[Stored]) -> dict[str, object]:
    """All lists."""
    return {"lists": [_one(each) for each in stored]}


def _one(stored: Stored) -> dict[str, object]:
    edition = stored.edition
    return {
        "key": stored.key,
        "edition": stored.slug,
        "in_use": stored.in_use,
        "names": stored.names,
        "bytes": stored.size,
        "readable": edition is not None,
        "title": edition.title if edition else None,
        "dated": str(edition.dated) if edition and edition.dated else None,
        "licence": edition.licence if edition else None,
        "citation": edition.citation if edition else None,
        "complete_for": list(edition.complete_for) if edition else [],
    }


def show_changes(changes: Sequence[EditionChange], specimens: Sequence[Touched] | None, console: Console) -> None:
    """Counts, the specimens first, then every change."""
    console.put(_tally_line(changes))
    if specimens is not None:
        console.heading("Specimens it touches")
        if not specimens:
            console.put("None.")
        console.table(
            ("specimen", "label", "before", "now", "what happened"),
            [(one.specimen, one.label, one.old, one.new, one.kind) for one in specimens],
        )
    if changes:
        console.heading("Names")
        console.table(
            ("before", "now", "what happened", "identifier"),
            [(change.old, change.new, change.kind, change.id) for change in changes],
        )


def changes_document(changes: Sequence[EditionChange], specimens: Sequence[Touched] | None) -> dict[str, object]:
    """Contract section 5, with the specimens where a collection was given."""
    document: dict[str, object] = {
        "changes": [{"id": c.id, "old": c.old or None, "new": c.new or None, "kind": c.kind} for c in changes]
    }
    if specimens is not None:
        document["specimens"] = [
            {"specimen": s.specimen, "label": s.label, "old": s.old or None, "new": s.new or None, "kind": s.kind}
            for s in specimens
        ]
    return document


def changes_page(old: str, new: str, changes: Sequence[EditionChange], specimens: Sequence[Touched] | None) -> str:
    """One self-contained HTML page."""
    import jinja2

    from namekeeper import resources

    environment = jinja2.Environment(
        autoescape=True, undefined=jinja2.StrictUndefined, trim_blocks=True, lstrip_blocks=True
    )
    template = environment.from_string((resources.data("report") / "compare.html.j2").read_text(encoding="utf-8"))
    return template.render(old=old, new=new, changes=changes, specimens=specimens or (), tally=_tally(changes))


def _tally(changes: Sequence[EditionChange]) -> dict[str, int]:
    return dict(Counter(change.kind for change in changes).most_common())


def _tally_line(changes: Sequence[EditionChange]) -> str:
    tally = ", ".join(f"{count} {kind}" for kind, count in _tally(changes).items())
    return f"{len(changes)} changes: {tally}" if changes else "No name has changed."
