"""What was acknowledged as written, and what the files must therefore hold.

A value that was asked for and neither acknowledged nor refused (its process was killed, its disk was full) may stand
there or not; once it is seen in a file it must stay. The files are read by a YAML library alone.
"""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import yaml


class LostError(AssertionError):
    """Something that was written is not there, or something is there that nobody wrote."""


@dataclass
class Model:
    """Facts by animal and field with the values they may have now; texts that must stand in a file for ever."""

    folder: Path
    facts: dict[tuple[str, str], set[str]] = field(default_factory=dict)
    texts: dict[str, set[str]] = field(default_factory=lambda: defaultdict(set))
    unsure_texts: set[tuple[str, str]] = field(default_factory=set)
    tags: dict[str, set[int]] = field(default_factory=dict)  # how many animals may have this tag
    broken: dict[str, str] = field(default_factory=dict)  # files damaged by hand, and what they held
    acknowledged: int = 0

    def begin(self) -> None:
        """Take the files as they stand for the truth."""
        for known in (self.facts, self.texts, self.unsure_texts):
            known.clear()
        for identifier in self.ids():
            self.adopt(identifier)
        self.count_tags()

    def count_tags(self) -> None:
        """As many animals of each tag as there are now."""
        self.tags.clear()
        for identifier in self.ids():
            tag = str(self.read(identifier).get("tag", ""))
            if tag.startswith("soak "):
                self.tags[tag] = {max(self.tags.get(tag, {0})) + 1}

    def ids(self) -> list[str]:
        return sorted(path.stem for path in self._files() if path.stem not in self.broken)

    def adopt(self, identifier: str) -> None:
        found = self.read(identifier)
        for name in ("place", "note", "caution", "stage"):
            self.facts[identifier, name] = {str(found.get(name, ""))}

    def asked(self, identifier: str, name: str, value: str) -> None:
        """From now on it may be there."""
        self.facts.setdefault((identifier, name), {""}).add(value)

    def written(self, identifier: str, name: str, value: str) -> None:
        self.facts[identifier, name] = {value}
        self.acknowledged += 1

    def refused(self, identifier: str, name: str, value: str) -> None:
        """It was said that nothing was written."""
        self.facts[identifier, name].discard(value)

    def forget(self, identifier: str) -> None:
        """Its file was deleted by hand."""
        for key in [key for key in self.facts if key[0] == identifier]:
            del self.facts[key]
        self.texts.pop(identifier, None)
        self.unsure_texts = {pair for pair in self.unsure_texts if pair[0] != identifier}

    def read(self, identifier: str) -> dict[str, Any]:
        text = (self.folder / "specimens" / f"{identifier}.yaml").read_text(encoding="utf-8")
        found = yaml.load(text, yaml.BaseLoader)
        if not isinstance(found, dict):
            message = f"{identifier} is half-written: {text!r}"
            raise LostError(message)
        return found

    def check(self) -> None:
        """Compare with the files; what was unsure is sure from now on.

        :raises LostError: if anything is missing, or there is anything that nobody wrote.
        """
        self._check_tags()
        for identifier in self.ids():
            if (identifier, "place") not in self.facts:
                self.adopt(identifier)
        seen: dict[str, dict[str, Any]] = {}
        for (identifier, name), allowed in self.facts.items():
            if identifier in self.broken:
                continue
            found = seen.get(identifier) or seen.setdefault(identifier, self._there(identifier))
            value = str(found.get(name, ""))
            if value not in allowed:
                message = f"{identifier} {name}: {value!r}, acknowledged {sorted(allowed)}"
                raise LostError(message)
            self.facts[identifier, name] = {value}
        self._check_texts()

    def _there(self, identifier: str) -> dict[str, Any]:
        try:
            return self.read(identifier)
        except (OSError, yaml.YAMLError) as error:
            message = f"{identifier} is gone or half-written: {error}"
            raise LostError(message) from error

    def _check_texts(self) -> None:
        for identifier, wanted in self.texts.items():
            if identifier not in self.broken:
                text = self._text(identifier)
                if missing := [one for one in wanted if one not in text]:
                    message = f"{identifier} does not hold {missing} any more"
                    raise LostError(message)
        for identifier, one in self.unsure_texts:
            if identifier not in self.broken and one in self._text(identifier):
                self.texts[identifier].add(one)
        self.unsure_texts.clear()

    def _check_tags(self) -> None:
        found: dict[str, int] = dict.fromkeys(self.tags, 0)
        for identifier in self.ids():
            tag = str(self._there(identifier).get("tag", ""))
            if tag in found:
                found[tag] += 1
            elif tag.startswith("soak "):
                message = f"{identifier} has the tag {tag!r}, which nobody gave it"
                raise LostError(message)
        for tag, number in found.items():
            if number not in self.tags[tag]:
                message = f"{number} animals have the tag {tag!r}: {sorted(self.tags[tag])} were written"
                raise LostError(message)
            self.tags[tag] = {number}

    def _text(self, identifier: str) -> str:
        return (self.folder / "specimens" / f"{identifier}.yaml").read_text(encoding="utf-8")

    def _files(self) -> list[Path]:
        return [path for path in (self.folder / "specimens").glob("*.yaml") if not path.name.startswith(".")]
