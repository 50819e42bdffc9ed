"""Candidates for a scientific name on a tag: exact, Code-equivalent, abbreviated, misused, divided, similar."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import combinations

from namekeeper.evidence.candidates import MAY_BE_REAL, Candidate, Note, NoteCode, merge
from namekeeper.evidence.statements import Answer, GenusRecord, Match, NameStatus, Reply, Statement, TaxonName
from namekeeper.judging import candidates_similar
from namekeeper.judging.candidates_short import is_nominotypical, spelt_out
from namekeeper.judging.candidates_similar import TagNames
from namekeeper.judging.change import same_author
from namekeeper.judging.hits import Hits
from namekeeper.judging.nearness import epithet_edits
from namekeeper.judging.windows import Usage, divides, usage
from namekeeper.words.dates import PartialDate
from namekeeper.words.names import ScientificName
from namekeeper.words.spelling import plain_key
from namekeeper.words.terms import How, Verification

_MOST_OF_A_GENUS = 2000  # names of one species or genus that are compared one by one
_NEAR_SUBSPECIES, _BARE_SPECIES = 0.7, 0.5
_EDITS_OF_A_SLIP = 2  # two errors; what is farther off is another word
_OPEN_STATUS = (NameStatus.DOUBTFUL, NameStatus.UNAVAILABLE)


def hits_of_name(
    name: ScientificName, lists: Sequence[TagNames], on: PartialDate | None, replies: Sequence[Reply] = ()
) -> Hits:
    """All that the lists have on one written name; ``on`` is when it was written, None if unknown.

    ``replies`` are those of services to this name; they are heard only where no list has it.
    """
    if not name.epithet or name.qualifier.startswith("sp"):
        return _genus_only(name, lists)
    if name.qualifier in ("aff.", "nr.", "prox.", "ex gr.", "complex"):
        return _beside(name, lists)
    if name.infraspecific:
        name = spelt_out(name, lists)
    firm, ambiguous = _firm(name, lists, on)
    if firm and name.infraspecific and not is_nominotypical(name):
        firm = _within_species(name, firm, lists)
    if firm:
        return Hits(tuple(firm), ambiguous)
    heard = _of_replies(name, replies)
    if heard:
        return Hits(tuple(heard), len(heard) > 1)
    known = None if name.abbreviated else _genus_record(name.genus, lists)
    similar = candidates_similar.similar(name, lists, known)
    genus = genus_candidates(name.genus, lists, name.canonical) if known else []
    return Hits(tuple(similar + genus))


def firm_candidates(name: ScientificName, lists: Sequence[TagNames]) -> list[Candidate]:
    """What a name of a species means by its spelling alone; no guesses are looked for."""
    return _firm(name, lists, None)[0]


def _firm(name: ScientificName, lists: Sequence[TagNames], on: PartialDate | None) -> tuple[list[Candidate], bool]:
    statements = _guarded([s for origin in lists for s in _best(_statements(origin, name))])
    statements = _by_author(statements, name)
    written = dict.fromkeys(s.subject.name for s in statements)
    found = [c for s in statements for c in _of_statement(s, name)]
    homonyms = _are_homonyms(statements)
    if not homonyms:
        found = _in_force(found, statements)
    ambiguous = homonyms or any(s.status in _OPEN_STATUS or len(s.targets) > 1 for s in statements)
    rivals: list[Candidate] = []
    # Facts on usage hang on the string that was written, not on the end of its chain.
    asked = tuple(written) if name.abbreviated else tuple(dict.fromkeys((name.canonical, *written)))
    for origin in lists:
        for reply in origin.ask_firmly(asked) if written or not name.abbreviated else ():
            if isinstance(reply, Answer):
                rivals += _rivals(reply, name.canonical, on)
    return _with_rivals(merge(found), rivals), ambiguous or bool(rivals)


def _within_species(name: ScientificName, firm: list[Candidate], lists: Sequence[TagNames]) -> list[Candidate]:
    """A subspecies that no list has: only guesses, those of the species that are spelt similarly before the species."""
    if not any(note.code is NoteCode.SUBSPECIES_UNLISTED for candidate in firm for note in candidate.notes):
        return firm
    species = f"{name.genus} {name.epithet}"
    near = [
        Candidate.of(
            taxon, How.SIMILAR, name.canonical, origin.edition.source,
            notes=[Note(NoteCode.SPELT_SIMILARLY, (statement.subject.name,)), MAY_BE_REAL], score=_NEAR_SUBSPECIES,
        )
        for origin in lists
        for statement in origin.prefixed(f"{species} ", _MOST_OF_A_GENUS)
        if statement.subject.name.count(" ") > 1  # the species itself is no subspecies
        and _may_be(statement.subject.name.split(" ")[-1], name.infraspecific)
        for taxon in statement.targets or (statement.subject,)
    ]  # fmt: skip
    bare = [candidate._replace(how=How.SIMILAR, score=_BARE_SPECIES).noted([MAY_BE_REAL]) for candidate in firm]
    return merge([*near, *bare])


def _may_be(listed: str, written: str) -> bool:
    return epithet_edits(plain_key(listed), plain_key(written)) <= _EDITS_OF_A_SLIP


def hits_of_misspelt_subspecies(name: ScientificName, word: str, lists: Sequence[TagNames]) -> Hits:
    """Guesses for a word right behind a species that is spelt like one of its subspecies; nothing if there is none."""
    written = name._replace(infraspecific=word, rank="subspecies")
    firm, _ = _firm(written, lists, None)
    found = _within_species(written, firm, lists)
    near = any(note.code is NoteCode.SPELT_SIMILARLY for candidate in found for note in candidate.notes)
    return Hits(tuple(found) if near else ())


def _by_author(statements: list[Statement], name: ScientificName) -> list[Statement]:
    """Of homonyms those by the author on the tag, if some list has one by that author."""
    written = str(name.authorship or "")
    alike = [same_author(written, statement.subject.authorship) for statement in statements]
    if True not in alike:
        return statements
    return [statement for statement, same in zip(statements, alike, strict=True) if same is not False]


def _are_homonyms(statements: Sequence[Statement]) -> bool:
    """Whether one list has names of one spelling by different authors: two nominal taxa (contract section 1)."""
    return any(
        one.edition.source == other.edition.source
        and plain_key(one.subject.name) == plain_key(other.subject.name)
        and same_author(one.subject.authorship, other.subject.authorship) is False
        for one, other in combinations(statements, 2)
    )


def _with_rivals(found: list[Candidate], rivals: list[Candidate]) -> list[Candidate]:
    """Other meanings behind the written one; a taxon found both ways keeps the way of the written name."""
    own = {candidate.key: candidate for candidate in found}
    for rival in rivals:
        known = own.get(rival.key)
        if known is None:
            own[rival.key] = rival._replace(rival=True)
        elif not known.notes or known.how is rival.how or known in found:
            own[rival.key] = known.noted(rival.notes)
    return list(own.values())


def _statements(origin: TagNames, name: ScientificName) -> tuple[Statement, ...]:
    if name.abbreviated:
        found = origin.abbreviated(name.genus.rstrip("."), name.epithet)
        return tuple(s for s in found if s.match in (Match.SAME, Match.ENDING))
    found = origin.named(name.canonical)
    if not found and name.infraspecific:
        found = origin.named(f"{name.genus} {name.epithet}")
    return found


def _best(statements: Sequence[Statement]) -> Iterator[Statement]:
    """Of each genus the statements of the best row: an exact name is not made doubtful by one of another ending."""
    order = (Match.SAME, Match.ENDING, Match.LETTERS)
    for statement in statements:
        genus = statement.subject.name.split(" ")[0]
        rows = [s.match for s in statements if s.subject.name.split(" ")[0] == genus]
        if statement.match.speaks and statement.match is min(rows, key=order.index):
            yield statement


def _guarded(statements: list[Statement]) -> list[Statement]:
    """Row 3 speaks only if no list has the name by rows 1 and 2 and all lists together have one name that folds so."""
    firm = [statement for statement in statements if statement.match is not Match.LETTERS]
    if firm:
        return firm
    names = {plain_key(statement.subject.name) for statement in statements}
    return statements if len(names) == 1 else []


def _of_replies(name: ScientificName, replies: Sequence[Reply]) -> list[Candidate]:
    """What services say of the very name; hints and names of plants are no candidates."""
    answers = [reply for reply in replies if isinstance(reply, Answer)]
    statements = [s for answer in answers for s in _best(answer.statements) if s.subject.kingdom in (None, "Animalia")]
    guarded = _guarded(statements)
    return merge(_in_force([c for s in guarded for c in _of_statement(s, name)], guarded))


def _of_statement(statement: Statement, name: ScientificName) -> Iterator[Candidate]:
    subject, source = statement.subject, statement.edition.source
    matched = name.canonical
    if statement.status in _OPEN_STATUS:
        notes = [Note(NoteCode.NO_NAME_IN_FORCE), *_words_of(NoteCode.SOURCE_REMARK, statement.note)]
        yield Candidate.of(subject, How.DOUBTFUL, matched, source, notes=notes)
        return
    if not statement.targets:
        notes = [*_words_of(NoteCode.SOURCE_FAULT, statement.fault)] or [Note(NoteCode.NO_NAME_GIVEN)]
        yield Candidate.of(subject, How.DOUBTFUL, matched, source, notes=notes)
        return
    how = _how(statement, name)
    for target in statement.targets:
        notes = []
        if plain_key(target.name) != plain_key(subject.name):
            notes.append(Note(NoteCode.LISTED_AS, (subject.name,)))
            if statement.verification is Verification.MEMORY:
                notes.append(Note(NoteCode.NAME_RECALLED))
        elif statement.match in (Match.ENDING, Match.LETTERS) and not name.abbreviated:
            notes.append(Note(NoteCode.SPELT_BY_SOURCE, (subject.name,)))
        if name.infraspecific and not is_nominotypical(name) and " ".join(subject.name.split(" ")[2:]) == "":
            notes.append(Note(NoteCode.SUBSPECIES_UNLISTED, (name.infraspecific,)))
        yield Candidate.of(target, how, matched, source, notes=notes)


def _how(statement: Statement, name: ScientificName) -> How:
    if statement.status is NameStatus.MISAPPLIED:
        return How.MISAPPLIED
    if name.abbreviated:
        return How.ABBREVIATED
    if statement.match in (Match.ENDING, Match.LETTERS):
        return How.EQUIVALENT
    return How.ACCEPTED if statement.status is NameStatus.ACCEPTED else How.FORMER


def _in_force(found: list[Candidate], statements: list[Statement]) -> list[Candidate]:
    """Without names that another list has as former names of a name found here too (an older edition)."""
    leads = {
        (plain_key(s.subject.name), plain_key(s.targets[0].name))
        for s in statements
        if len(s.targets) == 1 and plain_key(s.targets[0].name) != plain_key(s.subject.name)
    }
    old = {start for start, end in leads if (end, start) not in leads}
    return [c for c in found if c.key not in old] or found


def _rivals(answer: Answer, matched: str, on: PartialDate | None) -> Iterator[Candidate]:
    """What the same letters have meant besides: in the trade, before a split, to other authors."""
    source = answer.edition.source
    for misuse in answer.misuses:
        state = usage(misuse, on)
        if state is not Usage.NONE:
            notes = [Note(NoteCode.TRADE_USE, about=misuse)]
            if state is Usage.WARNED:
                notes.append(Note(NoteCode.STILL_IN_USE, about=misuse))
            notes += _words_of(NoteCode.SOURCE_REMARK, misuse.note)
            for taxon in misuse.meant:
                yield Candidate.of(taxon, How.MISAPPLIED, matched, source, notes=notes)
    for division in answer.divisions:
        if divides(division, on):
            divided = [Note(NoteCode.DIVIDED, about=division)]
            for taxon in division.into:
                yield Candidate.of(taxon, How.FORMER, matched, source, notes=divided)
    for dispute in answer.disputes:
        disputed = [Note(NoteCode.DISPUTED, (dispute.name,))]
        for taxon in dispute.targets:
            yield Candidate.of(taxon, How.FORMER, matched, source, notes=disputed)


def _words_of(code: NoteCode, words: str | None) -> list[Note]:
    """A note that holds the source's own words, if it has any."""
    return [Note(code, (words,))] if words else []


