"""What a list notes beside its names: misuses, divisions, disputes, trade forms, cautions, classes of epithets."""

from __future__ import annotations

import sqlite3
from collections.abc import Callable, Iterable, Sequence

from namekeeper.evidence.statements import (
    ActKind,
    Caution,
    CautionWeight,
    Dispute,
    Division,
    Misuse,
    Statement,
    TaxonName,
    TradeForm,
)
from namekeeper.sources.lists import values
from namekeeper.sources.lists.chains import COLUMNS, Chains, NameRow
from namekeeper.sources.lists.fact_table import FactTable
from namekeeper.sources.lists.folding import common_words, folded, split_name
from namekeeper.words.spelling import ending_key, epithet_ending_key

_Resolve = Callable[[str], TaxonName]
_TAXON = (
    f"SELECT {COLUMNS} FROM name n WHERE n.genus = ? AND n.rest = ?"  # noqa: S608 - columns are ours
    " ORDER BY n.status <> 'accepted', n.id LIMIT 1"
)


class Notes:
    """Reads the facts of an index; names in them become the taxa that the list has of that name."""

    def __init__(self, database: sqlite3.Connection, chains: Chains, facts: FactTable) -> None:
        self._database = database
        self._chains = chains
        self._facts = facts

    def misuses(self, keys: Iterable[str]) -> tuple[Misuse, ...]:
        """Misuses of any of these names (keys of row 2)."""
        return tuple(_misuse_of(*fact, self._taxon) for key in keys for fact in self._facts.of("misuse", key))

    def divisions(self, keys: Iterable[str]) -> tuple[Division, ...]:
        """Divisions of any of these names (keys of row 2)."""
        return tuple(_division_of(*fact, self._taxon) for key in keys for fact in self._facts.of("division", key))

    def disputes(self, keys: Iterable[str]) -> tuple[Dispute, ...]:
        """Disputes on any of these names (keys of row 2)."""
        return tuple(_dispute_of(*fact, self._taxon) for key in keys for fact in self._facts.of("dispute", key))

    def sold_as(self, name: str) -> tuple[Misuse, ...]:
        """Misuses that meant this species; a list records few of them."""
        meant = (fact for fact in self._facts.every("misuse") if name in values.parts(fact.content["meant"]))
        return tuple(_misuse_of(*fact, self._taxon) for fact in meant if name != fact.content["name"])

    def forms(self, genus: str | None, words: str) -> tuple[TradeForm, ...]:
        """Trade forms of that genus, or of any, that are named so."""
        key = " ".join(sorted(common_words(words)))
        found = (_form_of(*fact, self._taxon) for fact in self._facts.of("form", key))
        return tuple(form for form in found if genus is None or folded(form.genus) == folded(genus))

    def word_class(self, epithet: str) -> str | None:
        """By the epithet in any of its endings; the list's own spelling goes first."""
        told = {fact["epithet"]: fact["class"] for fact, _, _ in self._facts.of("epithet", epithet_ending_key(epithet))}
        return told.get(epithet) or next(iter(told.values()), None)

    def cautions(self, taxa: Iterable[str]) -> tuple[Caution, ...]:
        """Cautions on these very taxa (folded names)."""
        return tuple(_caution_of(*fact, self._taxon) for key in taxa for fact in self._facts.of("caution", key))

    def _taxon(self, name: str) -> TaxonName:
        """The listed taxon of that name, or the bare name where the list has none."""
        row = self._database.execute(_TAXON, split_name(name)).fetchone()
        return TaxonName(name) if row is None else self._chains.taxon(NameRow._make(row))


def chain_keys(name: str, statements: Sequence[Statement]) -> tuple[str, ...]:
    """Keys of the name and of every name on its chain: notes on any of them may bear on it."""
    names = [name]
    for statement in statements:
        names += [statement.subject.name, *(target.name for target in statement.targets)]
        names += [other for act in statement.acts for other in (act.old, act.new)]
    return tuple(dict.fromkeys(map(ending_key, names)))


def _misuse_of(fact: values.Fact, citation: str, memory: int, resolve: _Resolve) -> Misuse:
    """A row of ``misuse.csv``."""
    return Misuse(
        name=fact["name"],
        authorship=fact["authorship"],
        meant=tuple(map(resolve, values.parts(fact["meant"]))),
        start=values.date_of(fact["from"]),
        cleared=values.date_of(fact["cleared"]),
        ended=values.date_of(fact["ended"]),
        citation=citation,
        verification=values.verification_of(memory),
        note=fact["note"],
    )


def _division_of(fact: values.Fact, citation: str, memory: int, resolve: _Resolve) -> Division:
    """A row of ``divisions.csv``."""
    return Division(
        name=fact["name"],
        into=tuple(map(resolve, values.parts(fact["into"]))),
        kind=ActKind(fact["kind"]),
        since=values.date_of(fact["since"]),
        sunk=values.date_of(fact["sunk"]),
        citation=citation,
        verification=values.verification_of(memory),
        note=fact["note"],
    )


def _dispute_of(fact: values.Fact, citation: str, memory: int, resolve: _Resolve) -> Dispute:
    """A row of ``disputes.csv``."""
    targets = tuple(map(resolve, values.parts(fact["targets"])))
    return Dispute(fact["name"], targets, citation, values.verification_of(memory), fact["note"])


def _form_of(fact: values.Fact, citation: str, memory: int, resolve: _Resolve) -> TradeForm:
    """A row of ``forms.csv``."""
    described = resolve(fact["describedAs"]) if fact["describedAs"] else None
    return TradeForm(fact["genus"], fact["form"], described, citation, values.verification_of(memory), fact["note"])


def _caution_of(fact: values.Fact, citation: str, memory: int, resolve: _Resolve) -> Caution:
    """A row of ``cautions.csv``."""
    return Caution(
        taxon=fact["taxon"],
        rank=fact["rank"],
        topic=fact["topic"],
        statement=fact["statement"],
        listed_as=fact["listedAs"],
        year=fact["year"],
        citation=citation,
        verification=values.verification_of(memory),
        weight=CautionWeight(fact["weight"]),
    )
