"""Check a collection: ask every source once per distinct name, and judge every label."""

from __future__ import annotations

import hashlib
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from namekeeper.evidence.interfaces import NameList
from namekeeper.evidence.statements import Edition, Failure, FailureKind, Reply
from namekeeper.evidence.verdicts import UNCERTAIN_TAG, Choice, Ground, GroundCode, Reason, ReasonCode, Said, Verdict
from namekeeper.judging.ballot import Trust
from namekeeper.outside import Progress, Work, unwatched
from namekeeper.records.specimen import Collection, Decision, NameEntry, Specimen
from namekeeper.sources.lists.registry import earlier_editions, open_lists
from namekeeper.tasks.desk import CollectionDesk, find_all
from namekeeper.tasks.guarded import SELF, mistake
from namekeeper.tasks.judge_labels import AskOnline, LabelJudge
from namekeeper.tasks.kept_verdicts import KeptVerdicts
from namekeeper.tasks.lookup import look_up
from namekeeper.tasks.online import ServiceWishes, ask_online
from namekeeper.words.dates import PartialDate
from namekeeper.words.errors import Problem
from namekeeper.words.terms import Standing

#: Exit code where a source that was meant to be asked failed.
UNREACHED = 3
_MISTAKE = "mistake"  # the rule of a verdict that could not be reached
_NOTHING_TO_DO = (Standing.CURRENT,)


@dataclass(frozen=True, slots=True)
class Finding:
    """The verdict on one label. ``label`` is the name on it, or the tag where nothing was settled yet."""

    specimen: Specimen
    entry: NameEntry | None
    label: str
    since: PartialDate | None
    verdict: Verdict

    @property
    def named(self) -> bool:
        return self.entry is not None

    @property
    def authorship(self) -> str:
        return self.entry.authorship if self.entry else ""

    @property
    def keeping(self) -> Decision | None:
        """The keeper's decision to keep this name in sight of just this verdict, unless it was taken back."""
        about = [d for d in self._decisions("kept", "undone") if d.digest == self.verdict.digest]
        return about[-1] if about and about[-1].kind == "kept" else None

    @property
    def kept(self) -> bool:
        return self.keeping is not None

    @property
    def postponed(self) -> bool:
        """Whether the last word on this name was "later"."""
        about = self._decisions("kept", "postponed", "undone")
        return bool(about) and about[-1].kind == "postponed"

    def _decisions(self, *kinds: str) -> list[Decision]:
        return [d for d in self.specimen.decisions if d.kind in kinds and d.name in ("", self.label)]

    @property
    def to_look_at(self) -> bool:
        """Whether there is something for the keeper to do."""
        if self.verdict.standing in _NOTHING_TO_DO:
            # A name whose misuse is cleared up on paper is current, with a warning, until the keeper decided once.
            return bool(self.verdict.choices) and not self.kept
        if self.verdict.standing is Standing.OPEN:
            return not self.kept and bool(self.verdict.choices or self.verdict.proposed)
        return not self.kept


@dataclass(frozen=True, slots=True)
class Report:
    """A check of a collection on one day."""

    checked_on: date
    findings: tuple[Finding, ...]
    problems: tuple[Problem, ...] = ()
    editions: tuple[Edition, ...] = ()
    failures: tuple[Failure, ...] = ()  # one a source that was meant to be asked and could not be
    title: str = ""  # of the collection, else the name of its folder

    @property
    def summary(self) -> dict[str, int]:
        """How many labels have each standing, in the order of the contract."""
        counted = Counter(finding.verdict.standing for finding in self.findings)
        return {str(standing): counted[standing] for standing in Standing if counted[standing]}

    @property
    def safe(self) -> tuple[Finding, ...]:
        return tuple(f for f in self.findings if f.verdict.safe and not f.kept)

    @property
    def to_decide(self) -> tuple[Finding, ...]:
        return tuple(f for f in self.findings if f.to_look_at and not f.verdict.safe)

    @property
    def quiet(self) -> tuple[Finding, ...]:
        loud = {f.specimen.id for f in (*self.safe, *self.to_decide)}
        return tuple(f for f in self.findings if f.specimen.id not in loud)

    @property
    def exit_code(self) -> int:
        """0 nothing to do, 1 something to look at, 3 a source that was meant to be asked failed (contract 0)."""
        if any(f.verdict.standing is Standing.UNASKED and f.verdict.failed for f in self.findings):
            return UNREACHED
        if self.problems:
            return 2
        return 1 if any(f.to_look_at for f in self.findings) else 0


def check_folder(desk: CollectionDesk, wishes: ServiceWishes, only: Sequence[str] = ()) -> Report:
    """Check a collection with every list of this machine and the services wished for; see :func:`check_collection`.

    :raises InputError: for an unknown id or service.
    :raises FileError: if there is no such folder.
    """
    collection = desk.open()
    with open_lists(desk.outside.places, desk.outside.notice) as lists:
        return check_opened(desk, collection, lists, wishes, only)


