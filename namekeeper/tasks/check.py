"""Check a collection: ask every source once per distinct name, and judge every label."""

from __future__ import annotations

import hashlib
from collections import Counter
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from namekeeper.evidence.candidates import Candidate
from namekeeper.evidence.interfaces import NameList
from namekeeper.evidence.statements import Edition, Failure, FailureKind, Reply
from namekeeper.evidence.verdicts import Choice, Reason, Verdict
from namekeeper.judging.trust import Trust
from namekeeper.records.specimen import Collection, Decision, NameEntry, Specimen
from namekeeper.tasks.judge_labels import AskOnline, LabelJudge
from namekeeper.tasks.lookup import look_up
from namekeeper.words.dates import PartialDate
from namekeeper.words.errors import InputError, Problem
from namekeeper.words.terms import Standing

Step = Callable[[int, int | None, str], None]

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
    def kept(self) -> bool:
        """Whether the keeper has kept this name in sight of just this verdict, and did not take that back."""
        about = [d for d in self._decisions("kept", "undone") if d.digest == self.verdict.digest]
        return bool(about) and about[-1].kind == "kept"

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
            return 3
        if self.problems:
            return 2
        return 1 if any(f.to_look_at for f in self.findings) else 0


def check_collection(
    collection: Collection,
    lists: Sequence[NameList],
    ask_online: AskOnline | None,
    trust: Trust,
    today: date,
    *,
    only: Sequence[str] = (),
    step: Step = lambda done, total, note: None,
) -> Report:
    """Judge every kept specimen, or those in ``only``.

    :raises InputError: if an id in ``only`` is not in the collection.
    """
    specimens = _selected(collection, only)
    entries = [specimen.entry_in_force() for specimen in specimens]
    judge = LabelJudge(lists, trust, today)
    judge.ask((entry for entry in entries if entry), ask_online)
    findings = []
    for number, (specimen, entry) in enumerate(zip(specimens, entries, strict=True), 1):
        if entry is None:
            findings.append(_unnamed(specimen, lists))
        else:
            since = specimen.label_date()
            findings.append(Finding(specimen, entry, entry.name, since, judge.verdict(specimen, entry)))
        step(number, len(specimens), specimen.id)
    failures = _failures(judge.replies)
    return Report(today, tuple(findings), collection.problems, _editions(lists, judge.replies), failures)


def _selected(collection: Collection, only: Sequence[str]) -> tuple[Specimen, ...]:
    if not only:
        return collection.kept()
    known = {specimen.id.casefold(): specimen for specimen in collection.specimens}
    missing = [identifier for identifier in only if identifier.casefold() not in known]
    if missing:
        what = f"no specimen '{missing[0]}' in {collection.folder}"
        raise InputError(what, remedy="the id is the name of its file without .yaml")
    return tuple(known[identifier.casefold()] for identifier in dict.fromkeys(only))


def _unnamed(specimen: Specimen, lists: Sequence[NameList]) -> Finding:
    (looked,) = look_up((specimen.tag,), lists, specimen.acquired)
    choices = tuple(Choice(c.name, c.authorship, _grounds(c), c.range) for c in looked.lookup.candidates)
    reasons = (Reason("tag-only", "nothing was settled yet: only the tag"),)
    offered = "\n".join(sorted(choice.name for choice in choices))  # a tag that was kept returns with other candidates
    digest = hashlib.sha256(offered.encode("utf-8")).hexdigest()[:16]
    verdict = Verdict(Standing.UNNAMED, "unnamed", None, False, choices, (), reasons, (), digest)
    return Finding(specimen, None, specimen.tag, specimen.acquired, verdict)


def _grounds(candidate: Candidate) -> str:
    words = f"{candidate.how}: {candidate.matched}"
    return f"{words}; {candidate.note}" if candidate.note else words


def _failures(replies: Mapping[str, tuple[Reply, ...]]) -> tuple[Failure, ...]:
    failed = [r for heard in replies.values() for r in heard if isinstance(r, Failure)]
    meant = [failure for failure in failed if failure.kind is not FailureKind.OFFLINE]
    return tuple({failure.edition.source: failure for failure in reversed(meant)}.values())


def _editions(lists: Sequence[NameList], replies: Mapping[str, tuple[Reply, ...]]) -> tuple[Edition, ...]:
    used = [source.edition for source in lists]
    used += [reply.edition for heard in replies.values() for reply in heard]
    return tuple({(edition.source, edition.edition): edition for edition in used}.values())
