"""Two copies of one catalogue at different editions, as GBIF and ChecklistBank have for some weeks of every month.

Contract section 4: copies of one upstream have one vote, that of the newest edition; both are shown with theirs.
"""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from tests.services import constructed_words as made
from tests.services.local_server import Asked, Canned, LocalServer
from tests.services.local_services import everywhere, service_of

Command = Callable[..., Any]
NEW, OLD = ("COL26.6 XR", "2026-06-15"), ("COL26.5 XR", "2026-05-14")


def checked(
    command: Command, tmp_path: Path, server: LocalServer, editions: tuple[Any, Any], moved: tuple[bool, bool]
) -> Any:
    """A check of one animal; ``editions`` and whether they have moved the name, of ChecklistBank and of GBIF."""

    def answer(asked: Asked) -> Canned:
        key, own = service_of(asked)
        if key == "checklistbank":
            if own.path.endswith("3LXR"):
                return Canned.json({"key": 1, "alias": editions[0][0], "issued": editions[0][1]})
            return Canned.json(made.clb("variant", made.clb_usage(status="synonym" if moved[0] else "accepted")))
        if own.path.endswith("metadata"):
            return Canned.json({"mainIndex": {"datasetAlias": editions[1][0]}})
        return Canned.json(made.gbif("EXACT", made.gbif_usage(), "SYNONYM" if moved[1] else "ACCEPTED"))

    server.answer = answer
    (tmp_path / "animals/specimens").mkdir(parents=True)
    text = f"names:\n  - name: {made.NAME}\n    since: 2020-01-01\n    standing: as-labelled\n"
    (tmp_path / "animals/specimens/A.yaml").write_text(text, encoding="utf-8")
    done = command("check", "animals", "--services", "checklistbank,gbif", "--json", environ=everywhere(server))
    (row,) = json.loads(done.out)["results"]
    return row


def shown(row: Any) -> set[tuple[str, str]]:
    return {(said["source"], said["edition"]) for said in row["statements"] if said["source"] != "starter"}


@pytest.mark.parametrize("newer", ["checklistbank", "gbif"])
@pytest.mark.parametrize("moved", [True, False])
def test_the_newer_copy_counts_and_both_are_shown(
    command: Command, tmp_path: Path, server: LocalServer, newer: str, moved: bool
) -> None:
    editions = (NEW, OLD) if newer == "checklistbank" else (OLD, NEW)
    word = (moved, not moved) if newer == "checklistbank" else (not moved, moved)
    row = checked(command, tmp_path, server, editions, word)
    assert row["standing"] == ("moved" if moved else "current")
    assert shown(row) == {("checklistbank", editions[0][0]), ("gbif", editions[1][0])}


def test_copies_that_agree_are_shown_with_their_editions(command: Command, tmp_path: Path, server: LocalServer) -> None:
    row = checked(command, tmp_path, server, (NEW, OLD), (True, True))
    assert (row["standing"], row["proposed"]["name"]) == ("moved", made.VALID)
    assert shown(row) == {("checklistbank", "COL26.6 XR"), ("gbif", "COL26.5 XR")}
