"""Settle a collection: check it, plan what the keeper ordered, write it, and say what is left."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, replace

from namekeeper.evidence.interfaces import NameList
from namekeeper.records.differences import Outdated
from namekeeper.records.specimen import Collection
from namekeeper.sources.lists.registry import open_lists
from namekeeper.tasks.check import Finding, Report, check_opened
from namekeeper.tasks.desk import CollectionDesk, find_all
from namekeeper.tasks.judge_again import JudgeAgain
from namekeeper.tasks.online import ServiceWishes
from namekeeper.tasks.settle import Planned, plan, write_plan
from namekeeper.tasks.settle_names import NameTaker, Typed
from namekeeper.tasks.settle_orders import Orders
from namekeeper.words.errors import Problem

_LEAVES_OPEN = ("undone", "postponed", "unprinted")


@dataclass(frozen=True, slots=True)
class Settled:
    """What orders came to: the changes, written or only shown, and the check they answer.

    ``refused`` are changes that a file did not allow, ``outdated`` those that were decided on something else than what
    is there now; ``messages`` what had to be said while writing.
    """

    report: Report
    changes: tuple[Planned, ...]
    refused: tuple[Problem, ...] = ()
    messages: tuple[str, ...] = ()
    outdated: tuple[Outdated, ...] = ()

    @property
    def left(self) -> Report:
        """The report without what was written; an undoing leaves its proposal open."""
        done = {one.specimen for one in self.changes if one.written and one.standing not in _LEAVES_OPEN}
        return replace(self.report, findings=tuple(f for f in self.report.findings if f.specimen.id not in done))

    @property
    def exit_code(self) -> int:
        """2 if something was refused or outdated, else as ``check`` would say of what is left."""
        return 2 if self.refused or self.outdated else self.left.exit_code


@dataclass(frozen=True, slots=True)
class SettleDesk:
    """A collection that was just checked, on which the keeper decides: many at once, or one after another."""

    desk: CollectionDesk
    collection: Collection
    lists: Sequence[NameList]
    report: Report
    wishes: ServiceWishes

    @classmethod
    @contextmanager
    def open(cls, desk: CollectionDesk, wishes: ServiceWishes, only: Sequence[str] = ()) -> Iterator[SettleDesk]:
        """Check the collection, or the animals in ``only``, with all lists here and the services wished for; a context.

        :raises InputError: for an unknown service or id.
        :raises FileError: if there is no such folder.
        """
        collection = desk.open()
        with open_lists(desk.outside.places, desk.outside.notice) as lists:
            yield cls(desk, collection, lists, check_opened(desk, collection, lists, wishes, only), wishes)

    def settle(self, orders: Orders, *, write: bool) -> Settled:
        """What the orders come to, written if so wished.

        :raises InputError: for an order that cannot be carried out; nothing is written then.
        :raises FileError: if the collection cannot be written.
        """
        planned = plan(self.collection, self.report.findings, orders, self.lists, self.desk.today)
        return self._written(planned) if write and planned else Settled(self.report, planned)

    def decide(self, findings: Sequence[Finding], orders: Orders) -> Settled:
        """Carry out the orders on these findings alone, at once.

        :raises NamekeeperError: if they cannot be carried out; nothing is written then.
        """
        specimens = tuple(finding.specimen for finding in findings)
        only = Collection("", self.collection.settings, specimens, ())
        return self._written(plan(only, findings, orders, self.lists, self.desk.today))

    def take_back(self, changes: Sequence[Planned], by: str = "") -> tuple[Settled, tuple[Finding, ...]]:
        """Undo what was just written, and judge these animals again as they are now.

        :raises NamekeeperError: if it cannot be undone; nothing is written then.
        """
        orders = Orders(undo=tuple(change.specimen for change in changes if change.written), by=by)
        settled = self._written(plan(self.desk.load(), (), orders, self.lists, self.desk.today))
        now = find_all(self.desk.load(), orders.undo)
        return settled, JudgeAgain(self.desk, self.collection, self.wishes).findings(now)

    def look_at(self, finding: Finding, text: str) -> Typed:
        """What the lists here know of a name that the keeper typed for this finding, before it is taken.

        :raises InputError: if the text cannot be a name.
        """
        return NameTaker(self.lists).look_at(finding, text)

    def _written(self, planned: Sequence[Planned]) -> Settled:
        changes, written = write_plan(self.desk, planned, JudgeAgain(self.desk, self.collection, self.wishes).digests)
        return Settled(self.report, changes, written.refused, written.messages, written.outdated)
