"""Which source leads: a setting with argued defaults."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass

from namekeeper.evidence.statements import Edition

# A specialist catalogue reads the papers itself. The keeper's own lists come next: most are exports of such a
# catalogue. The starter list names a paper for every act but is small. The collecting services copy others with a
# delay; of these ChecklistBank names the copied edition, GBIF its backbone, iNaturalist neither. ITIS is seldom
# updated for these groups, and in Wikidata anyone may write.
GENERAL = ("spidercatalog", "*", "starter", "checklistbank", "gbif", "inaturalist", "itis", "wikidata")

# Snails: the starter list holds few of them, and the collecting list takes them from their own dated database.
BY_GROUP: tuple[tuple[str, tuple[str, ...]], ...] = (
    ("Mollusca", ("*", "checklistbank", "starter", "gbif", "inaturalist", "itis", "wikidata")),
)

_ANY = "*"  # stands for every list the keeper added; a service that no order names comes last


@dataclass(frozen=True, slots=True)
class Trust:
    """An order of source keys, most trusted first; the keeper's order goes before the order of the group.

    ``general`` and the orders in ``by_group`` may hold ``*`` for every list that is not named.
    """

    keeper: tuple[str, ...] = ()
    general: tuple[str, ...] = GENERAL
    by_group: tuple[tuple[str, tuple[str, ...]], ...] = BY_GROUP

    @classmethod
    def of(cls, order: Sequence[str]) -> Trust:
        """The keeper's order (``trust_order`` of ``collection.yaml``), then the defaults."""
        return cls(keeper=tuple(order))

    def rank(self, edition: Edition, group: Collection[str]) -> tuple[int, int, int, str]:
        """A sort key, smallest first: keeper's order, complete for the group, default order, key."""
        order = next((order for taxon, order in self.by_group if taxon in group), self.general)
        chosen = self.keeper.index(edition.source) if edition.source in self.keeper else len(self.keeper)
        specialist = 0 if set(edition.complete_for) & set(group) else 1
        return (chosen, specialist, _position(edition, order), edition.source)


def _position(edition: Edition, order: Sequence[str]) -> int:
    if edition.source in order:
        return order.index(edition.source)
    return order.index(_ANY) if _ANY in order and not edition.by_service else len(order)
