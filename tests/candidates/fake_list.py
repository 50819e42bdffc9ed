"""A list of names in memory: what the rules of candidates need, said plainly; spelling by the rows of the contract."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field

from namekeeper.evidence.interfaces import NameCard, NameList, Near
from namekeeper.evidence.statements import (
    Answer,
    Caution,
    CommonName,
    Dispute,
    Division,
    Edition,
    GenusRecord,
    Match,
    Misuse,
    NameStatus,
    Reply,
    Statement,
    TaxonName,
    TradeForm,
)
from namekeeper.words.spelling import Likeness, match_of, plain_key


@dataclass
class FakeList(NameList):
    """``names`` maps a name to its status and targets; an accepted name is its own target."""

    key: str = "fake"
    names: dict[str, tuple[NameStatus, tuple[str, ...]]] = field(default_factory=dict)
    commons: list[tuple[str, str]] = field(default_factory=list)
    misuses: list[Misuse] = field(default_factory=list)
    divisions: list[Division] = field(default_factory=list)
    disputes: list[Dispute] = field(default_factory=list)
    trade_forms: list[TradeForm] = field(default_factory=list)
    genera: dict[str, GenusRecord] = field(default_factory=dict)
    complete_for: tuple[str, ...] = ()
    family: str = "Theraphosidae"

    @classmethod
    def of(cls, *accepted: str, former: dict[str, str] | None = None, **more: object) -> FakeList:
        names = {name: (NameStatus.ACCEPTED, (name,)) for name in accepted}
        names |= {old: (NameStatus.SYNONYM, (new,)) for old, new in (former or {}).items()}
        return cls(names=names, **more)  # type: ignore[arg-type]

    @property
    def edition(self) -> Edition:
        return Edition(self.key, self.key.title(), self.key, complete_for=self.complete_for)

    def taxon(self, name: str) -> TaxonName:
        rank = ("genus", "species", "subspecies")[len(name.split(" ")) - 1]
        return TaxonName(name, rank=rank, kingdom="Animalia", higher=(self.family,))

    def statement(self, asked: str, name: str, match: Match) -> Statement:
        status, targets = self.names[name]
        ends = tuple(self.taxon(target) for target in targets)
        return Statement(self.edition, asked, match, self.taxon(name), status, ends)

    def ask(self, names: Sequence[str]) -> Iterator[Reply]:
        for name in names:
            yield Answer(
                self.edition, name, self.named(name),
                misuses=tuple(m for m in self.misuses if plain_key(m.name) == plain_key(name)),
                divisions=tuple(d for d in self.divisions if plain_key(d.name) == plain_key(name)),
                disputes=tuple(d for d in self.disputes if plain_key(d.name) == plain_key(name)),
            )  # fmt: skip

    def named(self, name: str) -> tuple[Statement, ...]:
        genus = plain_key(name).split(" ")[0]
        found = [
            self.statement(name, own, Match(likeness.value))
            for own in self.names
            if plain_key(own).split(" ")[0] == genus and (likeness := match_of(name, own)) is not Likeness.SIMILAR
        ]
        return tuple(sorted(found, key=lambda s: list(Match).index(s.match)))

    def abbreviated(self, genus_start: str, epithet: str) -> tuple[Statement, ...]:
        return tuple(s for s in self.with_epithet(epithet) if s.subject.name.lower().startswith(genus_start.lower()))

    def with_epithet(self, epithet: str) -> tuple[Statement, ...]:
        found = []
        for own in self.names:
            likeness = match_of(f"x {epithet}", f"x {' '.join(own.split(' ')[1:])}")
            if likeness in (Likeness.SAME, Likeness.ENDING):
                found.append(self.statement(epithet, own, Match(likeness.value)))
        return tuple(found)

    def prefixed(self, start: str, limit: int = 20) -> tuple[Statement, ...]:
        names = sorted(own for own in self.names if own.lower().startswith(start.lower()))
        return tuple(self.statement(start, own, Match.SAME) for own in names[:limit])

    def genus(self, genus: str) -> GenusRecord | None:
        known = self.genera.get(genus)
        if known or not self.prefixed(f"{genus} "):
            return known
        accepted = any(s.status is NameStatus.ACCEPTED for s in self.prefixed(f"{genus} "))
        return GenusRecord(genus.capitalize(), self.family, None, accepted)

    def common(self, words: str) -> tuple[CommonName, ...]:
        asked = sorted(plain_key(words.replace(",", " ")).split(" "))
        return tuple(
            self._common(text, name) for text, name in self.commons if sorted(plain_key(text).split(" ")) == asked
        )

    def common_with(self, words: Iterable[str]) -> tuple[CommonName, ...]:
        asked = {plain_key(word) for word in words}
        return tuple(
            self._common(text, name) for text, name in self.commons if asked <= set(plain_key(text).split(" "))
        )

    def _common(self, text: str, name: str) -> CommonName:
        return CommonName(text, "en", self.taxon(name), "common", self.edition)

    def similar(self, name: str, limit: int = 8) -> tuple[Near, ...]:
        from rapidfuzz.distance import OSA

        if plain_key(name).partition(" ")[0].endswith("."):
            return self._similar_behind(name)
        near = [
            Near(self.statement(name, own, Match.SIMILAR), int(OSA.distance(plain_key(name), plain_key(own))), 0.9)
            for own in self.names
        ]
        return tuple(sorted((n for n in near if n.distance < 3), key=lambda n: n.distance))[:limit]

    def _similar_behind(self, name: str) -> tuple[Near, ...]:
        """Names whose genus begins so and whose epithet is at most two edits away."""
        from rapidfuzz.distance import OSA

        start, epithet = plain_key(name).replace(".", "").split(" ")
        near = []
        for own in self.names:
            genus, rest = plain_key(own).split(" ")
            distance = int(OSA.distance(epithet, rest))
            if genus.startswith(start) and distance < 3:
                near.append(Near(self.statement(name, own, Match.SIMILAR), distance, 0.9))
        return tuple(near)

    def similar_genus(self, genus: str, limit: int = 8) -> tuple[tuple[GenusRecord, int], ...]:
        return ()

    def similar_common(self, words: str, limit: int = 8) -> tuple[tuple[CommonName, float], ...]:
        return ()

    def forms(self, genus: str | None, words: str) -> tuple[TradeForm, ...]:
        return tuple(form for form in self.trade_forms if plain_key(form.form) == plain_key(words))

    def cautions(self, taxa: Iterable[str]) -> tuple[Caution, ...]:
        return ()

    def card(self, name: str) -> NameCard | None:
        return None
