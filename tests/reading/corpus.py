"""The tag corpus (``data/tags.txt``): reading it, and comparing one tag's reading and answer field by field."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from namekeeper.tasks.lookup import Looked

_FILE = Path(__file__).with_name("data") / "tags.txt"
FIELDS = (
    "sci", "com", "former", "q", "unsure", "form", "loc", "sex", "cm", "of", "stage", "instar", "src", "price",
    "seller", "left",
)  # fmt: skip


@dataclass(frozen=True)
class Entry:
    """One tag with what it says and what it may mean."""

    tag: str
    language: str
    reading: dict[str, str]
    answer: str
    names: tuple[str, ...]


def entries() -> list[Entry]:
    """All tags in the order of the file."""
    found = []
    for line in _FILE.read_text(encoding="utf-8").splitlines():
        if not line or line.startswith("#"):
            continue
        tag, language, reading, answer, names = (part.strip() for part in line.split("¦"))
        fields = {}
        for field in filter(None, (part.strip() for part in reading.split("; "))):
            key, _, value = field.partition("=")
            if key not in FIELDS:
                message = f"unknown field {key!r} in {line!r}"
                raise ValueError(message)
            fields[key] = value or "yes"
        found.append(Entry(tag, language, fields, answer, tuple(filter(None, names.split(" + ")))))
    return found


def as_fields(looked: Looked) -> dict[str, str]:
    """A reading in the words of the corpus."""
    reading = looked.reading
    values = {
        "sci": " + ".join(reading.scientific),
        "com": " + ".join(reading.common),
        "former": " + ".join(reading.former),
        "q": reading.qualifier,
        "unsure": "yes" if reading.uncertain else "",
        "form": reading.trade_form,
        "loc": reading.locality,
        "sex": reading.sex,
        "cm": "-".join(f"{size:g}" for size in reading.size_cm or ()),
        "of": reading.size_of,
        "stage": reading.stage,
        "instar": reading.instar,
        "src": reading.source_mark,
        "price": reading.price,
        "seller": reading.seller,
        "left": reading.leftover,
    }
    return {key: value for key, value in values.items() if value}


def wrong_fields(entry: Entry, looked: Looked) -> list[str]:
    """Fields that differ from the corpus, each in words."""
    read = as_fields(looked)
    return [
        f"{entry.tag!r}: {key} is {read.get(key, '')!r}, not {entry.reading.get(key, '')!r}"
        for key in FIELDS
        if read.get(key, "") != entry.reading.get(key, "")
    ]


def wrong_answer(entry: Entry, looked: Looked) -> str | None:
    """What is wrong with answer and candidates, or None."""
    candidates = looked.lookup.candidates
    names = [candidate.name for candidate in candidates]
    answer = looked.lookup.answer.value
    right = {
        "one": set(entry.names) == set(names),
        "several": set(entry.names) <= set(names) and len(names) > 1,
        "guess": names[:1] == list(entry.names),
        "genus": bool(set(entry.names) & set(names)),
    }.get(entry.answer, not names)
    return (
        None
        if answer == entry.answer and right
        else f"{entry.tag!r}: {answer} {names}, not {entry.answer} {entry.names}"
    )
