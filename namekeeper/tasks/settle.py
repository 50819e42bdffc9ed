"""Settle what a check proposes: take, correct, keep, postpone, undo. A plan is data; writing it is another step."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date

from namekeeper.labels.naming import name_text
from namekeeper.records.specimen import Collection, Decision, NameEntry, Specimen, last_undoable, live_prints
from namekeeper.storage.wanted import Insertion, JudgeNow, MadeFor, Written
from namekeeper.tasks.check import Finding
from namekeeper.tasks.desk import CollectionDesk, find
from namekeeper.tasks.settle_names import (
    NameTaker,
    SettlingList,
    Unlisted,
    Wanted,
    according_to,
    form_after,
    speaking_for,
)
from namekeeper.tasks.settle_orders import Orders
from namekeeper.words.dates import PartialDate
from namekeeper.words.errors import InputError
from namekeeper.words.parsing import parse_typed_name
from namekeeper.words.spelling import plain_key
from namekeeper.words.terms import AS_PROPOSED, THE_KEEPER, EntryStanding, Standing


@dataclass(frozen=True, slots=True)
class Planned:
    """One change to one specimen, as shown before and after writing; ``insertion`` None if it is so already."""

    specimen: str
    old: str | None
    new: str | None
    standing: str
    insertion: Insertion | None
    written: bool = False
    unlisted: Unlisted | None = None  # the new name, where no list here has it
    doubt: str = ""  # the doubt of tag or label that the new name has, too
    left_out: str = ""  # that doubt, where the keeper does not share it
    named: bool = True  # whether the label says a name, and not only what the seller wrote

    @property
    def label(self) -> str:
        """What the label says then: the new name with its qualifier and trade form."""
        entry = self.insertion.entry if self.insertion else None
        return name_text(entry) if isinstance(entry, NameEntry) and self.standing != "undone" else self.new or ""

    @property
    def names_anew(self) -> bool:
        """Whether the label says another name now, or a name at all."""
        return self.insertion is not None and self.insertion.section == "names" and self.standing != "undone"


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
            raise InputError(what, remedy="give one of --take, --correct, --keep, --later, --undo, --undo-print")
    if orders.on is not None and orders.on.earliest > today:
        raise InputError("--on lies in the future", remedy="give a day that has come")
    settled = _Settling(orders, NameTaker(lists), today, orders.by or collection.settings.by)
    by_id = {finding.specimen.id: finding for finding in findings}
    planned = [change for finding in findings if (change := settled.order_for(finding)) is not None]
    for identifier in (*orders.take, *orders.correct, *orders.keep, *orders.later):
        if identifier not in by_id:
            msg = f"{identifier} left the collection and is not checked"
            raise InputError(msg, remedy="leave it out")
    undone = [settled.undone(find(collection, identifier)) for identifier in orders.undo]
    unprinted = [settled.unprinted(find(collection, identifier)) for identifier in orders.undo_print]
    return (*planned, *undone, *unprinted)


def write_plan(
    desk: CollectionDesk, planned: Sequence[Planned], judge: JudgeNow
) -> tuple[tuple[Planned, ...], Written]:
    """Write the changes; those whose file does not allow it, or that are outdated, come back unwritten and told."""
    written = desk.apply([change.insertion for change in planned if change.insertion], judge=judge)
    done = set(written.specimens)
    marked = tuple(replace(change, written=change.specimen in done) for change in planned)
    return marked, written


@dataclass(frozen=True, slots=True)
class _Settling:
    orders: Orders
    names: NameTaker
    today: date
    by: str

    @property
    def keeper(self) -> str:
        return self.by or THE_KEEPER

    def order_for(self, finding: Finding) -> Planned | None:
        identifier, verdict = finding.specimen.id, finding.verdict
        if identifier in self.orders.take:
            return self.taken(finding, self.orders.take[identifier])
        if identifier in self.orders.correct:
            return self.corrected(finding, self.orders.correct[identifier])
        if identifier in self.orders.keep:
            return self.decided(finding, "kept")
        if identifier in self.orders.later:
            return self.decided(finding, "postponed")
        spared = (*self.orders.undo, *self.orders.undo_print)
        if identifier not in spared and self.orders.take_safe and verdict.safe and verdict.proposed:
            return None if finding.kept else self.taken(finding, verdict.proposed.name, safe=True)
        return None

    def taken(self, finding: Finding, text: str, *, safe: bool = False) -> Planned:
        wanted = self.names.wanted(finding, text, certain=self.orders.certain)
        doubted = finding.entry.qualifier if finding.entry else ""
        if self.orders.certain and doubted and plain_key(wanted.name) == plain_key(finding.label):
            wanted = replace(wanted, left_out=doubted)
        elif finding.named and not wanted.qualifier and plain_key(wanted.name) == plain_key(finding.label):
            settled = finding.verdict.standing is Standing.CURRENT and not finding.to_look_at
            return self._already(finding, "kept") if settled else self.decided(finding, "kept")
        decided_by = f"{self.keeper}{AS_PROPOSED}" if safe else self.keeper
        return self._named(finding, wanted, self.entry(finding, wanted, decided_by))

    def corrected(self, finding: Finding, text: str) -> Planned:
        """Another name in place of one that was wrong from the start: since when the first one stood there."""
        first = next(iter(finding.specimen.live_entries()), None)
        if first is None:
            what = f"{finding.specimen.id} has no name yet that could be wrong"
            raise InputError(what, remedy="give it one: --take ID=NAME")
        wanted = replace(self.names.typed(parse_typed_name(text)), standing=EntryStanding.CORRECTED)
        if plain_key(wanted.name) == plain_key(finding.label) and not wanted.qualifier:
            return self._already(finding, EntryStanding.CORRECTED)
        since = self.orders.on or first.since or finding.specimen.acquired
        day = PartialDate.of(self.today)
        entry = NameEntry(
            wanted.name, wanted.authorship, since, day, wanted.standing, decided_by=self.keeper, note=self.orders.note,
            qualifier=wanted.qualifier, trade_form=wanted.trade_form,
        )  # fmt: skip
        return self._named(finding, wanted, entry)

    def _named(self, finding: Finding, wanted: Wanted, entry: NameEntry) -> Planned:
        identifier = finding.specimen.id
        insertion = Insertion(identifier, "names", entry, _basis(finding))
        carried = "" if finding.named else wanted.qualifier
        return Planned(
            identifier, finding.label, wanted.name, wanted.standing, insertion, unlisted=wanted.unlisted,
            doubt=carried, left_out=wanted.left_out,
        )  # fmt: skip

    def _already(self, finding: Finding, standing: str) -> Planned:
        return Planned(finding.specimen.id, finding.label, finding.label, standing, None)

    def entry(self, finding: Finding, wanted: Wanted, decided_by: str) -> NameEntry:
        old = finding.entry
        since = self.orders.on or PartialDate.of(self.today)
        if old is not None and old.since is not None and since.earliest < old.since.earliest:
            what = f"{finding.specimen.id} has carried {old.name} since {old.since}, which is later than {since}"
            raise InputError(what, remedy="give --on with a later day")
        said = speaking_for(finding.verdict, wanted.name)
        return NameEntry(
            wanted.name,
            wanted.authorship,
            since,
            PartialDate.of(self.today),
            wanted.standing,
            according_to=according_to(finding.verdict),
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
        if (kind == "kept" and finding.kept) or (kind == "postponed" and finding.postponed):
            return self._already(finding, kind)
        proposed = verdict.proposed.name if verdict.proposed else "; ".join(choice.name for choice in verdict.choices)
        today = PartialDate.of(self.today)
        decision = Decision(kind, today, finding.label, verdict.digest, proposed, self.orders.note, self.keeper)
        insertion = Insertion(finding.specimen.id, "decisions", decision, _basis(finding))
        return Planned(finding.specimen.id, finding.label, finding.label, kind, insertion, named=finding.named)

    def undone(self, specimen: Specimen) -> Planned:
        """Take back the last thing done: a decision on the name that stands there, else the name itself."""
        today, entry = PartialDate.of(self.today), specimen.entry_in_force()
        label = entry.name if entry else specimen.tag
        decision = _last_decision(specimen, label)
        if decision is not None:
            back = Decision("undone", today, label, decision.digest, decision.proposed, self.orders.note, self.keeper)
            insertion = Insertion(specimen.id, "decisions", back, MadeFor(specimen))
            return Planned(specimen.id, label, label, "undone", insertion)
        last = last_undoable(specimen)
        if last is None:
            what = f"{specimen.id}: there is nothing to undo"
            raise InputError(what, remedy="what the animal came with stays; take another name instead")
        self._refuse_printed(specimen, last.entry)
        undoing = NameEntry(
            last.entry.name,
            last.entry.authorship,
            recorded=today,
            standing=EntryStanding.UNDONE,
            decided_by=self.keeper,
            note=self.orders.note,
            undoes=str(last.number),
        )
        rest = replace(specimen, names=(*specimen.names, undoing)).entry_in_force()
        insertion = Insertion(specimen.id, "names", undoing, MadeFor(specimen))
        return Planned(specimen.id, label, rest.name if rest else specimen.tag or None, "undone", insertion)

    def _refuse_printed(self, specimen: Specimen, entry: NameEntry) -> None:
        """A print that came after the name was the last thing done: to undo the name is not what was asked for."""
        prints = live_prints(specimen)
        if prints and prints[-1].decision.name == name_text(entry):
            what = f"{specimen.id}: a label with {entry.name} was printed since, and that is not undone here"
            remedy = (
                f"if the print did not come out: --undo-print {specimen.id}; "
                f'for another name: --take "{specimen.id}=NAME", or --correct if this one was wrong from the start'
            )
            raise InputError(what, remedy=remedy)

    def unprinted(self, specimen: Specimen) -> Planned:
        """Take back the last print: the sheet did not come out."""
        prints = live_prints(specimen)
        if not prints:
            what = f"{specimen.id}: no print is recorded"
            raise InputError(what, remedy=f"leave --undo-print {specimen.id} out")
        number, decision = prints[-1]
        label = specimen.entry_in_force()
        back = Decision(
            "unprinted", PartialDate.of(self.today), decision.name, note=self.orders.note, decided_by=self.keeper,
            undoes=str(number),
        )  # fmt: skip
        insertion = Insertion(specimen.id, "decisions", back, MadeFor(specimen))
        name = label.name if label else specimen.tag or None
        return Planned(specimen.id, name, name, "unprinted", insertion)


def _basis(finding: Finding) -> MadeFor:
    return MadeFor(finding.specimen, finding.verdict.digest)


def _last_decision(specimen: Specimen, label: str) -> Decision | None:
    """The last decision on the present name that is still in force."""
    about = [d for d in specimen.decisions if d.kind in ("kept", "postponed", "undone") and d.name in ("", label)]
    return about[-1] if about and about[-1].kind != "undone" else None
