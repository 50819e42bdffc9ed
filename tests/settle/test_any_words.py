"""Whatever words a person types, the answer is an exit code of the contract and never a traceback."""

from __future__ import annotations

import io
import shutil
import tempfile
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from namekeeper.faces.cli.context import Context
from namekeeper.faces.cli.main import run
from tests.conftest import NOW

VERBS = st.sampled_from(["history", "settle", "tables"]).map(lambda verb: [verb]) | st.sampled_from(
    ["new", "add", "verify", "left", "count", "join", "import", "export"]
).map(lambda act: ["collection", act])
PLAIN = """
animals nowhere A1 A2 B9 --tag --from --count 3 -1 --id con --json --write --on 2014 --year --known --take A1= --keep
--later --undo --take-safe --offline -o out.csv --as csv dwca,json pdf t.csv --column name=b tag=a --how sold 1.2.3
--accept --dates day-first --sex --note --acquired 9999 0000 --sheet \u202e é 🕷 -- --help
"""
WORDS = st.sampled_from([*PLAIN.split(), "", "A1=Brachypelma smithi", "A1=!!", " "])


@pytest.fixture(scope="module")
def home(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """One index of the starter list for all examples."""
    return tmp_path_factory.mktemp("home")


@settings(max_examples=120)
@given(verb=VERBS, folder=st.sampled_from([["animals"], ["animals"], []]), words=st.lists(WORDS, max_size=6))
def test_any_words_are_answered(home: Path, verb: list[str], folder: list[str], words: list[str]) -> None:
    place = Path(tempfile.mkdtemp(dir=home))
    (place / "animals" / "specimens").mkdir(parents=True)
    (place / "t.csv").write_text("a,b\nx,Brachypelma vagans\n")
    for identifier, text in (("A1", "names: [{name: Brachypelma vagans}]\n"), ("A2", "tag: GBB\nsex: 0.0.3\n")):
        (place / "animals" / "specimens" / f"{identifier}.yaml").write_text(text)
    out, err = io.StringIO(), io.StringIO()
    context = Context(out, err, io.StringIO(), lambda: NOW, {"NAMEKEEPER_HOME": str(home)}, place)
    try:
        code = run([*verb, *folder, *words], context)
    finally:
        shutil.rmtree(place)
    assert code in (0, 1, 2, 3)
    assert code != 2 or err.getvalue() or out.getvalue()
