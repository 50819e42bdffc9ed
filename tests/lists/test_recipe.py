"""A list reader by the recipe of DEVELOPERS.md: a module, a line in READERS, an example; the suites run on it.

The format is invented for this test: a first line ``#names``, then a name a line, a former one with `` > `` and the
name in force.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from contextlib import closing
from pathlib import Path

import pytest

from namekeeper.sources.lists import adding
from namekeeper.sources.lists.incoming import UsageRow
from namekeeper.sources.lists.list_file import FileAtHand, ListFile, ListReader, Skips
from tests.conftest import Outcome
from tests.lists import reader_contract, test_any_list

Command = Callable[..., Outcome]
HEAD = b"#names"


# Step 1: the module.
class NamesAndArrows(ListFile):
    """A text of names and arrows."""

    def __init__(self, path: Path) -> None:
        self._path = path

    def usages(self) -> Iterator[UsageRow]:
        lines = self._path.read_text(encoding="utf-8", errors="replace").splitlines()
        for number, line in enumerate(lines[1:], 2):
            name, _, target = line.partition(" > ")
            yield UsageRow(number, "", name.strip(), status="synonym" if target else "", accepted_name=target.strip())


def _opened(file: FileAtHand, _columns: Mapping[str, str], _skips: Skips) -> NamesAndArrows | None:
    if file.archive is not None or not file.path.read_bytes().startswith(HEAD):
        return None
    return NamesAndArrows(file.path)


NAMES_AND_ARROWS = ListReader("names-and-arrows", "text of names", "a text of names and arrows", _opened)


@pytest.fixture(autouse=True)
def listed_reader(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    # Step 2: its line in READERS; before the last, which takes whatever is no archive.
    *others, last = adding.READERS
    monkeypatch.setattr(adding, "READERS", (*others, NAMES_AND_ARROWS, last))
    # Step 3: its example.
    examples = tmp_path / "examples"
    examples.mkdir()
    (examples / "names-and-arrows.txt").write_bytes(
        HEAD + b"\nTliltocatl\nTliltocatl vagans\nBrachypelma vagans > Tliltocatl vagans\n"
    )
    monkeypatch.setattr(reader_contract, "EXAMPLES", examples)


def test_the_contract_of_readers_runs_on_it(tmp_path: Path, command: Command) -> None:
    reader_contract.is_recognised(NAMES_AND_ARROWS, tmp_path)
    reader_contract.is_streamed_as_often_as_asked(NAMES_AND_ARROWS, tmp_path)
    reader_contract.is_added_by_the_command(NAMES_AND_ARROWS, tmp_path, command)
    reader_contract.keeps_columns_to_itself(NAMES_AND_ARROWS, tmp_path, command)
    reader_contract.survives_damage(NAMES_AND_ARROWS, tmp_path)


def test_the_contract_of_lists_runs_on_it(tmp_path: Path) -> None:
    with closing(reader_contract.list_of(reader_contract.example_of(NAMES_AND_ARROWS, tmp_path))) as listed:
        test_any_list.test_replies_come_one_a_name_in_order(listed)
        test_any_list.test_a_moved_name_leads_to_the_name_in_force(listed)
        test_any_list.test_what_is_not_listed_has_no_statement(listed)
        test_any_list.test_a_misspelt_name_gives_hints_only(listed)
        test_any_list.test_searches_agree_with_each_other(listed)
        test_any_list.test_any_text_may_be_asked("a\x00b", listed)


def test_the_others_are_read_as_before(tmp_path: Path, command: Command) -> None:
    (tmp_path / "t.csv").write_text("name\nAus bus\n", encoding="utf-8")
    assert " from a table" in command("lists", "add", "t.csv", "--as", "mine").out
