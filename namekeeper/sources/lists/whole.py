"""All that an index on disk calls animals, for a copy that is searched elsewhere."""

from __future__ import annotations

import json
import sqlite3
from collections.abc import Iterator
from typing import NamedTuple


class WholeList(NamedTuple):
    """The names of one open list; use it before the list is closed."""

    database: sqlite3.Connection

    def every_name(self) -> Iterator[str]:
        """Every scientific name, in force or not, as printed."""
        return self._texts("SELECT DISTINCT name FROM name ORDER BY name")

    def every_common(self) -> Iterator[str]:
        """Every common name and abbreviation, as listed."""
        return self._texts("SELECT DISTINCT text FROM common ORDER BY text")

    def every_form(self) -> Iterator[str]:
        """Every trade form as a tag has it: ``Genus sp. form``."""
        for text in self._texts("SELECT content FROM fact WHERE kind = 'form' ORDER BY key"):
            fact = json.loads(text)
            yield f"{fact['genus']} sp. {fact['form']}"

    def every_genus(self) -> Iterator[str]:
        """Every genus word that the list describes, folded."""
        return self._texts("SELECT DISTINCT key FROM fact WHERE kind IN ('genus', 'moved') ORDER BY key")

    def _texts(self, query: str) -> Iterator[str]:
        return (text for (text,) in self.database.execute(query))
