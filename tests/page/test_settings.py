"""Settings written from the page: the keeper's remarks and every other byte stay."""

from __future__ import annotations

import hashlib
import re
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from markupsafe import escape

from namekeeper.storage.settings_text import settings_in, with_section, with_setting
from namekeeper.storage.yaml_text import TextFault
from namekeeper.tasks.check import Report
from tests.page.conftest import Visitor

FILES = {
    "": "title: New\nlabels:\n  language: de\nprinter:\n  offset: ['0.4', '-1.2']\n",
    "# only remarks\n": "# only remarks\ntitle: New\nlabels:\n  language: de\nprinter:\n  offset: ['0.4', '-1.2']\n",
    "title: Old # mine\nlabels:\n    copies: 2   # two\nprinter: {offset: [1, 2], scale: [1, 1]}\n": (
        "title: New # mine\nlabels:\n    language: de\n    copies: 2   # two\n"
        "printer: {offset: ['0.4', '-1.2'], scale: [1, 1]}\n"
    ),
    "by: me\r\nlabels:\r\n  language: de\r\nprinter: {offset: ['0.4', '-1.2']}": (
        "by: me\r\nlabels:\r\n  language: de\r\nprinter: {offset: ['0.4', '-1.2']}\r\ntitle: New\r\n"
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
    assert "The settings are saved." in shown
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


SERVICES = {
    "title: A\n": "title: A\nservices:\n  contact: me@example.org\n  ask: [gbif]\n",
    "services: [gbif, itis] # mine\n": "services: {ask: [gbif], contact: me@example.org} # mine\n",
    "services: gbif\nby: me\n": "services: {ask: [gbif], contact: me@example.org}\nby: me\n",
    "services:\nby: me\n": "services: {ask: [gbif], contact: me@example.org}\nby: me\n",
    "services: # mine\n    spidercatalog_key: x1\n": (
        "services: # mine\n    contact: me@example.org\n    ask: [gbif]\n    spidercatalog_key: x1\n"
    ),
}


@pytest.mark.parametrize("before", SERVICES)
def test_services_are_written_beside_what_stands_there(before: str) -> None:
    assert with_section(before, "services", {"ask": ("gbif",), "contact": "me@example.org"}) == SERVICES[before]


def test_a_list_with_a_line_each_is_left_to_the_keeper() -> None:
    with pytest.raises(TextFault, match="a line each"):
        with_section("services:\n  - gbif\n", "services", {"ask": ("itis",)})


def switched(visitor: Visitor, animals: Path, **others: object) -> str:
    """What the page says once services were switched."""
    file = animals / "collection.yaml"
    wanted = {"on": ["gbif"], "contact": "", "revision": hashlib.sha256(file.read_bytes()).hexdigest(), **others}
    answer = visitor.post("/lists/services", wanted)
    return visitor.follow(answer) if answer.status_code == 303 else answer.text


def on(shown: str) -> list[str]:
    return re.findall(r'name="on" value="(\w+)" checked', shown)


def test_services_are_switched_and_asked_accordingly(visitor: Visitor, animals: Path) -> None:
    file = animals / "collection.yaml"
    before = file.read_text()
    assert len(on(visitor.get("/lists").text)) > 3
    shown = switched(visitor, animals, contact="me@example.org")
    assert "Which services are asked is saved." in shown
    assert on(shown) == ["gbif"]
    assert 'value="me@example.org"' in shown
    assert file.read_text() == before + "services:\n  contact: me@example.org\n  ask: [gbif]\n"
    assert "The services are as they were." in switched(visitor, animals, contact="me@example.org")
    visitor.post("/lists/ask")
    job = visitor.keeping.works.find("services")
    assert job is not None
    assert job.wait(60)
    assert isinstance(job.result, Report)
    assert {one.edition.source for one in job.result.failures} == {"gbif"}
    assert "No service is on, so none was asked." in probed(visitor, animals, [])
    assert "0 of 1 services answered" in probed(visitor, animals, ["itis"])


def probed(visitor: Visitor, animals: Path, keys: list[str]) -> str:
    switched(visitor, animals, on=keys)
    visitor.post("/lists/probe")
    job = visitor.keeping.works.find("probe")
    assert job is not None
    assert job.wait(60)
    return visitor.get("/lists").text


@pytest.mark.parametrize(
    "contact", ["me", "a b@c.de", "me@example.org; x", "<b>@x", "(me@example.org)", "x" * 200 + "@y"]
)
def test_what_is_no_address_is_told_and_stays_in_the_form(visitor: Visitor, animals: Path, contact: str) -> None:
    before = (animals / "collection.yaml").read_bytes()
    shown = switched(visitor, animals, on=["itis"], contact=contact)
    assert "is no address" in shown
    assert str(escape(contact)) in shown
    assert on(shown) == ["itis"]
    assert (animals / "collection.yaml").read_bytes() == before


def test_services_seen_in_another_state_of_the_file_are_not_written(visitor: Visitor, animals: Path) -> None:
    assert "edited meanwhile" in switched(visitor, animals, revision="0" * 64)
    assert "there is no service" in switched(visitor, animals, on=["nobody"])


def test_a_service_in_the_file_that_there_is_not_is_told(visitor: Visitor, animals: Path) -> None:
    with (animals / "collection.yaml").open("a") as file:
        file.write("services: [nobody]\n")
    assert "there is no service" in visitor.get("/lists").text