def check_opened(
    desk: CollectionDesk,
    collection: Collection,
    lists: Sequence[NameList],
    wishes: ServiceWishes,
    only: Sequence[str] = (),
) -> Report:
    """Check a collection that is read already, with lists that are open."""
    outside = desk.outside
    with outside.progress(Work.CHECKING) as step:
        ask = ask_online(outside, collection.settings, wishes, lists)
        with earlier_editions(outside.places) as earlier:
            kept = KeptVerdicts.open(desk, collection.settings, (*lists, *earlier))
            return check_collection(
                collection, lists, desk.today, ask, only=only, kept=kept, step=step, earlier=earlier
            )


def check_collection(
    collection: Collection,
    lists: Sequence[NameList],
    today: date,
    ask_online: AskOnline | None = None,
    *,
    only: Sequence[str] = (),
    kept: KeptVerdicts | None = None,
    step: Progress = unwatched,
    earlier: Sequence[NameList] = (),
) -> Report:
    """Judge every kept specimen, or those in ``only``, trusting the sources in the order of the settings.

    ``kept`` are verdicts of an earlier check of that folder with the same lists, settings and day; ``earlier`` are
    editions that are no longer in use, as evidence for names that the lists lack.

    :raises InputError: if an id in ``only`` is not in the collection.
    """
    specimens = find_all(collection, only) if only else collection.kept()
    labels = [(specimen, specimen.entry_in_force()) for specimen in specimens]
    judge = LabelJudge(lists, Trust.of(collection.settings.trust_order), today, earlier=earlier)
    if ask_online:
        among = _entries((*collection.kept(), *specimens))
        judge.ask_services(_entries(specimens), ask_online, among)
    heard = {specimen.id: judge.heard(entry) if entry else () for specimen, entry in labels}
    known = {one.id: found for one in specimens if kept and (found := kept.find(one, heard[one.id]))}
    judge.ask_lists(entry for specimen, entry in labels if entry and specimen.id not in known)
    findings = []
    for number, (specimen, entry) in enumerate(labels, 1):
        verdict = known.get(specimen.id)
        if verdict is None:
            verdict = _verdict(specimen, entry, judge, lists)
            if kept and verdict.rule != _MISTAKE:
                kept.keep(specimen, heard[specimen.id], verdict)
        label = entry.name if entry else specimen.tag
        findings.append(Finding(specimen, entry, label, specimen.date_of(entry), verdict))
        step(number, len(specimens), specimen.id)
    failures, editions = _failures(judge.replies), _editions(lists, judge.replies)
    if kept and all(failure.edition.by_service for failure in failures):
        kept.save(whole=not only)
    title = collection.settings.title or Path(collection.folder).name
    return Report(today, tuple(findings), collection.problems, editions, failures, title)


def _entries(specimens: Iterable[Specimen]) -> Iterator[NameEntry]:
    return (entry for specimen in specimens if (entry := specimen.entry_in_force()))


def _verdict(specimen: Specimen, entry: NameEntry | None, judge: LabelJudge, lists: Sequence[NameList]) -> Verdict:
    """The verdict on one specimen; a mistake of ours with one is no reason not to judge the others."""
    try:
        return judge.verdict(specimen, entry) if entry else _unnamed(specimen, lists)
    except Exception as error:
        failure = mistake(SELF, entry.name if entry else specimen.tag, error)
        said = (Reason(ReasonCode.FAILED, about=failure),)
        return Verdict(Standing.UNASKED, _MISTAKE, None, False, (), (Said(failure),), said, (SELF.source,), _MISTAKE)


def _unnamed(specimen: Specimen, lists: Sequence[NameList]) -> Verdict:
    (looked,) = look_up((specimen.tag,), lists, specimen.acquired)
    choices = tuple(
        Choice(found.name, found.authorship, (Ground(GroundCode.CLUE, about=found),), found.range)
        for found in looked.lookup.candidates
    )
    unsure = (UNCERTAIN_TAG,) if looked.reading.uncertain else ()
    reasons = (Reason(ReasonCode.TAG_ONLY, (looked.lookup.answer.value, *unsure)),)
    offered = "\n".join(sorted(choice.name for choice in choices))  # a tag that was kept returns with other candidates
    digest = hashlib.sha256(offered.encode("utf-8")).hexdigest()[:16]
    return Verdict(Standing.UNNAMED, "unnamed", None, False, choices, (), reasons, (), digest)


def _failures(replies: Mapping[str, tuple[Reply, ...]]) -> tuple[Failure, ...]:
    failed = [r for heard in replies.values() for r in heard if isinstance(r, Failure)]
    meant = [failure for failure in failed if failure.kind is not FailureKind.OFFLINE]
    return tuple({failure.edition.source: failure for failure in reversed(meant)}.values())


def _editions(lists: Sequence[NameList], replies: Mapping[str, tuple[Reply, ...]]) -> tuple[Edition, ...]:
    used = [source.edition for source in lists]
    used += [reply.edition for heard in replies.values() for reply in heard]
    return tuple({(edition.source, edition.edition): edition for edition in used}.values())
