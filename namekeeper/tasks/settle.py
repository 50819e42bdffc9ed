"""Settle what a check proposes: take, choose, keep, postpone, undo. A plan is data; writing it is another step."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import date
from typing import Protocol

from namekeeper.evidence.interfaces import ScientificNames, SimilarNames
from namekeeper.evidence.statements import Act, Failure, NameStatus, Statement
from namekeeper.evidence.verdicts import Said, Silence, Verdict
from namekeeper.judging.change import name_key
from namekeeper.records.specimen import Collection, Decision, NameEntry, Specimen, last_undoable
from namekeeper.storage.changes import Insertion, Written
from namekeeper.tasks.check import Finding
from namekeeper.tasks.desk import CollectionDesk, find, find_all
from namekeeper.words.authorship import short_citation
from namekeeper.words.dates import PartialDate
from namekeeper.words.errors import InputError
from namekeeper.words.parsing import parse_name
from namekeeper.words.spelling import EndingKey, plain_key
from namekeeper.words.terms import EntryStanding, Standing

# The type of the name stays the same: the line keeps nothing of the old name (contract section 4).
_SAME_TYPE = frozenset({Standing.MOVED, Standing.RESPELLED})
_NO_NAME = (NameStatus.DOUBTFUL, NameStatus.UNAVAILABLE)
# The identification goes on unchanged, so what was uncertain stays so.
_SAME_IDENTIFICATION = _SAME_TYPE | {Standing.MERGED, Standing.RENAMED, Standing.CURRENT}


class SettlingList(ScientificNames, SimilarNames, Protocol):
    """What a name that is taken as typed needs of a list."""


@dataclass(frozen=True, slots=True)
class Orders:
    """What the keeper said. ``take`` maps ids to names; ``on`` is the day the new label counts from."""

    take_safe: bool = False
    take: Mapping[str, str] = field(default_factory=dict)
    keep: tuple[str, ...] = ()
    later: tuple[str, ...] = ()
    undo: tuple[str, ...] = ()
    on: PartialDate | None = None
    note: str = ""

    def named(self) -> tuple[str, ...]:
        """All ids that orders name, in order of the command's options."""
        return (*self.take, *self.keep, *self.later, *self.undo)

    def about(self, collection: Collection) -> Orders:
        """The same orders with the ids as the collection writes them; an order given twice counts once.

        :raises InputError: for an unknown id, or one that was given two names.
        """
        take: dict[str, str] = {}
        for text, name in self.take.items():
            identifier = find(collection, text).id
            if take.setdefault(identifier, name) != name:
                what = f"{identifier} was given two names"
                raise InputError(what, remedy="leave one out")
        keep, later, undo = (
            tuple(specimen.id for specimen in find_all(collection, ids)) for ids in (self.keep, self.later, self.undo)
        )
        return replace(self, take=take, keep=keep, later=later, undo=undo)


@dataclass(frozen=True, slots=True)
class Planned:
    """One change to one specimen, as shown before and after writing."""

    specimen: str
    old: str | None
    new: str | None
    standing: str
    insertion: Insertion
    written: bool = False
    remark: str = ""  # what the keeper should know of the new name


def plan(
    collection: Collection, findings: Sequence[Finding], orders: Orders, lists: Sequence[SettlingList], today: date
) -> tuple[Planned, ...]:
    """What the orders come to, in the order of the findings, then of what was undone.

    :raises InputError: for an unknown id, two orders on one id, a name that cannot be one, a day that does not fit.
    """
    orders = orders.about(collection)
    named = orders.named()
    for identifier in named:
        if named.count(identifier) > 1:
            what = f"{identifier} has two orders at once"
            raise InputError(what, remedy="give one of --take, --keep, --later, --undo")
    if orders.on is not None and orders.on.earliest > today:
        raise InputError("--on lies in the future", remedy="give a day that has come")
    settled = _Settling(orders, lists, today)
    by_id = {finding.specimen.id: finding for finding in findings}
    planned = [change for finding in findings if (change := settled.order_for(finding)) is not None]
    for identifier in (*orders.take, *orders.keep, *orders.later):
        if identifier not in by_id:
            msg = f"{identifier} left the collection and is not checked"
            raise InputError(msg, remedy="leave it out")
    return (*planned, *(settled.undone(find(collection, identifier)) for identifier in orders.undo))


