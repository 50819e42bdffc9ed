"""Brackets round the author (Art. 51.3): there if the species now stands in another genus than its first."""

from __future__ import annotations

from namekeeper.evidence.statements import TaxonName
from namekeeper.judging.change import genus_of, same_author
from namekeeper.words.parsing import parse_authorship
from namekeeper.words.spelling import plain_key


def brackets_due(taxon: TaxonName, former: TaxonName | None = None) -> bool | None:
    """Whether the author stands in brackets; None if nothing known decides it.

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


def checked(taxon: TaxonName, former: TaxonName | None = None) -> tuple[TaxonName, str]:
    """The name with its brackets checked, and what was wrong with them in words ("" if nothing)."""
    due = brackets_due(taxon, former)
    if due is None or not taxon.authorship:
        return taxon, ""
    right = with_brackets(taxon.authorship, due)
    if right == taxon.authorship.strip():
        return taxon, ""
    rule = "another genus than its first" if due else "the genus of its first description"
    words = f"the source prints {taxon.authorship}; the species stands in {rule}, so by Art. 51.3 it is {right}"
    return taxon._replace(authorship=right), words
