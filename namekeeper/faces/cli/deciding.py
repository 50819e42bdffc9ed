"""The pass of ``namekeeper settle``: one question after another, a key each, written before the next is asked."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from enum import Enum, auto

from namekeeper.faces.telling import check as told
from namekeeper.faces.telling import questions as asked
from namekeeper.faces.terminal import Terminal
from namekeeper.tasks.settle import Planned
from namekeeper.tasks.settle_collection import Settled, SettleDesk
from namekeeper.tasks.settle_orders import Orders
from namekeeper.tasks.settle_questions import SettleQuestion, questions
from namekeeper.words.errors import NamekeeperError


class _Step(Enum):
    """Where a key leads, where it decides nothing."""

    STOP = auto()
    BACK = auto()
    APART = auto()
    AGAIN = auto()


@dataclass(slots=True)
class Pass:
    """A keeper at a terminal, on the way through the questions of a collection; it can be left at any time."""

    desk: SettleDesk
    orders: Orders
    terminal: Terminal
    folder: str
    open: list[SettleQuestion] = field(default_factory=list)
    certain: bool = False  # whether names are taken without the doubt of tag or label; said anew at every question
    written: list[tuple[Planned, ...]] = field(default_factory=list)  # by question, for those already asked

    def go(self) -> tuple[Planned, ...]:
        """Ask everything; what was decided and not taken back."""
        console = self.terminal.console
        self.open = list(questions(self.desk.report))
        if not self.open:
            console.put(asked.NOTHING_WAITS)
            return ()
        stopped = False
        while len(self.written) < len(self.open) and not stopped:
            stopped = not self._ask(self.open[len(self.written)])
        done = tuple(change for changes in self.written for change in changes)
        console.show(asked.end_parts(done, self.folder, stopped=stopped))
        return done

    def _ask(self, question: SettleQuestion) -> bool:
        """Ask one question until something is decided; False to stop."""
        number, self.certain = len(self.written), self.orders.certain
        self._show(question)
        while True:
            match self._answer(question):
                case _Step.STOP:
                    return False
                case _Step.BACK:
                    self._back()
                    return True
                case _Step.APART:
                    self.open[number : number + 1] = question.apart()
                    return True
                case _Step.AGAIN:
                    continue
                case Settled() as settled:
                    self._tell(settled)
                    self.written.append(settled.changes)
                    return True
                case _:
                    self.written.append(())
                    return True

    def _show(self, question: SettleQuestion) -> None:
        place = f"{len(self.written) + 1}/{len(self.open)}"
        self.terminal.console.show(asked.question_parts(question, place))

    def _answer(self, question: SettleQuestion) -> _Step | Settled | None:
        """What the next key comes to; None for "skip"."""
        key = self.terminal.key()
        steps = {"": _Step.STOP, "q": _Step.STOP, "s": None, "b": _Step.BACK}
        if key in steps:
            return steps[key]
        if key == "o" and len(question.findings) > 1:
            return _Step.APART
        if key == "w" and not question.exact:
            self.terminal.console.show((*asked.reason_parts(question), *asked.key_parts(question)))
            return _Step.AGAIN
        if key == "c" and question.doubt:
            self.certain = not self.certain
            self.terminal.console.show(asked.key_parts(question, certain=self.certain))
            return _Step.AGAIN
        order = self._order(question, key)
        if order is None:
            return _Step.AGAIN
        try:
            return self.desk.decide(question.findings, order)
        except NamekeeperError as error:
            self.terminal.console.say(str(error))
            return _Step.AGAIN

    def _order(self, question: SettleQuestion, key: str) -> Orders | None:
        """What the key orders; None for a key that orders nothing."""
        found = question.offers
        if key == "t" and (question.exact or question.single):
            return self._taking(question, question.single.name if question.single else "")
        if key == "l":
            return replace(self.orders, later=question.ids)
        if question.exact:
            return None
        if key == "k":
            return replace(self.orders, keep=question.ids)
        name = asked.choice_named(found, key) if key.isdigit() else ""
        if key == "n" and not (name := self._typed(question)):
            self.terminal.console.show(asked.key_parts(question))
        return self._taking(question, name) if name else None

    def _taking(self, question: SettleQuestion, name: str) -> Orders:
        return replace(self.orders, take=question.taking(name), certain=self.certain)

    def _typed(self, question: SettleQuestion) -> str:
        """A name typed in full, looked at once more where no list has it in force; empty to ask again."""
        console = self.terminal.console
        console.put(asked.NAME_PROMPT)
        text = self.terminal.line().strip()
        name = asked.choice_named(question.offers, text)
        if not name or name != text:
            return name
        try:
            typed = self.desk.look_at(question.first, text)
        except NamekeeperError as error:
            console.say(str(error))
            return ""
        if typed.listed and not typed.instead:
            return text
        console.show(asked.typed_parts(typed))
        key = self.terminal.key()
        if key == "t":
            return text
        number = int(key) if key.isascii() and key.isdigit() else 0
        return typed.instead[number - 1].name if 0 < number <= len(typed.instead) else ""

    def _back(self) -> None:
        """To the question before, whose answer is taken back."""
        console = self.terminal.console
        if not self.written:
            console.put(asked.FIRST)
            return
        number = len(self.written) - 1
        changes = [change for change in self.written[number] if change.written]
        if changes:
            try:
                settled, now = self.desk.take_back(changes, self.orders.by)
            except NamekeeperError as error:
                console.say(str(error))
                return
            self._tell(settled)
            fresh = {finding.specimen.id: finding for finding in now}
            before = self.open[number]
            findings = tuple(fresh.get(one.specimen.id, one) for one in before.findings)
            self.open[number] = replace(before, findings=findings)
        self.written.pop()

    def _tell(self, settled: Settled) -> None:
        console = self.terminal.console
        left_out = told.doubts((one for one in settled.changes if one.left_out), "")
        console.say_all((*told.already(settled.changes), *left_out, *settled.refused, *told.outdated(settled)))
        console.show(asked.decided_parts(settled.changes))


def go_through(desk: SettleDesk, orders: Orders, terminal: Terminal, folder: str) -> Sequence[Planned]:
    """Ask about everything that waits."""
    return Pass(desk, orders, terminal, folder).go()
