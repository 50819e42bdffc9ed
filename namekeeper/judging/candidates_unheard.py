"""Words of a tag beside a common name that explain nothing of the animal it means."""

from __future__ import annotations

from collections.abc import Sequence, Set

from namekeeper.evidence.interfaces import CommonNames
from namekeeper.judging.common_words import groups_in
from namekeeper.judging.hits import Hits
from namekeeper.reading.areas import is_place, lies_within
from namekeeper.reading.reading import CommonClue, Reading
from namekeeper.words.spelling import PlainKey, plain_key


def unheard_beside(
    reading: Reading, heard: Sequence[tuple[CommonClue, Hits]], chosen: Set[PlainKey], lists: Sequence[CommonNames]
) -> tuple[str, ...]:
    """Words beside the common names that explain nothing of the species left: unknown ones, places elsewhere."""
    if len(chosen) != 1:
        return ()
    explained = [
        (clue.start, clue.end)
        for clue, hits in heard
        if not hits.partial and any(candidate.key in chosen for candidate in hits.firm)
    ]
    ranges = [c.range for _, hits in heard for c in hits.firm if c.key in chosen and c.range]
    beside = [
        word
        for word in reading.unheard
        if not any(start <= word.start < end for start, end in explained)
        and not (ranges and all(lies_within(word.text, areas) for areas in ranges))
        and not _stands_in_its_names(word.text, chosen, lists)
    ]
    places = [place for place in reading.locality.split(", ") if place and is_place(place)]
    elsewhere = [place for place in places if not all(lies_within(place, areas) for areas in ranges)]
    other = [
        clue.text
        for clue in reading.commons
        if clue.generic and not _fits(clue, explained, reading) and not _stands_in_its_names(clue.text, chosen, lists)
    ]
    return tuple(dict.fromkeys((*(word.text for word in beside), *elsewhere, *other)))


def _stands_in_its_names(word: str, chosen: Set[PlainKey], lists: Sequence[CommonNames]) -> bool:
    """Whether some listed common name of the animal has the word: "Gooty sapphire ornamental"."""
    return any(
        plain_key(common.taxon.name) in chosen for origin in lists for common in origin.common_with([plain_key(word)])
    )


def _fits(clue: CommonClue, explained: Sequence[tuple[int, int]], reading: Reading) -> bool:
    """Whether a general word is one for the animal group, which was compared before, or stands among the unheard."""
    inside = any(start <= clue.start < end for start, end in explained)
    return inside or bool(groups_in(clue.text)) or any(word.start == clue.start for word in reading.unheard)
