"""What one label says, before it is known how much of it fits."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from namekeeper.evidence.statements import Caution, CommonName
from namekeeper.labels.cautions import warnings
from namekeeper.labels.naming import name_runs, name_text
from namekeeper.labels.text import Run, Variant, clean
from namekeeper.records.specimen import NameEntry, Specimen
from namekeeper.words.errors import Place
from namekeeper.words.parsing import parse_authorship

_HISTORY = 12  # entries on a display card at most


@dataclass(frozen=True, slots=True)
class LabelContent:
    """Fields of one label; each has variants from the fullest to the smallest, an absent field has none.

    ``printed_name`` is what is recorded as standing on the enclosure once the label is printed.
    """

    specimen: str
    place: Place
    printed_name: str
    fields: Mapping[str, tuple[Variant, ...]]
    square: str = ""  # payload of the QR code
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


@dataclass(frozen=True, slots=True)
class SpeciesFacts:
    """What the lists know of an animal: common names of its species, cautions on every name it may have."""

    common: Sequence[CommonName] = ()
    cautions: Sequence[Caution] = ()


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
    text = label_name(specimen)
    fields: dict[str, tuple[Variant, ...]] = {
        "name": ((name_runs(text),) if entry else ((Run(text),), (Run("unsettled"),)),),
        "id": (((Run(specimen.id, strong=True),),),),
        "sex": _upright(_sex(specimen)),
        "stage": _upright(specimen.stage),
        "locality": _upright(specimen.locality),
        "stands": _upright(specimen.stands_at),
        "title": _upright(wishes.title),
        "tag": _upright(f"bought as “{shown_tag(specimen.tag)}”" if entry and specimen.tag else ""),
        "origin": _upright(f"from {', '.join(specimen.origin)}" if specimen.origin else ""),
        "common": _upright(specimen.common or _common(known.common, wishes.language)),
        "history": _history(specimen),
    }
    if specimen.acquired:
        fields["acquired"] = (*_upright(f"acquired {specimen.acquired}"), *_upright(str(specimen.acquired)))
    if entry is not None:
        fields["authorship"] = _authorship(entry.authorship)
        fields["form"] = _upright(f"line “{clean(entry.form)}”" if entry.form else "")
        if wishes.former:
            fields["former"] = _former(specimen, text)
    if wishes.cautions:
        fields["caution"] = warnings(known.cautions, text, specimen.caution).forms()
    return LabelContent(
        specimen=specimen.id,
        place=specimen.place,
        printed_name=text,
        fields={name: variants for name, variants in fields.items() if variants},
        square="" if wishes.square_off else (wishes.square or "{id}").replace("{id}", specimen.id),
        square_wanted=bool(wishes.square) and not wishes.square_off,
    )


def _upright(text: str) -> tuple[Variant, ...]:
    cleaned = clean(text)
    return (((Run(cleaned),),),) if cleaned else ()


def _sex(specimen: Specimen) -> str:
    """One animal by its sign, a group by its counts male.female.unsexed."""
    sex = specimen.sex
    if sex is None:
        return ""
    single = {(1, 0, 0): "♂", (0, 1, 0): "♀", (0, 0, 1): "unsexed"}
    return single.get((sex.male, sex.female, sex.unsexed), sex.text)


def _common(names: Sequence[CommonName], language: str) -> str:
    proper = [name for name in names if name.kind == "common"]
    text = next((name.text for name in proper if name.language == language), "")
    return text[:1].upper() + text[1:]


def _authorship(text: str) -> tuple[Variant, ...]:
    full = clean(text)
    short = clean(parse_authorship(full).short()) if full else ""
    return _upright(full) + (_upright(short) if short and len(short) < len(full) else ())


def _former(specimen: Specimen, present: str) -> tuple[Variant, ...]:
    """The name before the present one."""
    earlier = [name for entry in specimen.live_entries() if (name := name_text(entry)) != present]
    return (((Run("was "), *name_runs(earlier[-1])),),) if earlier else ()


def _history(specimen: Specimen) -> tuple[Variant, ...]:
    """One piece a name that stood on the label, newest first; then only the newest and the first."""
    lines = [_history_line(entry) for entry in reversed(specimen.live_entries())]
    if not lines:
        return ()
    if specimen.tag:
        since = f"{specimen.acquired} " if specimen.acquired else ""
        lines.append((Run(since, strong=True), Run(f"bought as “{shown_tag(specimen.tag)}”")))
    full = tuple(lines[:_HISTORY])
    return (full, (lines[0], lines[-1])) if len(full) > 2 else (full,)


def _history_line(entry: NameEntry) -> tuple[Run, ...]:
    when = entry.since or entry.recorded
    why = entry.standing.replace("-", " ")
    if entry.according_to:
        why += f" ({clean(entry.according_to)})"
    start = (Run(f"{when} ", strong=True),) if when else ()
    return (*start, *name_runs(name_text(entry)), Run(f", {why}"))
