"""What one label says, before it is known how much of it fits."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from namekeeper.evidence.statements import Caution, CommonName
from namekeeper.labels.cautions import reports, warnings
from namekeeper.labels.label_words import LabelWords, words_in
from namekeeper.labels.naming import name_runs, name_text
from namekeeper.labels.text import Piece, Run, Variant, clean
from namekeeper.records.specimen import NameEntry, Paper, Specimen
from namekeeper.words.errors import Place
from namekeeper.words.parsing import parse_authorship
from namekeeper.words.terms import AS_PROPOSED, THE_KEEPER

_WORDED = ("caution", "listed", "range", "history", "years", "tag")  # fields of more than a word of ours
_BLANK = "." * 14  # to be filled in by hand
# Marks of the trade for where an animal comes from. Common practice, no source.
_MARKS = {
    "CB": "captive bred",
    "CBB": "captive bred and born",
    "WC": "wild caught",
    "LTC": "long-term captive",
    "NZ": "captive bred",
    "DNZ": "captive bred",
    "ENZ": "captive bred",
    "EUNZ": "captive bred in the EU",
    "WF": "wild caught",
}
_HISTORY = 12  # entries on a display card at most


@dataclass(frozen=True, slots=True)
class LabelContent:
    """Fields of one label; each has variants from the fullest to the smallest, an absent field has none.

    ``printed_name`` is what is recorded as standing on the enclosure once the label is printed; ``languages`` are those
    of fields whose words are in another language than the label's; ``undrawn`` names fields that were taken away for a
    character that no shipped type has.
    """

    specimen: str
    place: Place
    printed_name: str
    fields: Mapping[str, tuple[Variant, ...]]
    square: str = ""  # payload of the QR code
    languages: Mapping[str, str] = field(default_factory=dict)
    undrawn: Mapping[str, str] = field(default_factory=dict)
    square_wanted: bool = False  # asked for by the keeper: then it is refused rather than left out


@dataclass(frozen=True, slots=True)
class LabelWishes:
    """What the keeper wants on every label."""

    title: str = ""
    former: bool = True
    cautions: bool = True
    language: str = "en"
    square: str = ""  # a pattern with {id}; empty: the id, where it fits
    square_off: bool = False
    price: bool = False  # on templates that show one


@dataclass(frozen=True, slots=True)
class SpeciesFacts:
    """What the lists know of an animal: common names of its species, cautions on every name it may have.

    Of the common names only those that mean no other species; ``sold_as`` is the one that the tag itself uses.
    ``range`` and ``years`` are of its species, ``mark`` is what its tag says of where it was bred or caught.
    """

    common: Sequence[CommonName] = ()
    cautions: Sequence[Caution] = ()
    range: Sequence[str] = ()
    years: NameYears | None = None
    mark: str = ""
    sold_as: str = ""


@dataclass(frozen=True, slots=True)
class NameYears:
    """When a species was described, under which name, and until when it went by which others: (year, name)."""

    described: str
    first_name: str = ""
    until: tuple[tuple[str, str], ...] = ()


def label_name(specimen: Specimen) -> str:
    """What a label printed now says: the name in force, or the tag in quotes while nothing is settled."""
    entry = specimen.entry_in_force()
    return name_text(entry) if entry else f"“{shown_tag(specimen.tag)}”"


def shown_tag(tag: str) -> str:
    """The seller's text without the price, which is on no label of an enclosure."""
    if not any(map(str.isdigit, tag)):
        return clean(tag)
    # Only now: reading tags is a large import, and few labels show one.
    from namekeeper.reading.tag import read_tag

    prices = [span for span in read_tag(tag).spans if span.field == "price"]
    rest = tag
    for span in sorted(prices, reverse=True):
        if any(map(str.isdigit, tag[span.start : span.end])):  # "sold" is no price
            rest = f"{rest[: span.start]} {rest[span.end :]}"
    return clean(rest) if rest == tag else clean(rest).strip(" ,;|/-") or "unsettled"


def make_content(specimen: Specimen, known: SpeciesFacts, wishes: LabelWishes) -> LabelContent:
    """All a label of this specimen could say; a template takes what it shows."""
    entry = specimen.entry_in_force()
    text, words = label_name(specimen), words_in(wishes.language)
    fields: dict[str, tuple[Variant, ...]] = {
        "name": ((name_runs(text),) if entry else ((Run(text),), (Run(words.unsettled),)),),
        "id": (((Run(specimen.id, strong=True),),),),
        "sex": _upright(_sex(specimen, words)),
        "stage": _upright(specimen.stage),
        "locality": _upright(specimen.locality),
        "stands": _upright(specimen.stands_at),
        "title": _upright(wishes.title),
        "tag": _upright(f"{words.bought_as} “{shown_tag(specimen.tag)}”" if entry and specimen.tag else ""),
        "origin": _upright(f"{words.origin} {', '.join(specimen.origin)}" if specimen.origin else ""),
        "common": _upright(specimen.common or _common(known, wishes.language)),
        "history": _history(specimen, words),
        "size": _upright(specimen.size),
        "price": _upright(specimen.price if wishes.price else ""),
        "note": _upright(specimen.note),
        "mark": _mark(known.mark),
        "range": _upright(f"{words.native_to} {', '.join(known.range)}" if known.range else ""),
        "papers": _papers(specimen.papers),
    }
    if specimen.acquired:
        fields["acquired"] = (*_upright(f"{words.acquired} {specimen.acquired}"), *_upright(str(specimen.acquired)))
    if entry is not None:
        fields |= _of_the_name(specimen, entry, known, wishes)
    if wishes.cautions:
        found = warnings(known.cautions, text, specimen.caution, wishes.language)
        fields |= {"caution": found.forms(), "listed": found.listed(), "reports": reports(known.cautions)}
    return LabelContent(
        specimen=specimen.id,
        place=specimen.place,
        printed_name=text,
        fields={name: variants for name, variants in fields.items() if variants},
        square="" if wishes.square_off else (wishes.square or "{id}").replace("{id}", specimen.id),
        languages=_languages(entry, words, wishes.language),
        square_wanted=bool(wishes.square) and not wishes.square_off,
    )


