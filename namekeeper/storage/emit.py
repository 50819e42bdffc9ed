"""Values as YAML text that every YAML reader takes for the same text."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable, Sequence
from typing import NamedTuple

from namekeeper.records.as_json import TEXTS
from namekeeper.records.specimen import Decision, Left, NameEntry, Paper, Specimen
from namekeeper.storage.file_keys import DECISION_KEYS, ENTRY_KEYS, SPECIMEN_KEYS

Fields = tuple[tuple[str, str], ...]


class Texts(NamedTuple):
    """Several texts as the value of one key; one alone is written as a text."""

    texts: tuple[str, ...]


# Letters first, then nothing that YAML could read as an indicator, a comment or the end of a key (YAML 1.2.2, 7.3.3).
_PLAIN = re.compile(
    r"[^\W\d_](?:[^\x00-\x1f\x7f-\xa0\u2028\u2029\ufeff\ud800-\udfff:#]|:(?=[^\s])|(?<=[^\s])#)*(?<!\s)"
)
_BRACKETED = re.compile(r"\([^\x00-\x1f\x7f-\xa0\u2028\u2029\ufeff:#]*\)")
_DATE_OR_COUNT = re.compile(r"\d{4}-\d{2}(?:-\d{2})?|\d+\.\d+\.\d+", re.ASCII)
_YEAR = re.compile(r"\d{4}", re.ASCII)
_DATES = frozenset({"since", "recorded", "date", "acquired"})
# Words that YAML 1.1 reads as truth values or nothing, and numbers written in letters.
_READ_OTHERWISE = frozenset({"y", "n", "yes", "no", "on", "off", "true", "false", "null", "nan", "inf"})
_ESCAPES = {'"': '\\"', "\\": "\\\\", "\n": "\\n", "\t": "\\t", "\r": "\\r"}


def scalar(text: str, *, flow: bool = False) -> str:
    """One text as a scalar, plain where that is safe, else in double quotes."""
    plain = _DATE_OR_COUNT.fullmatch(text) or (
        (_PLAIN.fullmatch(text) or _BRACKETED.fullmatch(text))
        and text.casefold() not in _READ_OTHERWISE
        and not text.endswith(":")
    )
    if plain and not (flow and any(mark in text for mark in ",[]{}:?")):
        return text
    return quoted(text)


def quoted(text: str) -> str:
    """One text in double quotes (YAML 1.2.2, 7.3.1)."""
    return '"' + "".join(_ESCAPES.get(char) or (char if char.isprintable() else _code(char)) for char in text) + '"'


def _code(char: str) -> str:
    number = ord(char)
    return f"\\x{number:02x}" if number < 0x100 else f"\\u{number:04x}" if number < 0x10000 else f"\\U{number:08x}"


def fields_of(entry: NameEntry | Decision) -> Fields:
    """Keys and texts of an entry in file order, without what is empty; text is NFC."""
    keys = ENTRY_KEYS if isinstance(entry, NameEntry) else DECISION_KEYS
    texts = ((key, str(getattr(entry, key) or "")) for key in keys)
    return tuple((key, unicodedata.normalize("NFC", text)) for key, text in texts if text)


def block_entry(fields: Fields, dash_column: int, gap: int = 1) -> list[str]:
    """Lines of one entry of a block sequence, without line ends."""
    first, rest = " " * dash_column + "-" + " " * gap, " " * (dash_column + 1 + gap)
    return [(rest if number else first) + f"{key}: {_value(key, text)}" for number, (key, text) in enumerate(fields)]


def _value(key: str, text: str, *, flow: bool = False) -> str:
    """A date stands plain, as keepers write it, even if it is only a year."""
    return text if key in _DATES and _YEAR.fullmatch(text) else scalar(text, flow=flow)


def flow_entry(fields: Iterable[tuple[str, str]]) -> str:
    """One entry as a flow mapping on one line."""
    return "{" + ", ".join(f"{key}: {_value(key, text, flow=True)}" for key, text in fields) + "}"


def value_text(key: str, value: Fields | Texts | str) -> str:
    """A value of a key as it is written into a file: a scalar, several texts or several fields on one line."""
    if isinstance(value, Texts):
        return _listed(value.texts)
    return _value(key, value) if isinstance(value, str) else flow_entry(value)


def _listed(texts: Sequence[str]) -> str:
    written = [scalar(text, flow=len(texts) > 1) for text in texts]
    return written[0] if len(written) == 1 else "[" + ", ".join(written) + "]"


def specimen_text(specimen: Specimen) -> str:
    """The text of a new specimen's file: keys in the order of the contract, the tag verbatim in quotes."""
    lines: list[str] = []
    for key in SPECIMEN_KEYS:
        lines += _key_lines(specimen, key)
    return "\n".join(lines) + "\n"


def _key_lines(specimen: Specimen, key: str) -> list[str]:
    if key in ("names", "decisions"):
        entries = specimen.names if key == "names" else specimen.decisions
        return [f"{key}:"] * bool(entries) + [line for entry in entries for line in block_entry(fields_of(entry), 2)]
    if key == "from":
        return [f"from: {_listed(specimen.origin)}"] if specimen.origin else []
    if key == "papers":
        lines = [line for paper in specimen.papers for line in block_entry(paper_fields(paper), 2)]
        return ["papers:", *lines] if lines else []
    if key == "left":
        return [f"left: {flow_entry(left_fields(specimen.left))}"] if specimen.left else []
    if key == "tag":
        return [f"tag: {quoted(specimen.tag)}"] if specimen.tag else []
    value = specimen.sex.text if key == "sex" and specimen.sex else getattr(specimen, TEXTS.get(key, key))
    if not value:
        return []
    return [f"{key}: {value if key in ('sex', 'acquired') else scalar(unicodedata.normalize('NFC', value))}"]


def paper_fields(paper: Paper) -> Fields:
    """A paper as the fields of an entry of ``papers:``."""
    date = (("date", str(paper.date)),) if paper.date else ()
    texts = (("kind", paper.kind), ("number", paper.number), *date, ("name", paper.name))
    return tuple((key, text) for key, text in texts if text)


def left_fields(left: Left) -> Fields:
    """How and when an animal left, as the fields of ``left:``."""
    return (*((("date", str(left.date)),) if left.date else ()), ("how", left.how))
