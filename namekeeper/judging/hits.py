"""What one clue of a tag brought, as a value."""

from __future__ import annotations

from typing import NamedTuple

from namekeeper.evidence.candidates import Candidate
from namekeeper.words.spelling import PlainKey


class Hits(NamedTuple):
    """What one clue of a tag brought.

    ``ambiguous``: the name itself is open (misused, divided, disputed, doubtful, a cross): no other clue can settle
    that. ``partial``: only part of a common name matched. ``open_species``: the tag says that the species is open
    (sp., aff., a trade form). ``is_name``: the clue is a name, not just a word. ``recalled``: species that the words
    mean by memory alone, no source seen.
    """

    candidates: tuple[Candidate, ...]
    ambiguous: bool = False
    partial: bool = False
    open_species: bool = False
    is_name: bool = True
    recalled: frozenset[PlainKey] = frozenset()

    @property
    def firm(self) -> tuple[Candidate, ...]:
        return tuple(candidate for candidate in self.candidates if candidate.firm)

    @property
    def firm_species(self) -> tuple[Candidate, ...]:
        return tuple(candidate for candidate in self.firm if candidate.is_species)
