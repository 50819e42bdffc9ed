"""Settings written from the page: the keeper's remarks and every other byte stay."""

from __future__ import annotations

import hashlib
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from namekeeper.storage.settings_text import settings_in, with_setting
from namekeeper.storage.yaml_text import TextFault
from tests.page.conftest import Visitor

FILES = {
    "": "title: New\nlabels:\n  language: de\nprinter:\n  offset: ['0.4', '-1.2']\n",
    "# only remarks\n": "# only remarks\ntitle: New\nlabels:\n  language: de\nprinter:\n  offset: ['0.4', '-1.2']\n",
    "title: Old # mine\nlabels:\n    copies: 2   # two\nprinter: {offset: [1, 2], scale: [1, 1]}\n": (
        "title: New # mine\nlabels:\n    language: de\n    copies: 2   # two\n"
        "printer: {offset: ['0.4', '-1.2'], scale: [1, 1]}\n"
    ),
    "labels: {language: en}\ntitle: 'Old'": (
        "labels: {language: de}\ntitle: 'New'\nprinter:\n  offset: ['0.4', '-1.2']\n"
    ),
}


def changed(text: str) -> str:
    text = with_setting(text, ("title",), "New")
    text = with_setting(text, ("labels", "language"), "de")
    return with_setting(text, ("printer", "offset"), ("0.4", "-1.2"))


@pytest.mark.parametrize("before", FILES)
def test_only_the_value_changes(before: str) -> None:
    assert changed(before).replace('"', "'") == FILES[before]


@given(
    title=st.text(st.characters(exclude_categories=["Cs", "Cc"], exclude_characters="\u2028\u2029\ufeff"), min_size=1)
)
def test_any_title_is_read_as_it_was_written(title: str) -> None:
    text = "# mine\ntitle: Old # remark\nby: me\n"
    try:
        written = with_setting(text, ("title",), title)
    except TextFault:
        return  # refused, and nothing is written
    assert settings_in(written) == {"title": title, "by": "me"}
    assert written.startswith("# mine\n")
    assert written.endswith("\nby: me\n")


def fields(animals: Path, **others: str) -> dict[str, str]:
    revision = hashlib.sha256((animals / "collection.yaml").read_bytes()).hexdigest()
    return {"title": "Back room", "language": "de", "right": "0,4", "down": "-1.2", "revision": revision, **others}


def test_settings_are_written_and_shown(visitor: Visitor, animals: Path) -> None:
    before = (animals / "collection.yaml").read_text()
    shown = visitor.follow(visitor.post("/lists/settings", fields(animals)))
    assert "The settings are written." in shown
    assert 'name="title" value="Back room"' in shown
    assert 'name="right"' in shown
    after = (animals / "collection.yaml").read_text()
    assert [line for line in before.splitlines() if line.startswith("#")] == [
        line for line in after.splitlines() if line.startswith("#")
    ]
    assert settings_in(after)["printer"] == {"offset": ["0.4", "-1.2"]}
    assert "Back room" in visitor.get("/animals").text


@pytest.mark.parametrize(
    ("others", "told"),
    [
        ({"right": "far"}, "two numbers from -20 to 20"),
        ({"down": "99"}, "two numbers from -20 to 20"),
        ({"language": ""}, "language of the labels is empty"),
        ({"revision": "old"}, "was edited meanwhile"),
    ],
)
def test_what_cannot_be_set_is_told_and_kept_on_the_page(
    others: dict[str, str], told: str, visitor: Visitor, animals: Path
) -> None:
    before = (animals / "collection.yaml").read_bytes()
    answer = visitor.post("/lists/settings", fields(animals, **others))
    assert told in answer.text
    assert 'value="Back room"' in answer.text
    assert (animals / "collection.yaml").read_bytes() == before
