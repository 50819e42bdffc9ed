"""No command ever changes a byte of an entry that stands there: random sequences of all that write."""

from __future__ import annotations

import io
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.conftest import NOWHERE, run_here

START = {
    "A1": """\
# kept by hand
tag: 'Mex red rump'
acquired: 2014-05-03
sex: 0.0.3
place: rack B   # left
names:
  -   name: Brachypelma vagans   # as sold
      since:  2014-05-03
      recorded: "2014-05-04"
decisions: [{kind: counted, recorded: 2015, note: "1 -> 3"}]
""",
    "A2": "tag: red thing\r\nacquired: 2005\r\nsex: 0.0.12\r\n",
    "A3": "tag: x\nnames: [{name: Avicularia avicularia, since: 2015, recorded: 2015}]",
}
IDS = st.sampled_from([*START, "INV-0001"])
SPECIES = st.sampled_from(["Tliltocatl vagans", "Brachypelma boehmei", 'Aphonopelma sp. "Panama"', "nonsense"])
LINES = (
    "settle animals --offline --write --take {id}={name}",
    "settle animals --offline --write --correct {id}={name}",
    "settle animals --offline --write --keep {id} --by Somebody",
    "settle animals --offline --write --later {id} --note why",
    "settle animals --offline --write --undo {id}",
    "settle animals --offline --write --undo-print {id}",
    "settle animals --offline --write --take-safe",
    "collection set animals {id} place={name} papers=permit;1 --write",
    "collection set animals {id} sex=0.1 acquired=2013 from=A9 --write",
    "collection count animals {id} 1.1.1 --write",
    "collection left animals {id} --how sold --write",
    "collection join animals {id} {other} --write",
    "collection add animals --from {id}",
    "collection add animals --tag {name} --count 2",
    "collection import animals table.csv --write",
    "collection verify animals --accept --write",
    "labels animals -o labels.pdf --printed --only {id}",
    "check animals --offline",
)
commands = st.builds(
    lambda line, identifier, other, name: [
        word.format(id=identifier, other=other, name=name) for word in line.split(" ")
    ],
    st.sampled_from(LINES), IDS, IDS, SPECIES,
)  # fmt: skip
#: What a command may give another value, one line each.
SET = ("place:", "sex:", "acquired:", "from:", "papers:", "left:")


@pytest.fixture(scope="module")
def shared_home(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return tmp_path_factory.mktemp("home")


def contents(folder: Path) -> dict[str, bytes]:
    return {path.stem: path.read_bytes() for path in folder.iterdir() if path.suffix == ".yaml"}


def standing_bytes(content: bytes) -> list[bytes]:
    """The lines of a file without those of facts, which may be set."""
    return [line for line in content.split(b"\n") if not line.startswith(tuple(key.encode() for key in SET))]


def is_part(before: list[bytes], after: list[bytes]) -> bool:
    """Whether all lines before are among those after, in their order; a list in one line may only have grown."""
    rest = iter(after)
    return all(any(line == one or _grown(line, one) for one in rest) for line in before)


def _grown(line: bytes, now: bytes) -> bool:
    return line.rstrip(b"\r").endswith(b"}]") and now.startswith(line.rstrip(b"\r")[:-1] + b", {")


@given(words=st.lists(commands, min_size=1, max_size=6))
@settings(max_examples=20)
def test_entries_only_grow(words: list[list[str]], shared_home: Path) -> None:
    with TemporaryDirectory() as place:
        folder = Path(place) / "animals" / "specimens"
        folder.mkdir(parents=True)
        for identifier, text in START.items():
            (folder / f"{identifier}.yaml").write_bytes(text.encode())
        (Path(place) / "table.csv").write_text("tag,name,note\nGBB,,from a table\n,Aus bus,named\n")
        environ = {"NAMEKEEPER_HOME": str(shared_home), **NOWHERE}
        for line in words:
            before = contents(folder)
            done = run_here(line, Path(place), environ, io.StringIO())
            assert done.code in (0, 1, 2), done.err
            after = contents(folder)
            assert before.keys() <= after.keys()
            for identifier, content in before.items():
                assert is_part(standing_bytes(content), standing_bytes(after[identifier])), (line, identifier)