def _genus_record(genus: str, lists: Sequence[TagNames]) -> GenusRecord | None:
    return next((record for origin in lists if (record := origin.genus(genus)) is not None), None)


def genus_candidates(genus: str, lists: Sequence[TagNames], matched: str) -> list[Candidate]:
    """The genus, or where it went; how ``genus``."""
    found = []
    for origin in lists:
        record = origin.genus(genus.rstrip("."))
        if record is None:
            continue
        names = record.moved_to if record.moved_to and not record.accepted else (record.genus,)
        notes = [Note(NoteCode.FORMER_GENUS, (record.genus,))] if names != (record.genus,) else []
        higher = (record.family,) if record.family else ()
        for word in names:
            taxon = TaxonName(word, rank="genus", higher=higher)
            found.append(Candidate.of(taxon, How.GENUS, matched, origin.edition.source, notes=notes))
    return merge(found)


def _genus_only(name: ScientificName, lists: Sequence[TagNames]) -> Hits:
    genus = genus_candidates(name.genus, lists, name.genus)
    if not genus:
        genus = candidates_similar.similar_genera(name.genus, lists)
    return Hits(tuple(genus), open_species=bool(name.qualifier))


def _beside(name: ScientificName, lists: Sequence[TagNames]) -> Hits:
    """aff. and nr. say: not this species, but near it; the genus is all that is known (contract section 2)."""
    genus = genus_candidates(name.genus, lists, name.canonical)
    return Hits(tuple(genus), open_species=True)
