"""What happened between a former name and the name in force (contract section 4), and the brackets that follow.

No source says "moved": it follows from the stem of the epithet, the author, the year and the acts a source gives.
Brackets stand round the author (Art. 51.3) if the species now stands in another genus than its first.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache

from namekeeper.evidence.statements import Act, ActKind, NameStatus, TaxonName
from namekeeper.words.parsing import parse_authorship
from namekeeper.words.spelling import EndingKey, LetterKey, ending_key, letter_key, plain_key
from namekeeper.words.terms import Standing


def genus_of(name: str) -> str:
    return name.split(" ", 1)[0]


def last_epithet(name: str) -> str:
    """The word that carries the type: the epithet of the lowest rank, "" for a genus."""
    words = name.split(" ")
    return words[-1] if len(words) > 1 else ""


def same_stem(one: str, other: str) -> bool:
    """Whether two epithets are one word in other endings (Articles 31.2, 34.2, 33.4)."""
    return one == other or ending_key(f"Aus {one}") == ending_key(f"Aus {other}")


def same_author(one: str, other: str) -> bool | None:
    """Whether two authorships name one author and year; None if either is not given."""
    if not one.strip() or not other.strip():
        return None
    return parse_authorship(one).same_author(parse_authorship(other))


@lru_cache(maxsize=8192)
def name_key(name: str) -> EndingKey:
    """Two names with this key are one name by the first two rows of contract section 1; a check asks ten times each."""
    return ending_key(name)


def same_name(one: str, other: str) -> bool:
    """Whether two names have one :func:`name_key`; most are written alike, and no key is needed."""
    return one == other or name_key(one) == name_key(other)


def kind_of_change(
    old: TaxonName, new: TaxonName, status: NameStatus = NameStatus.SYNONYM, acts: Sequence[Act] = ()
) -> Standing:
    """The standing of a label that carries ``old`` where ``new`` is in force.

    ``status`` and ``acts`` are the source's own word on ``old``; an act of synonymy or replacement anywhere in the
    chain outweighs spelling: a moved species that was sunk afterwards is sunk.
    """
    kinds = {act.kind for act in acts}
    if old.name == new.name and same_author(old.authorship, new.authorship) is not False:
        return Standing.CURRENT
    alike = same_stem(last_epithet(old.name), last_epithet(new.name))
    if ActKind.SYNONYMY in kinds or (ActKind.OBJECTIVE_SYNONYMY in kinds and not alike):
        return Standing.MERGED
    if not alike and (status is NameStatus.REPLACED or ActKind.REPLACEMENT in kinds):
        return Standing.RENAMED
    if same_author(old.authorship, new.authorship) is False:
        return Standing.RENAMED if status is NameStatus.REPLACED else Standing.MERGED
    if genus_of(old.name) == genus_of(new.name) and len(old.name.split()) == len(new.name.split()):
        return Standing.RESPELLED if alike or _respelled(old, new, kinds) else Standing.MERGED
    if alike or _respelled(old, new, kinds - {ActKind.TRANSFER, ActKind.RANK}):
        return Standing.MOVED
    return Standing.MERGED


def _respelled(old: TaxonName, new: TaxonName, kinds: set[ActKind]) -> bool:
    """Other letters of one name: the source says so, or Article 58 and the author do."""
    if kinds:
        return kinds == {ActKind.SPELLING}
    return _letters(old.name) == _letters(new.name) and bool(same_author(old.authorship, new.authorship))


def _letters(name: str) -> LetterKey:
    return letter_key(f"Aus {last_epithet(name)}")


def brackets_due(taxon: TaxonName, former: TaxonName | None = None) -> bool | None:
    """Whether the author stands in brackets (Art. 51.3); None if nothing known decides it.

    The original genus decides. Where it is not given, a former combination without brackets names it: an author
    stands without brackets only in the genus of the first description.
    """
    if taxon.original_genus:
        return plain_key(taxon.original_genus) != plain_key(genus_of(taxon.name))
    if former is None or not former.authorship or same_author(former.authorship, taxon.authorship) is False:
        return None
    if former.original_genus:
        return plain_key(former.original_genus) != plain_key(genus_of(taxon.name))
    if not parse_authorship(former.authorship).brackets:
        return genus_of(former.name) != genus_of(taxon.name)
    return True if genus_of(former.name) == genus_of(taxon.name) else None


def with_brackets(authorship: str, due: bool) -> str:
    """The authorship with brackets put or taken away; complete, nothing shortened."""
    text = authorship.strip()
    if not text or parse_authorship(text).brackets == due:
        return text
    if due:
        return f"({text})"
    return text[1:-1].strip() if text.startswith("(") and text.endswith(")") else text


def bracketed(taxon: TaxonName, former: TaxonName | None = None) -> TaxonName:
    """The name with brackets round its author where they are due, and only there; as it is where nobody can tell."""
    due = brackets_due(taxon, former)
    if due is None or not taxon.authorship:
        return taxon
    right = with_brackets(taxon.authorship, due)
    return taxon if right == taxon.authorship.strip() else taxon._replace(authorship=right)
