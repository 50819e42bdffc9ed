"""A scientific name of an animal as one value: the parts of Art. 4-6, what is written beside it, and its reading."""

from __future__ import annotations

from typing import NamedTuple

from namekeeper.words.authorship import Authorship


class ScientificName(NamedTuple):
    """A name with what stands beside it; parts that are not there are empty.

    ``genus`` holds the one word of a name above the species group, whatever its rank, and may be abbreviated ("B.").
    ``qualifier`` ("cf.", "aff.", "?", "sp.", "complex") stands before the part named by ``qualifier_at`` (genus,
    species, infraspecies). Signs of open nomenclature are no part of the name (Art. 5.3). ``usage`` holds "sensu",
    "auct.", "nec"; ``note`` "nomen nudum", "comb. nov."; ``phrase`` a provisional label. Equal means: equal in
    everything but ``verbatim``, which stands last.
    """

    genus: str = ""
    subgenus: str = ""
    epithet: str = ""
    infraspecific: str = ""
    rank: str = "species"
    authorship: Authorship | None = None
    qualifier: str = ""
    trade_form: str = ""
    parents: tuple[ScientificName, ...] = ()
    qualifier_at: str = ""
    marker: str = ""  # "var.", "subsp.": the rank as written before the infraspecific word
    usage: str = ""
    note: str = ""
    phrase: str = ""
    extinct: bool = False
    sic: bool = False
    damaged: bool = False  # holds U+FFFD, the sign of letters lost on the way: never shortened in silence
    hybrid: bool = False  # a hybrid sign before the epithet; a formula of two parents has ``parents``
    verbatim: str = ""

    def __eq__(self, other: object) -> bool:
        return isinstance(other, ScientificName) and self[:-1] == other[:-1]

    def __ne__(self, other: object) -> bool:
        return not self == other

    def __hash__(self) -> int:
        return hash(self[:-1])

    @property
    def canonical(self) -> str:
        """Genus, epithet, subspecies; of a hybrid both parents; of a subgenus its own word."""
        if self.parents:
            return " × ".join(parent.canonical for parent in self.parents)
        if self.rank == "subgenus":
            return self.subgenus
        return " ".join(part for part in (self.genus, self.epithet, self.infraspecific) if part)

    @property
    def abbreviated(self) -> bool:
        """Whether the genus is only its first letters."""
        return self.genus.endswith(".")

    @property
    def is_species(self) -> bool:
        """Whether the name names a species or subspecies."""
        return bool(self.epithet) and not self.parents

    def __str__(self) -> str:
        """The name in full, as it would be written: reads back to an equal value."""
        if self.parents:
            return " × ".join(str(parent) for parent in self.parents)
        at = self.qualifier_at
        bare_phrase = self.phrase if self.rank == "genus" and not self.qualifier and self.phrase.isalnum() else ""
        parts = (
            "†" if self.extinct else "",
            self.genus + bare_phrase + (self.qualifier if at == "genus" and self.qualifier == "?" else ""),
            f"({self.subgenus})" if self.subgenus else "",
            "×" if self.hybrid else "",
            self.qualifier if at == "species" and self.qualifier not in _AFTER else "",
            self.epithet,
            self.qualifier if at == "species" and self.qualifier in _AFTER else "",
            self.qualifier if at == "infraspecies" else "",
            self.marker,
            self.infraspecific,
            "[sic]" if self.sic else "",
            "" if bare_phrase else self.phrase,
            f'"{self.trade_form}"' if self.trade_form else "",
            str(self.authorship or ""),
            f"; {self.usage}" if self.usage[:1].isupper() else self.usage,
            self.note if self.note != self.marker else "",
        )
        return " ".join(part for part in parts if part).replace(" ;", ";")


_AFTER = ("complex", "agg.")
