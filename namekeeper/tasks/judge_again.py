"""Judge specimens once more as things are now, from lists and kept answers only: no one is asked."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from namekeeper.records.specimen import Collection, Specimen
from namekeeper.tasks.check import Finding, check_opened
from namekeeper.tasks.desk import CollectionDesk, local_lists
from namekeeper.tasks.online import ServiceWishes


@dataclass(frozen=True, slots=True)
class JudgeAgain:
    """Judges by the lists, settings and answers that there are at that moment; ``wishes`` of the first judgement."""

    desk: CollectionDesk
    wishes: ServiceWishes

    def digests(self, specimens: Sequence[Specimen]) -> Mapping[str, str]:
        """The digest of each verdict by the id of its specimen."""
        return {finding.specimen.id: finding.verdict.digest for finding in self.findings(specimens)}

    def findings(self, specimens: Sequence[Specimen]) -> tuple[Finding, ...]:
        """The verdict on each, one that has left the collection too."""
        quiet = self.desk.quiet()
        alone = Collection(str(self.desk.folder), quiet.settings(), tuple(specimens), ())
        ids = [specimen.id for specimen in specimens]
        kept_only = ServiceWishes(self.wishes.keys, offline=True)
        return check_opened(quiet, alone, local_lists(quiet.outside), kept_only, ids).findings