def _of_the_name(
    specimen: Specimen, entry: NameEntry, known: SpeciesFacts, wishes: LabelWishes
) -> dict[str, tuple[Variant, ...]]:
    """What there is to say of a settled name."""
    text, words = label_name(specimen), words_in(wishes.language)
    return {
        "authorship": _authorship(entry.authorship),
        "determined": _determined(entry),
        "years": _years(known.years, text, words),
        "form": _upright(f"{words.line} “{clean(entry.form)}”" if entry.form else ""),
        "former": _former(specimen, text, words) if wishes.former else (),
    }


def _languages(entry: NameEntry | None, words: LabelWords, wished: str) -> dict[str, str]:
    """Scientific names are Latin; what is published is told in English, and so is all where we lack the words."""
    latin = {"name": "la"} if entry else {}
    if wished.casefold().startswith("en"):
        return latin
    english = {"reports": "en"} | ({} if words.language != "en" else dict.fromkeys(_WORDED, "en"))
    return latin | english


def _upright(text: str) -> tuple[Variant, ...]:
    cleaned = clean(text)
    return (((Run(cleaned),),),) if cleaned else ()


def _sex(specimen: Specimen, words: LabelWords) -> str:
    """One animal by its sign, a group by its counts male.female.unsexed."""
    sex = specimen.sex
    if sex is None:
        return ""
    single = {(1, 0, 0): "♂", (0, 1, 0): "♀", (0, 0, 1): words.unsexed}
    return single.get((sex.male, sex.female, sex.unsexed), sex.text)


def _common(known: SpeciesFacts, language: str) -> str:
    """The name by which the animal was sold, else the one that most people say."""
    usual = (name.text for name in known.common if name.usual and name.language == language)
    text = known.sold_as or next(usual, "")
    return text[:1].upper() + text[1:]


def _authorship(text: str) -> tuple[Variant, ...]:
    full = clean(text)
    short = clean(parse_authorship(full).short()) if full else ""
    return _upright(full) + (_upright(short) if short and len(short) < len(full) else ())


def _former(specimen: Specimen, present: str, words: LabelWords) -> tuple[Variant, ...]:
    """The name before the present one."""
    earlier = [name for entry in specimen.live_entries() if (name := name_text(entry)) != present]
    return (((Run(f"{words.was} "), *name_runs(earlier[-1])),),) if earlier else ()


def _mark(mark: str) -> tuple[Variant, ...]:
    """The mark in words, then as the trade writes it."""
    words = _MARKS.get(mark.upper(), "")
    return (*_upright(words), *_upright(mark))


def _papers(papers: Sequence[Paper]) -> tuple[Variant, ...]:
    """One piece a paper: its kind and number, its day, the name on it."""
    pieces = []
    for paper in papers:
        rest = " ".join(filter(None, (clean(paper.number), str(paper.date) if paper.date else "")))
        named = (Run(" for "), *name_runs(clean(paper.name))) if paper.name else ()
        pieces.append((Run(clean(paper.kind), strong=True), *((Run(f" {rest}"),) if rest else ()), *named))
    return (tuple(pieces),) if pieces else ()


def _determined(entry: NameEntry) -> tuple[Variant, ...]:
    """By whom and when the animal was named, as labels in museums say it; a blank where it is not known."""
    by = clean(entry.decided_by.removesuffix(AS_PROPOSED))
    when = entry.since or entry.recorded
    return _upright(f"det. {_BLANK if by in ('', THE_KEEPER) else by} {when or _BLANK}")


def _years(known: NameYears | None, present: str, words: LabelWords) -> tuple[Variant, ...]:
    """The name's own history on one line."""
    if known is None:
        return ()
    start: Piece = (Run(words.described), Run(f" {known.described}", strong=True)) if known.described else ()
    told = {present, *(name for _, name in known.until[:1])}
    if start and known.first_name and known.first_name not in told:
        start = (*start, Run(f" {words.as_name} "), *name_runs(known.first_name))
    pieces = [start] if start else []
    for year, name in known.until:
        pieces.append((Run(f"{words.until} "), Run(f"{year} ", strong=True), *name_runs(name)))
    return (tuple(pieces), tuple(pieces[-1:])) if len(pieces) > 1 else (tuple(pieces),) if pieces else ()


def _history(specimen: Specimen, words: LabelWords) -> tuple[Variant, ...]:
    """One piece a name that stood on the label, newest first; then only the newest and the first."""
    lines = [_history_line(entry) for entry in reversed(specimen.live_entries())]
    if not lines:
        return ()
    if specimen.tag:
        since = f"{specimen.acquired} " if specimen.acquired else ""
        lines.append((Run(since, strong=True), Run(f"{words.bought_as} “{shown_tag(specimen.tag)}”")))
    full = tuple(lines[:_HISTORY])
    return (full, (lines[0], lines[-1])) if len(full) > 2 else (full,)


def _history_line(entry: NameEntry) -> tuple[Run, ...]:
    when = entry.since or entry.recorded
    why = entry.standing.replace("-", " ")
    if entry.according_to:
        why += f" ({clean(entry.according_to)})"
    start = (Run(f"{when} ", strong=True),) if when else ()
    return (*start, *name_runs(name_text(entry)), Run(f", {why}"))
