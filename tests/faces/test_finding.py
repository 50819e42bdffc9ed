"""One way to find a specimen: an id in whatever case it is typed, and one message for an unknown one."""

from __future__ import annotations

import io
from pathlib import Path

import pytest

from tests.conftest import NOWHERE, Outcome, run_here
from tests.faces.verb_suite import parsers

FILES = {
    "INV-0001": "tag: B. vagans\nsex: 0.0.3\nnames:\n- name: Brachypelma vagans\n  since: 2011\n  recorded: 2011\n",
    "INV-0002": "tag: GBB\nsex: 0.0.2\n",
    "INV-0003": "tag: GBB\nsex: 0.0.1\n",
}
DECIDED = """\
decisions:
- kind: printed
  recorded: 2012
  name: Brachypelma vagans
- kind: kept
  recorded: 2012
  name: Brachypelma vagans
"""

#: By verb, act and argument (as the parsers name it): a command line that names a specimen there, with {} for its id.
NAMED = {
    ("check", "only"): "check animals --offline --only {}",
    ("settle", "take"): "settle animals --offline --write --take {}=Tliltocatl_vagans",
    ("settle", "correct"): "settle animals --offline --write --correct {}=Tliltocatl_vagans",
    ("settle", "undo_print"): "settle animals --offline --write --undo-print {}",
    ("settle", "keep"): "settle animals --offline --write --keep {}",
    ("settle", "later"): "settle animals --offline --write --later {}",
    ("settle", "undo"): "settle animals --offline --write --undo {}",
    ("history", "specimens"): "history animals {}",
    ("labels", "only"): "labels animals -o labels.pdf --no-record --only {}",
    ("collection add", "origin"): "collection add animals --from {}",
    ("collection left", "identifier"): "collection left animals {} --how sold --write",
    ("collection count", "identifier"): "collection count animals {} 1.1.0 --write",
    ("collection set", "identifier"): "collection set animals {} place=shelf --write",
    ("collection join", "identifier"): "collection join animals {} INV-0003 --write",
    ("collection join", "others"): "collection join animals INV-0003 {} --write",
}
#: A new animal's own id is none to be found.
NEW = {("collection add", "identifier")}
METAVARS = {"ID", "ID=NAME", "OTHER"}


def of_two(words: str) -> str:
    return "INV-0002" if "join" in words else "INV-0001"


def outcome(words: str, identifier: str, place: Path, home: Path) -> tuple[Outcome, dict[str, str]]:
    """What a command says and what the files of the animals hold then; a fresh collection each time."""
    folder = place / "animals" / "specimens"
    folder.mkdir(parents=True)
    for stem, text in FILES.items():
        (folder / f"{stem}.yaml").write_text(text + (DECIDED if "--undo" in words and stem == "INV-0001" else ""))
    command = [word.replace("_", " ") for word in words.format(identifier).split()]
    said = run_here(command, place, {"NAMEKEEPER_HOME": str(home), **NOWHERE}, io.StringIO())
    return said, {path.name: path.read_text() for path in sorted(folder.iterdir())}


def test_every_place_for_an_id_is_tried_here() -> None:
    places = {
        (" ".join(begin), action.dest)
        for begin, parser in parsers()
        for action in parser._actions
        if action.metavar in METAVARS
    }
    assert places - NEW == set(NAMED)


@pytest.mark.parametrize("words", NAMED.values())
def test_the_case_of_an_id_changes_nothing(words: str, tmp_path: Path, home: Path) -> None:
    identifier = of_two(words)
    as_written = outcome(words, identifier, tmp_path / "one", home)
    typed = outcome(words, identifier.lower(), tmp_path / "two", home)
    assert as_written == typed
    assert as_written[0].code in (0, 1)


@pytest.mark.parametrize("words", [line for line in NAMED.values() if "--from" not in line])
def test_an_unknown_id_is_named_alike(words: str, tmp_path: Path, home: Path) -> None:
    said, _ = outcome(words, "INV-0099", tmp_path, home)
    told = "there is no animal 'INV-0099' (its id is the name of its file in specimens/ without .yaml)"
    assert said == Outcome(2, "", f"namekeeper: {told}\n")


def test_a_seller_is_no_parent(tmp_path: Path, home: Path) -> None:
    said, files = outcome("collection add animals --tag GBB --from {}", "A._Seller", tmp_path, home)
    assert said.code == 0
    assert "from: A. Seller" in files["INV-0004.yaml"]
