"""The text of a record: headings and bodies, lossless, and of which some hold only where they were made."""

from __future__ import annotations

import difflib
import json
import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

_BODY = "| "
_NO_NEWLINE = "\\ no newline at the end"
_CONDITION = re.compile(r" \[only with (.+)\]$")
_LINE = 150
#: The overview is our own text and holds with every version.
#: Made by argparse: the overview of all commands is our own text.
_USAGE = re.compile(r"^usage: namekeeper (?!COMMAND)", re.MULTILINE)


@dataclass(frozen=True, slots=True)
class Section:
    """A heading and what stands below it; ``only_with`` names the versions by which the text came about."""

    heading: str
    body: str = ""
    only_with: str = ""

    def lines(self) -> Iterator[str]:
        """The lines of the record."""
        yield f"--- {self.heading}" + (f" [only with {self.only_with}]" if self.only_with else "")
        if not self.body:
            return
        for line in self.body.removesuffix("\n").split("\n"):
            yield f"{_BODY}{visible(line)}"
        if not self.body.endswith("\n"):
            yield _NO_NEWLINE


def visible(line: str) -> str:
    """``line`` with control characters, as a terminal gets them, and unpaired surrogates made visible."""
    return "".join(letter if letter.isprintable() or letter in " \t\u00a0" else ascii(letter)[1:-1] for letter in line)


def stream(heading: str, text: str) -> Section:
    """What went to a stream: verbatim; one JSON document on one line is laid out, which loses nothing."""
    only_with = python_version() if _USAGE.search(text) else ""
    try:
        document = json.loads(text)
    except ValueError:
        return Section(heading, text, only_with)
    if not isinstance(document, dict) or json.dumps(document, ensure_ascii=False) + "\n" != text:
        return Section(heading, text, only_with)
    return Section(f"{heading}: JSON on one line, laid out here", "\n".join(laid_out(document)) + "\n")


def laid_out(value: object, indent: str = "", lead: str = "", tail: str = "") -> Iterator[str]:
    """JSON in lines: what fits into one line stays in one."""
    flat = indent + lead + json.dumps(value, ensure_ascii=False) + tail
    if len(flat) <= _LINE or not isinstance(value, dict | list) or not value:
        yield flat
        return
    pairs = (
        [(f"{json.dumps(key, ensure_ascii=False)}: ", item) for key, item in value.items()]
        if isinstance(value, dict)
        else [("", item) for item in value]
    )
    opening, closing = "{}" if isinstance(value, dict) else "[]"
    yield indent + lead + opening
    for number, (name, item) in enumerate(pairs, 1):
        yield from laid_out(item, indent + " ", name, "," if number < len(pairs) else "")
    yield indent + closing + tail


def python_version() -> str:
    """The version on which the wording of argparse depends."""
    import sys

    return f"Python {sys.version_info.major}.{sys.version_info.minor}"


def differences(recorded: str, played: str) -> list[str]:
    """A readable difference, empty if the same; a section that holds only with other versions is left out."""
    both = conditions(recorded) & conditions(played)
    before, after = list(_comparable(recorded, both)), list(_comparable(played, both))
    return list(difflib.unified_diff(before, after, "recorded", "now", lineterm="", n=4))


def conditions(record: str) -> set[str]:
    """The versions that sections of a record hold with."""
    headings = (line for line in record.splitlines() if line.startswith("--- "))
    return {found[1] for found in map(_CONDITION.search, headings) if found}


def _comparable(record: str, known: set[str]) -> Iterator[str]:
    left_out = False
    for line in record.split("\n"):
        if line.startswith(("--- ", "=== ")):
            found = _CONDITION.search(line)
            left_out = bool(found and found[1] not in known)
            yield line[: found.start()] if found else line
        elif not left_out:
            yield line


def joined(sections: Sequence[Section | str]) -> str:
    """Sections, and headings of steps given as text, as one record."""
    lines: list[str] = []
    for section in sections:
        lines += ["", section] if isinstance(section, str) else section.lines()
    return "\n".join(lines).lstrip("\n") + "\n"