def write_plan(desk: CollectionDesk, planned: Sequence[Planned]) -> tuple[tuple[Planned, ...], Written]:
    """Write the changes; those whose file does not allow it come back unwritten, with their problems."""
    written = desk.apply([change.insertion for change in planned])
    done = set(written.specimens)
    marked = tuple(replace(change, written=change.specimen in done) for change in planned)
    return marked, written


@dataclass(frozen=True, slots=True)
class _Wanted:
    """The name that shall stand on the label."""

    name: str
    authorship: str
    standing: str
    qualifier: str = ""
    trade_form: str = ""
    remark: str = ""


@dataclass(frozen=True, slots=True)
class _Settling:
    orders: Orders
    lists: Sequence[SettlingList]
    today: date

    def order_for(self, finding: Finding) -> Planned | None:
        identifier, verdict = finding.specimen.id, finding.verdict
        if identifier in self.orders.take:
            return self.taken(finding, self.orders.take[identifier])
        if identifier in self.orders.keep:
            return self.decided(finding, "kept")
        if identifier in self.orders.later:
            return self.decided(finding, "postponed")
        if identifier not in self.orders.undo and self.orders.take_safe and verdict.safe and verdict.proposed:
            return None if finding.kept else self.taken(finding, verdict.proposed.name, safe=True)
        return None

    def taken(self, finding: Finding, text: str, *, safe: bool = False) -> Planned:
        wanted = self.wanted(finding, text)
        if finding.named and not wanted.qualifier and plain_key(wanted.name) == plain_key(finding.label):
            return self.decided(finding, "kept")
        entry = self.entry(finding, wanted, "keeper, as a safe proposal" if safe else "keeper")
        seen = len(finding.specimen.names)
        return Planned(
            finding.specimen.id,
            finding.label,
            wanted.name,
            wanted.standing,
            Insertion(finding.specimen.id, "names", entry, seen),
            remark=wanted.remark and f"{finding.specimen.id}: {wanted.remark}",
        )

    def entry(self, finding: Finding, wanted: _Wanted, decided_by: str) -> NameEntry:
        old = finding.entry
        since = self.orders.on or PartialDate.of(self.today)
        if old is not None and old.since is not None and since.earliest < old.since.earliest:
            what = f"{finding.specimen.id} has carried {old.name} since {old.since}, which is later than {since}"
            raise InputError(what, remedy="give --on with a later day")
        said = _speaking(finding.verdict, wanted.name)
        return NameEntry(
            wanted.name,
            wanted.authorship,
            since,
            PartialDate.of(self.today),
            wanted.standing,
            according_to=_according_to(finding.verdict),
            source=f"{said.source} {said.edition or ''}".strip() if said else "",
            retrieved=(said.retrieved.date() if said.retrieved else self.today).isoformat() if said else "",
            link=(said.link or "") if said else "",
            licence=(said.licence or "") if said else "",
            decided_by=decided_by,
            note=self.orders.note,
            qualifier=wanted.qualifier,
            trade_form=wanted.trade_form,
            form=form_after(old, wanted.name, wanted.standing),
        )

    def decided(self, finding: Finding, kind: str) -> Planned:
        verdict = finding.verdict
        proposed = verdict.proposed.name if verdict.proposed else "; ".join(choice.name for choice in verdict.choices)
        today = PartialDate.of(self.today)
        decision = Decision(kind, today, finding.label, verdict.digest, proposed, self.orders.note)
        insertion = Insertion(finding.specimen.id, "decisions", decision, len(finding.specimen.names))
        return Planned(finding.specimen.id, finding.label, finding.label, kind, insertion)

    def undone(self, specimen: Specimen) -> Planned:
        """Take back the last thing done: a decision on the name that stands there, else the name itself."""
        today, entry = PartialDate.of(self.today), specimen.entry_in_force()
        label = entry.name if entry else specimen.tag
        decision = _last_decision(specimen, label)
        if decision is not None:
            back = Decision("undone", today, label, decision.digest, decision.proposed, self.orders.note)
            insertion = Insertion(specimen.id, "decisions", back, len(specimen.names))
            return Planned(specimen.id, label, label, "undone", insertion)
        last = last_undoable(specimen)
        if last is None:
            what = f"{specimen.id}: there is nothing to undo"
            raise InputError(what, remedy="what the animal came with stays; take another name instead")
        undoing = NameEntry(
            last.entry.name,
            last.entry.authorship,
            recorded=today,
            standing=EntryStanding.UNDONE,
            decided_by="keeper",
            note=self.orders.note,
            undoes=str(last.number),
        )
        rest = Specimen(specimen.id, specimen.place, names=(*specimen.names, undoing)).entry_in_force()
        insertion = Insertion(specimen.id, "names", undoing, len(specimen.names))
        return Planned(specimen.id, label, rest.name if rest else specimen.tag or None, "undone", insertion)

    def wanted(self, finding: Finding, text: str) -> _Wanted:
        """The name to take: one that the verdict offers, else as typed, which must be readable as a name."""
        typed, verdict = parse_name(text), finding.verdict
        offers = [(choice.name, choice.authorship) for choice in verdict.choices]
        if verdict.proposed:
            offers.insert(0, (verdict.proposed.name, verdict.proposed.authorship))
        keys = (plain_key(typed.canonical), plain_key(text))
        offer = next(((name, authorship) for name, authorship in offers if plain_key(name) in keys), None)
        if offer is None or typed.qualifier or typed.trade_form:
            known = self._listed(typed.canonical)
            name, authorship = known or (typed.canonical, "")
            authorship = str(typed.authorship) if typed.authorship else authorship
            remark = "" if known else self._unlisted(name)
            return _Wanted(name, authorship, EntryStanding.CHOSEN, typed.qualifier, typed.trade_form, remark)
        nothing_happened = verdict.standing in (Standing.UNNAMED, Standing.CURRENT)
        standing = EntryStanding.CHOSEN if nothing_happened else verdict.standing
        return _Wanted(*offer, standing, *_uncertainty(finding))

    def _listed(self, name: str) -> tuple[str, str] | None:
        for source in self.lists:
            for statement in source.named(name):
                if plain_key(statement.subject.name) == plain_key(name):
                    return statement.subject.name, statement.subject.authorship
            genus = source.genus(name)
            if genus is not None:
                return genus.genus, ""
        return None

    def _unlisted(self, name: str) -> str:
        """A word on a name that is taken as typed: it may be real, or misspelt."""
        near = [found.statement.subject.name for source in self.lists for found in source.similar(name, 1)]
        hint = f" (spelt similarly there: {' or '.join(dict.fromkeys(near))})" if near else ""
        return f"no list here has {name}{hint}; it is taken as you wrote it"


