"""Names that are written short: a species cut to its initial, genus and epithet both cut (shorthand of keepers)."""

from __future__ import annotations

from collections.abc import Sequence

from namekeeper.evidence.candidates import Candidate, merge
from namekeeper.judging.candidates_similar import TagNames
from namekeeper.judging.hits import Hits
from namekeeper.words.names import ScientificName
from namekeeper.words.spelling import ending_key
from namekeeper.words.terms import How

_SHORTEST_CLIP, _LONGEST_CLIP = 3, 6  # letters of an epithet cut short
_MOST_CLIPPED = 5  # species that a name cut short may stand for; more say nothing
_MOST_OF_A_GENUS = 2000  # names of one genus that are compared one by one


def spelt_out(name: ScientificName, lists: Sequence[TagNames]) -> ScientificName:
    """``Lucanus c. cervus`` in full: the one species with that initial that has the subspecies, else the same word."""
    if not name.epithet.endswith("."):
        return name
    initial = name.epithet.rstrip(".")
    listed = [
        words
        for origin in lists
        for statement in origin.prefixed(f"{name.genus} {initial}", _MOST_OF_A_GENUS)
        if (words := statement.subject.name.split(" "))[2:] == [name.infraspecific]
    ]
    species = {words[1] for words in listed}
    if len(species) == 1:
        return name._replace(epithet=species.pop())
    repeated = name.infraspecific.startswith(initial)
    return name._replace(epithet=name.infraspecific) if repeated else name


def is_nominotypical(name: ScientificName) -> bool:
    """Whether the epithet is repeated: the subspecies that bears the name of its species (Art. 47)."""
    return ending_key(f"x {name.epithet}") == ending_key(f"x {name.infraspecific}")


def hits_of_clipped(name: ScientificName, lists: Sequence[TagNames]) -> Hits:
    """``P. met``: species whose genus and epithet begin so, where they are few (shorthand of keepers)."""
    found = _clipped(name, lists) if name.abbreviated and not name.qualifier else []
    return Hits(tuple(found), len(found) > 1)


def _clipped(name: ScientificName, lists: Sequence[TagNames]) -> list[Candidate]:
    if not _SHORTEST_CLIP <= len(name.epithet) <= _LONGEST_CLIP:
        return []
    found = [
        Candidate.of(taxon, How.ABBREVIATED, name.canonical, origin.edition.source)
        for origin in lists
        for statement in origin.clipped(name.genus.rstrip("."), name.epithet, _MOST_CLIPPED + 1)
        for taxon in statement.targets
    ]
    few = merge(found)
    return few if len(few) <= _MOST_CLIPPED else []
