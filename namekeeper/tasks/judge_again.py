"""Judge specimens once more as things are now, from lists and kept answers only: no one is asked."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from namekeeper.evidence.statements import Failure, FailureKind
from namekeeper.evidence.verdicts import Verdict
from namekeeper.records.specimen import Collection, Specimen
from namekeeper.sources.lists.registry import open_lists
from namekeeper.storage.wanted import JudgedNow
from namekeeper.tasks.check import Finding, check_opened
from namekeeper.tasks.desk import CollectionDesk
from namekeeper.tasks.online import NO_SERVICE, ServiceWishes


@dataclass(frozen=True, slots=True)
class JudgeAgain:
    """Judges by the lists, settings and answers that there are at that moment.

    ``collection`` and ``wishes`` are those of the first judgement: what a service is asked depends on all its labels.
    """

    desk: CollectionDesk
    collection: Collection
    wishes: ServiceWishes = ServiceWishes()  # noqa: RUF009 - a frozen value

    def digests(self, specimens: Sequence[Specimen]) -> Mapping[str, JudgedNow]:
        """The digest of each verdict by the id of its specimen."""
        return {
            finding.specimen.id: JudgedNow(finding.verdict.digest, self._is_unheard(finding.verdict))
            for finding in self.findings(specimens)
        }

    def findings(self, specimens: Sequence[Specimen]) -> tuple[Finding, ...]:
        """The verdict on each of these specimens of the collection as it is handed in, one that has left it too."""
        quiet = self.desk.quiet()
        now = {specimen.id: specimen for specimen in specimens}
        everyone = tuple(now.get(specimen.id, specimen) for specimen in self.collection.specimens)
        collection = replace(self.collection, settings=quiet.settings(), specimens=everyone)
        kept_only = ServiceWishes(self.wishes.keys, offline=True)
        with open_lists(quiet.outside.places, quiet.outside.notice) as lists:
            return check_opened(quiet, collection, lists, kept_only, tuple(now)).findings

    def _is_unheard(self, verdict: Verdict) -> bool:
        """Whether a service that was asked for the first judgement has no kept answer here."""
        if self.wishes.offline or NO_SERVICE in self.wishes.keys:
            return False
        said = [one.told for one in verdict.statements if one.told.edition.by_service]
        return not said or any(isinstance(told, Failure) and told.kind is FailureKind.OFFLINE for told in said)
