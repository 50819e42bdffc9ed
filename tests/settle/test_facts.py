"""Facts changed by a command, and what offspring take of their parents."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path

import pytest

from tests.conftest import Outcome

Command = Callable[..., Outcome]

OWN = """\
# mine
tag: 'Mex red rump'   # verbatim
acquired: 2014-05-03
sex: '0.0.1'
place: rack B  # to the left
papers: [{kind: permit, number: "1"}]
names:
- name: Brachypelma vagans
  since: 2014-05-03
  recorded: 2014-05-04
"""


@pytest.fixture
def animals(tmp_path: Path) -> Path:
    folder = tmp_path / "animals" / "specimens"
    folder.mkdir(parents=True)
    (folder / "A1.yaml").write_text(OWN)
    return tmp_path / "animals"


def text(animals: Path, identifier: str = "A1") -> str:
    return (animals / "specimens" / f"{identifier}.yaml").read_text()


@pytest.mark.parametrize(
    ("fact", "old", "new"),
    [
        ("place=shelf 2", "rack B", "shelf 2"),
        ("place=", "rack B", '""'),
        ("sex=0.1.0", "'0.0.1'", '"0.1.0"'),
        ("acquired=2014", "acquired: 2014-05-03", "acquired: 2014"),
        ("stage=adult", "place: ", "stage: adult\nplace: "),
        ("note=a: b", "papers:", 'note: "a: b"\npapers:'),
        ("size=4 cm", "papers:", 'size: "4 cm"\npapers:'),
        ("price=£30", "papers:", 'price: "£30"\npapers:'),
        ("caution=bites", "papers:", "caution: bites\npapers:"),
        ("common=red rump", "place: ", "common: red rump\nplace: "),
        ("locality=Campeche", "place: ", "locality: Campeche\nplace: "),
        ("from=a friend", "place: ", "from: a friend\nplace: "),
        (
            "papers=CITES; DE-1; 2020-05-01; Brachypelma vagans",
            '"1"}]',
            '"1"}, {kind: CITES, number: DE-1, date: 2020-05-01, name: Brachypelma vagans}]',
        ),
    ],
)
def test_one_value_changes_and_every_other_byte_stays(
    command: Command, animals: Path, fact: str, old: str, new: str
) -> None:
    assert command("collection", "set", "animals", "A1", fact).code == 0
    assert text(animals) == OWN, "without --write nothing is written"
    done = command("collection", "set", "animals", "A1", fact, "--write", "--json")
    assert (done.code, json.loads(done.out)["written"]) == (0, True)
    assert text(animals) == OWN.replace(old, new, 1)
    assert command("collection", "verify", "animals").code == 0


def test_several_facts_and_parents_at_once(command: Command, animals: Path) -> None:
    for first, second in (("S1", "S2"), ("S3", "S4")):
        done = command("collection", "set", "animals", "A1", f"from={first}", f"from={second}", "price=5", "--write")
        assert done.code == 0
        assert f"from: [{first}, {second}]\n" in text(animals)


@pytest.mark.parametrize(
    ("facts", "what"),
    [
        (["tag=other"], "'tag' cannot be set"),
        (["names=other"], "use namekeeper settle"),
        (["left=now"], "collection left"),
        (["colour=red"], "one of: place, note"),
        (["place"], "is not FIELD=VALUE"),
        (["place=a", "place=b"], "place was given twice"),
        (["acquired=soon"], "acquired: 'soon' is no date"),
        (["acquired=2999"], "lies in the future"),
        (["sex=many"], "sex: 'many' is no count"),
        (["papers=; 1"], "is no paper"),
        (["papers=CITES; 1; soon"], "papers: 'soon' is no date"),
        (["from=A1"], "names the specimen itself"),
    ],
)
def test_what_cannot_be_set_is_refused(command: Command, animals: Path, facts: list[str], what: str) -> None:
    refused = command("collection", "set", "animals", "A1", *facts, "--write")
    assert (refused.code, what in refused.err) == (2, True), refused.err
    assert text(animals) == OWN


def test_a_change_that_the_verdict_may_rest_on_says_what_comes_of_it(command: Command, animals: Path) -> None:
    # Glaw & al. (2019) told Achrioptera manga from A. fallax; a label without a date of its own counts from acquired.
    undated = OWN.replace("  since: 2014-05-03\n", "").replace("Brachypelma vagans", "Achrioptera fallax")
    (animals / "specimens" / "A1.yaml").write_text(undated)
    same = command("collection", "set", "animals", "A1", "acquired=2015")
    assert "what is known of the name stays: Used for several species" in same.err
    other = command("collection", "set", "animals", "A1", "acquired=2022")
    assert "this changes what is known of the name: Used for several species, then Name in force" in other.err
    told = json.loads(command("collection", "set", "animals", "A1", "acquired=2022", "--json").out)["verdict"]
    assert told == {"before": "misapplied", "after": "current", "changed": True}
    assert json.loads(command("collection", "set", "animals", "A1", "place=x", "--json").out)["verdict"] is None


class TestOffspring:
    def add(self, command: Command, animals: Path, *words: str) -> tuple[str, str]:
        done = command("collection", "add", "animals", *words)
        assert done.code == 0, done.err
        return done.err, text(animals, "INV-0001")

    def write(self, animals: Path, identifier: str, name: str, since: str = "2014") -> None:
        entry = f"names:\n- name: {name}\n  since: {since}\n  recorded: {since}\n" if name else ""
        (animals / "specimens" / f"{identifier}.yaml").write_text(f"tag: of {identifier}\n{entry}")

    def test_one_name_without_a_question_is_taken_and_told(self, command: Command, animals: Path) -> None:
        self.write(animals, "P1", "Brachypelma vagans")
        before = text(animals, "P1")
        said, young = self.add(command, animals, "--from", "P1")
        assert "INV-0001: takes the name of P1: Brachypelma vagans" in said
        assert "name: Brachypelma vagans" in young
        assert text(animals, "P1") == before

    @pytest.mark.parametrize(
        ("first", "second", "why", "tag"),
        [
            (("Aus bus",), ("Aus cus",), "carry different ones", "Aus bus × Aus cus"),
            # Glaw & al. (2019): until then Achrioptera manga was kept as A. fallax (misuse.csv of the starter list).
            (("Achrioptera fallax",), ("Achrioptera fallax",), "is in question", "Achrioptera fallax"),
            (("Achrioptera fallax",), ("Achrioptera fallax", "2022"), "does not mean the same", "Achrioptera fallax"),
            (("",), ("",), "carry different ones", "of P1 × of P2"),
        ],
    )
    def test_nothing_is_inherited_silently(
        self, command: Command, animals: Path, first: tuple[str, ...], second: tuple[str, ...], why: str, tag: str
    ) -> None:
        self.write(animals, "P1", *first)
        self.write(animals, "P2", *second)
        said, young = self.add(command, animals, "--from", "P1", "--from", "P2")
        assert why in said
        assert "names:" not in young
        assert f'tag: "{tag}"\n' in young
        assert "from: [P1, P2]\n" in young
        checked = json.loads(command("check", "animals", "--offline", "--json", "--only", "INV-0001").out)
        assert checked["results"][0]["standing"] == "unnamed"
