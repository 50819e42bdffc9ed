"""From the clues of a tag to candidates and an answer: all clues together, and never a silent pick."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from types import MappingProxyType

from namekeeper.evidence.candidates import HOW_ORDER, Candidate, Lookup, Note, NoteCode, merge
from namekeeper.evidence.interfaces import NameList
from namekeeper.evidence.statements import CommonName, Reply
from namekeeper.judging.candidates_common import hits_of_common
from namekeeper.judging.candidates_names import Hits, hits_of_name
from namekeeper.reading.reading import HYBRID, Clue, ClueLink, CommonClue, Reading
from namekeeper.words.dates import PartialDate
from namekeeper.words.spelling import PlainKey, plain_key
from namekeeper.words.terms import AnswerKind, How

Replies = Mapping[str, Sequence[Reply]]


def find_candidates(
    reading: Reading,
    lists: Sequence[NameList],
    on: PartialDate | None = None,
    online: Sequence[CommonName] = (),
    replies: Replies = MappingProxyType({}),
) -> Lookup:
    """What the tag may mean by ``lists``; ``on`` is when it was written, None leaves every old meaning open.

    ``online`` holds common names that services gave for the tag's common clues; they add candidates and never make
    an answer firmer than the lists do. ``replies`` holds what services said of written names that no list has.
    """
    hybrid = reading.qualifier == HYBRID
    scientific = [
        (clue.link, _crossed(_hits_of_clue(clue, lists, on, replies), hybrid or clue.link is ClueLink.CROSSED))
        for clue in reading.clues
        if clue.link is not ClueLink.FORMER
    ]
    telling = [clue for clue in reading.commons if not clue.generic]
    # A word for the whole group adds nothing beside a name.
    heard = telling or ([] if scientific else reading.commons)
    genera = _bare_genera(reading, lists)
    common = [_crossed(_within(hits_of_common(clue, lists), genera), hybrid) for clue in heard]
    if online:
        common.append(Hits(tuple(_of_service(found) for found in online)))
    every = [*(hits for _, hits in scientific), *common]
    forms = _forms(reading, every, lists)
    counted = _counted([*every, forms])
    chosen = _chosen(scientific, common)
    other_form = bool(_keys(forms.candidates) - chosen)
    answer = _answer(reading, every, chosen, other_form, lists)
    if answer is AnswerKind.ONE and genera and not genera & {_genus(key) for key in chosen}:
        # The genus and the other words contradict each other: the keeper must choose.
        answer, chosen = AnswerKind.SEVERAL, chosen | genera
    if answer is AnswerKind.ONE and online and not chosen & _keys(c for hits in every[:-1] for c in hits.firm):
        answer = AnswerKind.SEVERAL  # a service's common name alone is no firm ground: the keeper must agree
    return Lookup(answer, _ordered(_shown(answer, counted, chosen)))


def _hits_of_clue(clue: Clue, lists: Sequence[NameList], on: PartialDate | None, replies: Replies) -> Hits:
    """The clue as a name; where no list has it, as a common name that only looks like one."""
    hits = hits_of_name(clue.name, lists, on, replies.get(clue.text, ()))
    if hits.firm or clue.name.qualifier:
        return hits
    other = hits_of_common(CommonClue(clue.name.verbatim, clue.start, clue.end), lists)
    # a trade abbreviation such as "L. para"; part of a common name would only share the epithet
    return other if other.firm and not other.partial else hits


def _bare_genera(reading: Reading, lists: Sequence[NameList]) -> frozenset[PlainKey]:
    """Folded genera that a genus word alone on the tag leaves: its own, and those its species went to."""
    names = [clue.name for clue in reading.clues if clue.link is not ClueLink.FORMER]
    if any(name.epithet for name in names):
        return frozenset()
    records = [record for name in names for origin in lists if (record := origin.genus(name.genus)) is not None]
    return frozenset(plain_key(genus) for record in records for genus in (record.genus, *record.moved_to))


def _within(hits: Hits, genera: frozenset[PlainKey]) -> Hits:
    """What the words mean in these genera, if they mean anything there."""
    fitting = tuple(c for c in hits.candidates if not c.is_species or _genus(c.key) in genera)
    return hits._replace(candidates=fitting) if any(c.is_species for c in fitting) else hits


def _genus(key: PlainKey) -> PlainKey:
    return PlainKey(key.split(" ")[0])


def _crossed(hits: Hits, crossed: bool) -> Hits:
    if not crossed:
        return hits
    parent = Note(NoteCode.CROSS_PARENT)
    return hits._replace(candidates=tuple(c.noted([parent]) for c in hits.candidates), ambiguous=True)


def _of_service(common: CommonName) -> Candidate:
    return Candidate.of(common.taxon, How.COMMON, common.text, common.edition.source)


def _forms(reading: Reading, every: Sequence[Hits], lists: Sequence[NameList]) -> Hits:
    """Species that a trade form of the tag was described as since: shown, never taken (contract section 2)."""
    if not reading.trade_form:
        return Hits(())
    written = {clue.name.genus for clue in reading.clues if not clue.name.abbreviated}
    genera = written | {c.name.split(" ")[0] for hits in every for c in hits.firm}
    found = []
    for origin in lists:
        for form in origin.forms(None, reading.trade_form):
            taxon, source = form.described_as, origin.edition.source
            if taxon and (not genera or {form.genus, taxon.name.split(" ")[0]} & genera):
                note = Note(NoteCode.TRADE_FORM, about=form)
                found.append(Candidate.of(taxon, How.COMMON, form.form, source, [note]))
    return Hits(tuple(merge(found)))


def _counted(every: Sequence[Hits]) -> dict[PlainKey, Candidate]:
    """All candidates by taxon with the number of clues that agree on them."""
    found: dict[PlainKey, Candidate] = {}
    for hits in every:
        for candidate in merge(list(hits.candidates)):
            known = found.get(candidate.key)
            merged = candidate if known is None else known.merged(candidate)._replace(clues=known.clues + 1)
            found[candidate.key] = merged
    return found


def _chosen(scientific: Sequence[tuple[ClueLink, Hits]], common: Sequence[Hits]) -> set[PlainKey]:
    """Keys of the species that all firm clues together leave."""
    named, ambiguous = _by_names(scientific)
    equal = [_keys(hits.firm_species) for hits in common if not hits.partial and hits.firm_species]
    partial = [_keys(hits.candidates) for hits in common if hits.partial]
    if not named:
        return _meet(equal) or _meet([keys for hits in common if (keys := _keys(hits.firm_species))])
    if not ambiguous:
        for keys in (*equal, *partial):
            named = named & keys or named
    for keys in equal:
        if not named & keys:
            named = named | keys  # the clues contradict each other: the keeper must choose
    return named


def _by_names(scientific: Sequence[tuple[ClueLink, Hits]]) -> tuple[set[PlainKey], bool]:
    """Species of all scientific clues: alternatives are added up, clues that say the same thing narrow each other."""
    groups: list[set[PlainKey]] = []
    for link, hits in scientific:
        keys = _keys(hits.firm_species)
        if link in (ClueLink.OR, ClueLink.CROSSED) and groups:
            groups[-1] |= keys
        else:
            groups.append(keys)
    return _meet([keys for keys in groups if keys]), any(hits.ambiguous for _, hits in scientific)


def _meet(sets: Sequence[set[PlainKey]]) -> set[PlainKey]:
    if not sets:
        return set()
    return set.intersection(*sets) or set.union(*sets)


def _keys(candidates: Iterable[Candidate]) -> set[PlainKey]:
    return {candidate.key for candidate in candidates}


def _answer(
    reading: Reading, every: Sequence[Hits], chosen: set[PlainKey], other_form: bool, lists: Sequence[NameList]
) -> AnswerKind:
    candidates = [candidate for hits in every for candidate in hits.candidates]
    if any(hits.open_species for hits in every) or (other_form and not chosen):
        return AnswerKind.GENUS if any(c.firm for c in candidates) else _without_firm(reading, every, lists)
    species = [c for c in candidates if c.key in chosen and c.firm]
    higher = _keys(c for hits in every for c in hits.firm if not c.is_species and c.how is How.COMMON)
    if len(chosen) > 1 or (chosen and higher and not reading.clues):
        return AnswerKind.SEVERAL
    if len(chosen) == 1:
        alone = any(c.how not in (How.MISAPPLIED, How.DOUBTFUL) for c in species)
        unclear = other_form or any(hits.ambiguous and len(hits.firm_species) > 1 for hits in every)
        single = alone and not unclear and reading.qualifier != HYBRID
        return AnswerKind.ONE if single else AnswerKind.SEVERAL
    if any(c.how is How.SIMILAR and c.is_species for c in candidates):
        return AnswerKind.GUESS
    if len(higher) > 1:
        return AnswerKind.SEVERAL
    if any(c.firm for c in candidates):
        return AnswerKind.GENUS
    return _without_firm(reading, every, lists)


def _without_firm(reading: Reading, every: Sequence[Hits], lists: Sequence[NameList]) -> AnswerKind:
    if any(hits.candidates for hits in every):
        return AnswerKind.GUESS
    if not any(hits.is_name for hits in every):
        return AnswerKind.NONE
    complete = {taxon for origin in lists for taxon in origin.edition.complete_for}
    return AnswerKind.NONE if complete & {"Animalia", "Biota", reading.group} else AnswerKind.UNASKED


_MOST_GUESSES = 8


def _shown(answer: AnswerKind, counted: dict[PlainKey, Candidate], chosen: set[PlainKey]) -> list[Candidate]:
    """What belongs to the answer: of several firm clues those that are left; guesses only where nothing is firm."""
    if answer in (AnswerKind.ONE, AnswerKind.SEVERAL) and chosen:
        higher = [c for c in counted.values() if not c.is_species and c.how is How.COMMON]
        forms = [c for c in counted.values() if c.key not in chosen and _of_trade_form(c)]
        return [c for key, c in counted.items() if key in chosen] + (
            higher + forms if answer is AnswerKind.SEVERAL else []
        )
    if answer is AnswerKind.GENUS:
        return [c for c in counted.values() if c.firm]
    if answer is AnswerKind.GUESS and any(c.is_species for c in counted.values()):
        return [c for c in counted.values() if not c.firm]
    return list(counted.values())


def _of_trade_form(candidate: Candidate) -> bool:
    return any(note.code is NoteCode.TRADE_FORM for note in candidate.notes)


def _ordered(candidates: Iterable[Candidate]) -> tuple[Candidate, ...]:
    """Firm before similar, then agreement of clues, the written name, how it was found, score and alphabet."""
    ranked = sorted(
        candidates, key=lambda c: (not c.firm, -c.clues, c.rival, HOW_ORDER.index(c.how), -c.score, plain_key(c.name))
    )
    firm = [c for c in ranked if c.firm]
    return tuple(firm + [c for c in ranked if not c.firm][:_MOST_GUESSES])
