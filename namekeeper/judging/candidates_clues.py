"""What each clue of a tag brings by the lists, and which of them mean an animal of another kind."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import NamedTuple

from namekeeper.evidence.candidates import Note, NoteCode, merge
from namekeeper.evidence.interfaces import NameList
from namekeeper.evidence.statements import Reply
from namekeeper.judging.candidates_common import firm_hits_of_common, hits_of_common
from namekeeper.judging.candidates_names import hits_of_misspelt_subspecies, hits_of_name
from namekeeper.judging.candidates_short import hits_of_clipped
from namekeeper.judging.common_words import groups_in
from namekeeper.judging.hits import Hits
from namekeeper.reading.reading import HYBRID, Clue, ClueLink, CommonClue, GroupWord, Reading
from namekeeper.words.dates import PartialDate
from namekeeper.words.names import ScientificName
from namekeeper.words.spelling import PlainKey, plain_key

Replies = Mapping[str, Sequence[Reply]]

#: Of more species than that a common name says so little that what their names meant is left out.
_FEW_SPECIES = 4


class TagHits(NamedTuple):
    """The clues of a tag with what each brought.

    ``genera``: those a genus word alone leaves; ``groups``: words for animal groups outside of species' names.
    """

    scientific: list[tuple[Clue, Hits]]
    heard: list[CommonClue]
    common: list[Hits]
    genera: frozenset[PlainKey]
    left_out: tuple[Note, ...]
    groups: tuple[GroupWord, ...]

    @classmethod
    def of(cls, reading: Reading, lists: Sequence[NameList], on: PartialDate | None, replies: Replies) -> TagHits:
        hybrid = reading.qualifier == HYBRID
        scientific = [
            (
                clue,
                _crossed(_hits_of_clue(clue, reading, lists, on, replies), hybrid or clue.link is ClueLink.CROSSED),
            )
            for clue in reading.clues
            if clue.link is not ClueLink.FORMER
        ]
        genera = _bare_genera(reading, lists)
        heard, found = _hits_of_commons(reading, lists, genera, on, named=bool(scientific))
        left_out = _other_animals(scientific, heard, found, reading)
        kept = [number for number in range(len(heard)) if number not in left_out]
        common = [_crossed(found[number], hybrid) for number in kept]
        groups = _outside(reading.group_words, heard, found)
        return cls(scientific, [heard[number] for number in kept], common, genera, tuple(left_out.values()), groups)


def _hits_of_commons(
    reading: Reading, lists: Sequence[NameList], genera: frozenset[PlainKey], on: PartialDate | None, *, named: bool
) -> tuple[list[CommonClue], list[Hits]]:
    """The common names of a tag that tell something, each with what it brought."""
    telling = [clue for clue in reading.commons if not clue.generic]
    # A word for the whole group adds nothing beside a name.
    heard = telling or ([] if named else list(reading.commons))
    groups = _groups_said(reading, lists)
    found = [_within(_no_surer(hits_of_common(clue, lists, groups), lists, on), genera) for clue in heard]
    if found and not any(candidate.is_species for hits in found for candidate in hits.candidates):
        # "butterfly crab": beside a word for a group, one for other animals tells as much
        others = [clue for clue in reading.commons if clue not in heard and not groups_in(clue.text)]
        told = [(clue, hits) for clue in others if (hits := firm_hits_of_common(clue, lists)).firm]
        heard, found = [*heard, *(clue for clue, _ in told)], [*found, *(hits for _, hits in told)]
    return heard, found


def _no_surer(hits: Hits, lists: Sequence[NameList], on: PartialDate | None) -> Hits:
    """A common name of few species, with the other animals for which their scientific names stand: it is no surer.

    Where sources differ on that name only (a genus, a spelling), the animal is the same.
    """
    species = dict.fromkeys(candidate.name for candidate in hits.firm_species if candidate.name.count(" ") == 1)
    if not 0 < len(species) <= _FEW_SPECIES:
        return hits
    others = [
        candidate
        for genus, epithet in map(str.split, species)
        for candidate in hits_of_name(
            ScientificName(genus, epithet=epithet, verbatim=f"{genus} {epithet}"), lists, on
        ).firm_species
        if candidate.name not in species and all(note.code is not NoteCode.DISPUTED for note in candidate.notes)
    ]
    return hits._replace(candidates=tuple(merge([*hits.candidates, *others])))


def _groups_said(reading: Reading, lists: Sequence[NameList]) -> tuple[GroupWord, ...]:
    """Words for animal groups that stand outside of the common names that some list has."""
    own: set[str] = set()
    for clue in reading.commons if reading.groups else ():
        groups = groups_in(clue.text)
        if groups and not clue.generic and any(origin.common(clue.text) for origin in lists):
            own.update(groups)
    return tuple(word for word in reading.group_words if word.taxon not in own)


def _outside(words: Sequence[GroupWord], heard: Sequence[CommonClue], common: Sequence[Hits]) -> tuple[GroupWord, ...]:
    """Words for groups that stand in no common name of a species: "whip scorpion", but not "emperor scorpion"."""
    named = [(clue.start, clue.end) for clue, hits in zip(heard, common, strict=True) if hits.firm_species]
    return tuple(word for word in words if not any(start <= word.start < end for start, end in named))


def _other_animals(
    scientific: Sequence[tuple[Clue, Hits]], heard: Sequence[CommonClue], common: Sequence[Hits], reading: Reading
) -> dict[int, Note]:
    """Common names that mean an animal of another family than a firm scientific name, by number, with what is said.

    "blondi burgundy" is a colour and no snail; an alternative, or a word for another group, is left to the keeper.
    """
    named = [c for _, hits in scientific for c in hits.firm_species]
    families = {candidate.family for candidate in named}
    if not named or None in families:
        return {}
    kept = {word.start for word in reading.alternatives}
    found = {}
    for number, (clue, hits) in enumerate(zip(heard, common, strict=True)):
        meant = {candidate.family for candidate in hits.firm_species}
        if meant and None not in meant and not meant & families and clue.start not in kept and not groups_in(clue.text):
            names = " or ".join(candidate.name for candidate in hits.firm_species)
            found[number] = Note(NoteCode.LEFT_OUT, (clue.text, names))
    return found


def _hits_of_clue(
    clue: Clue, reading: Reading, lists: Sequence[NameList], on: PartialDate | None, replies: Replies
) -> Hits:
    """The clue as a name; where no list has it, as a common name that only looks like one, or as a name cut short."""
    hits = hits_of_name(clue.name, lists, on, replies.get(clue.text, ()))
    if clue.name.qualifier:
        return hits
    if hits.firm:
        behind = _word_behind(clue, reading)
        near = hits_of_misspelt_subspecies(clue.name, behind, lists) if behind else Hits(())
        return near if near.candidates else _with_common(hits, clue, lists)
    other = firm_hits_of_common(CommonClue(clue.name.verbatim, clue.start, clue.end), lists)
    # a trade abbreviation such as "L. para"; part of a common name would only share the epithet
    if other.firm and not other.partial:
        return other
    clipped = hits_of_clipped(clue.name, lists)
    return clipped if clipped.candidates else hits


def _with_common(hits: Hits, clue: Clue, lists: Sequence[NameList]) -> Hits:
    """A name in small letters with what the same words mean as a common name: "mantis religiosa" is any mantis, too."""
    if not clue.name.epithet or not clue.name.verbatim.islower() or clue.name.abbreviated:
        return hits
    common = firm_hits_of_common(CommonClue(clue.name.verbatim, clue.start, clue.end), lists)
    named = {candidate.key for candidate in hits.candidates}
    others = [candidate for candidate in common.firm if candidate.key not in named]
    return hits._replace(candidates=(*hits.candidates, *others), ambiguous=hits.ambiguous or bool(others))


def _word_behind(clue: Clue, reading: Reading) -> str:
    """A word that was not heard right behind the name of a species, in small letters as a subspecies has it."""
    if not clue.name.epithet or clue.name.infraspecific or clue.name.abbreviated:
        return ""
    behind = [word for word in reading.unheard if word.start == clue.end + 1]
    return behind[0].text if behind and behind[0].text.islower() and behind[0].text.isascii() else ""


def _bare_genera(reading: Reading, lists: Sequence[NameList]) -> frozenset[PlainKey]:
    """Folded genera that a genus word alone on the tag leaves: its own, and those its species went to."""
    names = [clue.name for clue in reading.clues if clue.link is not ClueLink.FORMER]
    if any(name.epithet for name in names):
        return frozenset()
    records = [record for name in names for origin in lists if (record := origin.genus(name.genus)) is not None]
    return frozenset(plain_key(genus) for record in records for genus in (record.genus, *record.moved_to))


def _within(hits: Hits, genera: frozenset[PlainKey]) -> Hits:
    """What the words mean in these genera, if they mean anything there."""
    fitting = tuple(c for c in hits.candidates if not c.is_species or genus_key(c.key) in genera)
    return hits._replace(candidates=fitting) if any(c.is_species for c in fitting) else hits


def genus_key(key: PlainKey) -> PlainKey:
    """The folded genus word of a folded name."""
    return PlainKey(key.split(" ")[0])


def _crossed(hits: Hits, crossed: bool) -> Hits:
    if not crossed:
        return hits
    parent = Note(NoteCode.CROSS_PARENT)
    return hits._replace(candidates=tuple(c.noted([parent]) for c in hits.candidates), ambiguous=True)
