"""Every name a species has carried."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from namekeeper.evidence.statements import Failure
from namekeeper.faces.telling.cautions import NO_ADVICE, caution_lines, caution_rows
from namekeeper.faces.telling.documents import code, failure_rows
from namekeeper.faces.telling.parts import Folded, Grid, Heading, Part, TextLine
from namekeeper.faces.telling.standings import done
from namekeeper.tasks.aka import KnownName
from namekeeper.words.authorship import short_citation
from namekeeper.words.terms import How


def aka_document(known: KnownName, failures: Sequence[Failure]) -> dict[str, object]:
    """The JSON of ``aka`` (contract section 5); beside it how the question led here, and what became of each name."""
    aka = known.aka
    return {
        "name": aka.taxon.name,
        "authorship": aka.taxon.authorship,
        "former": [
            {
                "name": old.name,
                "authorship": old.authorship,
                "year": old.year or None,
                "source": old.source,
                "standing": str(old.standing),
            }
            for old in aka.former
        ],
        "common": [{"name": name.text, "language": name.language, "kind": name.kind} for name in aka.common],
        "sold_as": [
            {
                "name": use.name,
                "from": str(use.start) if use.start else None,
                "cleared": str(use.cleared) if use.cleared else None,
                "ended": str(use.ended) if use.ended else None,
                "source": use.citation,
            }
            for use in aka.sold_as
        ],
        "cautions": caution_rows(aka.cautions),
        "search": aka.search,
        "range": list(aka.taxon.range),
        "described_in": aka.described_in or None,
        "as_of": aka.as_of or None,
        "revised": aka.revised or None,
        "links": [{"title": link.title, "url": link.url} for link in aka.links],
        "led": led(known) or None,
        "led_by": {"how": code(known.led.how), "matched": known.led.asked} if known.led else None,
        "failures": failure_rows(failures),
    }


def led(known: KnownName) -> str:
    """How the question led to the species; empty if it was asked by its name in force."""
    return f"{known.led.asked} is {'now ' if known.led.how is How.FORMER else ''}{known.led.name}" if known.led else ""


def aka_parts(known: KnownName) -> Iterator[Part]:
    """The name in force, its range, all other names, and where to look."""
    aka = known.aka
    if known.led:
        yield Folded(f"{led(known)}.")
    yield Folded(f"{aka.taxon.name} {aka.taxon.authorship}".strip())
    if aka.described_in:
        yield Folded(f"described as {aka.described_in}", 2)
    if aka.revised:
        yield Folded(f"status as of {aka.as_of}; the genus was revised in {aka.revised}", 2)
    if aka.taxon.range:
        yield Folded(f"native range: {', '.join(aka.taxon.range)}", 2)
    if aka.former:
        yield Heading("Former names")
        rows = [
            [
                f"{old.name} {old.authorship}".strip(),
                old.year,
                done(old.standing, old.name, aka.taxon.name),
                short_citation(old.source),
            ]
            for old in aka.former
        ]
        yield Grid(["name", "until", "what happened", "source"], rows)
    yield from _common_parts(known)
    if aka.sold_as:
        yield Heading("Names of other species it has been sold under")
        for use in aka.sold_as:
            cleared = f", cleared up {use.cleared}" if use.cleared else ""
            yield Folded(f"{use.name}{cleared} ({short_citation(use.citation)})", 2)
    if aka.cautions:
        yield Heading("Where it can hurt, and laws that name it")
        for line in (*caution_lines(aka.cautions), NO_ADVICE):
            yield Folded(line, 2)
    yield Heading("To search for all of them")
    yield TextLine(aka.search)
    yield Heading("Pages")
    for link in aka.links:
        yield TextLine(f"{link.title}: {link.url}")


def _common_parts(known: KnownName) -> Iterator[Part]:
    if not known.aka.common:
        return
    yield Heading("Common names")
    languages: dict[str, list[str]] = {}
    for name in known.aka.common:
        languages.setdefault(name.language, []).append(name.text)
    for language, names in languages.items():
        yield Folded(f"{language}: {', '.join(names)}", 2)
