"""Asks one name of one service that sends one body; the tests of the replies share it."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from namekeeper.evidence.statements import Answer, Statement
from tests.services.conftest import Bench
from tests.services.good import checklistbank, gbif
from tests.services.local_server import Asked, Canned
from tests.services.recorded_wire import RecordedWire

Ask = Callable[..., Answer]


def asker(bench: Bench, wire: RecordedWire) -> Ask:
    """``ask("gbif", "Name", body)``: the answer to that name if the service sends that body."""

    def call(key: str, name: str, body: Any, more: dict[str, Any] | None = None) -> Answer:
        def answer(asked: Asked) -> Canned:
            for path, document in {**(more or {}), "3LXR": checklistbank.DATASET, "metadata": gbif.METADATA}.items():
                if asked.path.endswith(path):
                    return Canned.json(document)
            return Canned.json([body] if isinstance(asked.body, list) else body)

        wire.answer = answer
        (reply,) = bench.open(key, wire.at(key)).ask([name])
        assert isinstance(reply, Answer), reply
        return reply

    return call


def told(statement: Statement) -> tuple[str, str, list[str]]:
    return statement.subject.name, statement.status.value, [target.name for target in statement.targets]
