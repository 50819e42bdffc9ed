"""PyYAML built without libyaml reads the same, only slower."""

from __future__ import annotations

import sys
from datetime import date

import pytest

from namekeeper.storage import yaml_text
from namekeeper.storage.specimen_file import SpecimenReader, read_settings
from tests.storage.malformed import GOOD, malformed


@pytest.fixture
def slow(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(sys.modules, "yaml.cyaml", None)
    monkeypatch.setattr(yaml_text, "_compose_with", yaml_text._composer())


def read(text: str) -> object:
    return SpecimenReader(date(2026, 11, 25)).read(text, "A1", "A1.yaml")


@pytest.mark.parametrize("text", GOOD)
def test_good_files_read_the_same(text: str, request: pytest.FixtureRequest) -> None:
    fast = read(text)
    request.getfixturevalue("slow")
    assert "Slow" in yaml_text._compose_with.__name__
    assert read(text) == fast


@pytest.mark.usefixtures("slow")
def test_malformed_files_are_named_with_a_line() -> None:
    for title, content, _ in malformed():
        try:
            text = yaml_text.decode(content)[1]
        except yaml_text.TextFault:
            continue
        specimen, problems = SpecimenReader(date(2026, 11, 25)).read(text, "A1", "A1.yaml")
        assert specimen is None, title
        assert problems[0].place.line, title


@pytest.mark.usefixtures("slow")
def test_nesting_beyond_reason_is_a_fault() -> None:
    with pytest.raises(yaml_text.TextFault):
        yaml_text.compose("[" * 5000)


def test_settings_are_texts_lists_and_mappings() -> None:
    text = "title: T\ntrust_order: [starter, mine]\nservices: {gbif: off}\nprinter: {offset: [0.5, 1]}\n"
    settings, problems = read_settings(text, "collection.yaml")
    assert problems == ()
    assert (settings.title, settings.trust_order, settings.services) == ("T", ("starter", "mine"), ())
    assert settings.raw["services"] == {"gbif": "off"}
    assert settings.raw["printer"] == {"offset": ["0.5", "1"]}
    assert read_settings("# nothing yet\n", "collection.yaml")[0].raw == {}
    assert read_settings("services: [gbif]\n", "collection.yaml")[0].services == ("gbif",)
