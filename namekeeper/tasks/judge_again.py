"""Judge specimens once more as things are now, from lists and kept answers only: no one is asked."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from namekeeper.records.specimen import Collection, Specimen
from namekeeper.sources.lists.registry import open_lists
from namekeeper.tasks.check import Finding, check_opened
from namekeeper.tasks.desk import CollectionDesk
from namekeeper.tasks.online import ServiceWishes


@dataclass(frozen=True, slots=True)
class JudgeAgain:
    """Judges by the lists, settings and answers that there are at that moment.

    ``collection`` and ``wishes`` are those of the first judgement: what a service is asked depends on all its labels.
    """

    desk: CollectionDesk
    collection: Collection
    wishes: ServiceWishes = ServiceWishes()  # noqa: RUF009 - a frozen value

    def digests(self, specimens: Sequence[Specimen]) -> Mapping[str, str]:
        """The digest of each verdict by the id of its specimen."""
        return {finding.specimen.id: finding.verdict.digest for finding in self.findings(specimens)}

    def findings(self, specimens: Sequence[Specimen]) -> tuple[Finding, ...]:
        """The verdict on each of these specimens of the collection as it is handed in, one that has left it too."""
        quiet = self.desk.quiet()
        now = {specimen.id: specimen for specimen in specimens}
        everyone = tuple(now.get(specimen.id, specimen) for specimen in self.collection.specimens)
        collection = replace(self.collection, settings=quiet.settings(), specimens=everyone)
        kept_only = ServiceWishes(self.wishes.keys, offline=True)
        with open_lists(quiet.outside.places, quiet.outside.notice) as lists:
            return check_opened(quiet, collection, lists, kept_only, tuple(now)).findings
