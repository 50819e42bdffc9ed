"""Aliases of YAML ("*name" for what "&name" marked elsewhere) in texts of keepers: found, and never followed.

A few lines of them stand for more text than any memory holds, and a text that is changed through one place changes at
another.
"""

from __future__ import annotations

from contextlib import suppress
from typing import NamedTuple

import yaml

_Loader = getattr(yaml, "CLoader", yaml.Loader)


class Alias(NamedTuple):
    """An alias in a text: its name, and its line from 1."""

    name: str
    line: int

    @property
    def what(self) -> str:
        return f"*{self.name} stands for what is marked &{self.name} elsewhere, which is not followed"


ALIAS_REMEDY = "write the text itself here, in quotes if it begins with *"


def first_alias(text: str) -> Alias | None:
    """The first alias of a text, None if it has none, or is no YAML before it comes."""
    if "*" not in text or "&" not in text:
        return None
    with suppress(yaml.YAMLError, ValueError):
        for event in yaml.parse(text, Loader=_Loader):
            if isinstance(event, yaml.AliasEvent):
                return Alias(str(event.anchor), int(getattr(event.start_mark, "line", 0)) + 1)
    return None
