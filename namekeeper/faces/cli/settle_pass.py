"""The interactive pass of ``settle``: one key a finding, each decision written at once, so it can be left any time."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from namekeeper.evidence.interfaces import NameList
from namekeeper.faces.cli.context import Context
from namekeeper.faces.keys import read_key
from namekeeper.faces.plain_words import MEANING
from namekeeper.records.specimen import Collection, Settings
from namekeeper.tasks.check import Finding
from namekeeper.tasks.collection import CollectionDesk
from namekeeper.tasks.settle import Orders, Planned, plan, write_plan
from namekeeper.words.errors import NamekeeperError

_KEYS = "t take, k keep the old name, c choose, l later, w why, s skip, q stop"


@dataclass(frozen=True, slots=True)
class SettlePass:
    """One pass over findings: where to write, what the keeper said for all of them, and the lists that know names."""

    context: Context
    desk: CollectionDesk
    orders: Orders
    lists: Sequence[NameList]

    def run(self, findings: Sequence[Finding]) -> tuple[Planned, ...]:
        """Ask about each finding, postponed ones last; what is decided is written before the next is asked."""
        console = self.context.console
        done: list[Planned] = []
        ordered = sorted(findings, key=lambda finding: finding.postponed)
        console.put(_KEYS)
        for number, finding in enumerate(ordered, 1):
            self._show(finding, f"{number}/{len(ordered)}")
            decided, go_on = self._ask(finding)
            done += decided
            if not go_on:
                console.put("Stopped; what was decided is written. The same command goes on from here.")
                break
        return tuple(done)

    def _ask(self, finding: Finding) -> tuple[Sequence[Planned], bool]:
        while True:
            key = read_key(self.context.stdin)
            if key in ("", "q"):
                return (), False
            if key == "s":
                return (), True
            if key == "w":
                for line in finding.verdict.why:
                    self.context.console.put_folded(line, 2)
                for said in finding.verdict.statements:
                    self.context.console.put_folded(f"{said.source} {said.edition or ''}: {said.says}", 2)
                continue
            decided = self._decide(finding, key)
            if decided is not None:
                return decided, True

    def _decide(self, finding: Finding, key: str) -> Sequence[Planned] | None:
        """What the key decides, written; None to ask again."""
        identifier, verdict = finding.specimen.id, finding.verdict
        orders = replace(self.orders, take_safe=False)
        if key == "t" and verdict.proposed:
            orders = replace(orders, take={identifier: verdict.proposed.name})
        elif key in ("c", "t"):
            name = self._chosen(finding)
            if not name:
                return None
            orders = replace(orders, take={identifier: name})
        elif key == "k":
            orders = replace(orders, keep=(identifier,))
        elif key == "l":
            orders = replace(orders, later=(identifier,))
        else:
            if key.strip():
                self.context.console.put(_KEYS)
            return None
        return self._written(finding, orders)

    def _written(self, finding: Finding, orders: Orders) -> Sequence[Planned] | None:
        console = self.context.console
        try:
            only = Collection("", Settings(), (finding.specimen,), ())
            planned = plan(only, (finding,), orders, self.lists, self.desk.today)
            done, written = write_plan(self.desk, planned)
        except NamekeeperError as error:
            console.say(str(error))
            return None
        for problem in written.refused:
            console.say(str(problem))
        for change in done:
            console.put(f"  {change.old} -> {change.new} ({change.standing})" if change.new != change.old
                        else f"  {change.standing}")  # fmt: skip
        return done

    def _chosen(self, finding: Finding) -> str:
        """A name by its number, or typed in full; empty to ask again."""
        console, choices = self.context.console, finding.verdict.choices
        for number, choice in enumerate(choices, 1):
            console.put(f"  {number}  {choice.name} {choice.authorship}  {choice.why}")
        console.put("  number or name, then enter:")
        answer = self.context.stdin.readline().strip()
        if answer.isascii() and answer.isdigit():
            number = int(answer)
            return choices[number - 1].name if 0 < number <= len(choices) else ""
        return answer

    def _show(self, finding: Finding, place: str) -> None:
        console, verdict = self.context.console, finding.verdict
        offer = verdict.proposed.name if verdict.proposed else f"{len(verdict.choices)} to choose from"
        console.put()
        console.put(f"{place}  {finding.specimen.id}  {finding.label}  ->  {offer}")
        console.put(f"  {verdict.standing}: {MEANING[verdict.standing]}")
