"""A common name in the place of a scientific one, as keepers' tables have it, is told as one with what it may be.

That these are words of keepers is common practice, no source. Tarantula and Mygale were genera once; the starter list
has neither in force.
"""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path

import pytest

from tests.conftest import Outcome

Command = Callable[..., Outcome]


@pytest.fixture
def checked(command: Command, tmp_path: Path) -> Callable[[str], dict[str, object]]:
    """The one result of a check on a label with that name, among sources on this machine."""

    def check(name: str) -> dict[str, object]:
        folder = tmp_path / "animals"
        (folder / "specimens").mkdir(parents=True, exist_ok=True)
        text = f"names:\n  - name: {name}\n    since: 2015\n"
        (folder / "specimens" / "A1.yaml").write_text(text, encoding="utf-8")
        (result,) = json.loads(command("check", str(folder), "--offline", "--json").out)["results"]
        assert isinstance(result, dict)
        return result

    return check


@pytest.mark.parametrize(
    ("name", "among"),
    [
        ("Pinktoe", {"Avicularia avicularia", "Caribena versicolor"}),
        ("Mexican redknee", {"Brachypelma hamorii", "Brachypelma smithi"}),  # read as a genus and an epithet
        ("Chile rose", {"Grammostola rosea"}),  # listed with the word for the group only
        ("Vogelspinne", {"Theraphosidae"}),
        ("Tarantula", {"Theraphosidae", "Lycosa tarantula"}),  # a genus that nobody has in force
        ("Mygale", {"Theraphosidae"}),
    ],
)
def test_what_a_common_name_may_be_is_offered_and_never_taken(
    checked: Callable[[str], dict[str, object]], name: str, among: set[str]
) -> None:
    result = checked(name)
    choices = result["choices"]
    assert isinstance(choices, list)
    assert among <= {one["name"] for one in choices}
    assert result["why"][0].startswith(f"{name} is a common name")  # type: ignore[index]
    assert (result["proposed"], result["safe"]) == (None, False)


@pytest.mark.parametrize(
    "name",
    ["Mantis", "Pinktoe sp.", "Scutigera", "Tliltocatl vagans", "Brachypelma vagans"],
)
def test_a_name_that_leads_to_a_taxon_in_force_or_is_said_to_be_a_genus_is_read_as_that(
    checked: Callable[[str], dict[str, object]], name: str
) -> None:
    assert not [why for why in checked(name)["why"] if "is a common name" in why]  # type: ignore[attr-defined]