def form_after(old: NameEntry | None, new: str, standing: str) -> str:
    """What the line goes on being called: nothing new where the type stays, else the old name's epithet or form."""
    if old is None:
        return ""
    if standing in _SAME_TYPE:
        return old.form
    old_words, new_words = old.name.split(), new.split()
    if old.trade_form:
        kept = f'"{old.trade_form}"'
    elif len(old_words) > 1 and old_words[1:] != new_words[1:] and all(map(str.isalpha, old_words[1:])):
        kept = "ex " + " ".join(old_words[1:])
    else:
        kept = f"ex {old.name}"
    return f"{old.form}, {kept}" if old.form and kept not in old.form else old.form or kept


def _uncertainty(finding: Finding) -> tuple[str, str]:
    old = finding.entry
    if old is None or finding.verdict.standing not in _SAME_IDENTIFICATION:
        return "", ""
    return old.qualifier, old.trade_form


def _speaking(verdict: Verdict, name: str) -> Said | None:
    """The first source that gives the name taken as one in force; one that lags, doubts or denies it gives none."""
    return next((said for said in verdict.statements if not said.lagging and _gives(said.told, name_key(name))), None)


def _gives(told: Statement | Silence | Failure, key: EndingKey) -> bool:
    if not isinstance(told, Statement) or told.fault is not None or told.status in _NO_NAME:
        return False
    return any(name_key(target.name) == key for target in told.targets)


def _according_to(verdict: Verdict) -> str:
    """Who published the acts that led to the proposal, from the verdict's own reasons."""
    acts = (reason.about for reason in verdict.reasons if isinstance(reason.about, Act))
    cited = (short_citation(act.citation) or act.year for act in acts)
    return "; ".join(dict.fromkeys(filter(None, cited)))


def _last_decision(specimen: Specimen, label: str) -> Decision | None:
    """The last decision on the present name that is still in force."""
    about = [d for d in specimen.decisions if d.kind in ("kept", "postponed", "undone") and d.name in ("", label)]
    return about[-1] if about and about[-1].kind != "undone" else None
